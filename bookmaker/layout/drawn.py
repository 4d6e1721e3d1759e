"""Pages that pupils draw: the tree for a drawing sheet, and a drawing with its tree on the page.

The tree is laid out on the book's own page, under a picture of the shape of the sheet's frame; the
sheet shows it larger or smaller, so that what is drawn around it fits the page exactly.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookmaker.layout.furniture import TITLE_SIZES
from bookmaker.layout.puzzle import Regions, regions_of
from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.model import Box, CertifiedPage, Drawn, Page, Picture, PlacedArt, Point
from bookmaker.placement import STROKE, NoCleanLayout, Sizes, TreePlacement, arrange, faults, scaled
from bookmaker.typeset import POINT, Sheet
from bookmaker.words import Words

INSIDE = 2.0
"""Millimetres of the page between the marks and the frame, where the drawing goes on."""
SECOND_LINE = TITLE_SIZES[0] * POINT * 1.12
"""Room for a title of two lines: what a child will call the creature is not known yet."""
CHANGED = 1.0
"""Millimetres by which a spot may miss the manifest's place, beyond what layout may move it."""
SAME_SIZE = 0.05
"""Millimetres by which marks may be smaller than asked: sheets are registered to a hundredth."""


def tree_for_sheet(
    page: CertifiedPage, frame: tuple[float, float], sheet: Sheet, words: Words
) -> Drawn:
    """The tree of a page, to be printed in a sheet's ``frame`` (width and height in millimetres).

    ``sheet`` is the paper of the book. Raises NoCleanLayout where there is no room for the tree in
    a frame of this shape.
    """
    box, sizes = _room(page, frame, sheet, words)
    bounds = box.grown(-INSIDE)
    links = [link.ends for link in page.links]
    refusal: NoCleanLayout | None = None
    for places in _ways_to_spread(page, bounds, sizes):
        spots = [(spot.name, *at) for spot, at in zip(page.spots, places, strict=True)]
        try:
            tree = arrange(spots, links, bounds, sizes)
        except NoCleanLayout as refused:
            refusal = refusal or refused
            continue
        scale = frame[0] / box.width
        tree = _full(scaled(tree, scale, -box.x * scale, -box.y * scale))
        return Drawn(*frame, tree.spots, tree.links, tree.tags)
    assert refusal is not None
    raise refusal


def has_moved(page: CertifiedPage, drawn: Drawn, sheet: Sheet, words: Words) -> bool:
    """Whether the manifest has other places for the spots now than when the sheet was printed."""
    frame = (drawn.width, drawn.height)
    box, sizes = _room(page, frame, sheet, words)
    bounds, scale = box.grown(-INSIDE), box.width / drawn.width
    at = {s.name: (box.x + s.x * scale, box.y + s.y * scale) for s in drawn.spots}
    names = page.spot_names
    if set(names) != set(at):
        return True
    ways = _ways_to_spread(page, bounds, sizes)
    missed = min(
        max(math.dist(place, at[name]) for name, place in zip(names, wanted, strict=True))
        for wanted in ways
    )
    return missed > sizes.reach + CHANGED


def place_drawn(page: CertifiedPage, picture: Picture, sheet: Sheet, words: Words) -> PlacedPuzzle:
    """A pupil's drawing on its page, with spots, links and tags where the drawing sheet had them.

    Where that would be too small on this paper, links and tags are arranged anew; the spots stay.
    Raises NoCleanLayout where that can't be done.
    """
    drawn = page.drawn
    assert drawn is not None
    sheet = replace(sheet, turned=False)
    regions = regions_of(page, sheet, words)
    box = _under(regions.frame, (drawn.width, drawn.height))
    tree = TreePlacement(drawn.spots, drawn.links, drawn.tags)
    tree = _full(scaled(tree, box.width / drawn.width, box.x, box.y))
    if _is_small(tree, regions.sizes) or faults(tree, box, _sizes_of(tree, regions.sizes)):
        spots = [(spot.name, spot.x, spot.y) for spot in tree.spots]
        links = [link.ends for link in page.links]
        tree = arrange(spots, links, box, regions.sizes, fixed=True)
    art = PlacedArt(picture.digest, box, box)
    frame = replace(regions.frame, height=box.bottom - regions.frame.y)
    return PlacedPuzzle(sheet, regions.head, art, tree, regions.foot(box.bottom), frame)


def _room(
    page: CertifiedPage, frame: tuple[float, float], sheet: Sheet, words: Words
) -> tuple[Box, Sizes]:
    """Where the drawing will lie on the book's page whatever its title, and the marks' sizes."""
    shortest = replace(page, name="A", turn=False, fact="")
    regions: Regions = regions_of(shortest, sheet, words)
    room = regions.frame
    low = 0.0 if sheet.is_board else SECOND_LINE
    room = Box(room.x, room.y + low, room.width, room.height - low)
    return _under(room, frame), regions.sizes


def _under(room: Box, shape: tuple[float, float]) -> Box:
    """As large as ``room`` allows, at its top, midway."""
    width = min(room.width, room.height * shape[0] / shape[1])
    return Box(room.x + (room.width - width) / 2, room.y, width, width * shape[1] / shape[0])


def _ways_to_spread(page: Page, bounds: Box, sizes: Sizes) -> Iterator[tuple[Point, ...]]:
    """Places for the spots inside ``bounds``: as on the page's picture were it stretched to it, and
    as far apart as there is room."""
    inner = bounds.grown(-(sizes.radius + STROKE + 0.1))
    xs = [bounds.x + spot.x / 100 * bounds.width for spot in page.spots]
    ys = [bounds.y + spot.y / 100 * bounds.height for spot in page.spots]
    yield _held(xs, ys, inner)
    across, down = _spread(xs, inner.x, inner.right), _spread(ys, inner.y, inner.bottom)
    yield tuple(zip(across, down, strict=True))


def _held(xs: Sequence[float], ys: Sequence[float], inner: Box) -> tuple[Point, ...]:
    """Squeezed as far as it must be to lie inside ``inner``."""
    across = _spread(xs, max(inner.x, min(xs)), min(inner.right, max(xs)))
    down = _spread(ys, max(inner.y, min(ys)), min(inner.bottom, max(ys)))
    return tuple(zip(across, down, strict=True))


def _spread(values: Sequence[float], low: float, high: float) -> list[float]:
    """``values`` stretched or squeezed so that they run from ``low`` to ``high``."""
    least, most = min(values), max(values)
    if most - least < 1e-6:
        return [(low + high) / 2 for _ in values]
    return [low + (value - least) / (most - least) * (high - low) for value in values]


def _is_small(tree: TreePlacement, sizes: Sizes) -> bool:
    found = _sizes_of(tree, sizes)
    short = (
        sizes.spot - found.spot,
        sizes.tag_width - found.tag_width,
        sizes.tag_height - found.tag_height,
    )
    return max(short) > SAME_SIZE


def _sizes_of(tree: TreePlacement, sizes: Sizes) -> Sizes:
    """``sizes`` with those that the tree's marks have."""
    return replace(
        sizes,
        spot=2 * max(spot.radius for spot in tree.spots),
        tag_width=max(tag.box.width for tag in tree.tags),
        tag_height=max(tag.box.height for tag in tree.tags),
    )


def _full(tree: TreePlacement) -> TreePlacement:
    """The tree with the strokes of full size, whatever it was scaled by."""
    return TreePlacement(
        tuple(replace(spot, scale=1.0) for spot in tree.spots),
        tuple(replace(link, scale=1.0) for link in tree.links),
        tuple(replace(tag, scale=1.0) for tag in tree.tags),
    )
