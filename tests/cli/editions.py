"""What tests of a class edition do with it: build it, say yes to a drawing, read what came out."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pikepdf
from pypdf import PdfReader

from bookmaker.cli.exits import run


def book_of(manifest: Path) -> str:
    return str(manifest.parent.parent / "little-book" / "book.toml")


def out_of(manifest: Path) -> Path:
    return manifest.parent.parent / "out"


def built(manifest: Path, *more: str, command: str = "build") -> int:
    out = str(out_of(manifest))
    return run([command, book_of(manifest), "--class", str(manifest), "--out", out, *more])


def say(manifest: Path, drawing: str, use: str) -> None:
    """The teacher's word in review.csv."""
    file = manifest.parent / "review.csv"
    lines = file.read_text("utf-8-sig").splitlines()
    for place, line in enumerate(lines):
        if line.startswith(f"{drawing};"):  # as the roster has it
            cells = line.split(";")
            lines[place] = ";".join([*cells[:3], use, *cells[4:]])
    file.write_text("\n".join(lines) + "\n", "utf-8")


def text_of(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(pdf).pages)


def everything_in(pdf: Path) -> bytes:
    """All that a PDF says anywhere but in pictures: strings of every object, streams unpacked."""
    found = io.BytesIO()
    with pikepdf.open(pdf) as document:
        for thing in document.objects:
            if isinstance(thing, pikepdf.Stream) and thing.get("/Subtype") != "/Image":
                found.write(thing.read_bytes())
            found.write(repr(thing).encode())
            found.write("".join(_strings(thing)).encode())
    return found.getvalue() + text_of(pdf).encode()


def _strings(thing: pikepdf.Object) -> Iterator[str]:
    if isinstance(thing, pikepdf.String):
        yield str(thing)
    elif isinstance(thing, pikepdf.Array):
        for each in thing:
            if isinstance(each, pikepdf.Object) and not each.is_indirect:
                yield from _strings(each)
    elif isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
        for each in thing.keys():  # noqa: SIM118 - it has no iterator of its own
            inner = thing[each]
            if isinstance(inner, pikepdf.Object) and not inner.is_indirect:
                yield from _strings(inner)
