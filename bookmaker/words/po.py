"""Tables of words: the text of a gettext ``.po`` file -> what is said for each key."""

from __future__ import annotations

import ast
import re

_LINE = re.compile(r'(?:(msgid|msgid_plural|msgstr(?:\[\d\])?)\s+)?("(?:[^"\\]|\\.)*")')
"""A keyword and a text, or a text that goes on with the one above (GNU gettext's manual, "The
Format of PO Files"). Texts are quoted and escaped as in C; Python reads all of it that we use."""


def read_po(text: str) -> dict[str, tuple[str, ...]]:
    """Each key's forms, one where it has no plural; the file's own head stands under ``""``.

    Raises ValueError for a line that is neither an entry's nor a comment.
    """
    entries: dict[str, tuple[str, ...]] = {}
    key, where = "", ""
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip() or line.startswith("#"):
            continue
        found = _LINE.fullmatch(line.strip())
        if not found:
            raise ValueError(f"line {number} of a table of words can't be read: {line}")
        part: str = ast.literal_eval(found[2])
        where, goes_on = found[1] or where, not found[1]
        if where == "msgid":
            key = key + part if goes_on else part
        elif where.startswith("msgstr"):
            forms = entries.get(key, ())
            entries[key] = (*forms[:-1], forms[-1] + part) if goes_on else (*forms, part)
    return entries
