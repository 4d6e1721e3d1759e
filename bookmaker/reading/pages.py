"""A ``[[page]]`` of a chapter in, a ``Page`` or its problems out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from bookmaker.model import BANDS, Band, Number, Page, Problem, Wish
from bookmaker.reading.choices import BAND
from bookmaker.reading.files import check_art, path_of
from bookmaker.reading.kinds import Choice, Key, anything, check_keys, filename, sound, text, truth
from bookmaker.reading.links import AUTO, check_links, links_of
from bookmaker.reading.names import (
    by_letters,
    composed,
    id_of,
    many,
    name_all,
    shorten,
    show,
)
from bookmaker.reading.numbers import Numbers, check_numbers, number_fault, numbers_of, parse_number
from bookmaker.reading.spots import as_pair, check_spots, nearest_spot, spot_names, spots_of
from bookmaker.reading.strays import check_strays, gather
from bookmaker.reading.table import Table
from bookmaker.reading.toml import Written
from bookmaker.reading.unplaced import SHAPES, is_unplaced, with_stand_ins

MOST_FACT = 120
"""Letters of a line to read aloud: two lines of large type on the narrowest paper."""

KEYS = {
    "name": Key(text(200), needed='a line like name = "Newt"'),
    "art": Key(filename(1000), needed='a line like art = "newt.svg"'),
    "mark": Key(filename(1000)),
    "artist": Key(text(200, empty=True)),
    "licence": Key(text(200, empty=True)),
    "links": Key(anything, needed='a line like links = ["nose-back", "back-tail"]'),
    "spots": Key(
        anything, needed="[page.spots] and below it a line like nose = [12, 40] for each spot"
    ),
    "shape": Key(Choice(tuple(SHAPES))),
    "numbers": Key(anything),
    "given": Key(anything),
    "position": Key(anything),
    "fixed": Key(truth),
    "turn": Key(truth),
    "description": Key(text(1000, empty=True, lines=True)),
    "fact": Key(text(MOST_FACT, empty=True)),
    "band": Key(BAND),
    "one_in": Key(anything),
}

CHAPTER_PLACE = "at the top of the chapter, above the first [[page]]"
BOOK_PLACE = "in the book's own file"
_ELSEWHERE = {
    "title": CHAPTER_PLACE,
    "introduction": CHAPTER_PLACE,
    "optional": CHAPTER_PLACE,
    "ornament": CHAPTER_PLACE,
    "chapters": BOOK_PLACE,
    "grade": BOOK_PLACE,
    "curriculum": BOOK_PLACE,
    "paper": BOOK_PLACE,
    "language": BOOK_PLACE,
    "order": BOOK_PLACE,
}


def pages_of(chapter: Table) -> tuple[Table, ...]:
    """The pages of a chapter as tables that know their names."""
    pages = [
        gather(replace(page, page=_label(page, place)), KEYS, _HOMES)
        for place, page in enumerate(chapter.tables("page"), 1)
    ]
    return tuple(_unplaced(page) for page in _with_own_spots(chapter, pages))


def _unplaced(page: Table) -> Table:
    """A page that leaves the places of its spots to us, with stand-ins for them."""
    faulty = KEYS["shape"].kind("shape", page.values.get("shape", "path"))
    if faulty or not is_unplaced(page):
        return page
    return replace(with_stand_ins(page), unplaced=True)


def check_page(page: Table, outer: Numbers, others: tuple[Table, ...]) -> Iterator[Problem]:
    """Every fault of one page: ``outer`` are the numbers of its chapter, ``others`` the pages
    of that chapter, this one among them."""
    yield from check_strays(page)
    yield from check_keys(page, KEYS, _ELSEWHERE, excused=("art",) if page.unplaced else ())
    if isinstance(page.get("name"), str) and not id_of(_name(page)) and _name(page).strip():
        mend = "Write a name with letters or digits in it."
        yield page.problem("bad-value", "the name has no letter and no digit", mend, "name")
    yield from check_art(page, "art")
    yield from check_art(page, "mark")
    yield from check_spots(page)
    yield from check_links(page)
    yield from check_numbers(page)
    yield from _check_given(page, outer)
    yield from _check_position(page, others)
    yield from _check_wish(page)


def make_page(page: Table, chapter: str, outer: Numbers) -> Page:
    """The ``Page`` of a table without a fault; ``chapter`` is the id of its chapter."""
    spots = spots_of(page)
    numbers = (numbers_of(page) or outer).first(len(spots))
    place = page.get("position")
    return Page(
        id=id_of(_name(page)),
        name=_name(page),
        chapter=chapter,
        file=page.source.file,
        line=page.line(),
        art=path_of(page, "art"),
        artist=str(page.values.get("artist", "")).strip(),
        licence=str(page.values.get("licence", "")).strip(),
        spots=spots,
        links=links_of(page),
        numbers=numbers,
        given=tuple(_given(page, numbers)),
        position=place if isinstance(place, int) else None,
        fixed=page.get("fixed") is True,
        turn=page.get("turn") is True,
        wish=_wish(page),
        description=str(page.values.get("description", "")).strip(),
        fact=str(page.values.get("fact", "")).strip(),
        mark=path_of(page, "mark"),
        unplaced=page.unplaced,
        graded=(numbers_of(page) or outer).graded,
        lines=tuple(_lines(page)),
    )


def numbers_for(page: Table, outer: Numbers) -> Numbers | None:
    """The numbers of a page: its own, else those of its chapter; None where its own are faulty."""
    return numbers_of(page) if "numbers" in page else outer


def _name(page: Table) -> str:
    name = page.get("name")
    return name.strip() if isinstance(name, str) else ""


def _label(page: Table, place: int) -> str:
    return shorten(_name(page), 60) or f"page {place}"


def _with_own_spots(chapter: Table, pages: Sequence[Table]) -> list[Table]:
    """Spots below a heading [spots], which should be [page.spots], are those of the page above.

    The heading is told as an unknown key; so nobody need call the spots missing, too.
    """
    line = chapter.line("spots")
    count = sum(page.line() < line for page in pages)
    if "spots" not in chapter.values or not count or "spots" in pages[count - 1]:
        return list(pages)
    above = pages[count - 1]
    values = {**above.values, "spots": chapter.get("spots")}
    moved = replace(above, values=values, moved={**above.moved, "spots": ("spots",)})
    return [*pages[: count - 1], moved, *pages[count:]]


def _looks_like_spot(key: str, value: object) -> bool:
    return as_pair(value) is not None


def _looks_given(key: str, value: object) -> bool:
    return key not in ("position", "one_in") and number_fault(value) is None


def _looks_like_numbers(key: str, value: object) -> bool:
    """Never: no key of a page is one of a table of numbers, too."""
    return False


_HOMES = {"spots": _looks_like_spot, "given": _looks_given, "numbers": _looks_like_numbers}


def _check_given(page: Table, outer: Numbers) -> Iterator[Problem]:
    value = page.get("given")
    if "given" not in page.values:
        return
    if not isinstance(value, dict):
        message = f"given must be a table, not {show(value)}"
        yield page.problem("bad-value", message, "Write it like given = { nose = 1 }.", "given")
        return
    wanted = numbers_for(page, outer)
    if wanted and wanted.graded and value:
        message = "the page's numbers are chosen for the grade, so given can't name one of them"
        mend = "Give the page numbers of its own, or take given out."
        yield page.problem("bad-value", message, mend, "given")
        return
    spots = spot_names(page)
    numbers = _known_numbers(page, outer, len(spots))
    seen: dict[Fraction, str] = {}
    known = by_letters(spots)
    for spot, number in value.items():
        if spots and composed(spot) not in known:
            message = f"given names a spot that the page does not have: {shorten(spot)}"
            yield page.problem("unknown-spot", message, nearest_spot(spot, spots), "given", spot)
        fault = number_fault(number) or _not_among(number, numbers)
        if fault:
            yield page.problem("bad-value", *fault, "given", spot)
            continue
        first = seen.setdefault(parse_number(number).value, spot)
        if first != spot:
            message = f"given has {show(number)} twice, for {shorten(first)} and {shorten(spot)}"
            mend = "Write another number for one of them, or take one out."
            yield page.problem("bad-value", message, mend, "given", spot)


def _known_numbers(page: Table, outer: Numbers, count: int) -> tuple[Number, ...]:
    """The page's numbers; none where they are faulty, or too few, themselves."""
    numbers = numbers_for(page, outer)
    if numbers is None or len(numbers.first(count)) < count:
        return ()
    return numbers.first(count)


def _not_among(number: object, numbers: tuple[Number, ...]) -> tuple[str, str] | None:
    if not numbers or parse_number(number).value in {each.value for each in numbers}:
        return None
    known = name_all([each.text for each in numbers], 35)
    return f"the given number {show(number)} is not among the page's numbers", f"They are {known}."


def _check_position(page: Table, others: tuple[Table, ...]) -> Iterator[Problem]:
    place, last = page.get("position"), len(others)
    if "position" not in page.values:
        return
    if isinstance(place, bool) or not isinstance(place, int) or not 1 <= place <= last:
        wanted = f"a whole number from 1 to {last}" if last > 1 else "1"
        message = f"position must be {wanted}, not {show(place)}"
        mend = f"The chapter has {many(last, 'page')}: write one of its places, or take it out."
        yield page.problem("bad-value", message, mend, "position")
        return
    first = next(other for other in others if _same(other.get("position"), place))
    if first.where != page.where:
        message = f"position {place} is taken already, by {first.page}"
        mend = "Write another place for one of the two, or take the line out."
        yield page.problem("bad-value", message, mend, "position")


def _same(value: object, place: int) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value == place


def _check_wish(page: Table) -> Iterator[Problem]:
    for key in ("band", "one_in"):
        if key in page.values and page.get("links") != AUTO and "links" in page.values:
            message = f'{key} is only for a page with links = "auto"'
            yield page.problem("bad-value", message, "Take the line out.", key)
    if "one_in" in page.values and _one_in(page) is None:
        message = f"one_in must be a number from 1 up, not {show(page.get('one_in'))}"
        yield page.problem("bad-value", message, "Write it like one_in = 12.", "one_in")


def _one_in(page: Table) -> float | None:
    value = page.get("one_in")
    if isinstance(value, bool) or not isinstance(value, int | Written):
        return None
    number = float(value.text) if isinstance(value, Written) else float(min(value, 10**12))
    return number if 1 <= number < 10**12 else None


def _wish(page: Table) -> Wish | None:
    if page.get("links") != AUTO:
        return None
    bands: Mapping[object, Band] = {band: band for band in BANDS}
    return Wish(bands.get(sound(page, KEYS, "band", "")), _one_in(page))


def _given(page: Table, numbers: tuple[Number, ...]) -> Iterator[tuple[str, Number]]:
    known = {number.value: number for number in numbers}
    spots = by_letters(spot_names(page))
    for spot, value in page.table("given").values.items():
        yield spots.get(composed(spot), spot), known[parse_number(value).value]


def _lines(page: Table) -> Iterator[tuple[str, int]]:
    yield from page.key_lines()
    for home in ("spots", "given"):
        for name in page.table(home).values:
            yield f"{home}.{name}", page.line(home, name)
    for place, link in enumerate(links_of(page)):
        yield f"links.{link.name}", page.line("links", place)
