"""The shared vocabulary: frozen data that the stages hand on. Imports no stage."""

from bookmaker.model.book import BANDS, Band, Book, Chapter, Link, Order, Page, Spot, Wish
from bookmaker.model.certificate import Certificate, CertifiedPage, band_of, letter
from bookmaker.model.numbers import Number, difference, progression, write_like
from bookmaker.model.picture import Box, Picture
from bookmaker.model.placed import (
    Anchor,
    Disc,
    Face,
    Frame,
    Item,
    Jump,
    Line,
    Outline,
    PlacedArt,
    PlacedLink,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Point,
    Rule,
)
from bookmaker.model.problems import InputProblems, Problem, Severity

__all__ = [
    "BANDS",
    "Anchor",
    "Band",
    "Book",
    "Box",
    "Certificate",
    "CertifiedPage",
    "Chapter",
    "Disc",
    "Face",
    "Frame",
    "InputProblems",
    "Item",
    "Jump",
    "Line",
    "Link",
    "Number",
    "Order",
    "Outline",
    "Page",
    "Picture",
    "PlacedArt",
    "PlacedLink",
    "PlacedPage",
    "PlacedSpot",
    "PlacedTag",
    "Point",
    "Problem",
    "Rule",
    "Severity",
    "Spot",
    "Wish",
    "band_of",
    "difference",
    "letter",
    "progression",
    "write_like",
]
