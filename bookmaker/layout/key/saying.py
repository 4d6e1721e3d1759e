"""The teacher's data put into words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import shorten

from bookmaker.model import Certificate, CertifiedPage, Given, Number, PageNotes, Said, SpotOf
from bookmaker.typeset import missing_letters
from bookmaker.words import Words, spoken

LONGEST = 32
"""Letters that a name may have in a sentence."""
FEW = 3
"""Numbers at one spot up to which it is worth saying that no others can stand there."""


def said(told: Said, words: Words) -> str:
    """A sentence, its places filled with numbers, names and lists of them."""
    values = {name: shown(value, words) for name, value in told.values.items()}
    return words(told.key, told.count, **values)


def shown(value: object, words: Words) -> str:
    """A number as the language writes it, a page by its name, a sequence as a list.

    In a sentence a long name is shortened; whole it stands over its answer. A spot is told by its
    name and letter, by its letter alone where the type lacks letters of the name.
    """
    if isinstance(value, Number):
        return words.number(value.text)
    if isinstance(value, CertifiedPage):
        return short(value.name)
    if isinstance(value, SpotOf):
        letter = value.page.letters[value.name]
        if any(missing_letters(value.name, face) for face in ("text", "italic")):
            return letter
        return words("key.spot", name=spoken(value.name), letter=letter).replace(" ", "\u00a0")
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


def rounded(value: float, words: Words) -> str:
    """Three digits of ``value`` at the most, or all that stand before the decimal mark."""
    told = f"{value:.0f}" if value >= 100 else f"{value:.3g}"
    return words.number(told)


def counts(page: CertifiedPage, words: Words) -> tuple[str, ...]:
    """How many solutions, how rare, how much work: a short line each."""
    certificate = page.certificate
    lines = []
    if certificate.solutions is None:
        lines.append(words("key.solutions-many"))
    else:
        lines.append(words("key.solutions", certificate.solutions))
        if certificate.distinct_solutions is not None:
            lines.append(words("key.distinct", certificate.distinct_solutions))
    if certificate.one_in is not None:
        lines.append(words("key.one-in", number=rounded(certificate.one_in, words)))
    band = words(f"band.{certificate.band}")
    work = figure(certificate.work, certificate.work_error)
    key = "key.work-about" if certificate.work_error else "key.work"
    lines.append(words(key, work=work, band=band))
    return (*lines, *_two_pupils(certificate, words))


def figure(work: float, error: float) -> str:
    """Subtractions as they are printed: whole, and to two digits where they are estimated."""
    return f"{float(f'{work:.2g}') if error else work:.0f}"


def _two_pupils(certificate: Certificate, words: Words) -> Iterator[str]:
    """A line about the two pupils where they see the page very differently."""
    keys = {"building": "key.builds", "trying": "key.tries"}
    if certificate.easier_for:
        trying, building = (
            figure(each.mean, each.error) for each in (certificate.trying, certificate.building)
        )
        yield words(keys[certificate.easier_for], trying=trying, building=building)


def hints(notes: PageNotes, words: Words) -> str:
    """The hint ladder: first the fact, then number by number with what is left."""
    letters = notes.page.letters
    rungs = (_rung(rung, letters[rung.spot], words) for rung in notes.ladder)
    return " ".join((_fact(notes, words), words("list.mark").join(rungs))).strip()


def _fact(notes: PageNotes, words: Words) -> str:
    """The hint that gives no number away; nothing where no more than the rule is known."""
    if notes.fact == "different":
        return ""
    places = dict(
        zip("abcd", (words.number(number.text) for number in notes.fact_numbers), strict=False)
    )
    if notes.fact_spot is not None:
        places["letter"] = notes.page.letters[notes.fact_spot]
    return words(f"key.fact.{notes.fact}", **places)


def _rung(rung: Given, letter: str, words: Words) -> str:
    """A number given away: ``A = 1 (2 left)``; the mirror's number behind it is told in words."""
    told = f"{letter} = {words.number(rung.number.text)}".replace(" ", "\u00a0")
    left = "" if rung.left is None else f"\u00a0({words('key.left', rung.left)})"
    if rung.mirror is None:
        return f"{told}{left}".replace(" ", "\u00a0")
    other, turn = (words.number(number.text) for number in rung.mirror)
    instead = words("key.mirror-hint", other=other, turn=turn)
    return f"{told} {instead}{left}"


def exchanges(notes: PageNotes, words: Words) -> tuple[str, ...]:
    """Which spots, or branches of spots, may be exchanged, by the letters on the picture."""
    letters = notes.page.letters
    told = []
    for group in notes.alike:
        names = ["–".join(letters[spot] for spot in branch) for branch in group]
        key = "key.swap" if len(group) == 2 else "key.swap-all"
        told.append(words(key, spots=listed(names, words)))
    return tuple(told)


def places(notes: PageNotes, words: Words) -> str:
    """The spots where few numbers, and not any number, can stand."""
    letters = notes.page.letters
    given = dict(notes.page.given)
    few = [
        (letters[spot], numbers)
        for spot, numbers in notes.standing
        if len(numbers) <= FEW and len(numbers) < len(notes.standing) and spot not in given
    ]
    told = (
        words(
            "key.stands",
            letter=letter,
            numbers=listed([words.number(x.text) for x in numbers], words, "list.or"),
        )
        for letter, numbers in few
    )
    return words("list.apart").join(text.replace(" ", "\u00a0") for text in told)
