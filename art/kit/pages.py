"""``python -m art.kit.pages NAME ...``: a creature's ``[[page]]`` for a chapter manifest.

Warns on stderr of spots that will be hard to lay out. Sizes are those of the page (common
practice, no source): on A5 a spot is 16 mm across, a tag 13 x 11 mm with 3 mm of link on each side.
"""

from __future__ import annotations

import sys
from itertools import combinations
from math import hypot
from types import ModuleType

from art.kit import gallery
from art.kit.curves import Point, heading

A5 = (116.0, 130.0)
"""Width and height in millimetres that an A5 or half-letter page leaves for its picture."""
SPOT, GAP, TAG, BARE, PASS, ANGLE, EDGE = 16.0, 5.0, (13.0, 11.0), 6.0, 3.0, 30.0, 7.0


def on_paper(size: tuple[int, int], room: tuple[float, float]) -> float:
    """Millimetres a picture unit when a picture of ``size`` fills ``room``."""
    return min(room[0] / size[0], room[1] / size[1])


def manifest(name: str) -> str:
    """The page as TOML."""
    module = gallery.creature(name)
    file = f"{name.replace('_', '-')}.svg"
    links = ", ".join(f'"{link}"' for link in module.LINKS)
    spots = "\n".join(f"{spot} = [{x:g}, {y:g}]" for spot, (x, y) in module.SPOTS.items())
    return (
        f'[[page]]\nname = "{module.NAME}"\nart = "../../art/{file}"\n'
        f'mark = "../../art/marks/{file}"\n'
        f'artist = "the bookmaker founders"\nlicence = "CC0-1.0"\n'
        f'description = "{module.DESCRIPTION}"\nlinks = [{links}]\n[page.spots]\n{spots}\n'
    )


def faults(name: str) -> list[str]:
    """What stands in the way of straight links and level tags on A5."""
    module = gallery.creature(name)
    size = module.draw().size
    mm = on_paper(size, A5)
    at = {
        spot: (x / 100 * size[0] * mm, y / 100 * size[1] * mm)
        for spot, (x, y) in module.SPOTS.items()
    }
    links = [tuple(link.split("-")) for link in module.LINKS]
    return [*_shape(module, links), *_spots(module, at), *_links(at, links), *_angles(at, links)]


def _shape(module: ModuleType, links: list[tuple[str, ...]]) -> list[str]:
    reached = {next(iter(module.SPOTS))}
    for _ in links:
        reached |= {end for link in links if reached & set(link) for end in link}
    whole = reached == set(module.SPOTS) and len(links) == len(module.SPOTS) - 1
    return [] if whole else ["the links are no tree over the spots"]


def _spots(module: ModuleType, at: dict[str, Point]) -> list[str]:
    found = [
        f"{spot} is too near the edge"
        for spot, place in module.SPOTS.items()
        if not all(EDGE <= part <= 100 - EDGE for part in place)
    ]
    for one, two in combinations(at, 2):
        gap = _far(at[one], at[two]) - SPOT
        if gap < GAP:
            found.append(f"{one} and {two} are {gap:.1f} mm apart, {GAP:g} needed")
    return found


def _links(at: dict[str, Point], links: list[tuple[str, ...]]) -> list[str]:
    found = []
    for a, b in links:
        dx, dy = abs(at[a][0] - at[b][0]), abs(at[a][1] - at[b][1])
        across = min(TAG[0] / dx if dx else 9, TAG[1] / dy if dy else 9) * hypot(dx, dy)
        room = hypot(dx, dy) - SPOT - across - BARE
        if room < 0:
            found.append(f"{a}-{b} is {-room:.1f} mm too short for its tag")
        found += [
            f"{a}-{b} passes {spot} too near"
            for spot in at
            if spot not in (a, b) and _off(at[spot], at[a], at[b]) < SPOT / 2 + PASS
        ]
    for one, two in combinations(links, 2):
        if not set(one) & set(two) and _cross(*(at[end] for end in (*one, *two))):
            found.append(f"{'-'.join(one)} crosses {'-'.join(two)}")
    return found


def _angles(at: dict[str, Point], links: list[tuple[str, ...]]) -> list[str]:
    found = []
    for spot in at:
        ends = [b if a == spot else a for a, b in links if spot in (a, b)]
        for one, two in combinations(ends, 2):
            angle = abs(heading(at[spot], at[one]) - heading(at[spot], at[two])) % 360
            if min(angle, 360 - angle) < ANGLE:
                found.append(
                    f"{spot}: {one} and {two} leave at {min(angle, 360 - angle):.0f} degrees"
                )
    return found


def _far(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _off(point: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    part = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / ((dx * dx + dy * dy) or 1)
    part = min(1, max(0, part))
    return _far(point, (a[0] + part * dx, a[1] + part * dy))


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    def turn(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


if __name__ == "__main__":
    for wanted in sys.argv[1:]:
        for fault in faults(wanted.replace("-", "_")):
            print(f"{wanted}: {fault}", file=sys.stderr)
        print(manifest(wanted.replace("-", "_")))
