"""Marking: a right answer may differ from the key, and every slip is told in a teacher's words."""

import json
from itertools import permutations
from pathlib import Path

import pytest

from bookmaker.cli.exits import run
from tests.cli.little_book import write_book

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "little-book")


def told(capsys: Capture, *arguments: str, code: int = 0) -> str:
    assert run(["mark", *arguments]) == code
    found = capsys.readouterr()
    return found.out if code == 0 else found.err


def test_a_star_is_right_with_the_least_or_the_greatest_in_its_middle_alone(
    book: Path, capsys: Capture
) -> None:
    """Common practice, no source: a star is solved by its middle number alone."""
    for numbers in permutations((1, 3, 5, 7)):
        spots = ("heart", "head", "wing", "back")
        answer = [f"{spot}={number}" for spot, number in zip(spots, numbers, strict=True)]
        found = json.loads(told(capsys, str(book), "star", *answer, "--json"))
        assert found["right"] == (numbers[0] in (1, 7))
        assert found["page"] == "star"


def test_clashes_are_named_link_by_link_and_a_swap_that_is_named_mends_them(
    book: Path, capsys: Capture
) -> None:
    answer = ["heart=5", "head=1", "wing=3", "back=7"]
    words = told(capsys, str(book), "Star", *answer)
    assert "heart-wing and heart-back both give 2" in words
    found = json.loads(told(capsys, str(book), "Star", *answer, "--json"))
    assert found["clashes"] == [{"difference": "2", "links": ["heart-wing", "heart-back"]}]
    numbers = dict(each.split("=") for each in answer)
    one, other = found["swap"]
    numbers[one], numbers[other] = numbers[other], numbers[one]
    mended = [f"{spot}={number}" for spot, number in numbers.items()]
    assert "Right" in told(capsys, str(book), "Star", *mended)


def test_a_page_that_leaves_its_links_to_us_is_marked_by_those_that_a_build_chooses(
    book: Path, capsys: Capture
) -> None:
    chapter = book.parent / "two.toml"
    text = chapter.read_text("utf-8")
    start, end = text.index("links"), text.index("[page.spots]")
    chapter.write_text(text[:start] + 'links = "auto"\n' + text[end:], "utf-8")
    run(["check", str(book), "--json"])
    star = json.loads(capsys.readouterr().out)["pages"][-1]
    answer = [f"{spot}={number}" for spot, number in star["solution"].items()]
    assert "Right" in told(capsys, str(book), "star", *answer)
    (book.parent / "newt.svg").write_text("no picture", "utf-8")
    assert "newt.svg" in told(capsys, str(book), "star", *answer, code=1)


def test_numbers_below_nought_are_marked_as_any(book: Path, capsys: Capture) -> None:
    chapter = book.parent / "two.toml"
    numbers = 'numbers = { list = [-3, "-1/2", 0, 2] }\n[page.spots]'
    chapter.write_text(chapter.read_text("utf-8").replace("[page.spots]", numbers), "utf-8")
    answer = ["heart=-1/2", "head=-3", "wing=2", "back=0"]
    found = json.loads(told(capsys, str(book), "star", *answer, "--json"))
    assert found["clashes"] == [{"difference": "5/2", "links": ["heart-head", "heart-wing"]}]
    assert not found["right"]


def test_spots_go_by_their_letters_too(book: Path, capsys: Capture) -> None:
    assert "Right" in told(capsys, str(book), "path", "A=3", "b=5", "C=1")


def test_what_is_not_yet_right_comes_with_the_letters_of_the_keys_picture(
    book: Path, capsys: Capture
) -> None:
    assert "In the key: A foot, B head, C heart." in told(capsys, str(book), "path", "A=1")
    assert "In the key" not in told(capsys, str(book), "path", "A=3", "B=5", "C=1")


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        (["head=1", "heart=5", "foot=5"], "5 stands in foot and heart"),
        (["head=1", "heart=5", "foot=5"], "Not used: 3"),
        (["head=1", "heart=5"], "foot has no number"),
        (["head=1", "heart=5", "foot=4"], "The number at foot is none of this page's"),
        (["head=1", "heart=5", "foot=3", "head-heart=3"], "head-heart is 4, not 3"),
        (["head=1", "heart=5", "foot=3", "heart-head=4"], "Right"),
    ],
)
def test_every_slip_is_told(answer: list[str], words: str, book: Path, capsys: Capture) -> None:
    assert words in told(capsys, str(book), "Path", *answer)


def test_a_number_that_stands_twice_is_mended_with_the_fewest_changes(
    book: Path, capsys: Capture
) -> None:
    answer = ["head=1", "heart=5", "foot=5"]
    assert "1 number has to change, no fewer will do: write 3 at foot." in told(
        capsys, str(book), "path", *answer
    )
    found = json.loads(told(capsys, str(book), "path", *answer, "--json"))
    assert found["mend"] == {"foot": "3"} and found["mend_is_fewest"]
    assert found["swap"] is None


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        (["haed=1"], "The nearest is 'head'"),
        (["head=seven"], "in digits"),
        (["head"], "nose=5"),
        (["head=1", "B=3"], "answered twice"),
        ([], "foot=1"),
    ],
)
def test_what_is_no_answer_ends_with_two(
    answer: list[str], words: str, book: Path, capsys: Capture
) -> None:
    assert words in told(capsys, str(book), "Path", *answer, code=2)


@pytest.mark.parametrize(
    ("separator", "encoding"),
    [(",", "utf-8"), (";", "utf-8-sig"), ("\t", "utf-16"), (";", "cp1252")],
)
def test_a_class_is_marked_from_a_spreadsheets_table(
    separator: str, encoding: str, book: Path, tmp_path: Path, capsys: Capture
) -> None:
    rows = ["Pupil,head,Heart,foot", "Zoë,1,5,3", "Ben,1,3,5"]
    table = tmp_path / "answers.csv"
    table.write_text("\r\n".join(rows).replace(",", separator), encoding)
    words = told(capsys, str(book), "path", "--pupils", str(table))
    assert [line.split()[0] for line in words.splitlines()] == ["pupil", "Zoë", "Ben"]
    assert words.splitlines()[1] == "Zoë    right    All differences are different."
    assert "both give 2" in words.splitlines()[2]


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ("pupil,head,heart\nZoë,1,5\n", "answers.csv:1: Path: the column for foot is missing"),
        (
            "pupil,head,heart,foot\nZoë,1,five,3\n",
            "answers.csv:2: Zoë: heart is answered by 'five'",
        ),
        ("head,heart,foot\n1,5,3\n", "pupil"),
        ("", "answers.csv"),
    ],
)
def test_a_table_that_can_not_be_marked_ends_with_one(
    rows: str, words: str, book: Path, tmp_path: Path, capsys: Capture
) -> None:
    table = tmp_path / "answers.csv"
    table.write_text(rows, "utf-8")
    assert words in told(capsys, str(book), "path", "--pupils", str(table), code=1)


def test_spots_go_by_their_names_as_the_key_prints_them(book: Path, capsys: Capture) -> None:
    chapter = book.parent / "two.toml"
    text = chapter.read_text("utf-8").replace("wing", "left_wing").replace("heart", "Müde")
    text = text.replace("Müde = [", '"Müde" = [')
    chapter.write_text(text, "utf-8")
    answer = ["mu\u0308de=1", "left wing=3", "HEAD=5", "back=7"]
    assert "Right" in told(capsys, str(book), "Star", *answer)
    answer = ["Müde=1", "Left Wing=3", "head=5", "back=7", "left wing \u2013 müde=2"]
    assert "Right" in told(capsys, str(book), "Star", *answer)


def test_a_row_that_can_not_be_read_stops_no_other(
    book: Path, tmp_path: Path, capsys: Capture
) -> None:
    table = tmp_path / "answers.csv"
    rows = ("Ada,1,3,5,7", "Bo,1,x,5,7", "Cy,7,1,3,5", "Di,1,3,5,1/0")
    table.write_text("pupil,heart,head,wing,back\n" + "\n".join(rows) + "\n", "utf-8")
    assert run(["mark", str(book), "Star", "--pupils", str(table)]) == 1
    found = capsys.readouterr()
    assert "Ada" in found.out and "Cy" in found.out
    assert "Bo" not in found.out and "Di" not in found.out
    assert "answers.csv:3: Bo: " in found.err and "answers.csv:5: Di: " in found.err
    assert "2 rows were left out." in found.err
    assert run(["mark", str(book), "Star", "--pupils", str(table), "--json"]) == 1
    assert [row["pupil"] for row in json.loads(capsys.readouterr().out)] == ["Ada", "Cy"]
