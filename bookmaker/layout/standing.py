"""A page as it stands while it is being made: whatever is wrong with it, it can be looked at."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from bookmaker.layout.puzzle import on_picture, regions_of
from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.model import (
    Box,
    Certificate,
    CertifiedPage,
    Estimate,
    Frame,
    Item,
    Page,
    Picture,
    PlacedLink,
    PlacedSpot,
    PlacedTag,
)
from bookmaker.placement import Sizes, TreePlacement, page_sizes
from bookmaker.typeset import Sheet
from bookmaker.words import Words

UNKNOWN = Certificate("", (), None, None, None, Estimate(0.0), Estimate(0.0))
"""Nobody knows yet how hard it is."""


def place_as_it_stands(
    page: Page, picture: Picture | None, sheet: Sheet, words: Words
) -> PlacedPuzzle:
    """Spots where the teacher put them, straight links, tags midway; nothing is refused.

    Links may cross, run in rings or be missing. A link shorter than its two spots is left out.
    """
    sheet = replace(sheet, turned=page.turn)
    regions = regions_of(CertifiedPage.of(page, UNKNOWN), sheet, words)
    art, spots = on_picture(page, picture, regions.frame, regions.sizes)
    radius = page_sizes(page, sheet.paper).radius
    placed = {name: PlacedSpot(name, x, y, radius) for name, x, y in spots}
    links = tuple(
        line
        for link in page.links
        if link.a in placed and link.b in placed
        for line in _straight(link.name, placed[link.a], placed[link.b])
    )
    tags = tuple(_tag(link, regions.sizes) for link in links)
    bottom = art.window.bottom if art else regions.frame.bottom
    foot = tuple(item for item in regions.foot(bottom) if not _is_climb(item))
    tree = TreePlacement(tuple(placed.values()), links, tags)
    return PlacedPuzzle(sheet, regions.head, art, tree, foot, regions.frame)


def _straight(name: str, one: PlacedSpot, other: PlacedSpot) -> Iterator[PlacedLink]:
    away = math.dist((one.x, one.y), (other.x, other.y))
    if away <= one.radius + other.radius:
        return
    dx, dy = (other.x - one.x) / away, (other.y - one.y) / away
    start = (one.x + dx * one.radius, one.y + dy * one.radius)
    yield PlacedLink(name, (start, (other.x - dx * other.radius, other.y - dy * other.radius)))


def _tag(link: PlacedLink, sizes: Sizes) -> PlacedTag:
    (ax, ay), (bx, by) = link.curve[0], link.curve[-1]
    wide, high = sizes.tag_width, sizes.tag_height
    return PlacedTag(link.name, Box((ax + bx - wide) / 2, (ay + by - high) / 2, wide, high))


def _is_climb(item: Item) -> bool:
    """How steep it is nobody knows yet."""
    return isinstance(item, Frame) and item.role in ("step-on", "step-off")
