"""Layout against cairosvg drawing the same page: ``python -m tests.benchmarks.layout [--pages N]``.

One process, one thread, processor time; each page is laid out and then drawn. Where others work on
the same machine even processor time has peaks: in (a) each time is the better of two. Prints

(a) for the anatomical and the wild set: milliseconds a page, and how many times cairosvg's;
(b) what the judge says of each set, beside straight links with their tags at the middles;
(c) how the time grows from 4 to 35 spots on A3 (the exponent of a power that fits best);
(d) links = "auto" for eight spots.
"""

from __future__ import annotations

import argparse
import math
import os
import statistics
import time
from collections.abc import Callable, Iterable, Iterator, Sequence

import cairosvg

from bookmaker.cache import MemoryCache
from bookmaker.linking.choose import choose
from bookmaker.model import BANDS, Number, Page, Spot, Wish, progression
from bookmaker.placement import arrange
from bookmaker.placement.tree_placement import NoCleanLayout, TreePlacement
from tests.layout import sets
from tests.layout.pages import drawn
from tests.layout.scores import plainly, score
from tests.layout.sets import Case

GROWTH = (4, 6, 8, 11, 16, 24, 35)
JUDGED: tuple[tuple[str, Callable[[int], Iterator[Case]], float], ...] = (
    ("anatomical, A4", lambda count: sets.anatomical(count, "a4"), 0.98),
    ("anatomical, A5", lambda count: sets.anatomical(count, "a5"), 0.95),
    ("wild, A4", lambda count: sets.wild(count, "a4"), 0.90),
    ("tight, A4", lambda count: sets.tight(max(count // 4, 1)), 0.0),
)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pages", type=int, default=300, help="pages in each judged set")
    parser.add_argument("--timed", type=int, default=200, help="pages timed of each set")
    pages, timed = vars(parser.parse_args()).values()
    against_cairosvg(timed)
    judged(pages)
    growth()
    joining()


def seconds(action: Callable[[], object]) -> float:
    start = time.process_time()
    action()
    return time.process_time() - start


def better_of_two(action: Callable[[], object]) -> float:
    return min(seconds(action), seconds(action))


def lay_out(case: Case) -> TreePlacement:
    """The page's placing; of a page that is refused, as it would be with straight links."""
    try:
        return arrange(case.spots, case.links, case.frame, case.sizes)
    except NoCleanLayout:
        return plainly(case)


def against_cairosvg(count: int) -> None:
    print("\n(a) milliseconds a page        layout             cairosvg    times: median  worst")
    ours: list[float] = []
    theirs: list[float] = []
    for name, cases in (
        ("anatomical, A4", sets.anatomical(count, "a4")),
        ("wild, A4", sets.wild(count, "a4")),
    ):
        laid, painted = timed(cases)
        line(name, laid, painted)
        ours += laid
        theirs += painted
    line("both", ours, theirs)
    print(f"{'asked':70}at most 5     60")


def timed(cases: Iterable[Case]) -> tuple[list[float], list[float]]:
    laid, painted = [], []
    for case in cases:
        encoded = drawn(lay_out(case), case.paper, case.frame).encode()
        laid.append(better_of_two(lambda case=case: lay_out(case)))  # type: ignore[misc]
        painted.append(better_of_two(lambda encoded=encoded: cairosvg.svg2pdf(encoded)))  # type: ignore[misc]
    return laid, painted


def line(name: str, ours: Sequence[float], theirs: Sequence[float]) -> None:
    median, other = statistics.median(ours), statistics.median(theirs)
    worst = max(ours)
    print(
        f"{name:16}median {median * 1e3:7.1f}, worst {worst * 1e3:7.1f}, "
        f"cairosvg {other * 1e3:6.1f}    {median / other:9.1f} {worst / other:9.1f}"
    )


def judged(count: int) -> None:
    print("\n(b) share of pages clean     clean   refused   breaches   straight alone   asked")
    for name, cases, asked in JUDGED:
        found = score(cases(count))
        print(
            f"{name:16}{found.pages:5} pages {found.clean:9.1%} {len(found.refused):7} "
            f"{len(found.dirty):9} {found.straight / found.pages:15.1%} {asked:12.0%}"
        )
        for page, refusal in list(found.refused.items())[:6] if asked else []:
            print(f"    {page}: {refusal}")
        for page, breaches in found.dirty.items():
            print(f"    BREACH {page}: {'; '.join(map(str, breaches))}")


def growth() -> None:
    print("\n(c) spots on A3     milliseconds, mean of 8")
    means = []
    for spots in GROWTH:
        taken = [seconds(lambda case=case: lay_out(case)) for case in sets.posters(8, spots)]  # type: ignore[misc]
        means.append(statistics.mean(taken))
        print(f"{spots:8}{means[-1] * 1e3:18.1f}")
    sizes = [math.log(spots) for spots in GROWTH]
    slope, _ = statistics.linear_regression(sizes, [math.log(mean) for mean in means])
    print(f"grows as the number of spots to the power {slope:.2f}; asked: at most 2")


def joining() -> None:
    print("\n(d) links for eight spots, seconds a page, all four bands")
    cache = MemoryCache()
    taken: list[float] = []
    cases = [case for case in sets.anatomical(60, "a4", seed=21) if len(case.spots) == 8]
    for case in cases[:6]:
        for band in BANDS:
            page = wishing(case, Wish(band=band))
            taken.append(seconds(lambda page=page: choose(page, None, "a4", cache, 1)))  # type: ignore[misc]
    first, *rest = taken
    print(
        f"the first, which finds the work of all shapes, {first:.2f}; "
        f"the others: median {statistics.median(rest):.2f}, worst {max(rest):.2f}; asked: under 1"
    )


def wishing(case: Case, wish: Wish) -> Page:
    """A page with a case's spots and no links."""
    box = case.frame
    spots = tuple(
        Spot(name, 100 * (x - box.x) / box.width, 100 * (y - box.y) / box.height)
        for name, x, y in case.spots
    )
    numbers = progression(Number.parse("1"), Number.parse("2"), len(spots))
    return Page("p", "P", "c", "c.toml", 1, None, "", "", spots, (), numbers, wish=wish)


if __name__ == "__main__":
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    main()
