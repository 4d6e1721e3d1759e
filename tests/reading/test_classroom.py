"""A class and its roster, as a teacher's spreadsheet wrote it."""

from pathlib import Path

import pytest

from bookmaker.classroom import made, register, review
from bookmaker.model import Classroom, Problem, Pupil, Swap
from bookmaker.reading.classroom import read_class, read_roster

CLASS = 'title = "Heron Class"\nbook = "book.toml"\nroster = "roster.csv"\n'


def written(folder: Path, roster: str | bytes, manifest: str = CLASS) -> Path:
    (folder / "book.toml").write_text("", "utf-8")
    data = roster if isinstance(roster, bytes) else roster.encode()
    (folder / "roster.csv").write_bytes(data)
    (folder / "class.toml").write_text(manifest, "utf-8")
    return folder / "class.toml"


def class_of(folder: Path, roster: str | bytes, manifest: str = CLASS) -> Classroom:
    reading = read_class(written(folder, roster, manifest))
    assert reading.classroom is not None, reading.problems
    return reading.classroom


def told(folder: Path, roster: str, manifest: str = CLASS) -> list[Problem]:
    return list(read_class(written(folder, roster, manifest)).problems)


FULL = "pupil,page,drawing,name,creature,credit,spots\nZoë,Water vole,class,yes,Dragon,Zo,6\nBo\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_a_roster_is_read_however_the_spreadsheet_wrote_it(
    encoding: str, delimiter: str, tmp_path: Path
) -> None:
    room = class_of(tmp_path, FULL.replace(",", delimiter).encode(encoding))
    assert room.pupils == (
        Pupil("Zoë", "water-vole", "class", True, "Dragon", "Zo", 6, 2),
        Pupil("Bo", credit="Bo", line=3),
    )
    assert (room.name, room.title) == (tmp_path.name, "Heron Class")


@pytest.mark.parametrize("name", [register.NAME, review.NAME, made.NAME, "Register.CSV"])
def test_a_roster_that_a_table_of_the_class_would_overwrite_is_a_problem(
    name: str, tmp_path: Path
) -> None:
    (tmp_path / name).write_text("pupil\nBo\n", "utf-8")
    (problem,) = told(tmp_path, "pupil\nBo\n", CLASS.replace("roster.csv", name))
    assert (problem.line, problem.code) == (3, "bad-value")
    (tmp_path / "lists").mkdir()
    (tmp_path / "lists" / name).write_text("pupil\nBo\n", "utf-8")
    assert not told(tmp_path, "pupil\nBo\n", CLASS.replace("roster.csv", f"lists/{name}"))


def test_what_is_left_empty_means_no(tmp_path: Path) -> None:
    (pupil,) = class_of(tmp_path, "pupil,drawing,name\nBo,,\n").pupils
    assert (pupil.drawing, pupil.show_name) == ("no", False)


def test_a_pupil_is_found_whatever_the_capitals(tmp_path: Path) -> None:
    room = class_of(tmp_path, "pupil\nOlivia B\nOlivia M\n")
    assert room.pupil(" olivia b ") == room.pupils[0]
    assert room.pupil("Olivia") is None


def test_every_fault_of_a_roster_is_told_at_once_with_its_line(tmp_path: Path) -> None:
    roster = "pupil,drawing,name,spots\nBo,maybe,,\nbo,,,\nBO,,si,\n,class,,\nKim,,,99\n"
    found = told(tmp_path, roster)
    assert [(p.line, p.code) for p in found] == [
        (2, "bad-value"),
        (4, "repeated-name"),
        (4, "bad-value"),
        (5, "missing-key"),
        (6, "bad-value"),
    ]


def test_an_empty_roster_is_a_problem(tmp_path: Path) -> None:
    assert [p.code for p in told(tmp_path, "pupil,page\n")] == ["missing-key"]
    assert [p.code for p in told(tmp_path, "")] == ["missing-key"]


@pytest.mark.parametrize("heading", ["surname", "Last name", "FAMILY NAME", "Nachname", "Last"])
def test_a_column_of_surnames_is_warned_of(heading: str, tmp_path: Path) -> None:
    (path,) = [written(tmp_path, f"pupil,{heading}\nBo,Someone\n").parent / "roster.csv"]
    pupils, (warning,) = read_roster(path)
    assert [pupil.name for pupil in pupils] == ["Bo"]
    assert (warning.code, warning.severity) == ("surnames", "warning")


def test_a_column_that_is_not_known_is_said_with_the_nearest(tmp_path: Path) -> None:
    (warning,) = told(tmp_path, "pupil,craeture\nBo,Dragon\n")
    assert (warning.code, warning.severity) == ("unknown-column", "warning")
    assert "creature" in warning.mend


def test_files_that_are_not_there_are_told_together(tmp_path: Path) -> None:
    manifest = 'title = "H"\nbook = "bok.toml"\nroster = "r.csv"\n[swap]\nnewt = "mine.jpg"\n'
    found = told(tmp_path, "pupil\nBo\n", manifest)
    assert [(p.line, p.code) for p in found] == [
        (2, "file-missing"),
        (3, "file-missing"),
        (5, "art-missing"),
    ]
    assert "book.toml" in found[0].mend


def test_keys_of_a_class_are_checked_as_those_of_a_book(tmp_path: Path) -> None:
    found = told(
        tmp_path, "pupil\nBo\n", 'titel = "H"\nbook = "book.toml"\nroster = "roster.csv"\n'
    )
    assert {p.code for p in found} >= {"unknown-key"}
    assert any("title" in p.mend for p in found)


def test_a_swap_names_a_picture_for_a_page(tmp_path: Path) -> None:
    (tmp_path / "mine.jpg").write_bytes(b"")
    room = class_of(tmp_path, "pupil\nBo\n", CLASS + '[swap]\n"Water vole" = "mine.jpg"\n')
    assert room.swaps == (Swap("Water vole", "water-vole", tmp_path / "mine.jpg"),)
    assert dict(room.lines)["swap.Water vole"] == 5


def test_a_swap_may_say_whose_picture_it_is_and_needs_no_roster(tmp_path: Path) -> None:
    (tmp_path / "mine.jpg").write_bytes(b"")
    (tmp_path / "book.toml").write_text("", "utf-8")
    manifest = tmp_path / "class.toml"
    swap = '[swap.newt]\npicture = "mine.jpg"\nname = "Old Tom"\nartist = "the art club"\n'
    manifest.write_text(f'title = "H"\nbook = "book.toml"\n{swap}', "utf-8")
    reading = read_class(manifest)
    assert reading.problems == ()
    assert reading.classroom is not None
    expected = Swap("newt", "newt", tmp_path / "mine.jpg", "Old Tom", "the art club")
    assert reading.classroom.swaps == (expected,)


def test_what_a_swap_may_not_say_is_told_with_its_line(tmp_path: Path) -> None:
    (tmp_path / "book.toml").write_text("", "utf-8")
    manifest = tmp_path / "class.toml"
    swap = '[swap.newt]\npictur = "mine.jpg"\n'
    manifest.write_text(f'title = "H"\nbook = "book.toml"\n{swap}', "utf-8")
    (problem,) = read_class(manifest).problems
    assert (problem.code, problem.line) == ("unknown-key", 4)


def test_a_class_that_is_not_there_is_a_problem(tmp_path: Path) -> None:
    reading = read_class(tmp_path / "class.toml")
    assert reading.classroom is None
    assert [p.code for p in reading.problems] == ["file-missing"]
