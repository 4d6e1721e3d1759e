"""No letter, no sign and no lost reader stops a command, and a fault tells what was written."""

from __future__ import annotations

import errno
import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.cli.exits import run
from bookmaker.cli.streams import Safe
from tests.cli.little_book import write_book

Capture = pytest.CaptureFixture[str]
FULL = Path("/dev/full")
needs_full = pytest.mark.skipif(not FULL.exists(), reason="needs a device that is always full")


@given(st.text(), st.sampled_from(["utf-8", "cp1252", "latin-1", "ascii", "cp437", "utf-16"]))
def test_every_text_can_be_written_in_every_encoding(text: str, encoding: str) -> None:
    inner = io.TextIOWrapper(io.BytesIO(), encoding)
    Safe(inner, deaf=False).write(text)
    inner.flush()


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"])))
def test_json_can_be_read_whatever_letters_the_encoding_lacks(text: str) -> None:
    bytes_ = io.BytesIO()
    stream = Safe(io.TextIOWrapper(bytes_, "ascii"), deaf=False)
    stream.write(json.dumps(text, ensure_ascii=False))
    stream.flush()
    assert json.loads(bytes_.getvalue()) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[2Jgone", "\\u001b[2Jgone"),
        ("newt\u202egnp.exe", "newt\\u202egnp.exe"),
        ("a\rb", "a\\u000db"),
        ("a\r\nb\tc\n", "a\r\nb\tc\n"),
        ("\x9b31m", "\\u009b31m"),
        ("Łódź, 河 🐟", "Łódź, 河 🐟"),
    ],
)
def test_what_would_move_the_cursor_or_turn_the_writing_is_shown_as_what_it_is(
    text: str, shown: str
) -> None:
    inner = io.StringIO()
    Safe(inner, deaf=False).write(text)
    assert inner.getvalue() == shown


class Broken(io.StringIO):
    """A stream that can't be written to."""

    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number

    def write(self, text: str) -> int:
        raise OSError(self.number, os.strerror(self.number))


def test_a_reader_that_has_gone_is_no_fault_and_a_full_disk_is_one_only_for_what_was_asked() -> (
    None
):
    Safe(Broken(errno.EPIPE), deaf=False).write("a table")
    Safe(Broken(errno.ENOSPC), deaf=True).write("a warning")
    with pytest.raises(OSError, match="No space"):
        Safe(Broken(errno.ENOSPC), deaf=False).write("a table")


def test_a_stream_that_was_closed_holds_nothing() -> None:
    Safe(None, deaf=False).write("a table")


def command(*arguments: object) -> list[str]:
    return [sys.executable, "-m", "bookmaker", *map(str, arguments)]


@pytest.fixture
def foreign(tmp_path: Path) -> Path:
    """A book with a page whose name no western encoding has."""
    book = write_book(tmp_path / "little-book")
    chapter = book.parent / "one.toml"
    chapter.write_text(chapter.read_text("utf-8").replace('"Fork"', '"Żółw Ł"'), "utf-8")
    return book


@pytest.mark.parametrize("encoding", ["cp1252", "latin-1", "ascii"])
def test_a_book_is_built_and_told_of_on_a_terminal_that_lacks_its_letters(
    encoding: str, foreign: Path, tmp_path: Path
) -> None:
    done = subprocess.run(
        command("build", foreign, "--out", tmp_path / "out-ź"),
        env={**os.environ, "PYTHONIOENCODING": encoding},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert b"little-book.pdf" in done.stdout
    assert (tmp_path / "out-ź" / "little-book.pdf").exists()


@pytest.mark.skipif(os.name == "nt", reason="needs a pipe that breaks")
@pytest.mark.parametrize("what", [("plan",), ("check",), ("check", "--json")])
def test_a_reader_that_takes_one_line_and_goes_changes_no_exit_code(
    what: tuple[str, ...], tmp_path: Path
) -> None:
    book = write_book(tmp_path / "little-book")
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        command(*what, book), stdout=writing, stderr=subprocess.PIPE, text=True, check=False
    )
    os.close(writing)
    assert done.returncode == 0, done.stderr
    assert "Broken" not in done.stderr


@needs_full
def test_messages_that_find_no_room_do_not_stop_a_build(tmp_path: Path) -> None:
    book = write_book(tmp_path / "little-book")
    with FULL.open("w") as full:
        done = subprocess.run(
            command("build", book, "--out", tmp_path),
            stdout=subprocess.DEVNULL,
            stderr=full,
            check=False,
        )
    assert done.returncode == 0
    assert (tmp_path / "little-book.pdf").exists()


def test_a_fault_after_files_were_put_into_place_names_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def fail(*_: object) -> None:
        raise RuntimeError("a fault in telling")

    monkeypatch.setattr("bookmaker.cli.make._report", fail)
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 5
    told = capsys.readouterr().err
    assert "Nothing was written" not in told
    assert str(tmp_path / "little-book.pdf") in told
    assert (tmp_path / "little-book.pdf").exists()


def test_an_interrupt_after_files_were_put_into_place_names_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("bookmaker.cli.make._report", stop)
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 130
    assert str(tmp_path / "little-book.pdf") in capsys.readouterr().err


def test_streams_are_put_back_when_the_command_is_done(tmp_path: Path) -> None:
    before = sys.stdout, sys.stderr
    run(["check", str(tmp_path / "none.toml")])
    assert (sys.stdout, sys.stderr) == before
