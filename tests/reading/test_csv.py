"""Tables in every way that a spreadsheet writes them."""

from __future__ import annotations

import csv
import io
import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import InputProblems, Problem
from bookmaker.reading.csv import Table, delimiter_of, parse_table, read_table

ROWS = [["Pupil", " Page ", "drawing"], ["Zoë", "newt", "class"], ["Kofi; B", "", "own, too"]]


def written(rows: list[list[str]], delimiter: str, line_end: str = "\r\n") -> str:
    file = io.StringIO(newline="")
    csv.writer(file, delimiter=delimiter, lineterminator=line_end).writerows(rows)
    return file.getvalue()


def problems_of(data: bytes, needed: tuple[str, ...] = ()) -> list[tuple[int, str]]:
    return [(each.line, each.code) for each in told(data, needed)]


def told(data: bytes, needed: tuple[str, ...] = ()) -> tuple[Problem, ...]:
    with pytest.raises(InputProblems) as caught:
        parse_table(data, "roster.csv", needed)
    return caught.value.problems


ENCODINGS = ("utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le", "utf-16-be")


@pytest.mark.parametrize(
    ("encoding", "delimiter", "line_end"),
    list(itertools.product(ENCODINGS, ",;\t", ("\n", "\r\n", "\r"))),
)
def test_every_encoding_delimiter_and_line_end_is_read(
    encoding: str, delimiter: str, line_end: str, tmp_path: Path
) -> None:
    path = tmp_path / "roster.csv"
    path.write_bytes(written(ROWS, delimiter, line_end).encode(encoding))
    table = read_table(path, needed=("pupil", "page"))
    assert (table.file, table.line) == (str(path), 1)
    assert table.columns == ("pupil", "page", "drawing")
    assert table.headings == ("Pupil", "Page", "drawing")
    assert [(row.line, dict(row.cells)) for row in table.rows] == [
        (2, {"pupil": "Zoë", "page": "newt", "drawing": "class"}),
        (3, {"pupil": "Kofi; B", "page": "", "drawing": "own, too"}),
    ]


def test_utf16_with_its_mark_the_other_way_round_is_read() -> None:
    data = b"\xfe\xff" + written(ROWS, ";").encode("utf-16-be")
    assert parse_table(data, "").rows[0]["pupil"] == "Zoë"


def test_a_line_that_only_names_the_delimiter_is_no_row() -> None:
    for delimiter in ",;\t":
        table = parse_table(f"sep={delimiter}\r\na{delimiter}b\r\n1{delimiter}2\r\n".encode(), "")
        assert (table.line, table.columns, table.rows[0].line) == (2, ("a", "b"), 3)


def test_blank_lines_are_passed_over_and_counted() -> None:
    table = parse_table(b"\n\npupil,page\n\n,,,\nKofi,newt\n , \nMia,\n", "")
    assert (table.line, [row.line for row in table.rows]) == (3, [6, 8])
    assert table.rows[1]["page"] == ""


def test_a_cell_of_several_lines_keeps_the_lines_after_it_right() -> None:
    table = parse_table(b'pupil,note\nKofi,"one\ntwo\n"\nMia,"say ""hello"""\n', "")
    assert [(row.line, row["note"]) for row in table.rows] == [
        (2, "one\ntwo"),
        (5, 'say "hello"'),
    ]


def test_a_row_that_is_cut_short_has_empty_cells() -> None:
    assert parse_table(b"a,b,c\n1\n", "").rows[0].cells == {"a": "1", "b": "", "c": ""}


def test_a_header_of_one_column_needs_no_delimiter() -> None:
    assert parse_table(b"pupil\nKofi\n", "").rows[0]["pupil"] == "Kofi"


def test_a_delimiter_within_a_quoted_heading_parts_nothing() -> None:
    table = parse_table(b'"pupil; first, name";page\nKofi;newt\n', "")
    assert table.columns == ("pupil; first, name", "page")


@pytest.mark.parametrize(
    ("data", "needed", "expected"),
    [
        (b"", ("pupil",), [(0, "missing-key")]),
        (b"\n \n", ("pupil",), [(0, "missing-key")]),
        (b"pupil,pgae\nKofi,newt\n", ("pupil", "page"), [(1, "missing-key")]),
        (b"a,b\n1,2\n", ("pupil", "page"), [(1, "missing-key"), (1, "missing-key")]),
        (b"pupil,Pupil\nKofi,Mia\n", (), [(1, "repeated-name")]),
        (b"pupil,,page\nKofi,x,newt\n", (), [(1, "missing-key")]),
        (b"a,b\n1,2,3\n1,2\n1,2,3,4\n", (), [(2, "bad-csv"), (4, "bad-csv")]),
        (b'a,b\n1,"2\n3,4\n', (), [(2, "bad-csv")]),
        (b'a,b\n1,"2"3\n4,5,6\n', (), [(2, "bad-csv"), (3, "bad-csv")]),
        (b"a,b\n\x81\x8d,2\n", (), [(2, "bad-encoding")]),
        (b"a,b\n\0,2\n", (), [(2, "bad-encoding")]),
        (b"PK\x03\x04 workbook", (), [(0, "bad-encoding")]),
        (b"a" * 5_000_001, (), [(0, "bad-encoding")]),
    ],
)
def test_every_fault_of_a_table_is_told_at_its_line(
    data: bytes, needed: tuple[str, ...], expected: list[tuple[int, str]]
) -> None:
    assert problems_of(data, needed) == expected


def test_a_misspelt_column_is_named_as_the_nearest() -> None:
    (problem,) = told(b"pupil,pgae\nKofi,newt\n", ("pupil", "page"))
    assert str(problem) == (
        "roster.csv:1: there is no column page. "
        "Write page instead of pgae, if that is what is meant."
    )


def test_a_table_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    for path in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(InputProblems) as caught:
            read_table(path)
        assert [(each.file, each.code) for each in caught.value.problems] == [
            (str(path), "file-missing")
        ]


cells = st.text(st.characters(codec="cp1252", exclude_characters="\r\n\0\ufeff"), max_size=8)


@given(
    st.lists(st.lists(cells.map(str.strip), min_size=3, max_size=3), max_size=5),
    st.sampled_from(",;\t"),
    st.sampled_from(ENCODINGS),
)
def test_any_table_comes_back_cell_by_cell(
    rows: list[list[str]], delimiter: str, encoding: str
) -> None:
    text = written([["a", "b", "c"], *rows], delimiter)
    if encoding == "cp1252" and not text.isascii():
        try:
            text.encode("cp1252").decode("utf-8")
        except UnicodeDecodeError:
            pass
        else:
            return  # what is good UTF-8 is read as UTF-8
    table = parse_table(text.encode(encoding), "")
    assert [list(row.cells.values()) for row in table.rows] == [row for row in rows if any(row)]


@given(st.binary(max_size=60))
def test_no_bytes_stop_the_reader(data: bytes) -> None:
    try:
        table = parse_table(data, "")
    except InputProblems as caught:
        assert caught.problems
    else:
        assert isinstance(table, Table)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_what_parts_the_cells_is_told(delimiter: str, encoding: str, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("\n" + written(ROWS, delimiter), encoding)
    assert delimiter_of(tmp_path / "a.csv") == delimiter


@pytest.mark.parametrize("data", [None, b"", b"PK\x03\x04", b"pupil\n"])
def test_a_comma_parts_the_cells_of_a_table_that_can_not_tell(
    data: bytes | None, tmp_path: Path
) -> None:
    if data is not None:
        (tmp_path / "a.csv").write_bytes(data)
    assert delimiter_of(tmp_path / "a.csv") == ","
