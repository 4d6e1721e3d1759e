"""Measure how good links chosen for nine and more spots are: `python -m tests.benchmarks.links`.

Held against every spanning tree without crossings: how often what is wished can be had and is not,
how much more the links cost (millimetres, what is in their way added), and how long it takes.
"""

from __future__ import annotations

import argparse
import os
import statistics
import time
from unittest import mock

from bookmaker.cache import Cache, MemoryCache
from bookmaker.linking import Joined, join
from bookmaker.linking import plane_trees as engine
from bookmaker.linking.choose import choose
from bookmaker.linking.page_trees import PageTrees
from bookmaker.linking.shapes import TreeFacts, trees_of
from bookmaker.model import Page, Wish
from bookmaker.placement import page_sizes
from tests.benchmarks.layout import wishing
from tests.layout import sets

WISHES = {
    "none": Wish(),
    "steady": Wish(band="steady"),
    "steep": Wish(band="steep"),
    "sheer": Wish(band="sheer"),
    "1 in 50": Wish(one_in=50),
    "1 in 1000": Wish(one_in=1000),
}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pages", type=int, default=24, help="sets of spots of each size")
    pages = vars(parser.parse_args())["pages"]
    print("spots  wish       missed  dearer  mean   worst    first, s  others, s: median  worst")
    for spots in (9, 10):
        cache = MemoryCache()
        for name, wish in WISHES.items():
            told(spots, name, [wishing(case, wish) for case in sets.many(pages, spots)], cache)
    for spots in (11, 12, 14):
        timed(spots, "none", WISHES["none"])
        timed(spots, "1 in 1000", WISHES["1 in 1000"])
        timed(spots, "sheer", WISHES["sheer"])


def told(spots: int, name: str, pages: list[Page], cache: Cache) -> None:
    pairs = [(found(page, cache), best(page, cache)) for page in pages]
    met = [one.cost / other.cost for one, other in pairs if one.miss <= other.miss + 1e-9]
    dearer = [ratio for ratio in met if ratio > 1 + 1e-6]
    first, *rest = seconds(pages)
    print(
        f"{spots:5}  {name:10} {len(pairs) - len(met):6} {len(dearer):7} "
        f"{statistics.mean(met):6.3f} {max(met):6.3f} {first:10.2f} "
        f"{statistics.median(rest):17.3f} {max(rest):6.2f}"
    )


def timed(spots: int, name: str, wish: Wish) -> None:
    first, *rest = seconds([wishing(case, wish) for case in sets.many(4, spots)])
    print(
        f"{spots:5}  {name:10} {'not held against all trees':29} {first:10.2f} "
        f"{statistics.median(rest):17.3f} {max(rest):6.2f}"
    )


def seconds(pages: list[Page]) -> list[float]:
    """Processor time for each page's links, from an empty cache."""
    cache = MemoryCache()
    taken = []
    for page in pages:
        start = time.process_time()
        choose(page, None, "a4", cache, 1)
        taken.append(time.process_time() - start)
    return taken


def found(page: Page, cache: Cache) -> Joined:
    places, _ = PageTrees(page, None, "a4", cache).laid
    return join(places, page_sizes(page, "a4"), TreeFacts(page, cache, 1).miss)[0]


def best(page: Page, cache: Cache) -> Joined:
    """Of every tree, as up to eight spots."""
    places, _ = PageTrees(page, None, "a4", cache).laid
    miss = TreeFacts(page, cache, 1).miss
    misses = {edges: miss(edges) for edges in trees_of(len(places))}
    wanted = [edges for edges in misses if misses[edges] == min(misses.values())]
    with mock.patch.object(engine, "EXACT", len(places)):
        return join(places, page_sizes(page, "a4"), miss, wanted)[0]


if __name__ == "__main__":
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    main()
