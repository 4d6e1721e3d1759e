"""Pages of every kind that a manifest can ask for, on every paper, as printed, before the judge."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.compile import Compiled, compile_book
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.model import Page, Puzzle
from bookmaker.pdf import INKS
from bookmaker.pdf.svg_page import page_svg
from bookmaker.placement.sizes import widest_text
from tests.layout.judge import Rules, judge

SPOTS = """[page.spots]
nose = [12, 30]
back = [38, 45]
wing = [88, 55]
tail = [62, 25]
paw = [42, 88]
"""
LINKED = 'art = "art.svg"\nlinks = ["nose-back", "back-tail", "tail-wing", "back-paw"]\n'
# What a page's manifest says beside its name; the river's animals again.
PAGES = {
    "Turned heron": f"{LINKED}turn = true\n{SPOTS}",
    "Fixed heron": f"{LINKED}fixed = true\n{SPOTS}",
    "Hundred herons": f"{LINKED}numbers = {{ start = 101, step = 7 }}\n{SPOTS}",
    "Quarter heron": f'{LINKED}numbers = {{ start = "1/4", step = "1/4" }}\n{SPOTS}',
    "Decimal heron": f'{LINKED}numbers = {{ start = "0.3", step = "0.4" }}\n{SPOTS}',
    "Pair": 'spots = 2\nshape = "path"\n',
    "Star": 'spots = 6\nshape = "star"\n',
    "Path": 'spots = 6\nshape = "path"\n',
    "Fork": 'spots = 6\nshape = "fork"\n',
    "Comb": 'spots = 6\nshape = "comb"\n',
    "Fork on the art": 'art = "art.svg"\nspots = 7\nshape = "fork"\n',
    "Links alone": 'links = ["a-b", "b-c", "c-d", "b-e", "e-f", "e-g"]\n',
    "Left to us": f'art = "art.svg"\nlinks = "auto"\nband = "steady"\n{SPOTS}',
}
# What has to stand still: the page's own word, against the paper's.
STILL = {"Fixed heron"}


@pytest.fixture(scope="module")
def cache() -> MemoryCache:
    return MemoryCache()


@pytest.fixture
def chapter(tmp_path: Path, project: Path) -> Path:
    art = (project / "art" / "avocet.svg").read_bytes()
    (tmp_path / "art.svg").write_bytes(art)
    pages = "".join(f'[[page]]\nname = "{name}"\n{text}\n' for name, text in PAGES.items())
    file = tmp_path / "kinds.toml"
    file.write_text(f'title = "Kinds"\n{pages}', "utf-8")
    return file


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter", "a3"])
def test_a_page_of_every_kind_is_printed_without_a_breach(
    paper: str, chapter: Path, cache: MemoryCache, tmp_path: Path
) -> None:
    context = BuildContext(cache)
    compiled = compile_book(chapter, BuildOptions(paper, output="children"), context)
    assert [p for p in compiled.prepared.problems if p.severity == "problem"] == []
    judged = dict(_judged(compiled, paper))
    assert set(judged) == set(PAGES)
    assert {name: breaches for name, breaches in judged.items() if breaches} == {}


def _judged(compiled: Compiled, paper: str):  # type: ignore[no-untyped-def]
    for side, placed in zip(compiled.bound.sides, compiled.pages, strict=True):
        if not isinstance(side.content, Puzzle):
            continue
        page = side.content.page
        svg = page_svg(placed, INKS["full"], {})
        wanted = {spot.name: (spot.x, spot.y) for spot in page.spots} if page.art else None
        yield page.name, judge(svg, _rules(page, paper, side.recto), wanted=wanted)


def _rules(page: Page, paper: str, recto: bool) -> Rules:
    characters = widest_text(page)
    rules = Rules.of(paper, characters=characters, recto=recto, turned=page.turn)
    if page.name in STILL:
        rules = replace(rules, reach=0.02)
    return rules
