"""Prints pyproject's dependencies, those of the tests too, each at the lowest version it allows."""

import re
import tomllib
from pathlib import Path

project = tomllib.loads((Path(__file__).parents[1] / "pyproject.toml").read_text())["project"]
for each in (*project["dependencies"], *project["optional-dependencies"]["test"]):
    print(re.sub(r">=", "==", each))
