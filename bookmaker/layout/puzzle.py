"""A puzzle page: title, picture with spots and links, the numbers to use, name and date."""

from __future__ import annotations

from bookmaker.layout.moving import Move, moved
from bookmaker.layout.setting import PlacedPuzzle, Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.layout.tree import Sizes, arrange, fit_art
from bookmaker.model import (
    BANDS,
    Anchor,
    Box,
    CertifiedPage,
    Frame,
    Item,
    Line,
    Page,
    Picture,
    PlacedArt,
    PlacedSpot,
    Puzzle,
    Rule,
    Side,
    difference,
)
from bookmaker.type import POINT, ascent, fit_size, width
from bookmaker.words import Words

TITLE_SIZES = (32.0, 28.0, 25.0, 22.0, 20.0, 18.0, 16.0)
LABEL_SIZE = 16.0
NUMBER_SIZE = 20.0
FOLIO_SIZE = 13.0
CREDIT_SIZE = 8.0

CLEAR_ABOVE_LINE = 12.0
NAME_LINE = 80.0
DATE_LINE = 32.0
BOX = 10.0
BOX_GAP = 3.0
FOOT = 7.0
"""Height of the lowest row, which holds the page's number and the credit."""
PICTURE_GAP = 4.0
STEP = 3.6
"""One step of the little climb, wide and high."""
WHOLE = Box(0.0, 0.0, 1.0, 1.0)


def place_puzzle(
    certified: CertifiedPage, picture: Picture | None, paper: str, words: Words
) -> PlacedPuzzle:
    """Lay one puzzle out on a right-hand side of ``paper``.

    Raises NoCleanLayout where its spots and links can't be placed cleanly.
    """
    page = certified.page
    sheet = Sheet(paper, recto=True, turned=page.turn)
    area = sheet.area
    head, top = _head(page, area, words)
    foot, bottom = _foot(certified, area, words)
    frame = Box(area.x, top + PICTURE_GAP, area.width, bottom - top - 2 * PICTURE_GAP)
    sizes = Sizes.of(paper, widest_text(page))
    art, spots = _on_picture(page, picture, frame, sizes)
    links = tuple(link.ends for link in page.links)
    tree = arrange(spots, links, frame, sizes, fixed=page.fixed)
    return PlacedPuzzle(sheet, head, art, tree, foot, frame)


def lay_out_puzzle(side: Side, content: Puzzle, setting: Setting) -> tuple[Sheet, tuple[Item, ...]]:
    """The whole page, on the side of the paper where it stands."""
    page = content.page.page
    placed = setting.puzzles[page.id]
    tree = placed.tree
    given = tuple(
        written_in_spot(spot, number.text, "given", setting.words)
        for name, number in page.given
        for spot in tree.spots
        if spot.name == name
    )
    picture = (placed.art,) if placed.art else ()
    items = (*picture, *placed.head, *tree.links, *tree.tags, *tree.spots, *given, *placed.foot)
    sheet = Sheet(setting.paper, side.recto, page.turn)
    shift = sheet.area.x - placed.sheet.area.x
    return sheet, (*moved(items, Move(shift, 0.0)), *_folio(side, page, sheet, setting.words))


def widest_text(page: Page) -> int:
    """Characters of the longest number or difference that is written on the page."""

    texts = [number.text for number in page.numbers]
    texts += [difference(one, page.numbers[0]).text for one in page.numbers]
    return max((len(text) for text in texts), default=1)


def written_in_spot(spot: PlacedSpot, text: str, role: str, words: Words) -> Line:
    """A number set in the middle of a spot, as large as the spot comfortably holds."""
    size = spot.radius * 1.05 / POINT
    shown = words.number(text)
    room = spot.radius * 1.5
    size = min(size, size * room / max(width(shown, "strong", size), 0.01))
    baseline = spot.y + ascent("strong", size) / 2
    return Line(spot.x, baseline, shown, size, "strong", "middle", role)


def _on_picture(
    page: Page, picture: Picture | None, frame: Box, sizes: Sizes
) -> tuple[PlacedArt | None, tuple[tuple[str, float, float], ...]]:
    measures = (picture.width, picture.height) if picture else (frame.width, frame.height)
    per_cent = [(spot.x, spot.y) for spot in page.spots]
    trim = picture.trim if picture else WHOLE
    place = fit_art(*measures, trim, per_cent, frame, sizes)
    spots = tuple((spot.name, *place.at(spot.x, spot.y)) for spot in page.spots)
    if picture is None:
        return None, spots
    alt = page.description or page.name
    return PlacedArt(picture.digest, place.box, place.window, alt), spots


def _head(page: Page, area: Box, words: Words) -> tuple[tuple[Item, ...], float]:
    """Title, name and date; gives the items and how far down they reach."""
    narrow = area.width < 160
    date_width = width(words("puzzle.date"), "text", LABEL_SIZE) + 2 + DATE_LINE
    measure = area.width - (date_width + 8 if narrow else 0)
    size, lines = fit_size(page.name, "title", TITLE_SIZES, measure, 2)
    leading = size * POINT * 1.12
    first = area.y + max(ascent("title", size) + 1.5, CLEAR_ABOVE_LINE if narrow else 0)
    items: list[Item] = [
        Line(area.x, first + i * leading, text, size, "title", "start", "title", "H1", i > 0)
        for i, text in enumerate(lines)
    ]
    title_end = first + (len(lines) - 1) * leading
    base = title_end + CLEAR_ABOVE_LINE + 2.5
    items += _to_write(words("puzzle.name"), area.x, base, NAME_LINE)
    date_base = first if narrow else base
    items += _to_write(words("puzzle.date"), area.right - date_width, date_base, DATE_LINE)
    return tuple(items), base


def _to_write(label: str, x: float, base: float, length: float) -> list[Item]:
    start = x + width(label, "text", LABEL_SIZE) + 2
    line = Rule((start, base + 0.6), (start + length, base + 0.6), "write")
    return [Line(x, base, label, LABEL_SIZE, "text", "start", "quiet"), line]


def _foot(certified: CertifiedPage, area: Box, words: Words) -> tuple[tuple[Item, ...], float]:
    """The numbers to use and the climb; gives the items and where they begin."""
    page = certified.page
    shown = [words.number(number.text) for number in page.numbers]
    wide = max(BOX, *(width(text, "strong", NUMBER_SIZE) + 4 for text in shown))
    room = area.width - 4 * STEP - 6
    in_row = max(1, int((room + BOX_GAP) // (wide + BOX_GAP)))
    rows = -(-len(shown) // in_row)
    in_row = -(-len(shown) // rows)
    top = area.bottom - FOOT - rows * BOX - (rows - 1) * BOX_GAP
    items: list[Item] = []
    for place, text in enumerate(shown):
        row, column = divmod(place, in_row)
        box = Box(area.x + column * (wide + BOX_GAP), top + row * (BOX + BOX_GAP), wide, BOX)
        middle = box.y + BOX / 2 + ascent("strong", NUMBER_SIZE) / 2
        items.append(Frame(box, "number-box", 1.5))
        items.append(
            Line(box.x + wide / 2, middle, text, NUMBER_SIZE, "strong", "middle", "number")
        )
    climb = BANDS.index(certified.certificate.band) + 1
    items += _climb(climb, area.right - 4 * STEP, area.bottom - FOOT)
    return tuple(items), top


def _climb(steps: int, x: float, bottom: float) -> list[Item]:
    """One to four steps, each higher than the last: how steep the page is."""
    return [
        Frame(
            Box(x + i * STEP, bottom - (i + 1) * STEP * 0.7, STEP - 0.8, (i + 1) * STEP * 0.7),
            "step-on" if i < steps else "step-off",
        )
        for i in range(4)
    ]


def _folio(side: Side, page: Page, sheet: Sheet, words: Words) -> tuple[Item, ...]:
    """The page's number on the outer side, the artist's credit on the inner."""
    area = sheet.area
    outer, inner = (area.right, area.x) if side.recto else (area.x, area.right)
    to_outer: Anchor = "end" if side.recto else "start"
    to_inner: Anchor = "start" if side.recto else "end"
    items: list[Item] = [
        Line(outer, area.bottom - 0.5, side.label, FOLIO_SIZE, "strong", to_outer, "quiet", "")
    ]
    if page.artist:
        credit = words("credit.artist", artist=page.artist)
        items.append(Line(inner, area.bottom - 0.5, credit, CREDIT_SIZE, "text", to_inner, "quiet"))
    return tuple(items)
