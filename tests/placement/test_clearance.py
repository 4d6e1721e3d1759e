"""The engine's own measuring, against the judge, which shares nothing with it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag
from bookmaker.placement import arrange
from bookmaker.placement.finished import faults
from bookmaker.placement.tree_placement import TreePlacement
from tests.layout import sets
from tests.layout.scores import judged, plainly
from tests.layout.sets import Case

# What the engine calls a gap -> what the judge calls the rule.
NAMES = {
    "spot-spot": {"two spots"},
    "spot-edge": {"ink in the margin"},
    "link-spot": {"a link and a spot"},
    "link-link": {"two links side by side"},
    "crossing": {"two links cross", "two links side by side"},
    "angle": {"angle"},
    "tag-hides-link": {"a link hidden by its tag"},
    "tag-edge": {"ink in the margin"},
    "tag-spot": {"a tag and a spot"},
    "tag-link": {"a tag and a link"},
    "tag-tag": {"two tags"},
}


def test_the_engine_and_the_judge_find_the_same_pages_clean() -> None:
    clean = 0
    for case in [*sets.anatomical(80, "a4", seed=31), *sets.wild(40, "a4", seed=31)]:
        placement = plainly(case)
        ours = {found.gap for found in faults(placement, case.frame, case.sizes)}
        theirs = {breach.rule for breach in judged(case, placement)}
        clean += not theirs
        for gap in ours - {"spot-edge", "tag-edge", "link-own-spot"}:
            assert NAMES[gap] & theirs, (case.name, gap, theirs)
        assert bool(theirs) <= bool(ours), (case.name, theirs)
    assert 5 < clean < 60


def test_both_measure_the_same_missing_millimetres() -> None:
    for case in sets.anatomical(40, "a4", seed=32):
        placement = plainly(case)
        # The worst of each kind agrees to a few hundredths.
        theirs: dict[str, float] = {}
        for breach in judged(case, placement):
            theirs[breach.rule] = max(theirs.get(breach.rule, 0.0), breach.missing)
        worst: dict[str, float] = {}
        for found in faults(placement, case.frame, case.sizes):
            worst[found.gap] = max(worst.get(found.gap, 0.0), found.missing)
        for gap, rule in (("link-spot", "a link and a spot"), ("tag-tag", "two tags")):
            assert worst.get(gap, 0.0) == pytest.approx(theirs.get(rule, 0.0), abs=0.03)


def test_a_bent_link_is_measured_along_its_bend() -> None:
    case = next(c for c in sets.anatomical(50, "a4") if bent(c))
    placement = arrange(case.spots, case.links, case.frame, case.sizes)
    assert faults(placement, case.frame, case.sizes) == []
    # The longest bend pulled straight leaves its tag beside it, or runs into something.
    link = max(placement.links, key=bulge)
    at = placement.links.index(link)
    links = (*placement.links[:at], straightened(link), *placement.links[at + 1 :])
    assert faults(replace(placement, links=links), case.frame, case.sizes)


def test_a_link_that_grazes_a_corner_of_its_tag_is_hidden_there() -> None:
    # Found on a tight page: measured along coarse chords, the link shows its three millimetres.
    spots = (("a", 61.3226, 73.3876), ("d", 51.3154, 96.3629))
    curve = ((51.4093, 72.0735), (41.7775, 70.7967), (37.3675, 83.1171), (44.0642, 89.4767))
    case = Case("graze", "a4", spots, (("a", "d"),))
    placement = TreePlacement(
        tuple(PlacedSpot(name, x, y, 10.0) for name, x, y in spots),
        (PlacedLink("a-d", curve),),
        (PlacedTag("a-d", Box(34.0314, 72.1426, 15.0, 12.0)),),
    )
    (theirs,) = judged(case, placement)
    (ours,) = faults(placement, case.frame, case.sizes)
    assert theirs.rule == "a link hidden by its tag"
    assert ours.gap == "tag-hides-link"
    assert ours.missing == pytest.approx(theirs.missing, abs=0.3)


def bent(case: Case) -> bool:
    placement: TreePlacement = arrange(case.spots, case.links, case.frame, case.sizes)
    return max(map(bulge, placement.links)) > 12


def bulge(link: PlacedLink) -> float:
    """How far the handles of a link lie from the line between its ends, mm."""
    (ax, ay), (bx, by) = link.curve[0], link.curve[-1]
    far = math.dist((ax, ay), (bx, by))
    return max(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / far for x, y in link.curve)


def straightened(link: PlacedLink) -> PlacedLink:
    return replace(link, curve=(link.curve[0], link.curve[-1]))
