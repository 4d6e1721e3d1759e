"""PDF: a ``PlacedPage`` in, marks of ink out, and those as a checked PDF or as SVG.

Marks are the page's one description: ``press`` paints them as the content of a PDF, ``svg_page``
writes the same ones down as SVG. Nothing is decided here but colour and stroke, which ``inks``
looks up by role. The SVG writer is imported by whoever wants it, since its library takes time to
load.
"""

from bookmaker.pdf.document import press
from bookmaker.pdf.finished import FinishedFileFault, check_pdf
from bookmaker.pdf.grey_art import in_grey
from bookmaker.pdf.inking import average_cover, ready_for
from bookmaker.pdf.inks import INKS, Ink, Paint
from bookmaker.pdf.marks import (
    AltText,
    ArtMark,
    Circle,
    Group,
    Mark,
    Path,
    Rect,
    Segment,
    TextRun,
    draw,
    faded,
)
from bookmaker.pdf.metadata import Document
from bookmaker.pdf.pressed import Pressed

__all__ = [
    "INKS",
    "AltText",
    "ArtMark",
    "Circle",
    "Document",
    "FinishedFileFault",
    "Group",
    "Ink",
    "Mark",
    "Paint",
    "Path",
    "Pressed",
    "Rect",
    "Segment",
    "TextRun",
    "average_cover",
    "check_pdf",
    "draw",
    "faded",
    "in_grey",
    "press",
    "ready_for",
]
