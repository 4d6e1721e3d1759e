"""The class's tables: register, review and record say the same when they are read again."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.classroom.made import Made, read_made, with_made, write_made
from bookmaker.classroom.register import read_register, write_register
from bookmaker.classroom.review import Reviewed, drawing_file, read_review, write_review
from bookmaker.classroom.tables import table_bytes
from bookmaker.model import InputProblems, SheetEntry
from bookmaker.reading.csv import parse_table, read_table, without_rows
from bookmaker.scanning.pale import read_pale, write_pale
from bookmaker.scanning.sheet_plan import sheet_plan
from tests.scanning.prints import some_marks

MARKS = write_pale(some_marks(sheet_plan("a4").frame, 1))
ENTRY = SheetEntry(12, "Zoë; B", "newt", "a4", "00345678", MARKS, 1)


def test_the_register_is_read_back_as_it_was_written(tmp_path: Path) -> None:
    rows = (ENTRY, SheetEntry(13, "", "free:6", "letter", "00345678", MARKS, 1))
    (tmp_path / "register.csv").write_bytes(write_register(reversed(rows)))
    assert read_register(tmp_path / "register.csv") == rows
    assert read_register(tmp_path / "none.csv") == ()


def test_a_spreadsheet_may_drop_the_noughts_of_the_class_code(tmp_path: Path) -> None:
    text = write_register([ENTRY]).decode("utf-8-sig").replace("00345678", "345678")
    (tmp_path / "register.csv").write_text(text, "utf-8")
    assert read_register(tmp_path / "register.csv")[0].class_code == "00345678"


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ("12,", "twelve,", "no number"),
        ("00345678", "123456789", "eight digits"),
        ('""spots""', '""spuds""', "pale marks"),
        ("12,", "0,", "no number that a sheet can have"),
        ("12,", "12345,", "no number that a sheet can have"),
        (",a4,", ",,", "none of a4, letter"),
        (",a4,", ",a3,", "none of a4, letter"),
        ('[""s1-s0""', '[""s1-s9""', "does not join two of its spots"),
        ('""tags"":[[""s1-s0""', '""tags"":[[""s1""', "on no link"),
        (MARKS.replace('"', '""'), '{""spots"":[],""links"":[],""tags"":[]}', "two spots"),
    ],
)
def test_a_damaged_register_is_never_guessed_at(
    old: str, new: str, word: str, tmp_path: Path
) -> None:
    text = write_register([ENTRY]).decode("utf-8-sig").replace(old, new, 1)
    (tmp_path / "register.csv").write_text(text, "utf-8")
    with pytest.raises(InputProblems) as caught:
        read_register(tmp_path / "register.csv")
    (problem,) = caught.value.problems
    assert (problem.line, problem.code) == (2, "bad-register")
    assert word in problem.message


def test_the_paper_may_be_in_capitals(tmp_path: Path) -> None:
    text = write_register([ENTRY]).decode("utf-8-sig").replace(",a4,", ",A4,")
    (tmp_path / "register.csv").write_text(text, "utf-8")
    assert read_register(tmp_path / "register.csv") == (ENTRY,)


@pytest.mark.parametrize("place", ["NaN", "Infinity", "1e9"])
def test_a_place_that_is_on_no_sheet_is_refused(place: str) -> None:
    with pytest.raises(ValueError, match="on no sheet"):
        read_pale(f'{{"spots":[["s0",{place},1,10]],"links":[],"tags":[]}}')


def test_the_review_is_read_back_for_the_drawings_that_are_there(tmp_path: Path) -> None:
    rows = [
        Reviewed("12", "Zoë", "newt", "yes", ("coarse", "dark"), 0.21, 127, "IMG 1.jpg"),
        Reviewed("12_2", "Zoë", "newt", "", (), 0.1, 300, "IMG 2.jpg"),
        Reviewed("3", "Bo", "eel", "no", (), 0.1, 300, "IMG 3.jpg"),
    ]
    (tmp_path / "drawings").mkdir()
    for name in ("12", "12_2", "7", "notes"):
        drawing_file(tmp_path, name).write_bytes(b"")
    (tmp_path / "review.csv").write_bytes(write_review(rows))
    assert read_review(tmp_path) == (Reviewed("7"), rows[0], rows[1])


@pytest.mark.parametrize(
    ("said", "means"),
    [
        ("YES", "yes"),
        (" no ", "no"),
        ("", ""),
        ("Sí", "yes"),
        ("oui", "yes"),
        ("NON", "no"),
    ],
)
def test_use_is_said_in_any_capitals_and_in_each_language(
    said: str, means: str, tmp_path: Path
) -> None:
    (tmp_path / "drawings").mkdir()
    drawing_file(tmp_path, "1").write_bytes(b"")
    (tmp_path / "review.csv").write_text(f"drawing;use\n1;{said}\n", "utf-8")
    assert read_review(tmp_path)[0].use == means


def test_every_fault_of_the_review_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "review.csv").write_text("drawing,use\n1,maybe\nx,yes\n2,yes\n2,no\n", "utf-8")
    with pytest.raises(InputProblems) as caught:
        read_review(tmp_path)
    assert [problem.line for problem in caught.value.problems] == [2, 3, 5]


def test_the_record_keeps_all_numbers_that_were_printed(tmp_path: Path) -> None:
    made = with_made((), Made("sheets", "a.pdf", (1, 2, 3)))
    made = with_made(made, Made("sheets", "a.pdf", (2, 4)))
    made = with_made(made, Made("book", "b.pdf", (1, 2)))
    made = with_made(made, Made("book", "b.pdf", (2,)))
    assert made == (Made("sheets", "a.pdf", (1, 2, 3, 4)), Made("book", "b.pdf", (2,)))
    made = with_made(with_made(made, Made("pages", "svg", (1,))), Made("pages", "svg", (2,)))
    assert made[-1] == Made("pages", "svg", (1, 2))
    (tmp_path / "made.csv").write_bytes(write_made(made))
    assert set(read_made(tmp_path)) == set(made)
    assert read_made(tmp_path / "none") == ()


@pytest.mark.parametrize(
    "cell", ["=1+1", "+SUM(A1)", "-cmd|x", "@x", "\t=1", "O'Neil", "'tis", "-5", "20.5 -30.1", ""]
)
def test_a_spreadsheet_runs_no_cell_and_the_cell_comes_back_as_it_was(
    cell: str, tmp_path: Path
) -> None:
    data = table_bytes(("pupil", "note"), [(cell, "x")])
    (tmp_path / "t.csv").write_bytes(data)
    (row,) = list(csv.reader(data.decode("utf-8-sig").splitlines()))[1:]
    is_number = cell in ("-5", "20.5 -30.1")
    assert row[0][:1] not in ("=", "+", "@", "\t") and (row[0][:1] != "-" or is_number)
    (read,) = read_table(tmp_path / "t.csv").rows
    assert read["pupil"].strip() == cell.strip()


TABLE = 'pupil;note\r\nOlivia B;"two\r\nlines; yes"\r\n\r\nZoë;x\r\nOlivia M;\r\n'


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le"])
@pytest.mark.parametrize("line", [2, 5, 6])
def test_a_row_is_taken_out_of_a_table_and_the_rest_stays_as_it_was_written(
    line: int, encoding: str
) -> None:
    data = TABLE.encode(encoding)
    left = without_rows(data, "roster.csv", {line}).decode(encoding)
    lines = TABLE.splitlines(keepends=True)
    last = {2: 4, 5: 5, 6: 6}[line]
    assert left == "".join(lines[: line - 1] + lines[last:])


@given(
    st.lists(st.text("ab\n\r\"';,", min_size=1, max_size=6).map(lambda t: f"x{t}"), max_size=6),
    st.data(),
)
def test_only_the_row_that_is_meant_goes(cells: list[str], data: st.DataObject) -> None:
    quoted = ['"' + cell.replace('"', '""') + '"' for cell in cells]
    table = ("pupil\n" + "\n".join(quoted) + "\n").encode()
    rows = parse_table(table, "t.csv").rows
    gone = data.draw(st.sets(st.sampled_from([row.line for row in rows]))) if rows else set()
    left = parse_table(without_rows(table, "t.csv", gone), "t.csv").rows
    assert [row["pupil"] for row in left] == [row["pupil"] for row in rows if row.line not in gone]
