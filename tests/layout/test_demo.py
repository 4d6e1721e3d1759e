"""Every puzzle page of the demo book, on four papers, before the judge."""

from pathlib import Path

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.compile import compile_book
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.model import Puzzle
from bookmaker.pdf import INKS
from bookmaker.pdf.svg_page import page_svg
from tests.layout.judge import Rules, judge


@pytest.fixture(scope="module")
def cache() -> MemoryCache:
    """The pictures need drawing only once."""
    return MemoryCache()


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "half-letter"])
def test_no_page_of_the_demo_book_is_printed_with_a_breach(
    paper: str, cache: MemoryCache, project: Path, tmp_path: Path
) -> None:
    book = project / "chapters" / "river-term" / "book.toml"
    context = BuildContext(cache)
    compiled = compile_book(book, BuildOptions(paper, output="children"), context)
    judged = 0
    for side, placed in zip(compiled.bound.sides, compiled.pages, strict=True):
        if isinstance(side.content, Puzzle):
            page = side.content.page
            wanted = {spot.name: (spot.x, spot.y) for spot in page.spots}
            svg = page_svg(placed, INKS["full"], {})
            rules = Rules.of(paper, recto=side.recto)
            assert judge(svg, rules, wanted=wanted) == [], page.name
            judged += 1
    assert judged == 24
    assert compiled.prepared.problems == ()
