"""Bad input and bad surroundings: the exit code, the words, and the last good book still there."""

from __future__ import annotations

import gzip
import io
import json
import os
import signal
import struct
import subprocess
import sys
import time
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from bookmaker.cli.exits import run
from bookmaker.pdf import Pressed
from tests.cli.little_book import write_book
from tests.pictures.makers import png_chunk
from tests.reading.faults import FAULTS, Fault, write

Capture = pytest.CaptureFixture[str]
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 120">{}</svg>'
ENTITY = '<!DOCTYPE svg [<!ENTITY a "b">]>'
LOOP = '<g id="a"><use href="#a"/></g>'
BOMB = '<g id="a0"><rect width="1" height="1"/></g>' + "".join(
    f'<g id="a{i}">' + f'<use href="#a{i - 1}"/>' * 10 + "</g>" for i in range(1, 9)
)


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.name)
def test_a_faulty_manifest_ends_with_one_and_every_fault_is_told(
    fault: Fault, tmp_path: Path, capsys: Capture
) -> None:
    manifest = write(fault.files, tmp_path / "faulty")
    out = tmp_path / "out"
    out.mkdir()
    (out / "faulty.pdf").write_bytes(b"the last good book")
    assert run(["build", str(manifest), "--out", str(out)]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert "Traceback" not in told.err
    for line, _ in fault.expected:
        assert not line or f":{line}:" in told.err
    assert [(file.name, file.read_bytes()) for file in out.iterdir()] == [
        ("faulty.pdf", b"the last good book")
    ]


@dataclass(frozen=True)
class BadArt:
    """A picture that can't be printed, and words that its problem holds."""

    name: str
    file: str
    data: bytes
    words: str
    code: str = "art-unreadable"


def _png(width: int, height: int) -> bytes:
    stream = io.BytesIO()
    Image.new("1", (width, height)).save(stream, "PNG")
    return stream.getvalue()


def _jpeg() -> bytes:
    stream = io.BytesIO()
    Image.effect_noise((800, 600), 60).save(stream, "JPEG")
    return stream.getvalue()


BAD_ART = (
    BadArt("zero bytes", "newt.png", b"", "empty"),
    BadArt("text renamed .png", "newt.png", b"This is a letter, not a picture.\n", "picture"),
    BadArt("truncated JPEG", "newt.jpg", _jpeg()[:9000], "cut off"),
    BadArt("truncated PNG", "newt.png", _png(600, 600)[:60], "newt.png"),
    BadArt("entities", "newt.svg", (ENTITY + SVG.format("&a;")).encode(), "entit"),
    BadArt("a bomb of use", "newt.svg", SVG.format(BOMB).encode(), "newt.svg"),
    BadArt("a loop of use", "newt.svg", SVG.format(LOOP).encode(), "newt.svg"),
    BadArt("a svgz that swells", "newt.svgz", gzip.compress(b" " * 300_000_000, 9), "newt.svgz"),
    BadArt("no SVG at all", "newt.svg", b"<html><body>newt</body></html>", "newt.svg"),
    BadArt("broken XML", "newt.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><g>", "newt.svg"),
)  # fmt: skip


@pytest.mark.parametrize("bad", BAD_ART, ids=lambda bad: bad.name)
def test_a_bad_picture_ends_with_one_and_names_its_file(
    bad: BadArt, tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    run(["build", str(book), "--out", str(tmp_path)])
    good = (tmp_path / "little-book.pdf").read_bytes()
    capsys.readouterr()
    (book.parent / bad.file).write_bytes(bad.data)
    chapter = book.parent / "one.toml"
    chapter.write_text(chapter.read_text("utf-8").replace("newt.svg", bad.file), "utf-8")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 1
    told = capsys.readouterr().err
    assert "one.toml:5: Fork: " in told
    assert bad.words in told
    assert (tmp_path / "little-book.pdf").read_bytes() == good


CROWDED = """links = ["a-b", "c-d", "e-f", "a-c", "b-e"]
fixed = true
[page.spots]
a = [50, 50]
b = [64, 50]
c = [57, 60]
d = [57, 40]
e = [71, 60]
f = [43, 60]
"""


def test_check_lists_no_page_with_a_fault_of_its_own_but_those_that_only_layout_refuses(
    tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    chapter = book.parent / "one.toml"
    text = chapter.read_text("utf-8")
    assert _listed(book, capsys) == {"Path", "Fork", "Star"}
    (book.parent / "heron.svg").write_text("no picture", "utf-8")
    assert _listed(book, capsys) == {"Fork", "Star"}
    apart = text.replace("head = [50, 12]", "head = [50, 39]")  # on the heart of its own page
    chapter.write_text(apart, "utf-8")
    assert _listed(book, capsys) == {"Star"}
    (book.parent / "heron.svg").write_text(SVG.format('<rect width="99" height="99"/>'), "utf-8")
    links = text[text.index("links") : text.index("[[page]]", text.index("links"))]
    crossed = text.replace(links, CROWDED, 1)
    chapter.write_text(crossed, "utf-8")
    assert _listed(book, capsys) == {"Path", "Fork", "Star"}
    assert "no-clean-layout" in _codes(book, capsys)


def _checked(book: Path, capsys: Capture) -> dict[str, list[dict[str, Any]]]:
    run(["check", str(book), "--json"])
    found: dict[str, list[dict[str, Any]]] = json.loads(capsys.readouterr().out)
    return found


def _listed(book: Path, capsys: Capture) -> set[str]:
    return {page["name"] for page in _checked(book, capsys)["pages"]}


def _codes(book: Path, capsys: Capture) -> set[str]:
    return {problem["code"] for problem in _checked(book, capsys)["problems"]}


def test_a_huge_picture_in_a_small_file_is_refused_quickly(tmp_path: Path, capsys: Capture) -> None:
    book = write_book(tmp_path / "little-book")
    (book.parent / "newt.svg").unlink()
    (book.parent / "newt.png").write_bytes(_huge_png())
    chapter = book.parent / "one.toml"
    chapter.write_text(chapter.read_text("utf-8").replace("newt.svg", "newt.png"), "utf-8")
    (book.parent / "book.toml").write_text('title = "x"\nchapters = ["one.toml"]\n', "utf-8")
    assert run(["check", str(book)]) == 1
    assert "50,000" in capsys.readouterr().err


def _huge_png() -> bytes:
    """The head of a PNG of 50,000 x 50,000 pixels: nobody has to decode it to know its size."""
    head = png_chunk(b"IHDR", struct.pack(">IIBBBBB", 50_000, 50_000, 8, 2, 0, 0, 0))
    rows = png_chunk(b"IDAT", zlib.compress(bytes(150_001) * 20, 9))
    return b"\x89PNG\r\n\x1a\n" + head + rows + png_chunk(b"IEND", b"")


def test_art_that_reaches_for_other_files_is_printed_without_them_and_that_is_told(
    tmp_path: Path, capsys: Capture
) -> None:
    book = write_book(tmp_path / "little-book")
    for source in ("https://example.org/otter.png", "file:///etc/passwd", "heron.svg"):
        art = SVG.format(f'<rect width="100" height="120"/><image href="{source}" width="9"/>')
        (book.parent / "newt.svg").write_text(art, "utf-8")
        assert run(["check", str(book)]) == 0
        told = capsys.readouterr().err
        assert "warning" in told
        assert "newt.svg" in told


def test_a_byte_order_mark_is_read_and_an_absolute_path_allowed(tmp_path: Path) -> None:
    book = write_book(tmp_path / "little-book")
    chapter = book.parent / "one.toml"
    art = str(book.parent / "newt.svg").replace("\\", "/")
    text = chapter.read_text("utf-8").replace("newt.svg", art)
    chapter.write_bytes(b"\xef\xbb\xbf" + text.encode())
    assert run(["build", str(book), "--out", str(tmp_path)]) == 0
    for file in tmp_path.glob("little-book.*"):
        assert art.encode() not in file.read_bytes()


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="needs a folder it may not write")
def test_a_read_only_folder_ends_with_three(tmp_path: Path, capsys: Capture) -> None:
    book = write_book(tmp_path / "little-book")
    out = tmp_path / "out"
    out.mkdir(mode=0o500)
    assert run(["build", str(book), "--out", str(out)]) == 3
    assert "--out" in capsys.readouterr().err


@pytest.mark.parametrize("delay", [0.05, 0.3, 0.6, 0.9, 1.2, 1.6])
def test_a_build_that_is_killed_leaves_the_last_good_book(delay: float, tmp_path: Path) -> None:
    book = write_book(tmp_path / "little-book")
    run(["build", str(book), "--out", str(tmp_path)])
    good = (tmp_path / "little-book.pdf").read_bytes()
    command = [sys.executable, "-m", "bookmaker", "build", str(book), "--out", str(tmp_path)]
    process = subprocess.Popen([*command, "--paper", "a4"], stderr=subprocess.DEVNULL)
    time.sleep(delay)
    process.send_signal(signal.SIGKILL if os.name != "nt" else signal.SIGTERM)
    process.wait()
    assert (tmp_path / "little-book.pdf").read_bytes() == good


def test_being_interrupted_ends_with_130(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("bookmaker.compile.prepare", interrupted)
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 130
    assert "Interrupted" in capsys.readouterr().err


def test_an_interrupt_that_a_library_turns_into_a_fault_still_ends_with_130_and_one_line(
    tmp_path: Path,
) -> None:
    """cairo writes through calls back into Python: an interrupt there comes out as its fault."""
    swallow = "try: signal.raise_signal(signal.SIGINT)\n    except KeyboardInterrupt: pass"
    script = (
        "import signal, sys, bookmaker.compile\n"
        f"def prepare(*_):\n    {swallow}\n"
        "    print('a trace of theirs', file=sys.stderr)\n    raise OSError('half written')\n"
        "bookmaker.compile.prepare = prepare\n"
        "from bookmaker.cli import main\nmain()\n"
    )
    book = write_book(tmp_path / "little-book")
    command = [sys.executable, "-c", script, "build", str(book), "--out", str(tmp_path / "out")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 130
    assert done.stderr == "Interrupted. What was there before is still there.\n"
    assert not (tmp_path / "out").exists()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_table_that_finds_no_room_ends_with_three(tmp_path: Path) -> None:
    book = write_book(tmp_path / "little-book")
    with Path("/dev/full").open("w") as full:
        command = [sys.executable, "-m", "bookmaker", "check", str(book)]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 3
    assert "can't be written" in done.stderr


def test_a_home_that_nothing_can_be_kept_in_does_not_stop_a_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = write_book(tmp_path / "little-book")
    (tmp_path / "file").write_text("no folder", "utf-8")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 0
    good = (tmp_path / "little-book.pdf").read_bytes()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert run(["build", str(book), "--out", str(tmp_path / "again")]) == 0
    assert (tmp_path / "again" / "little-book.pdf").read_bytes() == good


def test_a_certificate_that_fails_its_check_ends_with_five(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setattr("bookmaker.puzzle.certificates.breaches", lambda *_: ("two the same",))
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 5
    assert "Nothing was written" in capsys.readouterr().err
    assert not list(tmp_path.glob("*.pdf"))


def test_a_finished_file_that_fails_its_check_ends_with_five(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    nothing = Pressed((b"%PDF-1.7 nothing",))
    monkeypatch.setattr("bookmaker.compile.press", lambda *_, **__: nothing)
    book = write_book(tmp_path / "little-book")
    assert run(["build", str(book), "--out", str(tmp_path)]) == 5
    assert "FinishedFileFault" in capsys.readouterr().err
    assert not list(tmp_path.glob("*.pdf"))


@pytest.mark.parametrize(
    ("module", "error", "words"),
    [
        ("cairocffi", "OSError('no library called cairo-2')", "apt-get install libcairo2"),
        ("cairosvg", "OSError('no library called cairo-2')", "cairo"),
        ("pikepdf", "ModuleNotFoundError('No module named pikepdf')", "pip install --editable ."),
        ("PIL", "ImportError('libjpeg.so.62: no such file')", "libjpeg"),
    ],
)
def test_a_missing_library_ends_with_four_and_says_how_to_install_it(
    module: str, error: str, words: str, tmp_path: Path
) -> None:
    """Run apart, with an import that fails the way cairo's does where it is not installed."""
    book = write_book(tmp_path / "little-book")
    (tmp_path / "lib").mkdir()
    (tmp_path / "lib" / f"{module}.py").write_text(f"raise {error}")
    done = subprocess.run(
        [sys.executable, "-m", "bookmaker", "build", str(book), "--out", str(tmp_path / "out")],
        env={**os.environ, "PYTHONPATH": str(tmp_path / "lib"), "XDG_CACHE_HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 4, done.stderr
    assert words in done.stderr
    assert "Traceback" not in done.stderr
