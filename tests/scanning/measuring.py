"""What a page's SVG says of its picture and its spots, read as any reader of SVG would."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
Place = tuple[float, float, float]


def spots_of(file: Path) -> tuple[tuple[float, ...], dict[str, Place]]:
    """The picture's box (x, y, width, height), and x, y, radius of each spot; in millimetres."""
    root = ElementTree.parse(file).getroot()
    (box,) = [g.get("data-box", "") for g in root.iter(f"{SVG}g") if g.get("class") == "art"]
    spots: dict[str, Place] = {}
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "spot":
            (ring,) = group.iter(f"{SVG}circle")
            x, y, radius = (float(ring.get(key, "nan")) for key in ("cx", "cy", "r"))
            spots[group.get("data-spot", "")] = (x, y, radius)
    return tuple(map(float, box.split())), spots
