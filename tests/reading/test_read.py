"""Books and chapters become frozen data; what they leave out has its default."""

from __future__ import annotations

import os
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from bookmaker.model import Book, Chapter, Link, Number, Page, Problem, Spot, Wish
from bookmaker.reading import Reading, read
from bookmaker.reading.read import file_by_file
from tests.reading.faults import GOOD, write
from tests.reading.faults.base import ART, CHAPTER


def read_good(folder: Path, **changes: str) -> Reading:
    files = {**GOOD, **{f"{name}.toml": text for name, text in changes.items()}}
    return read(write(files, folder))


def sound(reading: Reading) -> Book:
    assert reading.problems == ()
    assert reading.book
    return reading.book


def numbers(*texts: str) -> tuple[Number, ...]:
    return tuple(Number(Fraction(text), text) for text in texts)


def test_a_book_is_read_as_it_is_written(tmp_path: Path) -> None:
    folder = tmp_path / "river-term"
    chapter = str(folder / "01.toml")
    newt = Page(
        id="newt",
        name="Newt",
        chapter="01",
        file=chapter,
        line=3,
        art=folder / "newt.svg",
        artist="The class",
        licence="CC0-1.0",
        spots=(
            Spot("nose", 12.0, 40.0),
            Spot("back", 45.0, 35.5),
            Spot("tail", 88.0, 52.0),
            Spot("paw", 40.0, 80.0),
        ),
        links=(Link("nose", "back"), Link("back", "tail"), Link("back", "paw")),
        numbers=numbers("1", "3", "5", "7"),
        position=1,
    )
    book = sound(read_good(folder))
    assert replace(book.pages[0], lines=()) == newt
    assert replace(book, chapters=(), lines=()) == Book(
        name="river-term",
        title="A river book",
        file=str(folder / "book.toml"),
        grade="3",
        paper="a4",
        order="ramp",
        language="en",
        weeks=12,
        climb_to="steep",
        chapters=(),
    )
    assert replace(book.chapters[0], pages=(), lines=()) == Chapter(
        "01", "The spring", "", chapter, False, ()
    )


def test_a_page_knows_the_lines_of_its_keys(tmp_path: Path) -> None:
    newt, heron = sound(read_good(tmp_path)).pages
    assert dict(newt.lines) == {
        "name": 4,
        "art": 5,
        "artist": 6,
        "licence": 7,
        "links": 8,
        "links.nose-back": 9,
        "links.back-tail": 10,
        "links.back-paw": 11,
        "position": 13,
        "spots": 15,
        "spots.nose": 16,
        "spots.back": 17,
        "spots.tail": 18,
        "spots.paw": 19,
    }
    assert (heron.line, heron.line_of("spots.leg"), heron.line_of("given", "links")) == (21, 28, 24)


def test_a_book_and_a_chapter_know_the_lines_of_their_keys(tmp_path: Path) -> None:
    book = sound(read_good(tmp_path))
    assert dict(book.lines)["language"] == 6
    assert dict(book.chapters[0].lines) == {"title": 1, "page": 3}


def test_what_a_book_leaves_out_has_its_default(tmp_path: Path) -> None:
    short = 'title = "A river book"\nchapters = ["01.toml"]\n'
    full = sound(read_good(tmp_path / "full"))
    book = sound(read_good(tmp_path / "short", book=short))
    for key in ("grade", "paper", "order", "language", "weeks", "climb_to"):
        assert getattr(book, key) == getattr(full, key)
    assert [page.numbers for page in book.pages] == [page.numbers for page in full.pages]
    assert (book.school, book.author, book.cover) == ("", "", None)


EVERY_KEY = {
    "book": """\
title = "Un río"
grade = "K"
numbers = { start = "1/2", step = "1/4" }
paper = "half-letter"
order = "as-written"
language = "es"
school = "Class 3b"
author = "Ms Reed"
cover = "newt.svg"
climb_to = "sheer"
chapters = ["01.toml"]
term.weeks = 6
""",
    "01": """\
title = "The spring"
introduction = \"\"\"
Two
lines.\"\"\"
optional = true
ornament = "heron.svg"
[[page]]
name = "Newt"
art = "newt.svg"
links = "auto"
band = "sheer"
one_in = 7.5
fixed = true
turn = true
description = "a newt"
fact = " A newt grows a new tail. "
mark = "heron.svg"
numbers.list = [4, "1/3", 0.50, 9]
[page.given]
b = "1/3"
[page.spots]
a = [1, 2]
b = [3, 4]
c = [5, 6]
[[page]]
name = "Heron"
art = "heron.svg"
links = ["b-a"]
spots = { a = [0, 0], b = [100, 100.0] }
""",
}


def test_every_key_that_may_be_left_out_is_read(tmp_path: Path) -> None:
    found = sound(read_good(tmp_path, **EVERY_KEY))
    assert (found.grade, found.paper, found.order) == ("K", "half-letter", "as-written")
    assert (found.language, found.weeks, found.climb_to) == ("es", 6, "sheer")
    assert (found.school, found.author, found.cover) == (
        "Class 3b",
        "Ms Reed",
        tmp_path / "newt.svg",
    )
    first = found.chapters[0]
    assert (first.introduction, first.optional, first.ornament) == (
        "Two\nlines.",
        True,
        tmp_path / "heron.svg",
    )
    newt, heron = found.pages
    assert (newt.links, newt.wish) == ((), Wish("sheer", 7.5))
    assert (newt.fixed, newt.turn, newt.description) == (True, True, "a newt")
    assert newt.fact == "A newt grows a new tail."
    assert [number.text for number in newt.numbers] == ["4", "1/3", "0.50"]
    assert newt.given == (("b", Number(Fraction(1, 3), "1/3")),)
    assert (newt.mark, heron.mark) == (tmp_path / "heron.svg", None)
    assert newt.line_of("given.b") == 20
    assert (heron.wish, heron.given, heron.links) == (None, (), (Link("b", "a"),))
    assert [number.text for number in heron.numbers] == ["1/2", "3/4"]


def test_numbers_of_the_page_go_before_the_chapters_and_those_before_the_books(
    tmp_path: Path,
) -> None:
    def starts(book: str, chapter: str, page: str) -> str:
        folder = tmp_path / "".join(filter(str.isalnum, f"{book}{chapter}{page}x"))
        files = {
            "book": f'title = "A"\nchapters = ["01.toml"]\n{book}',
            "01": chapter + CHAPTER.replace("position = 1", page),
        }
        return sound(read_good(folder, **files)).pages[0].numbers[0].text

    book, chapter, page = (f"numbers = {{ start = {start}, step = 1 }}\n" for start in (2, 3, 4))
    assert starts("", "", "") == "1"
    assert starts(book, "", "") == "2"
    assert starts(book, chapter, "") == "3"
    assert starts(book, chapter, page) == "4"
    assert starts(book, "", page) == "4"


def test_a_list_gives_a_page_its_first_numbers(tmp_path: Path) -> None:
    book = 'title = "A"\nchapters = ["01.toml"]\nnumbers = { list = [2, 3, 5, 7, 11] }\n'
    newt, heron = sound(read_good(tmp_path, book=book)).pages
    assert (newt.numbers, heron.numbers) == (numbers("2", "3", "5", "7"), numbers("2", "3", "5"))


def test_a_given_number_is_written_as_the_pages_numbers_are(tmp_path: Path) -> None:
    page = 'numbers = { list = ["1/2", 2, 3, 4] }\ngiven = { paw = 0.5 }'
    newt, _ = sound(read_good(tmp_path, **{"01": CHAPTER.replace("position = 1", page)})).pages
    assert newt.given == (("paw", Number(Fraction(1, 2), "1/2")),)


def test_a_chapter_alone_is_a_book_with_defaults(tmp_path: Path) -> None:
    write(GOOD, tmp_path)
    book = sound(read(tmp_path / "01.toml"))
    assert (book.name, book.title, book.file) == ("01", "The spring", str(tmp_path / "01.toml"))
    assert (book.grade, book.paper, book.order, book.weeks) == ("3", "a4", "ramp", 12)
    assert [page.name for page in book.pages] == ["Newt", "Heron"]


def test_a_book_has_the_name_of_its_folder_however_it_is_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "chapters" / "river-term"
    write(GOOD, folder)
    for where, typed in [
        (folder, "book.toml"),
        (folder, "./book.toml"),
        (folder, "../river-term/book.toml"),
        (tmp_path, "chapters/river-term/book.toml"),
        (tmp_path, "chapters/../chapters/river-term/book.toml"),
        (tmp_path, str(folder / "book.toml")),
    ]:
        monkeypatch.chdir(where)
        book = sound(read(Path(typed)))
        assert book.name == "river-term"
        assert book.file == str(Path(typed))
        assert book.pages[0].file == str(Path(typed).with_name("01.toml"))
        assert book.pages[0].art and book.pages[0].art.is_file()


def test_a_problem_names_its_file_as_the_user_would_type_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chapter = CHAPTER.replace('    "back-paw",\n', '    "back-paw",\n    "paw-nose",\n')
    write({**GOOD, "01.toml": chapter}, tmp_path / "chapters" / "river-term")
    monkeypatch.chdir(tmp_path)
    (problem,) = read(Path("chapters/river-term/book.toml")).problems
    assert str(problem) == (
        "chapters/river-term/01.toml:12: Newt: the links form a loop: "
        "nose - back - paw - nose. Take one of these links out."
    )


def test_paths_may_lead_elsewhere_or_be_absolute(tmp_path: Path) -> None:
    art = tmp_path / "art"
    chapters = tmp_path / "chapters" / "term"
    write({"heron.svg": ART, "newt.svg": ART}, art)
    chapter = CHAPTER.replace("newt.svg", "../../art/newt.svg").replace(
        "heron.svg", str(art / "heron.svg")
    )
    write(
        {"book.toml": 'title = "A"\nchapters = ["../one.toml"]\n'},
        chapters,
    )
    write({"one.toml": chapter.replace("../../", "../")}, tmp_path / "chapters")
    book = sound(read(chapters / "book.toml"))
    assert book.chapters[0].file == str(chapters / "../one.toml")
    assert [page.art and page.art.resolve() for page in book.pages] == [
        art / "newt.svg",
        art / "heron.svg",
    ]


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_byte_order_marks_and_line_ends_are_no_faults(
    mark: bytes, line_end: str, tmp_path: Path
) -> None:
    files = {name: mark + str(text).replace("\n", line_end).encode() for name, text in GOOD.items()}
    book = sound(read(write(files, tmp_path)))
    assert book.pages[1].line_of("spots.leg") == 28


def test_papers_and_languages_are_those_handed_in(tmp_path: Path) -> None:
    manifest = write(GOOD, tmp_path)
    told = read(manifest, papers=("quarto",), languages=("la",)).problems
    assert [(each.line, each.code) for each in told] == [(4, "bad-value"), (6, "bad-value")]
    assert "quarto" in told[0].mend and "la" in told[1].mend


def test_a_file_that_is_not_there_is_a_problem_of_the_file(tmp_path: Path) -> None:
    for path in (tmp_path / "none.toml", tmp_path):
        reading = read(path)
        assert reading.book is None
        assert [(each.file, each.line, each.code) for each in reading.problems] == [
            (str(path), 0, "file-missing")
        ]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs a named pipe")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    assert [each.code for each in read(tmp_path / "pipe.toml").problems] == ["file-missing"]


def test_a_book_of_which_nothing_can_be_made_is_none(tmp_path: Path) -> None:
    assert read_good(tmp_path, book="title = 1\nchapters = 2\n").book is None


def test_a_book_with_faulty_keys_keeps_its_good_pages(tmp_path: Path) -> None:
    faulty = str(GOOD["book.toml"]).replace('"A river book"', "7").replace("12", "-1")
    reading = read_good(tmp_path, book=faulty)
    assert reading.book and (reading.book.title, reading.book.weeks) == ("The spring", 12)
    assert [page.id for page in reading.book.pages] == ["newt", "heron"]


def test_a_list_too_short_for_several_pages_is_one_problem(tmp_path: Path) -> None:
    book = 'title = "A"\nnumbers.list = [1, 2]\nchapters = ["01.toml"]\n'
    reading = read_good(tmp_path, book=book)
    assert [str(each).partition("book.toml")[2] for each in reading.problems] == [
        ":2: the list has 2 numbers, but Newt has 4 spots. "
        "Add 2 to the list, or give the page numbers of its own."
    ]
    assert reading.book and reading.book.pages == ()


def test_the_same_name_in_two_chapters_is_told_with_both_places(tmp_path: Path) -> None:
    book = 'title = "A"\nchapters = ["01.toml", "02.toml"]\n'
    second = CHAPTER.replace('"Heron"', '"Crane"')
    reading = read_good(tmp_path, book=book, **{"02": second})
    (problem,) = reading.problems
    assert (Path(problem.file).name, problem.line, problem.code) == ("02.toml", 4, "repeated-name")
    assert str(tmp_path / "01.toml:4") in problem.message
    assert reading.book
    assert [page.id for page in reading.book.pages] == ["newt", "heron", "crane"]


def test_two_names_that_a_file_system_may_take_for_one_are_told(tmp_path: Path) -> None:
    """Those that fold cases in full (Unicode, 3.13) take ß for ss."""
    chapter = CHAPTER.replace('"Newt"', '"Straße"').replace('"Heron"', '"Strasse"')
    (problem,) = read_good(tmp_path, **{"01": chapter}).problems
    assert (problem.line, problem.code) == (22, "repeated-name")


@pytest.mark.parametrize(("one", "other"), [("01", "01"), ("pond", "Pond")])
def test_two_chapters_with_one_file_name_are_told(one: str, other: str, tmp_path: Path) -> None:
    """Whatever their capitals: a file named after each may be one and the same."""
    book = f'title = "A"\nchapters = ["{one}.toml", "more/{other}.toml"]\n'
    chapters = {f"{one}.toml": GOOD["01.toml"], f"more/{other}.toml": "title = 'x'"}
    (problem,) = read(write({**GOOD, **chapters, "book.toml": book}, tmp_path)).problems
    assert (problem.line, problem.code) == (2, "repeated-name")


def test_a_spot_may_bear_the_name_of_a_key(tmp_path: Path) -> None:
    chapter = CHAPTER.replace("leg", "art")
    assert sound(read_good(tmp_path, **{"01": chapter})).pages[1].spot_names[-1] == "art"


def test_problems_stand_by_file_and_line_each_once() -> None:
    def told(lines: Iterable[int], file: str = "a", code: str = "loop") -> list[Problem]:
        return [Problem(file, line, "", code, "m", "M.") for line in lines]

    many = told(range(60, 5, -1)) + told([3], "b") + told([1], code="self-link")
    assert [(each.file, each.line) for each in file_by_file(many)] == [
        ("a", 1),
        *(("a", line) for line in range(6, 61)),
        ("b", 3),
    ]
    assert file_by_file(told([1, 1])) == tuple(told([1]))


def test_a_file_that_is_missing_is_never_thought_to_be_the_one_that_names_it(
    tmp_path: Path,
) -> None:
    (tmp_path / "book.toml").write_text('title = "x"\nchapters = ["brook.toml"]\n', "utf-8")
    told = read(tmp_path / "book.toml").problems
    assert [(each.code, "Did you mean" in each.mend) for each in told] == [
        ("chapter-missing", False)
    ]
    (tmp_path / "brooks.toml").write_text('title = "x"\n', "utf-8")
    assert "Did you mean brooks.toml" in read(tmp_path / "book.toml").problems[0].mend
