"""The key ``spots`` of a page: where numbers are written on its picture."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookmaker.model import Problem, Spot
from bookmaker.reading.names import (
    by_letters,
    composed,
    id_of,
    is_near,
    is_spot_name,
    name_all,
    nearest,
    shorten,
    show,
)
from bookmaker.reading.table import Table
from bookmaker.reading.toml import Written

MOST_SPOTS = 35
"""Every tree of at most so many spots is known to have a solution: W. Fang, A computational
approach to the graceful tree conjecture, 2010, arXiv:1003.3045."""


def spots_of(page: Table) -> tuple[Spot, ...]:
    """The spots of a page that can be read, in the manifest's order."""
    pairs = [(name, as_pair(value)) for name, value in page.table("spots").values.items()]
    return tuple(Spot(name, *pair) for name, pair in pairs if pair)


def spot_names(page: Table) -> tuple[str, ...]:
    """The names of all spots, those among them whose place can't be read; none where the spots
    as a whole can't be read, so that nobody need miss one."""
    if not page.is_unreadable("spots"):
        return tuple(page.table("spots").values)
    where = (*page.where, "spots")
    lost = [way for way in page.source.parsed.unreadable if way[: len(where)] == where]
    if where in lost:
        return ()
    hidden = sorted(str(way[-1]) for way in lost if len(way) == len(where) + 1)
    return (*page.table("spots").values, *hidden)


def is_placed(page: Table, name: str) -> bool:
    """Whether ``name`` is at least meant as a spot: no other key that came to stand below."""
    spots = page.table("spots")
    return isinstance(spots.get(name), list) or spots.is_unreadable(name)


def nearest_spot(name: str, spots: Sequence[str]) -> str:
    """The mend for a spot that is none of ``spots``."""
    likely = nearest(name, spots[:MOST_SPOTS]) or ""
    if is_near(name, likely):
        return f"Did you mean {shorten(likely)}?"
    return f"The page's spots are {name_all(spots)}; the nearest is {shorten(likely)}."


def check_spots(page: Table) -> Iterator[Problem]:
    """Every fault of the key ``spots``, where the page has one."""
    value = page.get("spots")
    if "spots" not in page.values:
        return
    if not isinstance(value, dict):
        message = f"spots must be a table, not {show(value)}"
        mend = "Write [page.spots] and under it a line for each spot, like nose = [12, 40]."
        if isinstance(value, int) and not isinstance(value, bool):
            message = f"a page can't have {show(value)} spots"
            mend = f"Write how many, from 2 to {MOST_SPOTS}; or [page.spots] and a line for each."
        yield page.problem("bad-value", message, mend, "spots")
        return
    yield from _check_count(page)
    for name, place in value.items():
        yield from _check_spot(page, name, place)
    yield from _check_places(page)
    yield from _check_twice(page)
    yield from _check_fractions(page)


def as_pair(value: object) -> tuple[float, float] | None:
    """Two finite numbers out of a list of two; None for anything else."""
    if not isinstance(value, list) or len(value) != 2:
        return None
    x, y = (_as_float(part) for part in value)
    return None if x is None or y is None else (x, y)


def _as_float(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | Written):
        return None
    if isinstance(value, int):
        return float(value) if abs(value) < 10**9 else None
    number = float(value.text)
    return number if math.isfinite(number) else None


def _check_count(page: Table) -> Iterator[Problem]:
    count = len(spot_names(page))
    if count > MOST_SPOTS:
        message = f"the page has {count:,} spots"
        mend = (
            f"Take {count - MOST_SPOTS:,} out: {MOST_SPOTS} are the most that surely can be solved."
        )
        yield page.problem("too-many-spots", message, mend, "spots")
    elif count < 2 and not page.is_unreadable("spots"):
        message = f"the page has {'only one spot' if count else 'no spots'}"
        mend = "Write at least two, each on a line like nose = [12, 40]."
        yield page.problem("too-few-spots", message, mend, "spots")


def _check_spot(page: Table, name: str, place: object) -> Iterator[Problem]:
    where = ("spots", name)
    if not is_spot_name(name):
        message = f"the spot name {show(name)} is not of letters, digits and underscores alone"
        mend = f"Write it {id_of(name).replace('-', '_') or 'nose'}, in the links too."
        yield page.problem("bad-value", message, mend, *where)
    pair = as_pair(place)
    if pair is None:
        yield page.problem("bad-value", *_bad_place(name, place), *where)
    elif not all(0 <= part <= 100 for part in pair):
        message = f"the spot {shorten(name)} lies off the picture, at {_say(place)}"
        mend = "Write per cent of the picture's width and height (0 to 100), not pixels."
        yield page.problem("spot-off-art", message, mend, *where)


def _bad_place(name: str, place: object) -> tuple[str, str]:
    mend = f"Write its place like {shorten(name)} = [12, 40]: per cent from the left, from the top."
    if isinstance(place, list) and len(place) != 2:
        if len(place) > 2:
            mend = f"{mend} A decimal has a point: 12.5."
        return f"the spot {shorten(name)} needs two numbers and has {len(place)}", mend
    if isinstance(place, list) and any(isinstance(part, str) for part in place):
        mend = f"{mend} Numbers have no quotation marks and no per cent sign."
    if not isinstance(place, list):
        mend = f"{mend} A key of the page stands above [page.spots]."
    said = _say(place) if isinstance(place, list) else show(place)
    return f"the spot {shorten(name)} needs two numbers, not {said}", mend


def _check_twice(page: Table) -> Iterator[Problem]:
    """Names that look the same and are not: an accent in one code point and in two."""
    names = list(page.table("spots").values)
    known = by_letters(names)
    for name in names if len(known) < len(names) else ():
        if known[composed(name)] != name:
            message = f"two spots have the name {shorten(name)}"
            yield page.problem("repeated-name", message, "Take one of the two out.", "spots", name)


def _check_fractions(page: Table) -> Iterator[Problem]:
    """Spots all in one corner of the picture: fractions were meant."""
    spots = spots_of(page)
    broken = [spot for spot in spots if 0 < spot.x < 1 or 0 < spot.y < 1]
    if len(spots) > 1 and broken and all(max(spot.x, spot.y) <= 1 for spot in spots):
        first = broken[0]
        message = (
            f"all spots lie within 1 per cent of the picture's corner, as {shorten(first.name)} "
            f"at [{first.x:g}, {first.y:g}]"
        )
        mend = f"Write per cent, not fractions: [{100 * first.x:g}, {100 * first.y:g}]."
        yield page.problem("bad-value", message, mend, "spots", first.name)
        return
    for spot in broken:
        if max(spot.x, spot.y) < 1:
            message = f"the spot {shorten(spot.name)} lies in the very corner of the picture"
            mend = (
                f"[{spot.x:g}, {spot.y:g}] is less than 1 per cent; if a fraction was meant, write "
                f"[{100 * spot.x:g}, {100 * spot.y:g}]."
            )
            told = page.problem("spot-in-corner", message, mend, "spots", spot.name)
            yield replace(told, severity="warning")


def _check_places(page: Table) -> Iterator[Problem]:
    together: dict[tuple[float, float], list[str]] = {}
    for spot in spots_of(page):
        together.setdefault((spot.x, spot.y), []).append(spot.name)
    for names in together.values():
        if len(names) > 1:
            message = f"the spots {name_all(names)} lie on the same place"
            mend = "Move them apart." if len(names) > 2 else f"Move {shorten(names[1])} elsewhere."
            yield page.problem("spots-too-close", message, mend, "spots", names[1])


def _say(place: object) -> str:
    parts = place if isinstance(place, list) else []
    return f"[{', '.join(show(part) for part in parts)}]"
