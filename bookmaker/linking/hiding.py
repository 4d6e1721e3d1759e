"""Pages placed on their paper in, a warning for each creature that its spots hide out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from bookmaker.cache import Cache
from bookmaker.linking.figure import Figure, find_figure
from bookmaker.model import Box, Page, Picture, PlacedSpot, Problem

MOST_HIDDEN = 0.5
"""The part of a creature that may lie under spots without a word."""

Placed = tuple[Box, Sequence[PlacedSpot]]
"""Where the whole of a page's picture lies, and its spots, in millimetres."""


def hidden_creatures(
    pages: Iterable[Page],
    pictures: Mapping[Path, Picture],
    placed: Mapping[str, Placed],
    cache: Cache,
) -> Iterator[Problem]:
    """A warning for each page whose spots lie over most of its creature; ``placed`` by page id."""
    for page in pages:
        picture = pictures.get(page.art) if page.art else None
        if picture is None or page.id not in placed:
            continue
        figure = find_figure(picture, cache)
        hidden = hidden_share(figure, *placed[page.id]) if figure else 0.0
        if hidden > MOST_HIDDEN:
            message = f"the spots hide about {hidden:.0%} of what is to be seen in the picture"
            mend = "Take a picture in which the creature is larger, or fewer spots."
            line = page.line_of("art")
            yield Problem(page.file, line, page.name, "spots-hide", message, mend, "warning")


def hidden_share(figure: Figure, box: Box, spots: Sequence[PlacedSpot]) -> float:
    """The part of the figure, 0 to 1, that lies under ``spots`` where its picture fills ``box``."""
    trim, over, all_of_it = figure.trim, 0, 0
    for at, is_figure in enumerate(figure.mask):
        if is_figure:
            column, row = at % figure.width + 0.5, at // figure.width + 0.5
            x = box.x + box.width * (trim.x + trim.width * column / figure.width)
            y = box.y + box.height * (trim.y + trim.height * row / figure.height)
            all_of_it += 1
            over += any((x - s.x) ** 2 + (y - s.y) ** 2 <= s.radius**2 for s in spots)
    return over / all_of_it if all_of_it else 0.0
