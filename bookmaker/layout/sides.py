"""Which layout goes with which kind of side: a new kind of side is one entry here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from bookmaker.layout.front import (
    lay_out_blank,
    lay_out_contents,
    lay_out_cover,
    lay_out_opener,
)
from bookmaker.layout.key import lay_out_answers
from bookmaker.layout.puzzle import lay_out_puzzle, place_puzzle
from bookmaker.layout.setting import Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.model import (
    Answers,
    Blank,
    Contents,
    Cover,
    Item,
    Opener,
    PlacedPage,
    Puzzle,
    Side,
)

LAYOUTS: Final[Mapping[type, Callable[[Side, Any, Setting], tuple[Sheet, tuple[Item, ...]]]]] = {
    Cover: lay_out_cover,
    Contents: lay_out_contents,
    Opener: lay_out_opener,
    Puzzle: lay_out_puzzle,
    Answers: lay_out_answers,
    Blank: lay_out_blank,
}


def lay_out(side: Side, setting: Setting) -> PlacedPage:
    """Put everything on ``side`` at its place."""
    sheet, items = LAYOUTS[type(side.content)](side, side.content, setting)
    return PlacedPage(side.name, *sheet.size, items, side.label, side.bookmark)


__all__ = ["lay_out", "place_puzzle"]
