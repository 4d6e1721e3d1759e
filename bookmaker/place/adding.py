"""Pictures added: looked at as a build does, put beside the manifest, never over a file."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import AsyncIterator
from dataclasses import replace
from pathlib import Path
from typing import Final

from bookmaker.cache import Cache
from bookmaker.output import OutputFault
from bookmaker.pictures import Limits, PictureFault, kind_of, take_in
from bookmaker.place.draft import Draft, PageText
from bookmaker.place.edits import Refused, page_text
from bookmaker.place.loosely import page_values
from bookmaker.reading import id_of

ENDS: Final = {
    "svg": (".svg", ".svgz"),
    "jpeg": (".jpg", ".jpeg"),
    "png": (".png",),
    "gif": (".gif",),
    "webp": (".webp",),
    "tiff": (".tif", ".tiff"),
    "bmp": (".bmp",),
    "heif": (".heic", ".heif"),
    "avif": (".avif",),
}
"""How a file of each kind may end; the first where its own name ends otherwise."""
MOST: Final = Limits().file_bytes


async def received(stream: AsyncIterator[bytes], folder: Path) -> Path:
    """What the browser sends, in a file of its own in ``folder``. Raises Refused, OutputFault."""
    size = 0
    try:
        handle, name = tempfile.mkstemp(prefix=".bookmaker-", suffix=".part", dir=folder)
    except OSError as error:
        raise OutputFault(f"{folder} can't be written: {error.strerror}.") from error
    try:
        with os.fdopen(handle, "wb") as file:
            async for piece in stream:
                size += len(piece)
                if size > MOST:
                    raise Refused("place.refused.large", mb=MOST // 1_000_000)
                file.write(piece)
    except BaseException as error:
        Path(name).unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise OutputFault(f"{folder} can't be written: {error.strerror}.") from error
        raise
    return Path(name)


def put_beside(waiting: Path, called: str, cache: Cache) -> Path:
    """A picture that was received, moved to a name of its own; gives the file.

    ``called`` is what the browser says its name is: nothing of it but letters and digits is used.
    Raises Refused where it is no picture that can be printed.
    """
    found = take_in([waiting], cache=cache)[waiting]
    if isinstance(found, PictureFault):
        large = found.code == "art-too-large"
        key = "place.refused.pixels" if large else "place.refused.picture"
        raise Refused(key, name=_shown(called))
    stem, end = _name_of(called, ENDS[kind_of(waiting.read_bytes())])
    for number in range(1, 10_000):
        place = waiting.parent / (f"{stem}{end}" if number == 1 else f"{stem}-{number}{end}")
        try:
            _copied(waiting, place)
        except FileExistsError:
            continue
        except OSError as error:
            raise OutputFault(f"{place} can't be written: {error.strerror}.") from error
        return place
    raise Refused("place.refused.large", mb=0)


def _copied(waiting: Path, place: Path) -> None:
    """The bytes put into a file that was not there: nothing is ever written over, no link followed.

    Raises FileExistsError.
    """
    with place.open("xb") as file:
        try:
            file.write(waiting.read_bytes())
        except BaseException:
            place.unlink(missing_ok=True)
            raise


def with_picture(draft: Draft, chapter: int, picture: Path, uid: int) -> Draft:
    """A page for a picture that lies beside its chapter, at the chapter's end."""
    file = draft.files[chapter]
    names = {id_of(str(page_values(page.text).get("name", ""))) for page in _pages(draft)}
    newline = "\r\n" if "\r\n" in file.head else "\n"
    text = page_text({"name": _readable(picture.stem, names), "art": picture.name}, newline)
    pages = file.pages
    if pages and not pages[-1].text.endswith("\n"):
        pages = (*pages[:-1], replace(pages[-1], text=f"{pages[-1].text}{newline}"))
    return draft.with_file(replace(file, pages=(*pages, PageText(uid, text))))


def _pages(draft: Draft) -> list[PageText]:
    return [page for file in draft.files for page in file.pages]


def _readable(stem: str, names: set[str]) -> str:
    """A page's name out of a file's: "red_fox-02" is "Red fox 2"."""
    words = re.findall(r"[^\W_]+", stem)
    plain = " ".join(str(int(word)) if word.isdecimal() else word for word in words) or "1"
    name, number = plain[:1].upper() + plain[1:], 2
    shown = name
    while id_of(shown) in names:
        shown, number = f"{name} {number}", number + 1
    return shown


def _name_of(called: str, ends: tuple[str, ...]) -> tuple[str, str]:
    last = re.split(r"[/\\]", called)[-1][:200]
    stem, dot, end = last.rpartition(".")
    stem = stem if dot else last
    plain = re.sub(r"[^\w\- ]+", "", stem).strip(" -_.")[:60].strip() or "picture"
    wanted = f".{end.lower()}" if dot else ""
    return plain, wanted if wanted in ends else ends[0]


def _shown(called: str) -> str:
    return re.split(r"[/\\]", called)[-1][:60]
