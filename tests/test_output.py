"""Finished files are put into their place whole, or not at all."""

import errno
import hashlib
import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from bookmaker import output
from bookmaker.output import OutputFault, Staging, placed_files, remove_all, sparing, write_all


def test_files_are_written_into_folders_that_are_made(tmp_path: Path) -> None:
    write_all([(tmp_path / "a" / "b" / "book.pdf", b"new")])
    assert (tmp_path / "a" / "b" / "book.pdf").read_bytes() == b"new"
    assert [file.name for file in (tmp_path / "a" / "b").iterdir()] == ["book.pdf"]


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod"])
def test_a_disk_that_fills_up_leaves_the_last_good_file(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book, certificate = tmp_path / "book.pdf", tmp_path / "book.certificate.json"
    write_all([(certificate, b"old"), (book, b"old")])

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(book))

    monkeypatch.setattr(os if step == "fsync" else Path, step, full)
    with pytest.raises(OutputFault, match="Make room on the disk"):
        write_all([(certificate, b"new"), (book, b"new")])
    monkeypatch.undo()
    assert book.read_bytes() == certificate.read_bytes() == b"old"
    assert len(list(tmp_path.iterdir())) == 2


def test_being_interrupted_while_writing_leaves_the_last_good_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = tmp_path / "book.pdf"
    write_all([(book, b"old")])

    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(output.os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_all([(book, b"new")])
    assert book.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [book]


def test_a_folder_in_the_way_is_told(tmp_path: Path) -> None:
    (tmp_path / "book.pdf").mkdir()
    with pytest.raises(OutputFault, match=r"book\.pdf can't be written.*--out"):
        write_all([(tmp_path / "book.pdf", b"new")])


def test_a_file_where_the_folder_should_be_is_told(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(OutputFault, match="--out"):
        write_all([(tmp_path / "out" / "book.pdf", b"new")])


def test_what_is_put_ahead_is_renamed_first_and_nothing_before_the_end(tmp_path: Path) -> None:
    book, certificate = tmp_path / "book.pdf", tmp_path / "book.certificate.json"
    with Staging() as staging:
        written = staging.put(book, (b"ab", b"c"))
        staging.put(certificate, (written.sha256.encode(),), ahead=True)
        assert not book.exists()
        assert not certificate.exists()
        assert written.file.read_bytes() == b"abc"
    assert certificate.read_bytes().decode() == hashlib.sha256(book.read_bytes()).hexdigest()


def test_a_certificate_that_can_not_be_renamed_keeps_the_book_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(self: Path, place: Path) -> None:
        raise PermissionError(errno.EACCES, f"{place.name} is open elsewhere", str(place))

    with pytest.raises(OutputFault, match=r"certificate.* is open elsewhere"), Staging() as staging:
        staging.put(tmp_path / "book.pdf", (b"new",))
        staging.put(tmp_path / "book.certificate.json", (b"new",), ahead=True)
        monkeypatch.setattr(Path, "replace", refuse)
    assert list(tmp_path.iterdir()) == []


def test_a_fault_found_before_the_end_leaves_nothing_behind(tmp_path: Path) -> None:
    with pytest.raises(RuntimeError), Staging() as staging:
        staging.put(tmp_path / "book.pdf", (b"new",))
        raise RuntimeError("a check failed")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_nothing_can_be_written_into_is_told_by_the_files_own_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def read_only(prefix: str, suffix: str, dir: Path) -> None:
        raise OSError(errno.EROFS, "Read-only file system", f"{dir}/{prefix}x{suffix}")

    monkeypatch.setattr(tempfile, "mkstemp", read_only)
    with pytest.raises(OutputFault, match=r"book\.pdf can't be written: Read-only .*--out"):
        write_all([(tmp_path / "book.pdf", b"new")])


def test_a_name_as_long_as_the_system_allows_is_written(tmp_path: Path) -> None:
    place = tmp_path / f"{'w' * 251}.pdf"  # POSIX's NAME_MAX is 255 on usual systems
    write_all([(place, b"new")])
    assert place.read_bytes() == b"new"


def test_files_that_can_stand_nowhere_else_are_not_sent_elsewhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A table that is open in a spreadsheet can be neither replaced nor removed on Windows."""

    def locked(*_: object, **__: object) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(tmp_path / "review.csv"))

    monkeypatch.setattr(Path, "replace", locked)
    with pytest.raises(OutputFault, match="Close the program") as caught:
        write_all([(tmp_path / "review.csv", b"new")], fixed=True)
    assert "--out" not in str(caught.value)
    monkeypatch.setattr(Path, "unlink", locked)
    with pytest.raises(OutputFault, match=r"1\.png can't be removed.*Close the program"):
        remove_all([tmp_path / "1.png"])


def test_files_are_removed_whether_they_are_there_or_not(tmp_path: Path) -> None:
    (tmp_path / "1.png").write_bytes(b"")
    remove_all([tmp_path / "1.png", tmp_path / "2.png"])
    assert not list(tmp_path.iterdir())


KILLED = """
import os, sys
from pathlib import Path
from bookmaker.output import Staging
staging = Staging()
staging.put(Path(sys.argv[1]), (b"a child's name",))
os.kill(os.getpid(), 9)
"""


@pytest.mark.skipif(os.name != "posix", reason="processes are asked for by number")
def test_what_a_killed_run_left_is_swept_away_when_the_next_one_writes_there(
    tmp_path: Path,
) -> None:
    place = tmp_path / "book.pdf"
    subprocess.run([sys.executable, "-c", KILLED, str(place)], check=False)
    (left,) = tmp_path.iterdir()
    assert left.name.endswith(".part")
    write_all([(tmp_path / "other.pdf", b"new")])
    assert [file.name for file in tmp_path.iterdir()] == ["other.pdf"]


def test_what_another_run_is_writing_and_what_is_not_ours_stays(tmp_path: Path) -> None:
    strangers = (".film.mkv.part", "film.part", ".book.pdf.a1b2c3d4.part")
    for name in strangers:
        (tmp_path / name).write_bytes(b"theirs")
    with Staging() as other:
        waiting = other.put(tmp_path / "book.pdf", (b"new",)).file
        write_all([(tmp_path / "key.pdf", b"new")])
        assert waiting.exists()
    assert {file.name for file in tmp_path.iterdir()} == {*strangers, "book.pdf", "key.pdf"}


def test_a_file_of_another_machine_is_swept_when_it_is_a_day_old(tmp_path: Path) -> None:
    left = tmp_path / ".book.pdf.0badcafe-1-abcdefgh.part"
    left.write_bytes(b"theirs")
    write_all([(tmp_path / "key.pdf", b"new")])
    assert left.exists()
    os.utime(left, (0, 0))
    write_all([(tmp_path / "key.pdf", b"new")])
    assert not left.exists()


def test_what_is_put_into_place_is_listed_as_far_as_it_came(tmp_path: Path) -> None:
    with placed_files() as placed:
        write_all([(tmp_path / "book.pdf", b"new")])
        with pytest.raises(RuntimeError), Staging() as staging:
            staging.put(tmp_path / "key.pdf", (b"new",))
            raise RuntimeError("a check failed")
    assert placed == [tmp_path / "book.pdf"]
    write_all([(tmp_path / "other.pdf", b"new")])
    assert placed == [tmp_path / "book.pdf"]


@pytest.mark.parametrize("name", ["w" * 300, "ź" * 130, "河" * 90])
def test_a_name_longer_than_the_disk_takes_is_told_so(name: str, tmp_path: Path) -> None:
    place = sparing(tmp_path / f"{name}.pdf", [tmp_path / "newt.png"])
    with pytest.raises(OutputFault, match="longer than the disk takes"):
        write_all([(place, b"new")])
    with pytest.raises(OutputFault, match="longer than the disk takes"):
        write_all([(tmp_path / name / "book.pdf", b"new")])
    assert list(tmp_path.iterdir()) == []
