"""The stages keep to themselves, as DEVELOPERS.md says of them."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROW = re.compile(r"^\| `(\w+)` \| .*? \| ([^|]+) \|$", re.MULTILINE)


def never(project: Path) -> dict[str, set[str]]:
    """The table of stages: what each of them never imports."""
    text = (project / "DEVELOPERS.md").read_text("utf-8")
    section = text.split("\n## The stages\n", 1)[1].split("\n## ", 1)[0]
    rows = dict(ROW.findall(section))
    known = set(rows)
    return {
        stage: known - {stage, "model"} if "stage" in said else known & set(said.split(", "))
        for stage, said in rows.items()
    }


def imported(folder: Path) -> set[str]:
    """The parts of the package that the modules of ``folder`` import."""
    found = set()
    for file in folder.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("bookmaker."):
                found.add((node.module or "").split(".")[1])
    return found - {folder.name}


def test_every_stage_stands_in_the_table(project: Path) -> None:
    told = never(project)
    assert {"model", "reading", "puzzle", "layout", "press", "cli"} <= set(told)
    assert all((project / "bookmaker" / stage).is_dir() for stage in told)


@pytest.mark.parametrize(
    "stage",
    [
        *("model", "reading", "pictures", "puzzle", "ordering"),
        *("binding", "layout", "drawing", "press", "edition"),
    ],
)
def test_a_stage_imports_none_that_it_never_imports(stage: str, project: Path) -> None:
    assert not imported(project / "bookmaker" / stage) & never(project)[stage]
