"""The review as pages: each drawing small, its handwritten name beside the roster's, the verdict.

It holds names and is for the teacher alone.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from pathlib import Path

from PIL import Image

from bookmaker.classroom.hand_out import TEXT, in_letters, privacy
from bookmaker.classroom.keeping import Shelf
from bookmaker.classroom.review import Reviewed, drawing_file, strip_file
from bookmaker.classroom.sheet_page import RING, rings_of
from bookmaker.classroom.verdicts import quality
from bookmaker.layout import contained, head
from bookmaker.model import Box, Disc, Frame, Item, Line, Picture, PlacedPage
from bookmaker.pictures import make
from bookmaker.scanning.sheet_plan import sheet_plan
from bookmaker.scanning.sources import SPOILT
from bookmaker.typeset import Sheet, fit_size, paragraph
from bookmaker.words import Words

ROWS = 4
"""Drawings on one side."""
PIXELS = 700
"""Longer side of a drawing as it is shown: 60 mm at 300 dpi."""
LOOK = ("review.how", "review.look", "review.same")
WIDE = 0.9
"""Width of a drawing's place, as a part of its height."""
NAME_SIZES = (18.0, 16.0, 14.0, 12.0, 10.0, 8.0)


def review_pages(
    shelf: Shelf, titles: Mapping[str, str], words: Words
) -> tuple[tuple[PlacedPage, ...], dict[str, Picture]]:
    """The pages, the first of them what to look for, and the pictures on them by their digests.

    ``titles`` are the names of the book's pages by their ids.
    """
    rows, papers = shelf.rows, {entry.sheet: entry.paper for entry in shelf.register}
    paper = next(iter(papers.values()), "a4")
    sheet = Sheet(paper, recto=True)
    size = sheet.real_size
    pages = [PlacedPage("look", *size, tuple(_look(sheet, words)), "1", (0, words("review.title")))]
    pictures: dict[str, Picture] = {}
    for first in range(0, len(rows), ROWS):
        items: list[Item] = []
        for place, row in enumerate(rows[first : first + ROWS]):
            shown = _pictures(shelf.folder, row)
            pictures |= {picture.digest: picture for picture in shown if picture}
            box = _place(sheet, place)
            items += _drawing(row, shown[0], box, papers.get(row.sheet, paper), words)
            page = words("sheets.free") if rings_of(row.page) else titles.get(row.page, row.page)
            items += _said(row, shown[1], box, page, words)
        number = len(pages) + 1
        pages.append(PlacedPage(f"review-{number}", *size, tuple(items), str(number)))
    return tuple(pages), pictures


def _look(sheet: Sheet, words: Words) -> Iterator[Item]:
    area = sheet.area
    title, y = head(sheet, words("review.title"))
    yield from title
    y += 4
    for key in LOOK:
        lines, y = paragraph(words(key), (area.x, y), area.width, TEXT)
        yield from lines
        y += 2
    kept, _ = privacy((area.x, y + 5), area.width, words)
    yield from kept


def _place(sheet: Sheet, place: int) -> Box:
    area = sheet.area
    high = area.height / ROWS
    return Box(area.x, area.y + place * high, area.width, high - 5)


def _drawing(
    row: Reviewed, drawing: Picture | None, box: Box, paper: str, words: Words
) -> Iterator[Item]:
    """The drawing, and the rings on it, on the left of ``box``."""
    if drawing:
        left = Box(box.x, box.y, box.height * WIDE, box.height)
        art = contained(drawing, left, words("review.drawing", number=row.drawing))
        yield art
        yield Frame(art.window, "frame")
        yield from _rings(row, art.box, paper)


def _said(
    row: Reviewed, strip: Picture | None, box: Box, page: str, words: Words
) -> Iterator[Item]:
    """The name as it was written and as the roster has it, and the verdict, beside the drawing."""
    x = box.x + box.height * WIDE + 6
    wide = box.right - x
    y = box.y + 5
    number = words("review.drawing", number=row.drawing)
    yield Line(x, y, number, 14.0, "strong", role="heading", tag="H2")
    if strip:
        yield contained(strip, Box(x, y + 3, wide, 16), words("puzzle.name"), align=(0.0, 0.0))
    name = in_letters(row.pupil, row.sheet, words)
    size, lines = fit_size(name, "strong", NAME_SIZES, wide, 1)
    yield Line(x, y + 28, lines[0] if lines else "", size, "strong")
    lacking = ("rings",) if len(row.rings) < rings_of(row.page) else ()
    faults = quality((*row.faults, *lacking), words)
    said = (page, faults, words("review.use", said=row.use or "?"))
    for place, text in enumerate(said):
        yield Line(x, y + 36 + place * 6, text, TEXT)


def _rings(row: Reviewed, box: Box, paper: str) -> Iterator[Item]:
    """The rings that were found on a free sheet, for the teacher to see."""
    scale = box.width / sheet_plan(paper).frame.width
    for x, y in row.rings:
        yield Disc(box.x + x * scale, box.y + y * scale, RING * scale, "clash")


def _pictures(folder: Path, row: Reviewed) -> tuple[Picture | None, Picture | None]:
    return (
        _small(drawing_file(folder, row.drawing)),
        _small(strip_file(folder, row.drawing)),
    )


def _small(file: Path) -> Picture | None:
    """A picture of what was kept, just large enough; None where it is not there or not whole."""
    try:
        with Image.open(file) as kept:
            kept.thumbnail((PIXELS, PIXELS), Image.Resampling.BOX)
            shown = kept.convert("RGB")
    except SPOILT:
        return None
    out = io.BytesIO()
    shown.save(out, "PNG")
    return make("png", *shown.size, out.getvalue())
