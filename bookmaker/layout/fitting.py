"""Puzzles fitted onto their paper, and the problems of those that can't be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookmaker.cache import Cache
from bookmaker.layout.drawn import place_drawn
from bookmaker.layout.puzzle import lowered, place_puzzle
from bookmaker.layout.setting import PlacedPuzzle
from bookmaker.model import CertifiedPage, OrderedBook, Page, Picture, Problem
from bookmaker.pictures import dpi
from bookmaker.placement import Arrange, NoCleanLayout, remembering
from bookmaker.typeset import Sheet
from bookmaker.words import Words

LEAST_DPI = 150
"""Below this a picture looks coarse in print."""


@dataclass(frozen=True, slots=True)
class FittedBook:
    """All puzzles of a book on one paper, by their pages' ids, and what can't be laid out there or
    is coarse."""

    paper: str
    puzzles: Mapping[str, PlacedPuzzle]
    problems: tuple[Problem, ...]


def fit_book(
    ordered: OrderedBook,
    pictures: Mapping[Path, Picture],
    words: Words,
    sheets: Sequence[Sheet],
    cache: Cache,
) -> FittedBook:
    """The book on the first of ``sheets`` that holds every page of it, else on the last."""
    for sheet in sheets:
        fitted = _on(sheet, ordered, pictures, words, cache)
        if all(problem.severity == "warning" for problem in fitted.problems):
            break
    return fitted


def _on(
    sheet: Sheet,
    ordered: OrderedBook,
    pictures: Mapping[Path, Picture],
    words: Words,
    cache: Cache,
) -> FittedBook:
    arrange = remembering(cache)
    placed: dict[str, PlacedPuzzle] = {}
    problems: list[Problem] = []
    for page in ordered.pages:
        picture = pictures.get(page.art) if page.art else None
        if page.art and picture is None:
            continue  # its picture is a problem already told
        puzzle = _placed(page, picture, words, sheet, arrange)
        if isinstance(puzzle, NoCleanLayout):
            problems.append(refusal(page, puzzle))
            continue
        placed[page.id] = puzzle
        problems += _coarse(page, picture, puzzle)
    return FittedBook(sheet.paper, placed, tuple(problems))


def _placed(
    page: CertifiedPage,
    picture: Picture | None,
    words: Words,
    sheet: Sheet,
    arrange: Arrange,
) -> PlacedPuzzle | NoCleanLayout:
    try:
        if page.drawn and picture:
            return lowered(place_drawn(page, picture, sheet, words))
        return place_puzzle(page, picture, sheet, words, arrange)
    except NoCleanLayout as refusal:
        return refusal


GAPS: Final[Mapping[str, str]] = {
    "spot-spot": "two spots come too near each other",
    "spot-edge": "a spot does not fit between the margins",
    "link-spot": "a link passes too near a spot that is not its own",
    "link-own-spot": "a link runs into its own spot",
    "link-link": "two links come too near each other",
    "crossing": "two links cross",
    "angle": "two links leave a spot too near each other",
    "tag-hides-link": "a link is too short for its tag",
    "tag-edge": "a tag does not fit between the margins",
    "tag-spot": "a tag comes too near a spot",
    "tag-link": "a tag comes too near another link",
    "tag-tag": "two tags come too near each other",
}
"""What layout could not get clear, in words."""


def refusal(page: Page, refused: NoCleanLayout) -> Problem:
    """The problem of a page that can't be laid out."""
    links = [_spelled(page, name) for name in refused.links]
    where = [f"spots.{name}" for name in refused.spots] + [f"links.{name}" for name in links]
    about_spots = refused.spots if "spot" in refused.gap or not links else ()
    who = " and ".join((*about_spots, *sorted(links)))
    short = "" if refused.gap == "crossing" else f" ({refused.missing_mm:.1f} mm are missing)"
    message = f"{GAPS.get(refused.gap, refused.gap)}: {who}{short}"
    movable = refused.spots or tuple(dict.fromkeys(end for link in links for end in _ends(link)))
    mend = f"Move {' or '.join(movable)} to where there is more room, or link the spots otherwise."
    if refused.code == "spots-too-close":
        mend = f"Move {' or '.join(movable)} to where there is more room."
    if page.drawn:
        mend = "The drawing sheet fixes its spots: print on the sheet's own paper, or a larger one."
    line = page.line_of(*where, "spots")
    return Problem(page.file, line, page.name, refused.code, message, mend)


def _spelled(page: Page, link: str) -> str:
    """The manifest's own spelling of a link."""
    named = {frozenset(known.ends): known.name for known in page.links}
    return named.get(frozenset(_ends(link)), link)


def _ends(link: str) -> tuple[str, ...]:
    return tuple(link.split("-"))


def _coarse(page: Page, picture: Picture | None, puzzle: PlacedPuzzle) -> Iterator[Problem]:
    if picture is None or puzzle.art is None or picture.format == "svg":
        return
    found = dpi(picture, puzzle.art.box.width)
    if found < LEAST_DPI:
        mend = "Use a larger picture: 300 dots an inch is best, 150 the least."
        if page.sheet is not None:
            mend = (
                f"Scan sheet {page.sheet} again at 300 dots an inch, or photograph it from nearer."
            )
        yield Problem(
            page.file,
            page.line_of("art"),
            page.name,
            "art-too-coarse",
            f"the picture has {found:.0f} dots an inch at its printed size and will look coarse",
            mend,
            "warning",
        )
