"""Margins: what a book's binding asks for, on either side of its paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.compile import compile_book
from bookmaker.context import BuildContext, BuildOptions
from bookmaker.layout.booklet import upright
from bookmaker.model import Binding, Frame, Line
from bookmaker.reading import read
from bookmaker.typeset import LARGE, PAPERS, Sheet

WIDE: dict[Binding, float] = {"punch": 20, "staple": 14, "none": 10}
CHAPTER = """title = "The spring"
[[page]]
name = "Newt"
links = ["a-b", "b-c", "b-d"]
[[page]]
name = "Heron"
links = ["a-b", "b-c", "c-d"]
"""


def book_with(line: str, folder: Path) -> Path:
    (folder / "01.toml").write_text(CHAPTER, "utf-8")
    book = folder / "book.toml"
    book.write_text(f'title = "River"\nchapters = ["01.toml"]\n{line}\n', "utf-8")
    return book


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("binding", WIDE)
@pytest.mark.parametrize("scale", [1.0, LARGE])
def test_a_binding_has_its_margin_where_the_paper_is_bound(
    paper: str, binding: Binding, scale: float
) -> None:
    right = Sheet(paper, recto=True, scale=scale, binding=binding)
    left = replace(right, recto=False)
    wide = 10 if paper == "board" else WIDE[binding]
    assert right.area.x * scale == pytest.approx(wide)
    assert (left.size[0] - left.area.right) * scale == pytest.approx(wide)
    assert left.area.x * scale == pytest.approx(10)


@pytest.mark.parametrize("binding", WIDE)
def test_all_of_a_book_keeps_clear_of_its_binding(binding: Binding, tmp_path: Path) -> None:
    book = book_with(f'binding = "{binding}"', tmp_path)
    compiled = compile_book(book, BuildOptions(), BuildContext(MemoryCache()))
    inner = []
    for side, page in zip(compiled.bound.sides, compiled.pages, strict=True):
        boxes = [item.box for item in page.items if isinstance(item, Frame)]
        starts = [i.x for i in page.items if isinstance(i, Line) and i.anchor == "start"]
        if side.recto:
            inner += [*(box.x for box in boxes), *starts]
        else:
            inner += [page.width - box.right for box in boxes]
    assert min(inner) == pytest.approx(WIDE[binding], abs=0.5)


def test_a_booklet_is_stapled_whatever_its_book_says(tmp_path: Path) -> None:
    found = read(book_with('binding = "punch"', tmp_path)).book
    assert found is not None
    assert (found.binding, upright(found).binding) == ("punch", "staple")


def test_a_book_says_nothing_and_is_stapled(tmp_path: Path) -> None:
    found = read(book_with("", tmp_path)).book
    assert found is not None
    assert found.binding == "staple"


def test_a_binding_that_there_is_not_is_told(tmp_path: Path) -> None:
    (problem,) = read(book_with('binding = "glue"', tmp_path)).problems
    assert (problem.code, problem.line) == ("bad-value", 3)
    assert "punch" in problem.mend
