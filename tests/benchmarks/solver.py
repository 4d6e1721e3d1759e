"""The solver against OR-Tools CP-SAT: ``python -m tests.benchmarks.solver``.

Both sides in one run, one thread each, in turn; prints medians and ratios. Parts (a) to (c)
take processor time, which other work on the machine disturbs least, part (d) time by the clock.

(a) the exact count of all 46 shapes of 3 to 8 spots from nothing, and every solution listed;
(b) the whole catalogue up to ten spots, against one nine-spot path; a twelve-spot path counted;
(c) a first solution for seeded random trees of 35 vertices;
(d) certifying a book of 24 pages, against building it;
(e) certifying 60 pages of 4 to 8 spots from nothing, against the same without the building pupil;
(f) a first solution for pages of 35 spots with 11 to 24 given numbers.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from random import Random

import networkx as nx

from bookmaker.cache import MemoryCache
from bookmaker.puzzle import Tree, certify
from bookmaker.puzzle.catalogue import sweep
from bookmaker.puzzle.facts import building_of
from bookmaker.puzzle.finding import find
from bookmaker.puzzle.instance import Instance, normalize
from bookmaker.puzzle.solutions import all_solutions, count
from tests.puzzle.reference import path
from tests.puzzle.solver_reference import enumerate_labels, first_labels, is_solvable

SHAPES = [Tree(n, tuple(graph.edges())) for n in range(3, 9) for graph in nx.nonisomorphic_trees(n)]


def seconds(
    action: Callable[..., object],
    *arguments: object,
    clock: Callable[[], float] = time.process_time,
) -> float:
    began = clock()
    action(*arguments)
    return clock() - began


def median(times: int, action: Callable[[], object]) -> float:
    return statistics.median(seconds(action) for _ in range(times))


def instance(tree: Tree) -> Instance:
    return normalize(tree, range(tree.n), {}).instance


def compare(what: str, ours: float, theirs: float, asked: str) -> None:
    print(
        f"{what:58} ours {ours:9.4f} s  CP-SAT {theirs:9.3f} s  ratio {theirs / ours:8.1f}  {asked}"
    )


def counting(times: int) -> None:
    def count_all() -> list[int]:
        cache = MemoryCache()
        return [count(instance(tree), cache).solutions for tree in SHAPES]

    def list_all() -> list[int]:
        return [sum(1 for _ in all_solutions(instance(tree))) for tree in SHAPES]

    def enumerate_all() -> list[int]:
        return [len(enumerate_labels(tree)) for tree in SHAPES]

    theirs = median(times, enumerate_all)
    assert count_all() == list_all() == enumerate_all()
    compare("(a) 46 shapes counted", median(times, count_all), theirs, "(300 or more)")
    compare("(a) all their solutions listed", median(times, list_all), theirs, "(15 or more)")


def catalogue(times: int) -> None:
    ours = median(times, lambda: [sweep(n) for n in range(3, 11)])
    theirs = median(times, lambda: enumerate_labels(path(9)))
    compare("(b) the catalogue up to 10 spots, a 9-spot path", ours, theirs, "(0.67 or more)")
    ours = median(times, lambda: count(instance(path(12)), MemoryCache()))
    theirs = seconds(enumerate_labels, path(12))
    compare("(b) a 12-spot path counted", ours, theirs, "")


def finding(trees: int) -> None:
    ours, theirs = [], []
    for seed in range(trees):
        tree = Tree(35, tuple(nx.random_labeled_tree(35, seed=seed).edges()))
        ours.append(seconds(lambda tree: find(instance(tree), seed=0), tree))
        theirs.append(seconds(first_labels, tree))
    compare(
        f"(c) first solutions of {trees} trees of 35 vertices, median",
        statistics.median(ours),
        statistics.median(theirs),
        "(10 or more)",
    )
    compare("(c) the worst of them", max(ours), max(theirs), "(1 or more)")


def both_pupils(times: int) -> None:
    """Progressions, lists and pages with given numbers in turn."""
    pages = [_page(seed) for seed in range(60)]

    def certified() -> None:
        cache = MemoryCache()
        for tree, numbers, given in pages:
            certify(tree, numbers, given, cache=cache)

    def built() -> None:
        cache = MemoryCache()
        for tree, numbers, given in pages:
            building_of(normalize(tree, numbers, given).instance, cache, 0)

    certified()  # numpy is loaded, and the tables of swaps are there
    whole, of_it = median(times, certified), median(times, built)
    print(
        f"{'(e) 60 pages certified, with the building pupil':58} ours {whole:9.4f} s  without "
        f"{whole - of_it:8.3f} s  ratio {whole / (whole - of_it):8.2f}  (1.5 or less)"
    )


def _page(seed: int) -> tuple[Tree, list[Fraction], dict[int, Fraction]]:
    chance = Random(seed)
    n = 4 + seed // 12
    tree = Tree(n, tuple(nx.random_labeled_tree(n, seed=seed).edges()))
    numbers = [Fraction(1 + 2 * k) for k in range(n)]
    if seed % 3 == 1:
        numbers = [Fraction(x) for x in sorted(chance.sample(range(3 * n), n))]
    normal = normalize(tree, numbers, {})
    solution = normal.denormalize(find(normal.instance, seed))
    many = 1 + n // 4 if seed % 3 == 2 else 0
    return tree, numbers, {v: solution[v] for v in chance.sample(range(n), many)}


def with_given(pages: int) -> None:
    ours, theirs = [], []
    for seed in range(pages):
        chance = Random(seed)
        tree = Tree(35, tuple(nx.random_labeled_tree(35, seed=seed).edges()))
        normal = normalize(tree, range(35), {})
        solution = normal.denormalize(find(normal.instance, seed=seed))
        given = {v: solution[v] for v in chance.sample(range(35), chance.randint(11, 24))}
        instance = normalize(tree, range(35), given).instance
        ours.append(seconds(find, instance, 0))
        whole = {v: int(number) for v, number in given.items()}
        theirs.append(seconds(is_solvable, tree, range(35), whole))
    what = f"(f) {pages} pages of 35 spots, 11 to 24 given"
    compare(f"{what}, median", statistics.median(ours), statistics.median(theirs), "")
    compare("(f) the worst of them", max(ours), max(theirs), "")


CERTIFY = """
import sys, time
from pathlib import Path
from bookmaker.cache import MemoryCache
from bookmaker.reading import read
pages = read(Path(sys.argv[1])).book.pages
assert len(pages) >= 24
began = time.perf_counter()
from bookmaker.puzzle import certify_pages
certify_pages(pages, MemoryCache(), seed=0)
print(time.perf_counter() - began)
"""


def certifying(book: Path, times: int) -> None:
    """Whole processes: the build with nothing in its cache, and what certifying takes in one."""
    builds, certified = [], []
    for _ in range(times):
        with tempfile.TemporaryDirectory() as folder:
            surroundings = {**os.environ, "XDG_CACHE_HOME": folder}
            command = [sys.executable, "-m", "bookmaker", "build", str(book), "--out", folder]
            builds.append(seconds(_run, command, surroundings, clock=time.perf_counter))
        certified.append(float(_run([sys.executable, "-c", CERTIFY, str(book)], dict(os.environ))))
    build, certify = statistics.median(builds), statistics.median(certified)
    what = f"(d) certifying {book.parent.name} with an empty cache, of its build"
    print(
        f"{what:58} ours {certify:9.4f} s  build  {build:9.3f} s  part {certify / build:9.3f}  "
        "(less than 0.1)"
    )


def _run(command: list[str], surroundings: dict[str, str]) -> str:
    done = subprocess.run(command, env=surroundings, check=True, capture_output=True, text=True)
    return done.stdout


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("parts", nargs="*", default=["a", "b", "c", "d", "e", "f"])
    parser.add_argument("--times", type=int, default=5, help="runs of which the median is taken")
    parser.add_argument("--trees", type=int, default=50, help="trees in part (c)")
    parser.add_argument("--book", type=Path, default=Path("chapters/river-term/book.toml"))
    wanted = parser.parse_args()
    if "a" in wanted.parts:
        counting(wanted.times)
    if "b" in wanted.parts:
        catalogue(wanted.times)
    if "c" in wanted.parts:
        finding(wanted.trees)
    if "d" in wanted.parts:
        certifying(wanted.book, wanted.times)
    if "e" in wanted.parts:
        both_pupils(wanted.times)
    if "f" in wanted.parts:
        with_given(wanted.trees)


if __name__ == "__main__":
    main()
