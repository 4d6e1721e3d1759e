"""Drawings on the pages of a book: who may enter, what the pages become."""

from dataclasses import replace
from pathlib import Path

import pytest

from bookmaker.classroom.class_book import ClassBook, Edition, class_book
from bookmaker.classroom.drawn_page import drawn_page
from bookmaker.classroom.register import write_register
from bookmaker.classroom.review import drawing_file
from bookmaker.layout import tree_for_sheet
from bookmaker.model import Book, CertifiedPage, Number, Page, Problem, Pupil, SheetEntry
from bookmaker.ordering import in_order
from bookmaker.scanning.pale import PaleMarks, write_pale
from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.typeset import Sheet
from bookmaker.words import load
from tests.ordering.pages import book as made_book
from tests.ordering.pages import page
from tests.scanning.prints import some_marks

WORDS = load("en")
CLASS = 'title = "Heron"\nbook = "book.toml"\nroster = "roster.csv"\n'
PAGES = [page("newt", 3, spots=3), page("frog", 9, spots=4)]


def entry(sheet: int, pupil: str, of: CertifiedPage | str) -> SheetEntry:
    if isinstance(of, str):
        return SheetEntry(sheet, pupil, of, "a4", "12345678", write_pale(PaleMarks()), 1)
    frame = sheet_plan("a4").frame
    tree = tree_for_sheet(of, (frame.width, frame.height), Sheet("a4", True), WORDS)
    marks = write_pale(PaleMarks(tree.spots, tree.links, tree.tags))
    return SheetEntry(sheet, pupil, of.id, "a4", "12345678", marks, 1)


def written(
    folder: Path, roster: str, entries: list[SheetEntry], drawings: str, said: str = ""
) -> Path:
    (folder / "book.toml").write_text("", "utf-8")
    (folder / "class.toml").write_text(CLASS, "utf-8")
    (folder / "roster.csv").write_text("pupil,drawing,name,creature,credit\n" + roster, "utf-8")
    (folder / "register.csv").write_bytes(write_register(entries))
    (folder / "review.csv").write_text("drawing,use\n" + said, "utf-8")
    (folder / "drawings").mkdir()
    for drawing in drawings.split():
        drawing_file(folder, drawing).write_bytes(b"")
    return folder / "class.toml"


def made(manifest: Path, book: Book | None = None, **more: object) -> ClassBook:
    edition = Edition(manifest, **more)  # type: ignore[arg-type]
    return class_book(book or made_book(PAGES), edition, WORDS)


def titles(found: ClassBook) -> list[str]:
    return [page.name for page in found.book.pages]


def codes(found: ClassBook) -> list[str]:
    return [problem.code for problem in found.problems]


@pytest.mark.parametrize(
    ("permission", "said", "use_all", "enters"),
    [
        ("class", "yes", False, True),
        ("class", "", False, False),
        ("class", "no", False, False),
        ("class", "", True, True),
        ("class", "no", True, False),
        ("own", "yes", True, False),
        ("no", "yes", True, False),
        ("", "yes", True, False),
    ],
)
def test_a_drawing_enters_where_family_and_teacher_say_yes(
    permission: str, said: str, use_all: bool, enters: bool, tmp_path: Path
) -> None:
    roster = f"Bruno,{permission},,Dragon,\n"
    row = entry(1, "Bruno", PAGES[0])
    manifest = written(tmp_path, roster, [row], "1", f"1,{said}\n")
    assert titles(made(manifest, use_all=use_all)) == [("Dragon" if enters else "newt"), "frog"]


def test_two_pupils_with_one_page_give_two_versions(tmp_path: Path) -> None:
    roster = "Bruno,class,,Dragon,\nZoë,class,yes,,Z.\n"
    rows = [entry(1, "Bruno", PAGES[0]), entry(2, "Zoë", PAGES[0])]
    found = made(written(tmp_path, roster, rows, "1 2", "1,yes\n2,yes\n"))
    assert titles(found) == ["Dragon", "Creature 2", "frog"]
    assert [page.id for page in found.book.pages] == ["newt", "newt-2", "frog"]
    assert [page.artist for page in found.book.pages] == ["Artist 1", "Z.", ""]
    assert [page.sheet for page in found.book.pages] == [1, 2, None]


def test_versions_of_a_page_with_a_fixed_place_follow_each_other_and_none_is_lost(
    tmp_path: Path,
) -> None:
    newt, frog = page("newt", 9, spots=3, position=1), page("frog", 3, spots=4)
    last = page("eel", 5, spots=3, position=3)
    roster = "Bruno,class,,Dragon,\nZoë,class,,Egg,\n"
    rows = [entry(1, "Bruno", newt), entry(2, "Zoë", newt)]
    manifest = written(tmp_path, roster, rows, "1 2", "1,yes\n2,yes\n")
    found = made(manifest, made_book([newt, frog, last])).book
    certified = {each.id: CertifiedPage.of(each, frog.certificate) for each in found.pages}
    printed = [each.name for each in in_order(found, certified).pages]
    assert printed == ["Dragon", "Egg", "frog", "eel"]


def test_a_version_s_id_is_no_other_page_s(tmp_path: Path) -> None:
    pages = [PAGES[0], page("newt-2", 5, spots=3)]
    roster = "Bruno,class,,A,\nZoë,class,,B,\n"
    rows = [entry(1, "Bruno", PAGES[0]), entry(2, "Zoë", PAGES[0])]
    manifest = written(tmp_path, roster, rows, "1 2", "1,yes\n2,yes\n")
    found = made(manifest, made_book(pages))
    assert len({page.id for page in found.book.pages}) == 3


def test_the_title_page_is_the_class_s_and_keeps_the_book_s_title(tmp_path: Path) -> None:
    row = entry(1, "Bruno", PAGES[0])
    found = made(written(tmp_path, "Bruno,class,,,\n", [row], "1", "1,yes\n"))
    book = made_book(PAGES)
    assert (found.book.title, found.book.school) == ("Heron", book.title)


@pytest.mark.parametrize(
    ("said", "cover", "told"),
    [
        ("", "usual", []),
        ("cover = 1", "drawing", []),
        ('cover = "1"', "drawing", []),
        ("cover = 2", "usual", ["left-out"]),
        ('cover = "mine.jpg"', "mine", []),
    ],
)
def test_the_cover_is_chosen_and_never_a_drawing_by_chance(
    said: str, cover: str, told: list[str], tmp_path: Path
) -> None:
    row = entry(1, "Bruno", PAGES[0])
    manifest = written(tmp_path, "Bruno,class,,,\nZoë,no,,,\n", [row], "1", "1,yes\n")
    (tmp_path / "mine.jpg").write_bytes(b"")
    manifest.write_text(f"{CLASS}{said}\n", "utf-8")
    files = {"drawing": drawing_file(tmp_path, "1"), "mine": tmp_path / "mine.jpg"}
    usual = next((page.art for page in PAGES if page.art), None)
    found = made(manifest)
    assert (found.book.cover, codes(found)) == (files.get(cover, usual), told)


def test_a_page_keeps_nothing_of_the_picture_that_it_had(tmp_path: Path) -> None:
    row = entry(1, "Bruno", PAGES[0])
    found = made(written(tmp_path, "Bruno,class,no,,Secret\n", [row], "1", "1,yes\n"))
    drawn = found.book.pages[0]
    assert drawn.art == drawing_file(tmp_path, "1")
    assert (drawn.mark, drawn.licence, drawn.artist) == (None, "", "Artist 1")
    assert drawn.fact == ""
    assert "newt" not in drawn.description
    assert "Secret" not in repr(drawn)
    assert (drawn.file, drawn.line) == (str(tmp_path / "roster.csv"), 2)


def test_a_sheet_of_a_page_that_is_gone_is_left_out_and_said(tmp_path: Path) -> None:
    roster = "Bruno,class,,Dragon,\nZoë,class,,Egg,\n"
    rows = [entry(1, "Bruno", PAGES[0]), entry(2, "Zoë", page("eel", 4, spots=3))]
    found = made(written(tmp_path, roster, rows, "1 2", "1,yes\n2,yes\n"))
    assert titles(found) == ["Dragon", "frog"]
    assert codes(found) == ["left-out"]


def test_two_drawings_of_one_sheet_wait_for_one_yes(tmp_path: Path) -> None:
    row = entry(1, "Bruno", PAGES[0])
    manifest = written(tmp_path, "Bruno,class,,Dragon,\n", [row], "1 1_2", "1_2,yes\n")
    assert made(manifest).book.pages[0].art == drawing_file(tmp_path, "1_2")
    (tmp_path / "review.csv").write_text("drawing,use\n1,yes\n1_2,yes\n", "utf-8")
    assert codes(made(manifest)) == ["left-out"]
    (tmp_path / "review.csv").unlink()
    assert titles(made(manifest, use_all=True)) == ["newt", "frog"]


def test_a_pupil_who_left_the_roster_is_left_out(tmp_path: Path) -> None:
    row = entry(1, "Bruno", PAGES[0])
    found = made(written(tmp_path, "Zoë,class,,,\n", [row], "1", "1,yes\n"), use_all=True)
    assert titles(found) == ["newt", "frog"]


def test_a_drawing_whose_pupil_left_the_roster_is_told_of(tmp_path: Path) -> None:
    row = entry(1, "Bruno", PAGES[0])
    found = made(written(tmp_path, "Zoë,class,,,\n", [row], "1", "1,yes\n"))
    assert [(p.code, p.page, p.severity) for p in found.problems] == [
        ("not-in-roster", "Bruno", "warning")
    ]


def test_a_swap_that_a_drawing_stands_in_the_way_of_is_told_of(tmp_path: Path) -> None:
    manifest = written(
        tmp_path, "Bruno,class,,Dragon,\n", [entry(1, "Bruno", PAGES[0])], "1", "1,yes\n"
    )
    (tmp_path / "mine.jpg").write_bytes(b"")
    manifest.write_text(CLASS + '[swap]\nnewt = "mine.jpg"\nfrog = "mine.jpg"\n', "utf-8")
    found = made(manifest)
    assert [page.art for page in found.book.pages] == [
        drawing_file(tmp_path, "1"),
        tmp_path / "mine.jpg",
    ]
    assert [(p.code, p.line) for p in found.problems] == [("left-out", 5)]


def of_numbers(count: int) -> Page:
    return page("newt", 3, spots=count)


def test_numbers_go_on_for_a_sheet_that_has_more_spots_than_the_page_now() -> None:
    marks = some_marks(sheet_plan("a4").frame, 2, 5)
    row = SheetEntry(1, "Bruno", "newt", "a4", "12345678", write_pale(marks), 1)
    found = drawn_page(of_numbers(3), row, Pupil("Bruno"), Path("1.png"), WORDS)
    assert isinstance(found, Page)
    assert [number.text for number in found.numbers] == ["1", "3", "5", "7", "9"]
    short = drawn_page(of_numbers(6), row, Pupil("Bruno"), Path("1.png"), WORDS)
    assert isinstance(short, Page)
    assert len(short.numbers) == len(short.spots) == 5


def test_numbers_that_do_not_go_on_are_a_problem() -> None:
    listed = replace(of_numbers(3), numbers=tuple(Number.parse(t) for t in ("2", "3", "5")))
    marks = some_marks(sheet_plan("a4").frame, 2, 5)
    row = SheetEntry(1, "Bruno", "newt", "a4", "12345678", write_pale(marks), 1)
    found = drawn_page(listed, row, Pupil("Bruno"), Path("1.png"), WORDS)
    assert isinstance(found, Problem)
    assert "numbers do not go on" in found.message
