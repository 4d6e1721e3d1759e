"""The faces of the book and their measures, read from the font files themselves."""

from __future__ import annotations

import importlib.util
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Final

from bookmaker.model import Face

POINT: Final = 25.4 / 72
"""One point in millimetres (the desktop-publishing point, 1/72 inch)."""


@dataclass(frozen=True, slots=True)
class FaceFile:
    """Where a face lies and how a renderer asks for it by name."""

    package: str
    family: str
    file: str
    bold: bool = False
    italic: bool = False

    @property
    def path(self) -> Path:
        spec = importlib.util.find_spec(self.package)
        if spec is None or spec.origin is None:
            raise ModuleNotFoundError(f"the font package {self.package} is missing")
        return Path(spec.origin).parent / "files" / self.file


_FIRA = ("fontpkg_fira_sans", "Fira Sans")

FACES: Final[Mapping[Face, FaceFile]] = {
    "text": FaceFile(*_FIRA, "FiraSans-Regular.ttf"),
    "strong": FaceFile(*_FIRA, "FiraSans-Bold.ttf", bold=True),
    "italic": FaceFile(*_FIRA, "FiraSans-Italic.ttf", italic=True),
    "title": FaceFile("fontpkg_rowdies", "Rowdies", "Rowdies-Regular.ttf"),
}


@dataclass(frozen=True, slots=True)
class _Metrics:
    advances: Mapping[int, float]
    cap_height: float


@cache
def _metrics(face: Face) -> _Metrics:
    from fontTools.ttLib import TTFont  # slow to import; --help must not pay for it

    with TTFont(FACES[face].path, lazy=True) as font:
        unit = font["head"].unitsPerEm
        widths = font["hmtx"].metrics
        advances = {code: widths[name][0] / unit for code, name in font.getBestCmap().items()}
        return _Metrics(advances, font["OS/2"].sCapHeight / unit)


def width(text: str, face: Face, size: float) -> float:
    """Width of ``text`` in millimetres when set in ``face`` at ``size`` points."""
    return _advance(text, face) * size * POINT


@lru_cache(maxsize=4096)
def _advance(text: str, face: Face) -> float:
    """Width in sizes of the type; the same words are measured again and again."""
    advances = _metrics(face).advances
    missing = advances[ord("?")]
    return sum(advances.get(ord(letter), missing) for letter in text)


def ascent(face: Face, size: float) -> float:
    """Height of a capital in millimetres at ``size`` points."""
    return _metrics(face).cap_height * size * POINT


def missing_letters(text: str, face: Face) -> tuple[str, ...]:
    """The letters of ``text`` that ``face`` can't print, each once, in their order."""
    advances = _metrics(face).advances
    return tuple(dict.fromkeys(letter for letter in text if ord(letter) not in advances))
