"""Names: ids out of them, the nearest known one to a misspelt one, values shown in a message."""

from __future__ import annotations

import datetime
import difflib
import unicodedata
from collections.abc import Iterable, Mapping, Sequence

from bookmaker.reading.toml import Written

_ACCENTS = ("\u0300", "\u036f")
"""The combining marks of Latin, Greek and Cyrillic; in other scripts a mark is a letter's part."""


def id_of(name: str) -> str:
    """Lower case, accents dropped, all but letters and digits (of any script) single hyphens."""
    apart = unicodedata.normalize("NFKD", name)
    plain = "".join(sign for sign in apart if not _ACCENTS[0] <= sign <= _ACCENTS[1])
    signs = unicodedata.normalize("NFC", plain.lower())
    kept = "".join(sign if _is_letter(sign) else " " for sign in signs)
    return "-".join(kept.split())


def is_called(name: str, asked: str) -> bool:
    """Whether the page ``name`` is the one ``asked`` for, by name or id, however it is typed."""
    return bool(name) and (asked == name or id_of(asked) == id_of(name))


def composed(name: str) -> str:
    """``name`` with each accent in one code point with its letter (Unicode's form NFC): keyboards
    and programs write it in one or two, and nobody sees which."""
    return unicodedata.normalize("NFC", name)


def by_letters(names: Iterable[str]) -> dict[str, str]:
    """``names`` as they are written, by their composed forms."""
    return {composed(name): name for name in names}


def is_spot_name(name: str) -> bool:
    """Whether ``name`` is of letters (of any script), digits and underscores."""
    return bool(name) and all(sign == "_" or _is_letter(sign) for sign in name)


def _is_letter(sign: str) -> bool:
    return sign.isalnum() or unicodedata.category(sign).startswith("M")


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that is spelt most like ``word``; None where nothing is known."""
    likeness = difflib.SequenceMatcher(autojunk=False)
    likeness.set_seq2(word[:100].lower())

    def score(candidate: str) -> float:
        likeness.set_seq1(candidate[:100].lower())
        return likeness.ratio()

    return max(known, key=score, default=None)


def is_near(word: str, known: str) -> bool:
    """Whether ``word`` may well be ``known``, misspelt."""
    return difflib.SequenceMatcher(None, word[:100].lower(), known.lower()).ratio() >= 0.6


def show(value: object) -> str:
    """``value`` as a teacher would say it, on one line and of bounded length."""
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return f'"{shorten(value)}"' if value else "an empty text"
        case int():
            return str(value) if abs(value) < 10**15 else "a very large number"
        case Written():
            return shorten(value.text)
        case Mapping():
            return "a table"
        case datetime.date() | datetime.time():
            return "a date"
        case _:
            return "a list"


def shorten(text: str, most: int = 40) -> str:
    """``text`` on one line, cut where it is longer than ``most`` signs."""
    visible = "".join(sign if sign.isprintable() else " " for sign in text[: 2 * most])
    line = " ".join(visible.split())
    return line if len(line) <= most else line[: most - 1] + "…"


def many(count: int, thing: str) -> str:
    """``"1 page"``, ``"12 pages"``."""
    return f"{count:,} {thing}" if count == 1 else f"{count:,} {thing}s"


def name_all(names: Sequence[str], most: int = 12) -> str:
    """``"nose, back and tail"``."""
    shown = [shorten(name) for name in names[:most]]
    if len(names) > most:
        shown.append(f"{len(names) - most} more")
    return " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)
