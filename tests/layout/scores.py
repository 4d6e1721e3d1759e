"""Laying out a set of pages and counting what the judge says of them."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass, field

from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag
from bookmaker.placement import arrange
from bookmaker.placement.tree_placement import NoCleanLayout, TreePlacement
from tests.layout.judge import Breach, Rules, judge
from tests.layout.pages import drawn
from tests.layout.sets import Case


@dataclass
class Score:
    """What became of a set: refusals by page, breaches by page, seconds a page."""

    pages: int = 0
    refused: dict[str, NoCleanLayout] = field(default_factory=dict)
    dirty: dict[str, list[Breach]] = field(default_factory=dict)
    seconds: list[float] = field(default_factory=list)
    straight: int = 0
    """How many would be clean with straight links, tags at their middles and no spot moved."""

    @property
    def clean(self) -> float:
        """The share of pages laid out without a breach."""
        return 1 - (len(self.refused) + len(self.dirty)) / self.pages


def score(cases: Iterable[Case]) -> Score:
    """Lay out and judge every case."""
    found = Score()
    for case in cases:
        found.pages += 1
        found.straight += not judged(case, plainly(case))
        start = time.process_time()
        try:
            placement = arrange(case.spots, case.links, case.frame, case.sizes)
        except NoCleanLayout as refusal:
            found.refused[case.name] = refusal
            continue
        finally:
            found.seconds.append(time.process_time() - start)
        breaches = judged(case, placement)
        if breaches:
            found.dirty[case.name] = breaches
    return found


def judged(case: Case, placement: TreePlacement) -> list[Breach]:
    """What the judge says of a case, drawn; the frame is taken for the picture."""
    box = case.frame
    wanted = {
        name: (100 * (x - box.x) / box.width, 100 * (y - box.y) / box.height)
        for name, x, y in case.spots
    }
    svg = drawn(placement, case.paper, box)
    return judge(svg, Rules.of(case.paper), wanted=wanted, proportion=box.width / box.height)


def plainly(case: Case) -> TreePlacement:
    """Straight links, tags at their middles, spots where they were put."""
    sizes = case.sizes
    at = {name: (x, y) for name, x, y in case.spots}
    spots = tuple(PlacedSpot(name, x, y, sizes.radius) for name, x, y in case.spots)
    links, tags = [], []
    for a, b in case.links:
        (ax, ay), (bx, by) = at[a], at[b]
        far = max(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5, 1e-9)
        dx, dy = (bx - ax) / far * sizes.radius, (by - ay) / far * sizes.radius
        links.append(PlacedLink(f"{a}-{b}", ((ax + dx, ay + dy), (bx - dx, by - dy))))
        x, y = (ax + bx - sizes.tag_width) / 2, (ay + by - sizes.tag_height) / 2
        tags.append(PlacedTag(f"{a}-{b}", Box(x, y, sizes.tag_width, sizes.tag_height)))
    return TreePlacement(spots, tuple(links), tuple(tags))
