"""Placings remembered: the same spots, links and frame need not be searched again."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import asdict
from functools import cache as once
from pathlib import Path
from typing import Any, Protocol

from bookmaker.cache import Cache
from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag
from bookmaker.placement.arrange import arrange
from bookmaker.placement.sizes import Sizes
from bookmaker.placement.tree_placement import NoCleanLayout, TreePlacement

Spots = Sequence[tuple[str, float, float]]
Links = Sequence[tuple[str, str]]


class Arrange(Protocol):
    """``layout.tree.arrange``, or something that gives the same results."""

    def __call__(
        self, spots: Spots, links: Links, bounds: Box, sizes: Sizes, *, fixed: bool = False
    ) -> TreePlacement: ...


def remembering(cache: Cache) -> Arrange:
    """``arrange`` that keeps what it found, refusals too, in ``cache``."""

    def arranged(
        spots: Spots, links: Links, bounds: Box, sizes: Sizes, *, fixed: bool = False
    ) -> TreePlacement:
        asked = [list(spots), list(links), asdict(bounds), asdict(sizes), fixed]
        key = f"arrange {_engine()} {json.dumps(asked)}"
        kept = cache.get(key)
        if kept is None:
            kept = json.dumps(_tried(spots, links, bounds, sizes, fixed)).encode()
            cache.put(key, kept)
        return _told(json.loads(kept))

    return arranged


@once
def _engine() -> str:
    """What the engine's results depend on: its own text."""
    text = hashlib.sha256()
    for file in sorted(Path(__file__).parent.glob("*.py")):
        text.update(file.read_bytes())
    return text.hexdigest()


def _tried(spots: Spots, links: Links, bounds: Box, sizes: Sizes, fixed: bool) -> dict[str, Any]:
    try:
        found = arrange(spots, links, bounds, sizes, fixed=fixed)
    except NoCleanLayout as no:
        return {"refused": [no.code, no.spots, no.links, no.gap, no.missing_mm]}
    return {
        "spots": [[s.name, s.x, s.y, s.radius] for s in found.spots],
        "links": [[link.name, link.curve] for link in found.links],
        "tags": [[t.link, t.box.x, t.box.y, t.box.width, t.box.height] for t in found.tags],
    }


def _told(kept: dict[str, Any]) -> TreePlacement:
    if "refused" in kept:
        code, spots, links, gap, missing = kept["refused"]
        raise NoCleanLayout(code, tuple(spots), tuple(links), gap, missing)
    return TreePlacement(
        tuple(PlacedSpot(*spot) for spot in kept["spots"]),
        tuple(PlacedLink(name, tuple((x, y) for x, y in curve)) for name, curve in kept["links"]),
        tuple(PlacedTag(link, Box(*box)) for link, *box in kept["tags"]),
    )
