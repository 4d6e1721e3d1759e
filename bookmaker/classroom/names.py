"""Words of names, and texts looked through for them: capitals, accents and endings do not count."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Final

LEAST: Final = 2
"""Letters that a word of a name has to have to be looked for."""
STEM: Final = 3
"""Letters from which a word of another script is known whatever its ending."""
_OF: Final = ("sche", "scher", "sches", "schen")
ENDINGS: Final = frozenset(
    (*("s", "es", "ns", "ens", "n", "en", "e", "y", "ie", "ies", "ys", "chen", "lein"), *_OF)
)
"""What a name may end in and be the same: plurals, genitives and pet names of the languages that
books are printed in (common practice, no source)."""
PET_NAMES: Final = frozenset(
    ("ito", "ita", "itos", "itas", "ino", "ina", "inho", "inha", "inhos", "inhas")
)
"""Endings before which a name may lose its last vowel."""

_LETTERS: Final = {
    "ø": "o",
    "ł": "l",
    "đ": "d",
    "ð": "d",
    "þ": "th",
    "æ": "ae",
    "œ": "oe",
    "ı": "i",
}
"""Letters that Unicode does not take apart into a plain one and a mark."""
_SPELT_OUT: Final = {"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe"}
"""How some letters are spelt where a keyboard lacks them."""
_RUN: Final = re.compile(r"[^\W\d_]+")
_APOSTROPHES: Final = re.compile("['’ʼ‘`´]")
_NO_BLANKS: Final = re.compile(
    r"[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u3040-\u30ff\u3400-\u9fff\uac00-\ud7af]"
)
"""Scripts in which a name may stand within a run: Thai, Lao, Burmese, Khmer, kana, Han, Hangul."""
_PREFIXED: Final = re.compile(r"[\u0590-\u06ff]")
"""Hebrew and Arabic, which write "and" and "to" onto the word that follows."""


def words_of(name: str) -> frozenset[str]:
    """The words of ``name`` by which somebody may be known, folded; no numbers, no initials."""
    return frozenset(
        word for spelling in _spellings(name) for word in _words(spelling) if len(word) >= LEAST
    )


def named_in(text: str, words: Iterable[str]) -> str:
    """The first of ``words`` (as ``words_of`` gives them) that stands in ``text``, or ""."""
    there = [word for form in (text, _parted(text)) for s in _spellings(form) for word in _words(s)]
    return next((word for word in sorted(words) if any(_is(word, each) for each in there)), "")


def stems_of(text: str) -> Iterator[str]:
    """Every word of ``text`` and what is left of it without an ending, for words kept as hashes."""
    for spelling in (*_spellings(text), *_spellings(_parted(text))):
        for word in _words(spelling):
            yield word
            yield from (word[: -len(end)] for end in ENDINGS | PET_NAMES if word.endswith(end))
            yield from (word[:at] for at in range(STEM, len(word)) if not word.isascii())


def _spellings(text: str) -> tuple[str, ...]:
    """``text`` in small plain letters; with marks left out and with them spelt out."""
    small = unicodedata.normalize("NFC", unicodedata.normalize("NFKC", text).casefold())
    letters = (c for c in unicodedata.normalize("NFD", small) if unicodedata.category(c)[0] != "M")
    plain = unicodedata.normalize("NFC", "".join(_LETTERS.get(c, c) for c in letters))
    spelt = "".join(_SPELT_OUT.get(letter, letter) for letter in small)
    return (plain, spelt) if spelt != small else (plain,)


def _parted(text: str) -> str:
    """``text`` with "RedFox" as two words."""
    humps = (b and a.islower() and b.isupper() for a, b in pairwise(f"{text} "))
    return "".join(f"{c} " if hump else c for c, hump in zip(text, humps, strict=True))


def _words(spelling: str) -> list[str]:
    """Runs of letters; what an apostrophe parts counts as parted and as one."""
    parted = _RUN.findall(_APOSTROPHES.sub(" ", spelling))
    return [*parted, *_RUN.findall(_APOSTROPHES.sub("", spelling))]


def _is(word: str, there: str) -> bool:
    """Whether ``there`` is ``word``, maybe with an ending or within a run of its script."""
    if _NO_BLANKS.search(word) or (_PREFIXED.search(word) and len(word) >= STEM):
        return word in there
    if there.startswith(word):
        end = there.removeprefix(word)
        other_script = not word.isascii() and len(word) >= STEM and len(end) <= STEM
        return not end or end in ENDINGS | PET_NAMES or other_script
    stem = word[:-1]  # Carla, Carlita
    return len(word) > STEM and there.startswith(stem) and there.removeprefix(stem) in PET_NAMES
