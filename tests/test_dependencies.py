"""What pyproject asks for is what the code imports: nothing is missing, and nothing unused."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

OURS = {"bookmaker", "art", "tests", "measure"}
RUN = {"ruff", "mypy", "pytest-xdist", "pytest", "setuptools"}
"""Called by name, not imported."""
NAMED_IN_TEXT = {"fontpkg-fira-sans", "fontpkg-rowdies"}


@pytest.fixture(scope="module")
def asked(project: Path) -> dict[str, set[str]]:
    """The distributions that users and tests ask for."""
    told = tomllib.loads((project / "pyproject.toml").read_text("utf-8"))["project"]
    extras = told["optional-dependencies"]
    return {"users": _names(told["dependencies"]), "tests": _names(extras["test"])}


def _names(requirements: list[str]) -> set[str]:
    return {_plain(re.split(r"[<>=!~\[; ]", each)[0]) for each in requirements}


def _plain(name: str) -> str:
    """A distribution's name as the index compares it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def imported(folder: Path) -> set[str]:
    """The distributions whose modules are imported in a folder."""
    owners = packages_distributions()
    modules = {each for file in folder.rglob("*.py") for each in _modules(file)}
    others = modules - OURS - set(sys.stdlib_module_names)
    return {_plain(name) for module in others for name in owners.get(module, [module])}


def _modules(file: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (each.name.partition(".")[0] for each in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module.partition(".")[0]


def test_users_get_what_the_package_imports_and_no_more(
    project: Path, asked: dict[str, set[str]]
) -> None:
    assert imported(project / "bookmaker") - asked["users"] == set()
    assert asked["users"] - imported(project / "bookmaker") - NAMED_IN_TEXT == set()


def test_the_tests_get_what_they_import_and_no_more(
    project: Path, asked: dict[str, set[str]]
) -> None:
    used = imported(project / "tests") | imported(project / "art")
    assert used - asked["users"] - asked["tests"] == set()
    assert asked["tests"] - used - RUN == set()
