"""What layout is told about the book besides the side it lays out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from bookmaker.model import BoundBook, Box, Item, Page, Picture, PlacedArt, Side
from bookmaker.placement import Arrange, TreePlacement, arrange
from bookmaker.typeset import Sheet
from bookmaker.words import Words

LaidOut = tuple[Sheet, tuple[Item, ...]]
"""A side laid out: its paper, and what stands on it."""


@dataclass(frozen=True, slots=True)
class PlacedPuzzle:
    """A puzzle laid out for a right-hand side: what stands above, on and below its picture."""

    sheet: Sheet
    head: tuple[Item, ...]
    art: PlacedArt | None
    tree: TreePlacement
    foot: tuple[Item, ...]
    frame: Box


@dataclass(frozen=True, slots=True)
class Setting:
    """``puzzles`` are the placed puzzles by page id, ``pictures`` the art by its path.

    ``scale`` is over 1 in large print; ``arrange`` places the tree of the worked example.
    """

    paper: str
    words: Words
    bound: BoundBook
    pictures: Mapping[Path, Picture]
    puzzles: Mapping[str, PlacedPuzzle]
    scale: float = 1.0
    arrange: Arrange = arrange

    def sheet(self, side: Side) -> Sheet:
        """The paper of ``side``."""
        binding = self.bound.ordered.binding
        return Sheet(self.paper, side.recto, scale=self.scale, binding=binding)

    def picture_of(self, page: Page) -> Picture | None:
        return self.pictures.get(page.art) if page.art else None

    def own_mark_of(self, page: Page) -> Picture | None:
        """The picture that the page has for the record, made to be coloured in."""
        return self.pictures.get(page.mark) if page.mark else None
