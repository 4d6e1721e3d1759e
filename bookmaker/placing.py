"""Puzzles fitted onto their paper, and the problems of those that can't be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from bookmaker.layout import NoCleanLayout, PlacedPuzzle, place_puzzle
from bookmaker.model import OrderedBook, Page, Picture, Problem
from bookmaker.pictures import dpi
from bookmaker.words import Words

LEAST_DPI = 150
"""Below this a picture looks coarse in print."""


def place_puzzles(
    ordered: OrderedBook, pictures: Mapping[Path, Picture], words: Words
) -> tuple[dict[str, PlacedPuzzle], tuple[Problem, ...]]:
    """Each page's placed puzzle by the page's id, and what can't be laid out or is coarse."""
    placed: dict[str, PlacedPuzzle] = {}
    problems: list[Problem] = []
    for certified in ordered.pages:
        page = certified.page
        picture = pictures.get(page.art) if page.art else None
        if page.art and picture is None:
            continue  # its picture is a problem already told
        try:
            puzzle = place_puzzle(certified, picture, ordered.book.paper, words)
        except NoCleanLayout as refusal:
            problems.append(_refused(page, refusal))
            continue
        placed[page.id] = puzzle
        problems += _coarse(page, picture, puzzle)
    return placed, tuple(problems)


def _refused(page: Page, refusal: NoCleanLayout) -> Problem:
    names = " and ".join(refusal.spots)
    line = page.line_of(*(f"spots.{name}" for name in refusal.spots), "spots")
    message = str(refusal)
    mend = f"Move {names} further apart, or link the spots in another way."
    return Problem(page.file, line, page.name, refusal.code, message, mend)


def _coarse(page: Page, picture: Picture | None, puzzle: PlacedPuzzle) -> Iterator[Problem]:
    if picture is None or puzzle.art is None or picture.format == "svg":
        return
    found = dpi(picture, puzzle.art.box.width)
    if found < LEAST_DPI:
        yield Problem(
            page.file,
            page.line_of("art"),
            page.name,
            "art-too-coarse",
            f"the picture has {found:.0f} dots an inch at its printed size and will look coarse",
            "Use a larger picture: 300 dots an inch is best, 150 the least.",
            "warning",
        )
