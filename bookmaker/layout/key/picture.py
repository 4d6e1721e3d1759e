"""The key's pictures: a page made small, its solution written in, its spots lettered.

Spots and tags are drawn larger than the picture is made smaller, as far as their neighbours
leave room, so that numbers and letters can be read at arm's length.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.model import (
    Box,
    CertifiedPage,
    Description,
    Disc,
    Item,
    Line,
    PlacedArt,
    PlacedLink,
    PlacedSpot,
    PlacedTag,
    Point,
    difference,
)
from bookmaker.typeset import Move, ascent, moved, width
from bookmaker.words import Words

SPOT = 3.9
"""Radius that a spot should have at least, in millimetres."""
TAG = (6.4, 5.0)
"""Width and height that a tag should have at least."""
BADGE = 2.35
LETTER = 11.0
DIRECTIONS = 24
ROOM_ENOUGH = 2.0
"""A letter with as much room as this, in millimetres, stands well."""
APART = 0.5
ALONG = tuple(place / 12 for place in range(13))


@dataclass(frozen=True, slots=True)
class SolvedPicture:
    """The marks of one solved page in their places, before anything is written in them.

    ``cords`` are points along the links.
    """

    art: tuple[PlacedArt, ...]
    links: tuple[PlacedLink, ...]
    tags: tuple[PlacedTag, ...]
    spots: tuple[PlacedSpot, ...]
    cords: tuple[Point, ...]
    frame: Box


def proportion(placed: PlacedPuzzle) -> float:
    """Width over height of a page's picture, marks that reach over its edge included."""
    reach = _reach(placed)
    return reach.width / reach.height


def solved_picture(
    page: CertifiedPage, placed: PlacedPuzzle, frame: Box, words: Words, alt: str = ""
) -> Iterator[Item]:
    """The page in ``frame``, from its top left, with the certificate's solution in it."""
    shown = _made_small(placed, frame)
    yield from (replace(art, alt=alt) for art in shown.art)
    if not shown.art:
        yield Description(shown.frame, alt)
    yield from shown.links
    yield from shown.tags
    yield from shown.spots
    solution = page.solution
    for tag in shown.tags:
        ends = next(link.ends for link in page.links if link.name == tag.link)
        gap = difference(solution[ends[0]], solution[ends[1]])
        yield _in_tag(tag, words.number(gap.text))
    for spot in shown.spots:
        yield _in_spot(spot, words.number(solution[spot.name].text))
    badges: list[Point] = []
    for spot in shown.spots:
        at = _beside(spot, shown, badges)
        badges.append(at)
        yield from _badge(at, page.letters[spot.name])


def _made_small(placed: PlacedPuzzle, frame: Box) -> SolvedPicture:
    reach = _reach(placed)
    scale = min(frame.width / reach.width, frame.height / reach.height)
    move = Move(frame.x - reach.x * scale, frame.y - reach.y * scale, scale)
    art = moved((placed.art,) if placed.art else (), move)
    links = moved(placed.tree.links, move)
    tags = moved(placed.tree.tags, move)
    spots = moved(placed.tree.spots, move)
    inside = Box(frame.x, frame.y, reach.width * scale, reach.height * scale)
    spots = tuple(_larger_spot(spot, spots, tags, inside) for spot in spots)
    tags = tuple(_larger_tag(tag, spots, tags, inside) for tag in tags)
    cords = tuple(point for link in links for point in along(link.curve))
    return SolvedPicture(art, links, tags, spots, cords, inside)


def _reach(placed: PlacedPuzzle) -> Box:
    """What a page's picture, spots and tags cover together."""
    boxes = [placed.art.window] if placed.art else []
    boxes += [
        Box(s.x - s.radius, s.y - s.radius, 2 * s.radius, 2 * s.radius) for s in placed.tree.spots
    ]
    boxes += [tag.box for tag in placed.tree.tags]
    left, top = min(box.x for box in boxes), min(box.y for box in boxes)
    right, bottom = max(box.right for box in boxes), max(box.bottom for box in boxes)
    return Box(left, top, right - left, bottom - top)


def _larger_spot(
    spot: PlacedSpot, spots: Sequence[PlacedSpot], tags: Sequence[PlacedTag], inside: Box
) -> PlacedSpot:
    """As large as asked for, or as its neighbours and the picture's edge leave room."""
    at = (spot.x, spot.y)
    room = [SPOT]
    room += [math.dist(at, (o.x, o.y)) / 2 - APART for o in spots if o is not spot]
    room += [_from_box(at, tag.box) - APART for tag in tags]
    room += [spot.x - inside.x, inside.right - spot.x, spot.y - inside.y, inside.bottom - spot.y]
    return replace(spot, radius=max(spot.radius, min(room)))


def _larger_tag(
    tag: PlacedTag, spots: Sequence[PlacedSpot], tags: Sequence[PlacedTag], inside: Box
) -> PlacedTag:
    """The tag grown about its middle, as far as it stays clear of spots, tags and the edge."""
    box = tag.box
    for part in (1.0, 0.75, 0.5, 0.25):
        wide = box.width + max(TAG[0] - box.width, 0) * part
        high = box.height + max(TAG[1] - box.height, 0) * part
        x, y = box.x - (wide - box.width) / 2, box.y - (high - box.height) / 2
        x = min(max(x, inside.x), inside.right - wide)
        y = min(max(y, inside.y), inside.bottom - high)
        grown = Box(x, y, wide, high)
        clear = all(_from_box((s.x, s.y), grown) >= s.radius + APART for s in spots)
        others = (other.box for other in tags if other is not tag)
        if clear and not any(_meet(grown, other) for other in others):
            return replace(tag, box=grown)
    return tag


def _meet(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.x, other.x)
    down = min(one.bottom, other.bottom) - max(one.y, other.y)
    return min(across, down) > -2 * APART


def _from_box(at: Point, box: Box) -> float:
    """Distance of a point from a rectangle."""
    across = max(box.x - at[0], 0.0, at[0] - box.right)
    down = max(box.y - at[1], 0.0, at[1] - box.bottom)
    return math.hypot(across, down)


def _beside(spot: PlacedSpot, shown: SolvedPicture, badges: Sequence[Point]) -> Point:
    """Where a spot's letter stands: just outside its ring, away from everything else."""
    shown = _near(spot, shown)
    best: tuple[float, Point] | None = None
    far = spot.radius + BADGE * 0.62
    for turn in range(DIRECTIONS):
        angle = -2.4 + turn * 2 * math.pi / DIRECTIONS
        at = (spot.x + far * math.cos(angle), spot.y + far * math.sin(angle))
        room = _room(at, spot, shown, badges)
        if room >= ROOM_ENOUGH:
            return at
        if best is None or room > best[0] + 1e-6:
            best = (room, at)
    assert best is not None
    return best[1]


def _near(spot: PlacedSpot, shown: SolvedPicture) -> SolvedPicture:
    """What of the picture is near enough to be in the way of the letter of ``spot``."""
    at = (spot.x, spot.y)
    far = spot.radius + 2 * BADGE + 2.0
    return replace(
        shown,
        tags=tuple(tag for tag in shown.tags if _from_box(at, tag.box) < far),
        spots=tuple(s for s in shown.spots if math.dist(at, (s.x, s.y)) - s.radius < far),
        cords=tuple(point for point in shown.cords if math.dist(at, point) < far),
    )


def _room(at: Point, spot: PlacedSpot, shown: SolvedPicture, badges: Sequence[Point]) -> float:
    """How far a letter at ``at`` stays from links, tags, other spots, letters and the edge."""
    frame = shown.frame
    gaps = [at[0] - frame.x, frame.right - at[0], at[1] - frame.y, frame.bottom - at[1]]
    gaps += [math.dist(at, (s.x, s.y)) - s.radius for s in shown.spots if s is not spot]
    gaps += [_from_box(at, tag.box) for tag in shown.tags]
    gaps += [math.dist(at, badge) - BADGE for badge in badges]
    gaps += [math.dist(at, point) - 0.4 for point in shown.cords]
    return min(gaps) - BADGE


def along(curve: Sequence[Point]) -> Iterator[Point]:
    """Points along a straight link or a cubic Bezier curve."""
    if len(curve) == 2:
        (a, b), (c, d) = curve
        yield from ((a + (c - a) * t, b + (d - b) * t) for t in ALONG)
        return
    p, q, r, s = curve
    for t in ALONG:
        u = 1 - t
        weights = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
        yield (
            sum(w * k[0] for w, k in zip(weights, (p, q, r, s), strict=True)),
            sum(w * k[1] for w, k in zip(weights, (p, q, r, s), strict=True)),
        )


def _badge(at: Point, letter: str) -> Iterator[Item]:
    x, y = at
    yield Disc(x, y, BADGE, "letter-disc")
    size = LETTER if len(letter) == 1 else 8.0
    yield Line(x, y + ascent("strong", size) / 2, letter, size, "strong", "middle", "letter", "")


def _in_spot(spot: PlacedSpot, text: str) -> Line:
    """The number, as large as fits into the ring with a little white around it."""
    wide, high = width(text, "strong", 10.0), ascent("strong", 10.0)
    size = min(16.0, 10.0 * 2 * (spot.radius - 0.45) / math.hypot(wide, high))
    base = spot.y + ascent("strong", size) / 2
    return Line(spot.x, base, text, size, "strong", "middle", "solved", "")


def _in_tag(tag: PlacedTag, text: str) -> Line:
    box = tag.box
    wide, high = width(text, "text", 10.0), ascent("text", 10.0)
    size = 10.0 * min((box.width - 0.9) / wide, (box.height - 1.5) / high)
    size = min(size, 13.0)
    base = box.y + box.height / 2 + ascent("text", size) / 2
    middle = box.x + box.width / 2
    return Line(middle, base, text, size, "text", "middle", "difference", "")
