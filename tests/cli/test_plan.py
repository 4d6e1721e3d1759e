"""The term plan, and how a book's numbers lie to its grade."""

import csv
import io
import json
from pathlib import Path

import pytest

from bookmaker.cli.exits import run
from tests.cli.little_book import write_book

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "little-book")


def add(book: Path, line: str) -> None:
    book.write_text(book.read_text("utf-8") + line + "\n", "utf-8")


def test_the_plan_is_a_table_with_a_ramp_and_the_practice(book: Path, capsys: Capture) -> None:
    assert run(["plan", str(book)]) == 0
    told = capsys.readouterr().out
    assert [line.split()[1] for line in told.splitlines()[1:4]] == ["Path", "Fork", "Star"]
    assert "10 subtractions" in told  # one for each link: 2 + 5 + 3
    assert "2.OA.B.2" in told
    assert "below grade 3" in told


def test_the_plan_can_be_had_as_a_table_for_a_spreadsheet(book: Path, capsys: Capture) -> None:
    """RFC 4180, read back by the standard library's csv."""
    assert run(["plan", str(book), "--csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert [row["page"] for row in rows] == ["Path", "Fork", "Star"]
    assert [int(row["spots"]) for row in rows] == [3, 6, 4]


@pytest.mark.parametrize(
    ("numbers", "warned"),
    [
        ("{ start = 1, step = 2 }", False),
        ("{ start = 8, step = 7 }", False),
        ('{ start = "0.3", step = "0.4" }', True),
        ("{ start = 2000, step = 700 }", True),
    ],
)
def test_numbers_beyond_the_grade_are_warned_of(
    numbers: str, warned: bool, book: Path, capsys: Capture
) -> None:
    """Grade 3: within 1000 (Common Core 3.NBT.A.2); decimals come in grade 5 (5.NBT.B.7)."""
    add(book, f"numbers = {numbers}")
    assert run(["check", str(book), "--json"]) == 0
    codes = {problem["code"] for problem in json.loads(capsys.readouterr().out)["problems"]}
    assert ("above-grade" in codes) == warned
