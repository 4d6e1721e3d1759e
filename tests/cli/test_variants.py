"""Inks, large print, booklets and loose sheets: their names, what is said, what is refused."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from bookmaker.cli.exits import BAD_COMMAND, BAD_INPUT, DONE, run

A4, A3 = (210, 297), (297, 420)
CHAPTER = """title = "A pond"
[[page]]
name = "Newt"
art = "newt.svg"
artist = "the artist"
licence = "CC-BY-4.0"
links = ["nose-back", "back-tail", "back-paw"]
[page.spots]
nose = [15, 20]
back = [50, 50]
tail = [85, 20]
paw = [50, 85]
[[page]]
name = "Heron"
art = "newt.svg"
links = ["beak-neck", "neck-wing"]
[page.spots]
beak = [15, 20]
neck = [50, 50]
wing = [85, 20]
"""
BOOK = 'title = "A small book"\npaper = "a4"\nchapters = ["pond.toml"]\n'
ART = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 120">'
    '<rect width="100" height="120" fill="#204020"/><circle cx="50" cy="60" r="30" fill="#c06030"/>'
    "</svg>"
)


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = tmp_path / "small"
    folder.mkdir()
    (folder / "book.toml").write_text(BOOK)
    (folder / "pond.toml").write_text(CHAPTER)
    (folder / "newt.svg").write_text(ART)
    return folder / "book.toml"


def made(book: Path, *options: str, command: str = "build") -> tuple[int, set[str]]:
    out = book.parent.parent / "out"
    code = run([command, str(book), "--out", str(out), *options])
    found = {file.name for file in out.iterdir()} if out.exists() else set()
    return code, {name for name in found if name.endswith(".pdf")}


def sizes(file: Path) -> set[tuple[float, float]]:
    """Sizes of the pages in millimetres."""
    pages = PdfReader(io.BytesIO(file.read_bytes())).pages
    return {
        (round(float(p.mediabox.width) / 72 * 25.4), round(float(p.mediabox.height) / 72 * 25.4))
        for p in pages
    }


@pytest.mark.parametrize(
    ("options", "name"),
    [
        (("--ink", "light"), "small-light.pdf"),
        (("--ink", "grey", "--no-key"), "small-grey-no-key.pdf"),
        (("--ink", "gray", "--no-key"), "small-grey-no-key.pdf"),
        (("--ink", "Light", "--paper", "LETTER"), "small-letter-light.pdf"),
        (("--ink", "grey", "--ink", "light", "--no-key"), "small-light-grey-no-key.pdf"),
        (("--paper", "a5", "--booklet"), "small-a5-booklet.pdf"),
        (("--booklet",), "small-a4-booklet.pdf"),
        (("--only", "newt", "--large"), "small-newt-large.pdf"),
        (("--week", "1", "--paper", "letter"), "small-week-1-letter.pdf"),
    ],
)
def test_every_variant_has_a_name_of_its_own(
    book: Path, options: tuple[str, ...], name: str
) -> None:
    assert made(book, *options) == (DONE, {name})


def test_a_week_is_for_the_children_and_its_answers_are_a_key_of_their_own(book: Path) -> None:
    """Two files: what is handed out tells no answer."""
    assert made(book, "--week", "1") == (DONE, {"small-week-1.pdf"})
    handed = PdfReader(book.parent.parent / "out" / "small-week-1.pdf")
    told = " ".join(page.extract_text() for page in handed.pages)
    assert "Answers" not in told
    assert "Week 1" in told
    code, names = made(book, "--week", "1", command="key")
    assert (code, names) == (DONE, {"small-week-1.pdf", "small-week-1-key.pdf"})


def test_a_booklet_of_one_page_is_one_sheet(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, names = made(book, "--only", "newt", "--booklet", "--paper", "a5")
    assert (code, names) == (DONE, {"small-newt-a5-booklet.pdf"})
    told = capsys.readouterr()
    assert "1 page on 1 sheet of A4 paper to fold and staple" in told.out
    assert "short edge" in told.err
    assert sizes(book.parent.parent / "out" / "small-newt-a5-booklet.pdf") == {(297, 210)}


def test_all_pages_of_a_large_document_stand_on_one_paper(book: Path) -> None:
    assert made(book, "--large", "--no-key")[0] == DONE
    assert sizes(book.parent.parent / "out" / "small-large-no-key.pdf") in ({A4}, {A3})


@pytest.mark.parametrize(("paper", "roomier"), [("a5", "a4"), ("half-letter", "letter")])
def test_large_print_on_small_paper_goes_to_the_next_larger_and_says_so(
    paper: str, roomier: str, book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, _ = made(book, "--large", "--no-key", "--paper", paper, "--only", "newt")
    assert code == DONE
    found = {
        tuple(sorted(size)) for size in sizes(next(book.parent.parent.glob("out/*large*.pdf")))
    }
    assert found == {{"a4": A4, "letter": (216, 279)}[roomier]}
    assert "large print needs more room" in capsys.readouterr().err


def test_loose_sheets_come_as_a_file_of_their_own(book: Path) -> None:
    assert made(book, command="loose") == (DONE, {"small-loose.pdf"})


@pytest.mark.parametrize(
    ("options", "name", "trials"),
    [
        (("--only", "newt"), "small-newt-loose.pdf", 1),
        (("--chapter", "pond.toml"), "small-pond-loose.pdf", 2),
        (("--week", "1"), "small-week-1-loose.pdf", 1),
    ],
)
def test_loose_sheets_of_a_part_are_of_its_pages_alone(
    book: Path, options: tuple[str, ...], name: str, trials: int
) -> None:
    assert made(book, *options, command="loose") == (DONE, {name})
    pages = list(PdfReader(book.parent.parent / "out" / name).pages)
    assert sum("try it out" in page.extract_text() for page in pages[::2]) == trials


@pytest.mark.parametrize("command", ["build", "key", "loose"])
def test_two_books_in_one_folder_are_warned_of(
    book: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    assert made(book, command=command)[0] == DONE
    assert "folder of its own" not in capsys.readouterr().err
    (book.parent / "other.toml").write_text(BOOK)
    (book.parent / "broken.toml").write_text("chapters = [")
    assert made(book, command=command)[0] == DONE
    told = capsys.readouterr().err
    assert "other.toml in the same folder is a book as well" in told
    assert "small.pdf" in told
    assert "broken.toml" not in told


@pytest.mark.parametrize(
    ("option", "asked", "said"),
    [
        ("--only", "heren", "The nearest is 'heron'."),
        ("--only", "zzz", "bookmaker check lists its pages."),
        ("--chapter", "pnod", "The nearest is 'pond'."),
        ("--chapter", "zzz", "bookmaker check lists its chapters."),
        ("--week", "99", "Its weeks are 1 to 12."),
    ],
)
def test_a_part_that_is_not_there_is_answered_with_what_is(
    book: Path, capsys: pytest.CaptureFixture[str], option: str, asked: str, said: str
) -> None:
    assert made(book, option, asked) == (BAD_COMMAND, set())
    assert said in capsys.readouterr().err


def test_the_summary_tells_sheets_and_ink(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    made(book)
    told = capsys.readouterr().out
    assert "sheets, printed on both sides" in told
    assert "--ink light" in told  # the test's picture is dark
    made(book, "--ink", "light")
    assert "--ink light" not in capsys.readouterr().out


def test_an_unknown_ink_names_the_nearest(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert made(book, "--ink", "lihgt") == (BAD_COMMAND, set())
    assert "'light'" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("command", "options"), [("build", ("--booklet",)), ("loose", ())], ids=["booklet", "loose"]
)
def test_a_board_can_be_neither_folded_nor_cut(
    book: Path, command: str, options: tuple[str, ...]
) -> None:
    assert made(book, *options, "--paper", "board", command=command) == (BAD_COMMAND, set())


@pytest.mark.parametrize(("name", "letter"), [("Newt 🦎", "U+1F98E"), ("水 newt", "U+6C34")])
def test_letters_that_the_type_lacks_are_named(
    book: Path, capsys: pytest.CaptureFixture[str], name: str, letter: str
) -> None:
    chapter = book.parent / "pond.toml"
    chapter.write_text(CHAPTER.replace("Newt", name), encoding="utf-8")
    assert made(book) == (BAD_INPUT, set())
    told = capsys.readouterr().err
    assert letter in told
    assert "pond.toml:3" in told


def test_a_name_of_200_letters_is_printed(book: Path) -> None:
    chapter = book.parent / "pond.toml"
    chapter.write_text(CHAPTER.replace("Newt", "Newt " * 39 + "end"))
    assert made(book)[0] == DONE


def test_a_name_without_end_does_not_stop_a_key_in_large_print_on_small_paper(
    tmp_path: Path,
) -> None:
    endless = CHAPTER.replace('"Heron"', f'"{"W" * 150}"')
    (tmp_path / "pond.toml").write_text(endless, "utf-8")
    (tmp_path / "newt.svg").write_text(ART, "utf-8")
    variant = ["--large", "--paper", "half-letter", "--out", str(tmp_path)]
    assert run(["build", str(tmp_path / "pond.toml"), *variant]) == DONE
