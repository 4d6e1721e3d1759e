"""Manifests written for those who have none: names out of file names, and their TOML."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Collection, Mapping, Sequence

from bookmaker.model import Point
from bookmaker.reading.names import composed, id_of

LONGEST = 60
"""Letters of a name that is made of a file's; a title has one line."""
PAGES_NOTE = """\
# One page for each picture. Spots are in per cent of the picture, from its left and its top.
# Rename, move, add and remove what you like: bookmaker begin only adds new pictures at the end.
"""


def readable(stem: str) -> str:
    """A file's name without its ending as people write it: "red_fox-02" -> "Red fox 2"."""
    signs = (sign if _is_kept(sign) else " " for sign in composed(stem))
    words = [re.sub(r"^0+(?=\d)", "", word) for word in "".join(signs).split()]
    name = " ".join(words)[:LONGEST].strip()
    return name[:1].upper() + name[1:]


def _is_kept(sign: str) -> bool:
    return bool(id_of(sign)) or sign in "'’&"


def name_for(
    stem: str, taken: Collection[str], otherwise: str, is_printable: Callable[[str], bool]
) -> str:
    """A page's name for the picture ``stem``, whose id is none of ``taken``.

    ``otherwise`` where the file's name has no letter, or one that can't be printed.
    """
    name = readable(stem)
    if not id_of(name) or not is_printable(name):
        name = otherwise
    number, found = 1, name
    while id_of(found) in taken:
        number += 1
        found = f"{name} {number}"
    return found


def page_text(name: str, art: str, spots: Sequence[Point]) -> str:
    """A ``[[page]]`` whose links are left to us; ``art`` is relative to the manifest."""
    lines = ["[[page]]", f"name  = {_quoted(name)}", f"art   = {_quoted(art)}", 'links = "auto"']
    lines.append("[page.spots]")
    lines += [f"spot_{i} = [{x:g}, {y:g}]" for i, (x, y) in enumerate(spots, 1)]
    return "\n".join(lines) + "\n"


def chapter_text(title: str) -> str:
    """The head of a chapter."""
    return f"{PAGES_NOTE}title = {_quoted(title)}\n"


def book_text(title: str, chapter: str, keys: Mapping[str, str], weeks: int | None) -> str:
    """A book of one chapter that climbs; ``keys`` are further ones with their values."""
    said = {"title": title, **keys}
    lines = [f"{key:8} = {_quoted(value)}" for key, value in said.items()]
    lines += ["climb    = true", f"chapters = [{_quoted(chapter)}]"]
    if weeks is not None:
        lines += ["", "[term]", f"weeks = {weeks}"]
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    """A basic string of TOML, which has JSON's escapes (and wants DEL escaped as well)."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
