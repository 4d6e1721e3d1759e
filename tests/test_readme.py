"""The README holds: its lines are those of CI, its commands, keys and codes the program's."""

import ast
import re
from pathlib import Path

import pytest
import typer.main

import bookmaker
from bookmaker.cli.app import app
from bookmaker.reading.book import book_keys
from bookmaker.reading.chapters import KEYS as CHAPTER_KEYS
from bookmaker.reading.pages import KEYS as PAGE_KEYS

INTERFACE_CODES = {
    *("loop", "disconnected", "unknown-spot", "self-link", "repeated-link", "too-few-spots"),
    *("too-many-spots", "unsolvable", "spot-off-art", "spots-too-close", "no-clean-layout"),
    *("art-missing", "art-unreadable", "unknown-key", "missing-key", "bad-value", "bad-toml"),
    *("bad-encoding", "repeated-name", "art-too-coarse", "leap", "twins", "above-grade"),
}


@pytest.fixture(scope="module")
def readme(project: Path) -> str:
    return (project / "README.md").read_text("utf-8")


def section(text: str, title: str) -> str:
    return text.split(f"## {title}\n", 1)[1].split("\n## ", 1)[0]


def first_cells(text: str) -> set[str]:
    """The words in code type of the first cells of the tables in ``text``."""
    cells = re.findall(r"^\| (`[^|]*`) \|", text, re.MULTILINE)
    return {word for cell in cells for word in re.findall(r"`([^`]+)`", cell)}


def test_ci_runs_the_readmes_own_test_line(project: Path, readme: str) -> None:
    (line,) = re.findall(r"^    (.*python -m tests)$", readme, re.MULTILINE)
    assert f"{line} || exit 1" in (project / ".ci" / "run").read_text("utf-8").splitlines()


def test_the_wheel_bears_the_name_that_the_readme_tells(readme: str) -> None:
    assert f"bookmaker-{bookmaker.__version__}-py3-none-any.whl" in readme


def test_every_command_stands_in_the_readme_and_no_other(readme: str) -> None:
    told = {cell.split()[1] for cell in first_cells(section(readme, "Commands"))}
    assert told == set(typer.main.get_command(app).commands)  # type: ignore[attr-defined]


def test_every_key_of_a_manifest_stands_in_the_readme(readme: str) -> None:
    told = first_cells(section(readme, "Manifests"))
    known = {*book_keys(), *CHAPTER_KEYS, *PAGE_KEYS}
    headings = {"term": "[term]", "page": "[[page]]", "spots": "[page.spots]"}
    assert {headings.get(key, key) for key in known} <= told


def test_every_code_of_a_problem_stands_in_the_readme(project: Path, readme: str) -> None:
    told = first_cells(section(readme, "What each problem means"))
    assert told >= INTERFACE_CODES
    assert told >= _codes_in(project / "bookmaker")


def _codes_in(package: Path) -> set[str]:
    """Code words that stand where a Problem or a fault is made: its argument of that name."""
    found = set()
    for file in package.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                words = [a.value for a in node.args if isinstance(a, ast.Constant)]
                name = getattr(node.func, "id", getattr(node.func, "attr", ""))
                if name in ("Problem", "problem", "PictureFault", "_warning", "Slip", "Unfit"):
                    found |= {w for w in words if isinstance(w, str) and _is_code(w)}
    return found


def _is_code(word: str) -> bool:
    return bool(re.fullmatch(r"[a-z]+(-[a-z]+)+", word))


def test_every_file_of_the_package_is_shorter_than_four_hundred_lines(project: Path) -> None:
    for folder in ("bookmaker", "tests", "art"):
        for file in (project / folder).rglob("*.py"):
            assert len(file.read_text("utf-8").splitlines()) < 400, file
