"""Stages import what DEVELOPERS.md says, and nothing else."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import networkx as nx
import pytest

PROJECT = Path(__file__).parent.parent

ROW = re.compile(r"^\| `(\w+)` \| .*? \| ([^|]+) \|$", re.MULTILINE)


def allowed(project: Path) -> dict[str, set[str]]:
    """The table of stages: what each of them may import, beside itself."""
    text = (project / "DEVELOPERS.md").read_text("utf-8")
    section = text.split("\n## The stages\n", 1)[1].split("\n## ", 1)[0]
    return {stage: set(said.split(", ")) - {"-"} for stage, said in ROW.findall(section)}


def imported(folder: Path) -> set[str]:
    """The parts of the package that the modules of ``folder`` import, in whatever form."""
    found = set()
    for file in folder.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.ImportFrom):
                module = node.module or ""
                names = [f"{module}.{name.name}" for name in node.names]
                assert not node.level, f"{file} imports by a relative name"
            elif isinstance(node, ast.Import):
                names = [name.name for name in node.names]
            else:
                continue
            found |= {name.split(".")[1] for name in names if name.startswith("bookmaker.")}
    return found - {folder.name}


def rooms(project: Path) -> list[str]:
    package = project / "bookmaker"
    return sorted(path.parent.name for path in package.glob("*/__init__.py"))


def test_every_room_but_that_of_words_stands_in_the_table(project: Path) -> None:
    assert set(allowed(project)) == set(rooms(project)) - {"words", "curricula"}


@pytest.mark.parametrize("stage", sorted(allowed(PROJECT)))
def test_a_stage_imports_no_other_than_the_table_lets_it(stage: str) -> None:
    known = allowed(PROJECT)
    assert imported(PROJECT / "bookmaker" / stage) & set(known) <= known[stage]


def test_no_circle_of_rooms_stands_in_the_imports(project: Path) -> None:
    graph = {room: imported(project / "bookmaker" / room) for room in rooms(project)}
    edges = nx.DiGraph((room, other) for room in graph for other in graph[room] if other in graph)
    assert nx.is_directed_acyclic_graph(edges), nx.find_cycle(edges)
