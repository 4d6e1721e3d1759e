"""The pale spots, links and tags of a sheet: placed items in, one line for the register out.

They stand in millimetres from the frame's top left, so that the sheet's own places hold whatever
happens to the book afterwards.
"""

from __future__ import annotations

import json
from dataclasses import dataclass

from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag, Point

MOST = 1000.0
"""Millimetres: farther off nothing can be."""


@dataclass(frozen=True, slots=True)
class PaleMarks:
    """What is printed pale in the frame; empty on a free sheet."""

    spots: tuple[PlacedSpot, ...] = ()
    links: tuple[PlacedLink, ...] = ()
    tags: tuple[PlacedTag, ...] = ()


def write_pale(marks: PaleMarks) -> str:
    """One line of JSON, coordinates in millimetres to a hundredth."""
    said = {
        "spots": [[spot.name, *_round(spot.x, spot.y, spot.radius)] for spot in marks.spots],
        "links": [[link.name, *(_round(*point) for point in link.curve)] for link in marks.links],
        "tags": [
            [tag.link, *_round(tag.box.x, tag.box.y, tag.box.width, tag.box.height)]
            for tag in marks.tags
        ],
    }
    return json.dumps(said, ensure_ascii=False, separators=(",", ":"))


def read_pale(text: str) -> PaleMarks:
    """What ``write_pale`` wrote. Raises ValueError, saying what is wrong, for anything else."""
    try:
        said = json.loads(text)
        return PaleMarks(
            tuple(_spot(*spot) for spot in said["spots"]),
            tuple(_link(*link) for link in said["links"]),
            tuple(_tag(*tag) for tag in said["tags"]),
        )
    except (KeyError, TypeError, ValueError, RecursionError) as fault:
        raise ValueError(f"the places of the pale marks can't be read ({fault})") from fault


def _spot(name: str, x: float, y: float, radius: float) -> PlacedSpot:
    return PlacedSpot(str(name), _place(x), _place(y), _place(radius))


def _link(name: str, *curve: Point) -> PlacedLink:
    if len(curve) not in (2, 4):
        raise ValueError(f"link {name} has {len(curve)} points")
    return PlacedLink(str(name), tuple((_place(x), _place(y)) for x, y in curve))


def _tag(link: str, x: float, y: float, width: float, height: float) -> PlacedTag:
    return PlacedTag(str(link), Box(_place(x), _place(y), _place(width), _place(height)))


def _place(value: float) -> float:
    millimetres = float(value)
    if not abs(millimetres) < MOST:  # nor "not a number"
        raise ValueError(f"{value} millimetres are on no sheet")
    return millimetres


def _round(*values: float) -> list[float]:
    return [round(value, 2) for value in values]
