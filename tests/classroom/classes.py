"""A class in a folder of its own: a little book, a roster, sheets as they come back.

The sheets are those of the program's own PDF, drawn by pypdfium2 (another renderer than any that
the program prints with), drawn on and photographed by the simulated camera.
"""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from bookmaker.scanning.sheet_plan import sheet_plan
from tests.cli.little_book import write_book
from tests.scanning.camera import Scan, Shot, photograph, scan
from tests.scanning.drawings import drawing, frame_size, lay_on
from tests.scanning.rendering import rendered

DPI = 150.0

ROSTER = """pupil;page;drawing;name;creature;credit
Amina;star;class;yes;Dragon;
Bruno;fork;class;no;;
Chidi;path;own;yes;Moss beast;Chidi the brave
Dora;star;no;yes;Secret newt;
"""


def write_class(folder: Path, roster: str = ROSTER) -> Path:
    """Write a class beside a little book into ``folder``; gives its manifest."""
    book = write_book(folder / "little-book")
    room = folder / "heron-class"
    room.mkdir()
    (room / "roster.csv").write_text(roster, "utf-8")
    (room / "class.toml").write_text(
        f'title = "Heron Class"\nbook = "../{book.parent.name}/{book.name}"\n'
        'roster = "roster.csv"\n',
        "utf-8",
    )
    return room / "class.toml"


def printed(pdf: Path, sheet: int) -> Image.Image:
    """The side of ``pdf`` that is the ``sheet``-th, as the printer puts it on paper."""
    return rendered(pdf.read_bytes(), sheet - 1, DPI)


def drawn_on(page: Image.Image, seed: int, kind: str = "crayon", paper: str = "a4") -> Image.Image:
    """``page`` with a child's drawing in its frame."""
    frame = sheet_plan(paper).frame
    layer = drawing(kind, frame_size(frame, DPI), seed, DPI)
    return lay_on(page, layer, frame, DPI)


def photo(page: Image.Image, seed: int, **circumstances: object) -> bytes:
    """A photograph of ``page``, a JPEG that says where it was taken and with what."""
    shot = Shot(seed, 2048, 1536, tilt=12, turn=80, **circumstances)  # type: ignore[arg-type]
    taken = photograph(page, sheet_plan("a4"), shot)
    return with_tales(taken.data)


def with_tales(jpeg: bytes) -> bytes:
    """The same picture with EXIF: maker, model and GPS (tags of the EXIF 2.32 standard)."""
    picture = Image.open(io.BytesIO(jpeg))
    exif = Image.Exif()
    exif[0x010F], exif[0x0110] = "Telltale", "Telephone of Amina"
    exif.get_ifd(0x8825)[1] = "N"
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=88, exif=exif)
    return out.getvalue()


def copied(page: Image.Image, seed: int) -> bytes:
    """A copier's scan of ``page``."""
    return scan(page, sheet_plan("a4"), Scan(seed, dpi=150, quarter=seed % 4, skew=1.0)).data


def ink(png: Path) -> float:
    """The part of a kept drawing that is not white paper."""
    with Image.open(png) as picture:
        return float((np.asarray(picture.convert("L")) < 240).mean())


def with_rings(page: Image.Image, middles: list[tuple[float, float]]) -> Image.Image:
    """``page`` with dark rings drawn by hand in its frame, 20 mm wide; middles in millimetres."""
    done, scale = page.copy(), DPI / 25.4
    pen, frame = ImageDraw.Draw(done), sheet_plan("a4").frame
    for x, y in middles:
        turns = np.linspace(0, 2 * np.pi, 80)
        far = 10 + 0.5 * np.sin(3 * turns)
        points = [
            ((frame.x + x + r * np.cos(t)) * scale, (frame.y + y + r * np.sin(t)) * scale)
            for t, r in zip(turns, far, strict=True)
        ]
        pen.line(points, fill=(40, 36, 40), width=round(1.2 * scale))
    return done
