"""The judge: reads a puzzle page's SVG alone and lists every breach of the page's rules, in mm.

Shares nothing with the layout engine: it knows the SVG contract (what the groups are called) and
the table of sizes, and measures with shapely. Curves are flattened to 0.05 mm.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations
from xml.etree import ElementTree

from shapely import affinity
from shapely.geometry import LineString, MultiLineString, Point, Polygon, box

FLAT = 0.05
ROUNDING = 0.015
"""Coordinates are written to a hundredth of a millimetre: two of them may be this far off."""
SVG = "{http://www.w3.org/2000/svg}"
SMALL = {"a5", "half-letter"}
SHEETS = {
    # ISO 216 for the A sizes; letter 8.5 x 11 in, half of it 5.5 x 8.5 in; the board is 16:9.
    "a3": (297.0, 420.0),
    "a4": (210.0, 297.0),
    "a5": (148.0, 210.0),
    "letter": (215.9, 279.4),
    "half-letter": (139.7, 215.9),
    "board": (338.7, 190.5),
}


@dataclass(frozen=True)
class Rules:
    """The table of sizes, typed in afresh: the book's own decision, no source."""

    sheet: tuple[float, float]
    spot: float
    tag: tuple[float, float]
    reach: float
    margins: tuple[float, float, float, float]  # left, top, right, bottom
    spot_gap: float = 5.0
    link_gap: float = 3.0
    tag_gap: float = 2.0
    visible: float = 3.0
    side_by_side: float = 3.0
    angle: float = 25.0
    stroke: float = 1.2

    @classmethod
    def of(
        cls, paper: str, *, characters: int = 2, recto: bool = True, turned: bool = False
    ) -> Rules:
        small = paper in SMALL
        spot, tag = (16.0, (13.0, 11.0)) if small else (20.0, (15.0, 12.0))
        if characters >= 3:
            spot, tag = 22.0, (18.0, 12.0)
        left, right = (14.0, 10.0) if recto else (10.0, 14.0)
        sheet = SHEETS[paper]
        margins = (left, 10.0, right, 10.0)
        if turned:
            sheet, margins = (sheet[1], sheet[0]), (10.0, left, 10.0, right)
        return cls(sheet, spot, tag, 4.0 if small else 6.0, margins)


@dataclass(frozen=True)
class Breach:
    """A rule that is broken, by whom, and how many millimetres (or degrees) are missing."""

    rule: str
    who: tuple[str, ...]
    missing: float

    def __str__(self) -> str:
        return f"{self.rule}: {', '.join(self.who)} short by {self.missing:.2f}"


@dataclass
class Sheet:
    """What the judge reads off a page."""

    size: tuple[float, float] = (0.0, 0.0)
    spots: dict[str, tuple[Point, float]] = field(default_factory=dict)
    links: dict[str, LineString] = field(default_factory=dict)
    leaving: dict[str, tuple[float, float]] = field(default_factory=dict)
    tags: dict[str, Polygon] = field(default_factory=dict)
    strokes: dict[str, float] = field(default_factory=dict)
    art: tuple[float, float, float, float] | None = None
    faults: list[Breach] = field(default_factory=list)


def judge(
    svg: str,
    rules: Rules,
    *,
    wanted: Mapping[str, tuple[float, float]] | None = None,
    proportion: float | None = None,
) -> list[Breach]:
    """Every breach on a page. ``wanted`` are the spots' per cents, ``proportion`` the picture's
    width over its height: with them it is checked that nothing has been moved or stretched too far.
    """
    sheet = read(svg)
    found = [
        *sheet.faults,
        *_paper(sheet, rules),
        *_spots(sheet, rules),
        *_links(sheet, rules),
        *_pairs_of_links(sheet, rules),
        *_angles(sheet, rules),
        *_tags(sheet, rules),
        *_picture(sheet, rules, wanted, proportion),
    ]
    return [breach for breach in found if breach.missing > ROUNDING]


def read(svg: str) -> Sheet:
    """Find the groups of the contract in an SVG."""
    root = ElementTree.fromstring(svg)
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    sheet = Sheet(size=(width, height))
    for group in root.iter(f"{SVG}g"):
        kind = group.get("class")
        if kind in {"spot", "link", "tag"} and any(part.get("transform") for part in group.iter()):
            sheet.faults.append(Breach("a transform stands on a mark", (kind,), 1.0))
        if kind == "spot":
            (circle,) = group.findall(f"{SVG}circle")
            centre = Point(float(circle.attrib["cx"]), float(circle.attrib["cy"]))
            sheet.spots[group.attrib["data-spot"]] = (centre, float(circle.attrib["r"]))
            sheet.strokes["spot " + group.attrib["data-spot"]] = _stroke(circle)
        elif kind == "link":
            line = group.findall(f"{SVG}path")[-1]
            name = group.attrib["data-link"]
            sheet.links[name], sheet.leaving[name] = flatten(line.attrib["d"])
            sheet.strokes["link " + name] = _stroke(line)
        elif kind == "tag":
            (rect,) = group.findall(f"{SVG}rect")
            x, y, w, h = (float(rect.attrib[key]) for key in ("x", "y", "width", "height"))
            sheet.tags[group.attrib["data-link"]] = box(x, y, x + w, y + h)
            sheet.strokes["tag " + group.attrib["data-link"]] = _stroke(rect)
        elif kind == "art":
            x, y, w, h = map(float, group.attrib["data-box"].split())
            sheet.art = (x, y, w, h)
    return sheet


def flatten(data: str) -> tuple[LineString, tuple[float, float]]:
    """A path of M, L and C as a chain, and the directions (radians) in which it leaves its ends."""
    if not re.fullmatch(r"M[-\d\s,.]+([LC][-\d\s,.]+)+", data.strip()):
        raise ValueError(f"the judge can't read the path {data!r}")
    parts = re.findall(r"([MLC])([^MLC]*)", data)
    chain: list[tuple[float, float]] = []
    controls: list[tuple[float, float]] = []
    for step, rest in parts:
        numbers = [float(text) for text in re.findall(r"-?\d+(?:\.\d+)?", rest)]
        points = list(zip(numbers[::2], numbers[1::2], strict=True))
        controls += points
        if step == "C":
            chain += _cubic(chain[-1], *points)
        else:
            chain += points
    return LineString(chain), (_turn(controls[0], controls[1]), _turn(controls[-1], controls[-2]))


def _cubic(
    p: tuple[float, float], q: tuple[float, float], r: tuple[float, float], s: tuple[float, float]
) -> list[tuple[float, float]]:
    # A chord is off by at most 1/8 of the greatest second derivative over the square of the steps.
    bend = max(
        math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1])
        for a, b, c in ((p, q, r), (q, r, s))
    )
    steps = max(1, math.ceil(math.sqrt(6 * bend / (8 * FLAT))))
    points = []
    for i in range(1, steps + 1):
        t = i / steps
        weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3)
        points.append(
            tuple(
                sum(w * k[axis] for w, k in zip(weights, (p, q, r, s), strict=True))
                for axis in (0, 1)
            )
        )
    return points


def _turn(start: tuple[float, float], end: tuple[float, float]) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])


def _stroke(element: ElementTree.Element) -> float:
    return float(element.get("stroke-width", "0"))


def _ends(name: str, sheet: Sheet) -> tuple[str, str]:
    """The two spots of a link: names may not hold hyphens, so there is one way to part them."""
    a, b = name.split("-")
    return a, b


def _paper(sheet: Sheet, rules: Rules) -> Iterator[Breach]:
    off = max(abs(have - want) for have, want in zip(sheet.size, rules.sheet, strict=True))
    yield Breach("the paper's size", (), off)
    left, top, right, bottom = rules.margins
    width, height = rules.sheet
    free = box(left, top, width - right, height - bottom)
    marks = {f"spot {name}": at.buffer(r, 64) for name, (at, r) in sheet.spots.items()}
    marks |= {f"link {name}": line for name, line in sheet.links.items()}
    marks |= {f"tag {name}": tag for name, tag in sheet.tags.items()}
    for name, mark in marks.items():
        half = sheet.strokes[name] / 2
        x0, y0, x1, y1 = mark.bounds
        a0, b0, a1, b1 = free.bounds
        out = max(a0 - x0, b0 - y0, x1 - a1, y1 - b1) + half
        yield Breach("ink in the margin", (name,), out)
    for name, stroke in sheet.strokes.items():
        yield Breach("a stroke too wide", (name,), stroke - rules.stroke)


def _spots(sheet: Sheet, rules: Rules) -> Iterator[Breach]:
    for name, (_, radius) in sheet.spots.items():
        yield Breach("a spot too small", (name,), rules.spot - 2 * radius)
    for (a, (at, r)), (b, (other, q)) in combinations(sheet.spots.items(), 2):
        yield Breach("two spots", (a, b), rules.spot_gap - (at.distance(other) - r - q))


def _links(sheet: Sheet, rules: Rules) -> Iterator[Breach]:
    for name, line in sheet.links.items():
        ends = _ends(name, sheet)
        for end, at in zip(ends, (line.coords[0], line.coords[-1]), strict=True):
            centre, radius = sheet.spots[end]
            off = abs(centre.distance(Point(at)) - radius)
            yield Breach("a link ends off its ring", (name, end), off)
            yield Breach("a link in its own spot", (name, end), radius - line.distance(centre))
        if not line.is_simple:
            yield Breach("a link crosses itself", (name,), 1.0)
        for spot, (centre, radius) in sheet.spots.items():
            if spot not in ends:
                gap = line.distance(centre) - radius
                yield Breach("a link and a spot", (name, spot), rules.link_gap - gap)


def _pairs_of_links(sheet: Sheet, rules: Rules) -> Iterator[Breach]:
    for (a, line), (b, other) in combinations(sheet.links.items(), 2):
        rule = "two links cross" if line.crosses(other) else "two links side by side"
        yield Breach(rule, (a, b), rules.side_by_side - line.distance(other))


def _angles(sheet: Sheet, rules: Rules) -> Iterator[Breach]:
    for a, b in combinations(sheet.links, 2):
        for spot in set(_ends(a, sheet)) & set(_ends(b, sheet)):
            centre = sheet.spots[spot][0]
            tangents, radii = [], []
            for name in (a, b):
                k = _ends(name, sheet).index(spot)
                start = sheet.links[name].coords[-k]
                tangents.append(sheet.leaving[name][k])
                radii.append(_turn((centre.x, centre.y), start))
            for turns in (tangents, radii):
                between = abs((turns[1] - turns[0] + math.pi) % (2 * math.pi) - math.pi)
                yield Breach("angle", (a, b, spot), rules.angle - math.degrees(between))


def _tags(sheet: Sheet, rules: Rules) -> Iterator[Breach]:
    if set(sheet.tags) != set(sheet.links):
        odd = sorted(set(sheet.tags) ^ set(sheet.links))
        yield Breach("a link without its tag", tuple(odd), 1.0)
        return
    for name, tag in sheet.tags.items():
        x0, y0, x1, y1 = tag.bounds
        short = max(rules.tag[0] - (x1 - x0), rules.tag[1] - (y1 - y0))
        yield Breach("a tag too small", (name,), short)
        yield Breach("a tag higher than wide", (name,), (y1 - y0) - (x1 - x0))
        line = sheet.links[name]
        yield Breach("a tag off its link", (name,), line.distance(tag.centroid) - 0.5)
        yield Breach("a link hidden by its tag", (name,), rules.visible - _shown(line, tag))
        for spot, (centre, radius) in sheet.spots.items():
            gap = tag.distance(centre) - radius
            yield Breach("a tag and a spot", (name, spot), rules.tag_gap - gap)
        for other, far in sheet.links.items():
            if other != name:
                gap = tag.distance(far)
                yield Breach("a tag and a link", (name, other), rules.tag_gap - gap)
    for (a, tag), (b, other) in combinations(sheet.tags.items(), 2):
        yield Breach("two tags", (a, b), rules.tag_gap - tag.distance(other))


def _shown(line: LineString, tag: Polygon) -> float:
    """The shorter of the two ends of a link that its tag leaves to be seen."""
    left = line.difference(tag)
    if not isinstance(left, MultiLineString) or len(left.geoms) != 2:
        return 0.0
    return min(piece.length for piece in left.geoms)


def _picture(
    sheet: Sheet,
    rules: Rules,
    wanted: Mapping[str, tuple[float, float]] | None,
    proportion: float | None,
) -> Iterator[Breach]:
    if sheet.art is None:
        return
    x, y, width, height = sheet.art
    if proportion is not None:
        yield Breach("the picture is stretched", (), abs(width - height * proportion) - 0.02)
    for name, (across, down) in (wanted or {}).items():
        home = Point(x + across / 100 * width, y + down / 100 * height)
        moved = home.distance(sheet.spots[name][0])
        yield Breach("a spot moved too far", (name,), moved - rules.reach)


def mirrored(line: LineString, about: float) -> LineString:
    """A chain seen in a mirror that stands upright at x = ``about``."""
    return affinity.scale(line, xfact=-1, yfact=1, origin=(about, 0))
