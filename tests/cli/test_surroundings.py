"""What stands in the environment and on the disk: told where it is wrong, never a fault of ours."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest

from bookmaker.cli.exits import run
from bookmaker.cli.surroundings import cache_folder
from tests.cli.little_book import PATH, page, write_book

Capture = pytest.CaptureFixture[str]


@pytest.mark.parametrize("date", ["²", "9" * 30, "253402300800", "-1", "soon", "1.5", "1_000"])
def test_a_date_that_is_none_is_told(
    date: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    """https://reproducible-builds.org/specs/source-date-epoch/ asks for a fault."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", date)
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 2
    assert "SOURCE_DATE_EPOCH" in capsys.readouterr().err
    assert not (tmp_path / "little-book.pdf").exists()


@pytest.mark.parametrize("date", ["0", "1700000000", "253402300799"])
def test_a_date_is_taken(date: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", date)
    assert run(["check", str(write_book(tmp_path / "little-book"))]) == 0


def test_a_relative_cache_counts_as_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """XDG Base Directory Specification 0.8: relative paths are invalid and to be ignored."""
    monkeypatch.setenv("XDG_CACHE_HOME", "cache")
    monkeypatch.delenv("LOCALAPPDATA", raising=False)
    assert cache_folder() == Path.home() / ".cache" / "bookmaker"


@pytest.mark.parametrize("name", ["Key", "Letter", "Grid", "A4", "No-key", "Week-1", "Clearances"])
@pytest.mark.parametrize("kind", [(), ("--clearances",), ("--grid",)])
def test_a_page_called_like_a_variant_has_its_proof(
    name: str, kind: tuple[str, ...], tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    (book.parent / "one.toml").write_text('title = "x"\n' + page(name, PATH), "utf-8")
    assert run(["proof", str(book), name, "--out", str(tmp_path), *kind]) == 0
    assert Path(capsys.readouterr().out.strip()).read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize("command", ["check", "build", "plan", "sheets", "join"])
def test_a_name_longer_than_the_disk_takes_ends_with_two(command: str, capsys: Capture) -> None:
    assert run([command, "w" * 300 + ".toml"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_an_out_folder_longer_than_the_disk_takes_ends_with_three(
    tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path / ("w" * 300))]) == 3
    assert "longer than the disk takes" in capsys.readouterr().err


def test_a_folder_that_may_not_be_entered_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def barred(path: Path, *_: object, **__: object) -> bool:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "exists", barred)
    assert run(["check", str(tmp_path / "book.toml")]) == 2
    assert "Permission denied" in capsys.readouterr().err


def test_a_film_given_as_a_manifest_is_not_read(tmp_path: Path, capsys: Capture) -> None:
    film = tmp_path / "film.toml"
    with film.open("wb") as file:
        file.truncate(3_000_000_000)  # a file of noughts that takes no room
    script = (
        "import resource, sys\n"
        "from bookmaker.cli.exits import run\n"
        "resource.setrlimit(resource.RLIMIT_AS, (2_000_000_000,) * 2)\n"
        f"sys.exit(run(['check', {str(film)!r}]))"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, check=False)
    assert done.returncode == 1
    assert b"3,000,000,000 bytes" in done.stderr


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs a pipe with a name")
@pytest.mark.parametrize("place", ["manifest", "chapter", "neighbour", "art"])
def test_a_pipe_in_place_of_a_file_is_no_ordinary_file(
    place: str, tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    names = {"manifest": "book.toml", "chapter": "one.toml", "neighbour": "z.toml"}
    pipe = book.parent / names.get(place, "newt.svg")
    pipe.unlink(missing_ok=True)
    os.mkfifo(pipe)
    done = subprocess.run(
        [sys.executable, "-m", "bookmaker", "build", str(book), "--out", str(tmp_path / "out")],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == (0 if place == "neighbour" else 1), done.stderr
    assert place == "neighbour" or "no ordinary file" in done.stderr


def test_other_books_in_the_folder_are_named_in_a_whole_sentence(
    tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    for name in ("loop.toml", "two-books.toml"):
        (book.parent / name).write_text('title = "x"\nchapters = ["two.toml"]\n', "utf-8")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 0
    assert "loop.toml and two-books.toml in the same folder are books" in capsys.readouterr().err


def test_numbers_below_nought_are_not_told_to_grow(tmp_path: Path, capsys: Capture) -> None:
    book = write_book(tmp_path / "little-book")
    text = book.read_text("utf-8") + "numbers = { start = -5, step = 2 }\ngrade = 4\n"
    book.write_text(text, "utf-8")
    assert run(["check", str(book)]) == 0
    told = capsys.readouterr().err
    assert "Use numbers from 0 up, or raise the grade." in told
    assert "suits it" not in told


def test_a_minus_is_printed_as_one(tmp_path: Path) -> None:
    book = write_book(tmp_path / "little-book")
    numbers = "numbers = { start = -5, step = 2 }\n"
    book.write_text(book.read_text("utf-8") + numbers, "utf-8")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 0
    with pypdfium2.PdfDocument(tmp_path / "little-book.pdf") as pdf:
        said = "".join(page.get_textpage().get_text_range() for page in pdf)
    assert "\u22125" in said
    assert "-5" not in said
