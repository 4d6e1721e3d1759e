"""Finished files are put into their place whole, or not at all."""

import errno
import os
from pathlib import Path

import pytest

from bookmaker import output
from bookmaker.output import OutputFault, write_all


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
