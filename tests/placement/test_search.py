"""Choosing ways: the search against trying everything, and mending against the search."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from bookmaker.placement.compatibility import Fits
from bookmaker.placement.curves import gentle, straight, wild
from bookmaker.placement.refine import Field, ease, refine
from bookmaker.placement.repair import mend
from bookmaker.placement.search import Search, seated
from tests.layout import sets
from tests.layout.sets import Case


def page_of(case: Case) -> Field:
    rank = {name: i for i, (name, _, _) in enumerate(case.spots)}
    edges = tuple((rank[a], rank[b]) for a, b in case.links)
    return Field(tuple((x, y) for _, x, y in case.spots), edges, case.frame, case.sizes)


def small_pages(count: int) -> list[Field]:
    cases = [case for case in sets.wild(200, "a4", seed=11) if len(case.spots) == 4]
    return [page_of(case) for case in cases[:count]]


def cheapest_by_trying(fits: Fits) -> float | None:
    """The least cost of any curves that go together: every one is tried with every other."""
    runs = [range(*fits.starts[k : k + 2]) for k in range(fits.links)]
    best = None
    for curves in product(*runs):
        cost = float(fits.ways.cost[list(curves)].sum())
        if best is not None and cost >= best:
            continue
        found, _ = seated(fits, list(curves))
        best = cost if found else best
    return best


@pytest.mark.parametrize("page", small_pages(8), ids=lambda page: str(page.places[0]))
def test_the_search_finds_nothing_dearer_than_trying_everything(page: Field) -> None:
    fits = page.fits([gentle()[:13]] * len(page.edges))
    best = cheapest_by_trying(fits)
    found = Search(fits, 2000).run()
    if best is None:
        assert found is None
    else:
        assert found is not None
        # A curve is weighed against a tag that sits off its middle, by a hundredth of a unit a mm.
        assert float(fits.ways.cost[list(found.curves)].sum()) <= best + 0.05


def test_mending_finds_a_choice_wherever_the_search_does() -> None:
    found = missed = 0
    for case in sets.anatomical(40, "a4", seed=12):
        fits = page_of(case).fits([gentle()] * len(case.links))
        if Search(fits, 150).run():
            mended, _ = mend(fits, 60)
            found += mended is not None
            missed += mended is None
            assert mended is None or seated(fits, list(mended.curves))[0]
    assert found > 15
    assert missed <= 1


def test_mending_names_links_that_have_no_way_at_all() -> None:
    # A spot stands in the middle of the only, straight, way.
    page = Field(((50, 100), (150, 100), (100, 100)), ((0, 1), (0, 2)), sets.frame("a4"), sizes())
    fits = page.fits([straight()] * 2)
    assert mend(fits, 10) == (None, [0])


def sizes():  # type: ignore[no-untyped-def]
    return sets.Case("", "a4", (), ()).sizes


def test_refining_makes_nothing_dearer_and_keeps_all_together() -> None:
    eased = 0.0
    for case in sets.wild(40, "a4", seed=13):
        page = page_of(case)
        fits = page.fits([wild(60)] * len(page.edges))
        found, _ = mend(fits, 30)
        if not found:
            continue
        curves = ease(fits, found.curves)
        assert seated(fits, curves)[0]
        before = float(fits.ways.cost[list(found.curves)].sum())
        finer = refine(page, fits.ways.bends[curves], (16.0, 8.0, 4.0))
        assert finer is not None
        table, choice = finer
        after = float(table.ways.cost[list(choice.curves)].sum())
        assert after <= before + 1e-6
        eased += before - after
    assert eased > 5.0


def test_a_choice_is_the_same_every_time() -> None:
    (case,) = sets.wild(1, "a4", seed=14)
    fits = [page_of(case).fits([wild(60)] * len(case.links)) for _ in range(2)]
    first, second = (mend(table, 30)[0] for table in fits)
    assert first == second
    assert np.array_equal(fits[0].ways.points, fits[1].ways.points)
