"""Pages whose spots have no places: ``spots = 6``, with art or a shape, or links alone."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final

from bookmaker.reading.names import composed
from bookmaker.reading.spots import MOST_SPOTS
from bookmaker.reading.table import Table

Pairs = list[tuple[int, int]]


def _star(count: int) -> Pairs:
    return [(0, i) for i in range(1, count)]


def _path(count: int) -> Pairs:
    return [(i, i + 1) for i in range(count - 1)]


def _fork(count: int) -> Pairs:
    """A path whose end is split in two."""
    return [*_path(count - 1), (max(count - 3, 0), count - 1)]


def _comb(count: int) -> Pairs:
    """A spine with a tooth at each of its spots, as far as there are spots for them."""
    spine = (count + 1) // 2
    return [*_path(spine), *((i, spine + i) for i in range(count - spine))]


SHAPES: Final[Mapping[str, Callable[[int], Pairs]]] = {
    "star": _star,
    "path": _path,
    "fork": _fork,
    "comb": _comb,
}
"""Trees that can be asked for by a word; with as many spots as one likes."""


def is_unplaced(page: Table) -> bool:
    """Whether the page leaves the places of its spots to us."""
    spots = page.get("spots")
    counted = isinstance(spots, int) and not isinstance(spots, bool)
    return (counted and 2 <= int(str(spots)) <= MOST_SPOTS) or _links_alone(page)


def _links_alone(page: Table) -> bool:
    links = page.get("links")
    named = isinstance(links, list) and bool(links) and all(isinstance(x, str) for x in links)
    return named and "spots" not in page and "art" not in page


def _is_proposed(page: Table) -> bool:
    """Whether its picture shall say where the spots are: no tree is named that they must suit."""
    return "art" in page and "shape" not in page and not isinstance(page.get("links"), list)


def with_stand_ins(page: Table) -> Table:
    """The page with names, stand-in places on a ring and links where it leaves them to us."""
    if not is_unplaced(page):
        return page
    values = dict(page.values)
    spots, links = page.get("spots"), page.get("links")
    if _is_proposed(page):
        names = [f"spot_{i + 1}" for i in range(int(str(spots)))]
        values["links"] = "auto"
    elif isinstance(links, list):
        named = (composed(end) for link in links for end in str(link).split("-"))
        names = list(dict.fromkeys(named))
    else:
        names = [f"s{i + 1}" for i in range(int(str(spots)))]
        pairs = SHAPES.get(str(page.values.get("shape", "path")).strip().casefold(), _path)(
            len(names)
        )
        values["links"] = [f"{names[a]}-{names[b]}" for a, b in pairs]
    turns = [2 * math.pi * i / len(names) for i in range(len(names))]
    values["spots"] = {
        name: [round(50 + 40 * math.cos(turn)), round(50 + 40 * math.sin(turn))]
        for name, turn in zip(names, turns, strict=True)
    }
    values.pop("shape", None)
    return replace(page, values=values)
