"""What goes with a pupil, and where else the name or the drawing is found."""

from __future__ import annotations

from pathlib import Path

import pytest

from bookmaker.classroom.forgetting import Forgetting, forget, forget_all
from bookmaker.classroom.forgotten import Forgotten, read_forgotten
from bookmaker.classroom.keeping import Shelf, read_shelf
from bookmaker.classroom.made import Made, write_made
from bookmaker.classroom.register import write_register
from bookmaker.classroom.review import Reviewed, drawing_file, write_review
from bookmaker.model import SheetEntry
from bookmaker.output import write_all
from bookmaker.reading import read_class
from bookmaker.reading.csv import parse_table, without_cells
from bookmaker.scanning.pale import write_pale
from bookmaker.scanning.sheet_plan import sheet_plan
from tests.scanning.prints import some_marks

MARKS = write_pale(some_marks(sheet_plan("a4").frame, 1))
ROSTER = """pupil,drawing,name,creature,note
Qabil Zyxwv,class,no,Moss,sits at the back
Olivia B,class,yes,Qabil and me,
Olivia M,class,no,,Olivia is new
"""
MADE = (
    Made("sheets", "sheets.pdf", (1, 2, 3)),
    Made("list", "list.pdf", (1, 2, 3)),
    Made("book", "book-heron.pdf", (1, 2)),
    Made("book", "book-heron-2.pdf", (2,)),
    Made("book", "book-heron-3.pdf", (3,)),
    Made("scan", "no.jpg", (1,)),
    Made("scan", "heap.pdf", (1, 3)),
)
ROWS = (
    Reviewed("1", "Qabil Zyxwv", "newt", "yes", scan="a.jpg"),
    Reviewed("2", "Olivia B", "newt", "yes", scan="qabils.jpg", others=("b.jpg",)),
)


def a_class(folder: Path, roster: str = ROSTER, pupils: str = "Qabil Zyxwv/Olivia B/") -> Shelf:
    """A class of three sheets, of which two came back."""
    (folder / "book.toml").write_text("", "utf-8")
    manifest = 'title = "Heron, and Qabil"\nbook = "book.toml"\nroster = "roster.csv"\n'
    (folder / "class.toml").write_text(manifest, "utf-8")
    (folder / "roster.csv").write_text(roster, "utf-8")
    names = enumerate(pupils.split("/"), 1)
    entries = [SheetEntry(n, name, "newt", "a4", "12345678", MARKS, 1) for n, name in names]
    (folder / "register.csv").write_bytes(write_register(entries))
    (folder / "review.csv").write_bytes(write_review(ROWS))
    (folder / "made.csv").write_bytes(write_made(MADE))
    (folder / "drawings").mkdir()
    for drawing in ("1", "2"):
        drawing_file(folder, drawing).write_bytes(b"")
    classroom = read_class(folder / "class.toml").classroom
    assert classroom
    return read_shelf(classroom)


def forgotten(shelf: Shelf, name: str) -> Forgetting:
    gone = forget(shelf, name, read_forgotten(shelf.folder))
    assert gone
    return gone


def carried_out(shelf: Shelf, gone: Forgetting) -> Shelf:
    write_all([gone.hashes, *gone.tables])
    for file in gone.files:
        file.unlink()
    classroom = read_class(shelf.folder / "class.toml", whole=False).classroom
    assert classroom
    return read_shelf(classroom)


def test_what_goes_and_where_else_it_stands(tmp_path: Path) -> None:
    gone = forgotten(a_class(tmp_path), "qabil zyxwv")
    assert gone.sheets == (1,)
    assert gone.drawings == 1
    assert gone.lists == ("list.pdf",)
    assert gone.scans == ("a.jpg", "qabils.jpg", "heap.pdf", "no.jpg")
    assert [(t.file.name, t.line, t.column) for t in gone.traces] == [
        ("roster.csv", 2, "creature"),
        ("class.toml", 1, ""),
    ]


def test_every_book_is_named_while_the_class_s_title_holds_the_name(tmp_path: Path) -> None:
    shelf = a_class(tmp_path)
    books = {"book-heron.pdf", "book-heron-2.pdf", "book-heron-3.pdf"}
    assert set(forgotten(shelf, "Qabil Zyxwv").books) == books
    manifest = tmp_path / "class.toml"
    manifest.write_text(manifest.read_text("utf-8").replace(", and Qabil", ""), "utf-8")
    left = books - {"book-heron-3.pdf"}  # the second holds "Qabil and me"
    assert set(forgotten(shelf, "Qabil Zyxwv").books) == left


def test_the_name_is_in_no_file_any_more_and_is_still_held_back(tmp_path: Path) -> None:
    shelf = a_class(tmp_path)
    left = carried_out(shelf, forgotten(shelf, "Qabil Zyxwv"))
    for name in ("register.csv", "review.csv", "made.csv", "forgotten.csv"):
        assert "qabil" not in (tmp_path / name).read_text("utf-8-sig").lower()
    assert "Qabil Zyxwv" not in (tmp_path / "roster.csv").read_text("utf-8")
    assert read_forgotten(tmp_path).name_in("QABIL's dragon") == "qabil"
    assert [(row.scan, row.others) for row in left.rows] == [("", ("b.jpg",))]
    assert {n for one in left.made if one.what == "sheets" for n in one.sheets} == {1, 2, 3}


def test_a_name_forgotten_before_finds_what_still_stands(tmp_path: Path) -> None:
    shelf = a_class(tmp_path)
    left = carried_out(shelf, forgotten(shelf, "Qabil Zyxwv"))
    again = forgotten(left, "Qabil Zyxwv")
    assert (again.sheets, again.drawings) == ((), 0)
    assert again.lists == ("list.pdf",)
    assert "book-heron.pdf" in again.books
    assert forget(left, "Nobody", read_forgotten(tmp_path)) is None


def test_a_name_that_another_pupil_shares_keeps_that_pupil_s_cells(tmp_path: Path) -> None:
    gone = forgotten(a_class(tmp_path), "Olivia B")
    assert gone.sheets == (2,)
    assert not [trace for trace in gone.traces if trace.pupil == "Olivia M"]
    assert [row.scan for row in gone.shelf.rows] == ["a.jpg"]


@pytest.mark.parametrize(
    ("roster", "asked"), [("7", "7"), ("7", "007"), ("007", "7"), ("7.0", "7")]
)
def test_a_number_is_found_however_a_spreadsheet_wrote_it(
    roster: str, asked: str, tmp_path: Path
) -> None:
    shelf = a_class(tmp_path, f"pupil,drawing\n{roster},class\nBo,no\n", "007/Bo")
    gone = forgotten(shelf, asked)
    assert (gone.sheets, gone.drawings, gone.strangers) == ((1,), 1, ())


def test_sheets_that_nobody_in_the_roster_has_are_named_where_no_drawing_went(
    tmp_path: Path,
) -> None:
    """A spreadsheet that made a date of 3-4."""
    shelf = a_class(tmp_path, "pupil,drawing\n03. Apr,class\nBo,no\n", "3-4/Bo")
    gone = forgotten(shelf, "03. Apr")
    assert (gone.sheets, gone.drawings) == ((), 0)
    assert gone.strangers == ((1, "3-4"),)


def test_sheets_known_from_the_review_alone_go_too(tmp_path: Path) -> None:
    shelf = a_class(tmp_path, pupils="")
    (tmp_path / "register.csv").unlink()
    classroom = shelf.classroom
    gone = forgotten(read_shelf(classroom), "Qabil Zyxwv")
    assert (gone.sheets, gone.drawings) == ((1,), 1)


def test_the_year_ends_with_every_pupil_and_every_sheet(tmp_path: Path) -> None:
    shelf = a_class(tmp_path)
    gone = forget_all(shelf, Forgotten())
    assert gone
    assert gone.sheets == (1, 2, 3)
    write_all([gone.hashes, *gone.tables])
    assert (tmp_path / "roster.csv").read_text("utf-8").strip() == ROSTER.splitlines()[0]
    assert len((tmp_path / "register.csv").read_text("utf-8").splitlines()) == 1
    for name in ("Qabil", "Olivia"):
        assert read_forgotten(tmp_path).name_in(name)


def test_cells_are_emptied_and_the_rest_stays_as_it_was_written() -> None:
    table = 'pupil;"note"\r\n"A";"one\r\ntwo"\r\n\r\n"B"; x \r\nC;"d;e"'
    left = without_cells(table.encode("utf-16"), "t.csv", {(2, "note")}).decode("utf-16")
    assert left == 'pupil;"note"\r\nA;\r\n\r\n"B"; x \r\nC;"d;e"'
    last = without_cells(table.encode(), "t.csv", {(6, "note"), (5, "note")})
    assert [row["note"] for row in parse_table(last, "t.csv").rows] == ["one\ntwo", "", ""]
