"""What comes out of laying a tree out: its places, or why there are none."""

from __future__ import annotations

from dataclasses import dataclass

from bookmaker.model import PlacedLink, PlacedSpot, PlacedTag
from bookmaker.typeset import Move, moved


@dataclass(frozen=True, slots=True)
class TreePlacement:
    """Spots, links and tags at their places, each in the order in which they were given."""

    spots: tuple[PlacedSpot, ...]
    links: tuple[PlacedLink, ...]
    tags: tuple[PlacedTag, ...]


class NoCleanLayout(Exception):
    """There is no clean placing, or none was found.

    ``code`` is a problem's code; ``spots`` and ``links`` name what is in the way; ``gap`` is
    what is missing ("spot-spot", "spot-edge", "link-spot", "link-link", "crossing", "angle",
    "tag-spot", "tag-tag", "tag-link", "tag-hides-link", ...) and ``missing_mm`` how much of it.
    """

    def __init__(
        self,
        code: str,
        spots: tuple[str, ...],
        links: tuple[str, ...],
        gap: str,
        missing_mm: float,
    ) -> None:
        self.code, self.spots, self.links = code, spots, links
        self.gap, self.missing_mm = gap, missing_mm
        super().__init__(f"{code}: {gap} short by {missing_mm:.1f} mm at {', '.join(spots)}")


def scaled(placement: TreePlacement, factor: float, dx: float, dy: float) -> TreePlacement:
    """The placement made smaller (or larger) by ``factor``, then shifted by (dx, dy) mm."""
    move = Move(dx, dy, factor)
    return TreePlacement(
        moved(placement.spots, move), moved(placement.links, move), moved(placement.tags, move)
    )
