"""Structure-aware fuzzing: sound manifests, tables and pictures, and what becomes of them when
pieces are taken out, doubled, swapped or put in another's place. All from a seed."""

from __future__ import annotations

import io
import random
import re
from collections.abc import Callable, Sequence

import numpy as np
from PIL import Image

STRANGE = (
    *("0", "-1", "7", "1e400", "nan", "true", '""', '"x"', "[]", "{}", "[1, 2]", "[[]]", "1 1/4"),
    *('"\\u0000"', '"\\ud7ff"', "'''", '"""', "[", "]", "{", "}", "=", ".", ",", "#", "\n", "\t"),
    *("\u202e", "\ufeff", "é", "e\u0301", "²", "９", "💧", "1979-05-27", "0x" + "f" * 50, "9" * 30),
)
"""What stands in for a token of a manifest or a cell of a table."""

_TOKEN = re.compile(r"\[\[?[\w.]+\]?\]|\"[^\"\n]*\"|[\w.-]+|\s+|.", re.DOTALL)


def mutated(pieces: Sequence[str], rng: random.Random, strange: Sequence[str]) -> list[str]:
    """``pieces`` with one to four changes."""
    found = list(pieces)
    for _ in range(rng.randint(1, 4)):
        at, other = rng.randrange(len(found)), rng.randrange(len(found))
        match rng.randrange(6):
            case 0:
                del found[at]
            case 1:
                found.insert(at, found[other])
            case 2:
                found[at], found[other] = found[other], found[at]
            case 3:
                found[at] = rng.choice(strange)
            case 4:
                found.insert(at, rng.choice(strange))
            case _:
                del found[min(at, other) : max(at, other)]
        found = found or [""]
    return found


def toml(text: str, rng: random.Random) -> str:
    """A manifest with some of its tokens, or some of its lines, changed."""
    pieces = _TOKEN.findall(text) if rng.random() < 0.6 else text.splitlines(keepends=True)
    return "".join(mutated(pieces, rng, STRANGE))


def csv(rows: Sequence[Sequence[str]], rng: random.Random) -> bytes:
    """A table with changed cells or rows, parted and encoded as some spreadsheet might."""
    part, end = rng.choice(",;\t"), rng.choice(("\n", "\r\n", "\r"))
    cells = [cell for row in rows for cell in (*row, end)]
    lines = "".join(part + cell if cell != end else cell for cell in mutated(cells, rng, STRANGE))
    text = re.sub(rf"(^|{end}){re.escape(part)}", r"\1", lines)
    encoding = rng.choice(("utf-8", "utf-8-sig", "utf-16", "cp1252"))
    data = bytearray(text.encode(encoding, "replace"))
    if rng.random() < 0.2 and data:
        data[rng.randrange(len(data))] = rng.randrange(256)
    return bytes(data)


def svg(rng: random.Random) -> bytes:
    """A drawing of shapes, groups, copies, gradients, clips and sheets, drawn from a grammar."""
    pieces = [_shape(rng) for _ in range(rng.randint(1, 6))]
    box = rng.choice(("0 0 100 100", "-20 -20 140 140", "0 0 60 100"))
    defs = "".join(_definition(rng, n) for n in range(3))
    sheet = rng.choice(("", "<style>.a{fill:#583}.b{stroke:#a52;stroke-width:4}svg>g{opacity:.8}"))
    body = f"{sheet}{'</style>' if sheet else ''}<defs>{defs}</defs>{''.join(pieces)}"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}">{body}</svg>'.encode()


def damaged(data: bytes, rng: random.Random) -> bytes:
    """Bytes with some changed, left out, doubled or cut off."""
    found = bytearray(data)
    for _ in range(rng.randint(1, 4)):
        at, length = rng.randrange(len(found)), rng.choice((1, 2, 8, 100))
        match rng.randrange(5):
            case 0:
                found[at] = rng.randrange(256)
            case 1:
                del found[at : at + length]
            case 2:
                found[at:at] = found[at : at + length]
            case 3:
                found[at : at + 2] = rng.choice((b"\xff\xff", b"\0\0", b"\x7f\xff"))
            case _:
                del found[max(at, 1) :]
        found = found or bytearray(b"\0")
    return bytes(found)


def raster(rng: random.Random) -> tuple[bytes, str]:
    """A raster of any form, mode and turn, and the ending of its name."""
    mode = rng.choice(("L", "RGB", "RGBA", "P", "1", "LA", "I;16", "F", "CMYK"))
    kinds = {
        **dict.fromkeys(("I;16", "F"), ("TIFF",)),
        **dict.fromkeys(("RGBA", "LA"), ("PNG", "WEBP", "TIFF")),
        "CMYK": ("JPEG", "TIFF"),
    }
    form = rng.choice(kinds.get(mode, ("PNG", "GIF", "TIFF", "BMP", "JPEG", "WEBP")))
    plain = mode in ("P", "1") and form in ("JPEG", "WEBP")
    image = _pattern(rng, "RGB" if plain else mode)
    options: dict[str, object] = {}
    if form in ("JPEG", "PNG", "WEBP") and rng.random() < 0.5:
        exif = Image.Exif()
        exif[274] = rng.randint(1, 8)
        options["exif"] = exif
    if form == "JPEG":
        options["progressive"] = rng.random() < 0.3
    out = io.BytesIO()
    image.save(out, form, **options)
    return out.getvalue(), form.lower()


def _pattern(rng: random.Random, mode: str) -> Image.Image:
    wide, high = rng.randint(20, 90), rng.randint(20, 90)
    across, down = np.meshgrid(np.linspace(0, 1, wide), np.linspace(0, 1, high))
    ramp = across if rng.random() < 0.5 else across * down
    if mode == "I;16":
        return Image.fromarray((ramp * 65535).astype(np.uint16))
    if mode == "F":
        return Image.fromarray((ramp * rng.choice((1, 255))).astype(np.float32))
    bands = [ramp, down, 1 - across, np.where(down > 0.5, 1.0, ramp)]
    image = Image.fromarray((np.stack(bands, axis=2) * 255).astype(np.uint8), "RGBA")
    return image.convert("RGB").convert(mode) if mode != "RGBA" else image


def _shape(rng: random.Random, depth: int = 0) -> str:
    n = [rng.randint(0, 100) for _ in range(8)]
    looks = _looks(rng)
    if depth < 3 and rng.random() < 0.3:
        inside = "".join(_shape(rng, depth + 1) for _ in range(rng.randint(1, 3)))
        return f"<g {looks}>{inside}</g>"
    forms: tuple[Callable[[], str], ...] = (
        lambda: f'<rect x="{n[0]}" y="{n[1]}" width="{n[2] + 5}" height="{n[3] + 5}" {looks}/>',
        lambda: f'<circle cx="{n[0]}" cy="{n[1]}" r="{n[2] / 2 + 3}" {looks}/>',
        lambda: (
            f'<ellipse cx="{n[0]}" cy="{n[1]}" rx="{n[2] / 2 + 3}" ry="{n[3] / 2 + 3}" {looks}/>'
        ),
        lambda: f'<path d="M{n[0]} {n[1]}L{n[2]} {n[3]} {n[4]},{n[5]}z" {looks}/>',
        lambda: f'<path d="M{n[0]} {n[1]}C{n[2]} {n[3]} {n[4]} {n[5]} {n[6]} {n[7]}" {looks}/>',
        lambda: f'<path d="M+{n[0]}+{n[1]}l{n[2]}-{n[3]}q-9+{n[4]} 8-7h-20v{n[5]}" {looks}/>',
        lambda: f'<polygon points="{n[0]},{n[1]} {n[2]},{n[3]} {n[4]},{n[5]}" {looks}/>',
        lambda: f'<use href="#d0" x="{n[0] / 4}" y="{n[1] / 4}"/>',
    )
    return rng.choice(forms)()


def _looks(rng: random.Random) -> str:
    said = {
        "fill": ("#c84", "rgb(40, 90, 60)", "none", "url(#d1)", "hsl(200 40% 40%)", "teal"),
        "stroke": ("#222", "none", "#36c", "navy"),
        "stroke-width": ("1", "6", "3px", "NaN"),
        "opacity": ("1", ".5", "60%", ""),
        "transform": ("translate(+5 5)", "rotate(20 50 50)", "scale(.8)", "skewX(10)"),
        "fill-rule": ("evenodd", "nonzero"),
        "paint-order": ("stroke", "normal"),
        "class": ("a", "b", "a b"),
        "clip-path": ("url(#d2)",),
    }
    wanted = rng.sample(sorted(said), rng.randint(1, 4))
    return " ".join(f'{key}="{rng.choice(said[key])}"' for key in wanted)


def _definition(rng: random.Random, number: int) -> str:
    stops = '<stop stop-color="#e9c46a"/><stop offset="1" stop-color="#264653"/>'
    rule = rng.choice(("", ' clip-rule="evenodd"'))
    return (
        '<rect id="d0" x="10" y="20" width="30" height="20" fill="#496"/>',
        f'<linearGradient id="d1" gradientUnits="userSpaceOnUse" x2="100">{stops}</linearGradient>',
        f'<clipPath id="d2"><path{rule} d="M5 5H95V95H5ZM30 30H70V70H30Z"/></clipPath>',
    )[number]
