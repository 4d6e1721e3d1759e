"""The pictures in a folder, in the order of their names."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, UnidentifiedImageError

MAKER = "bookmaker proof"
"""What a proof's PNG says it was written by."""
ENDINGS = frozenset(
    (
        *("svg", "svgz", "png", "jpg", "jpeg", "jpe", "jfif", "webp", "tif", "tiff", "gif"),
        *("bmp", "dib", "heic", "heif", "hif", "avif"),
    )
)


@dataclass(frozen=True, slots=True)
class InFolder:
    """Pictures in the order of their names, names of other files, pictures in folders inside."""

    pictures: tuple[Path, ...]
    left: tuple[str, ...]
    inside: int


def pictures_in(folder: Path, deep: bool) -> InFolder:
    """What ``folder`` holds, and the folders inside it where ``deep``.

    Hidden files are passed over, and so are manifests and the proofs that were written beside the
    pictures. Links to folders are not followed. "newt 2" stands before "newt 10".
    """
    pictures: list[Path] = []
    left: list[str] = []
    inside = 0
    for where, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        here = Path(where)
        for name in files:
            if name.startswith(".") or name.endswith(".toml"):
                continue
            is_picture = name.rpartition(".")[2].lower() in ENDINGS
            if here != folder and not deep:
                inside += is_picture
            elif not is_picture:
                left.append(name)
            elif not _is_proof(here / name):
                pictures.append(here / name)
    pictures.sort(key=lambda art: [(_naturally(p), p) for p in art.relative_to(folder).parts])
    return InFolder(tuple(pictures), tuple(sorted(left)), inside)


def _naturally(name: str) -> list[tuple[int, int, str]]:
    """A key that sorts numbers in names by what they are worth."""
    parts: list[tuple[int, int, str]] = []
    for sign in name.casefold():
        digit = int(sign) if sign.isdecimal() else -1
        if digit >= 0 and parts and parts[-1][0] == 0:
            parts[-1] = (0, parts[-1][1] * 10 + digit, "")
        else:
            parts.append((0, digit, "") if digit >= 0 else (1, 0, sign))
    return parts


def _is_proof(file: Path) -> bool:
    if file.suffix.lower() != ".png":
        return False
    try:
        with Image.open(file) as image:
            return bool(image.info.get("Software") == MAKER)
    except (OSError, UnidentifiedImageError, ValueError, SyntaxError, Image.DecompressionBombError):
        return False  # whoever takes it in says what is wrong
