"""Finished files are put into their place whole, or not at all."""

import errno
import hashlib
import os
import tempfile
from pathlib import Path

import pytest

from bookmaker import output
from bookmaker.output import OutputFault, Staging, remove_all, write_all


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
