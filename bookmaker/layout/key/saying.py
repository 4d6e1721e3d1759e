"""The teacher's data put into words."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import shorten

from bookmaker.model import CertifiedPage, LettersOf, Number, OneOf, PageNotes, Said, SpotOf
from bookmaker.typeset import missing_letters
from bookmaker.words import Words, spoken

LONGEST = 32
"""Letters that a name may have in a sentence."""
NO_BREAK = "\N{NO-BREAK SPACE}"


def said(told: Said, words: Words) -> str:
    """A sentence, its places filled with numbers, names and lists of them."""
    values = {name: shown(value, words) for name, value in told.values.items()}
    return words(told.key, told.count, **values)


def shown(value: object, words: Words) -> str:
    """A number as the language writes it, a page by its name, a sequence as a list.

    In a sentence a long name is shortened; whole it stands over its answer. A spot is told by its
    name and letter, by its letter alone where the type lacks letters of the name.
    """
    if isinstance(value, Said):
        return said(value, words)
    if isinstance(value, Number):
        return words.number(value.text)
    if isinstance(value, CertifiedPage):
        return short(value.name)
    if isinstance(value, OneOf):
        return listed([shown(each, words) for each in value.numbers], words, "list.or")
    if isinstance(value, LettersOf):
        return "–".join(value.page.letters[name] for name in value.names)
    if isinstance(value, SpotOf):
        letter = value.page.letters[value.name]
        if any(missing_letters(value.name, face) for face in ("text", "italic")):
            return letter
        return words("key.spot", name=spoken(value.name), letter=letter).replace(" ", NO_BREAK)
    if isinstance(value, tuple):
        return listed([shown(each, words) for each in value], words)
    return str(value)


def short(name: str) -> str:
    """A name for a sentence: whole words of it, where it is very long."""
    return name if len(name) <= LONGEST else shorten(name, LONGEST, placeholder="…")


def listed(texts: Sequence[str], words: Words, last: str = "list.and") -> str:
    """``a, b and c``; ``last`` is the word before the last, "list.and" or "list.or"."""
    if len(texts) < 2:
        return "".join(texts)
    head = words("list.mark").join(texts[:-1])
    return words(last, list=head, last=texts[-1])


def hints(notes: PageNotes, words: Words) -> str:
    """The hint ladder: a fact, then number by number with what is left."""
    rungs = [each for each in notes.hints if each.key.startswith("key.rung")]
    facts = [said(each, words) for each in notes.hints if each not in rungs]
    return " ".join((*facts, words("list.mark").join(_rung(each, words) for each in rungs))).strip()


def _rung(rung: Said, words: Words) -> str:
    """Short ones stay on one line; the mirror's number behind it is told in words."""
    told = said(rung, words)
    return told if "mirror" in rung.values else told.replace(" ", NO_BREAK)


def places(notes: PageNotes, words: Words) -> str:
    """The spots where few numbers, and not any number, can stand."""
    told = (said(each, words).replace(" ", NO_BREAK) for each in notes.places)
    return words("list.apart").join(told)
