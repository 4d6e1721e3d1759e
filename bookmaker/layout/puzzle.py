"""A puzzle page: title, picture with spots and links, the numbers to use, name and date."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from bookmaker.layout.furniture import (
    FOOT,
    TITLE_SIZES,
    fit_title,
    folio,
    label_width,
    row_height,
    to_write,
)
from bookmaker.layout.setting import LaidOut, PlacedPuzzle, Setting
from bookmaker.layout.tools import CLIMB, DESCENT, NumberRows, climb, told, told_on_board
from bookmaker.model import (
    Anchor,
    Answers,
    Box,
    CertifiedPage,
    Description,
    Frame,
    InternalLink,
    Item,
    Line,
    Page,
    Picture,
    PlacedArt,
    PlacedSpot,
    Puzzle,
    Side,
)
from bookmaker.placement import Arrange, NoCleanLayout, Sizes, arrange, fit_art, page_sizes, scaled
from bookmaker.typeset import POINT, Move, Sheet, ascent, fit_size, moved, width
from bookmaker.words import Words

NAME_LINE = 80.0
NAME_BASE = 5.0
"""The name stands at the very top: the margin is its room to write in."""
DATE_LINE = 32.0
UNDER_NAME = 6.0
"""From the line for the name to the top of the title's capitals."""
PICTURE_GAP = 4.0
FOLIO_GAP = 2.5
"""Air that the numbers to use have over the number of the side, beside what every side has."""
LOWERED = 0.4
"""The part of the height left over that goes above a low picture; the rest stays to work in."""
LOW = 25.0
"""Height left over from which a picture is low: for less, titles would jump from page to page."""
ROOMY = 0.06
"""How much larger boxes and the gap above them get, by each millimetre that is left over."""
MOST_BOX, MOST_PICTURE_GAP = 14.0, 8.0
CREDIT_SIZES = (8.0, 7.0, 6.0)
BOARD_COLUMN = 86.0
BOARD_GAP = 8.0
BOARD_BOX, BOARD_NUMBER = 15.0, 30.0
MOST_INSET = 12.0
"""How far a picture may stand in from the margins for its title and numbers to follow it."""
WHOLE = Box(0.0, 0.0, 1.0, 1.0)


@dataclass(frozen=True, slots=True)
class Regions:
    """What stands around the picture; ``foot`` gives what stands under a frame's lower end."""

    head: tuple[Item, ...]
    frame: Box
    foot: Callable[[float], tuple[Item, ...]]
    sizes: Sizes


def place_puzzle(
    page: CertifiedPage,
    picture: Picture | None,
    sheet: Sheet,
    words: Words,
    arrange: Arrange = arrange,
) -> PlacedPuzzle:
    """Lay one puzzle out on ``sheet``, a right-hand side; ``arrange`` may remember.

    Raises NoCleanLayout where its spots and links can't be placed cleanly.
    """
    sheet = replace(sheet, turned=page.turn)
    regions = regions_of(page, sheet, words)
    frames = [regions.frame]
    if picture and not sheet.is_board:
        frames.insert(0, _close(page, picture, regions))
    for frame in frames:
        art, spots = on_picture(page, picture, frame, regions.sizes)
        links = tuple(link.ends for link in page.links)
        try:
            tree = arrange(spots, links, frame, regions.sizes, fixed=page.fixed)
        except NoCleanLayout:
            if frame is frames[-1]:
                raise
            continue
        around = _in_line(regions, art, page, sheet, words) if art else regions
        foot = around.foot(frame.bottom)
        return lowered(PlacedPuzzle(sheet, around.head, art, tree, foot, frame))
    raise AssertionError("there is always a frame")


def _in_line(
    regions: Regions, art: PlacedArt, page: CertifiedPage, sheet: Sheet, words: Words
) -> Regions:
    """What stands around a picture a little narrower than its page, in line with its edges."""
    frame, window = regions.frame, art.window
    insets = (window.x - frame.x, frame.right - window.right)
    if sheet.is_board or min(insets) < 0 or max(insets) > MOST_INSET:
        return regions
    column = replace(sheet.area, x=window.x, width=window.width)
    if _name_line(column, words) < _name_line(sheet.area, words):
        return regions
    near = _page(page, sheet, words, column)
    ends = [(each.frame.y, each.frame.bottom) for each in (near, regions)]
    return near if ends[0] == ends[1] else regions


def lowered(placed: PlacedPuzzle) -> PlacedPuzzle:
    """Title, picture and numbers of a low picture moved down; name and date stay at the top."""
    spare = _spare(placed)
    if placed.sheet.is_board or spare < LOW:
        return placed
    drop = LOWERED * spare
    move = Move(0.0, drop)
    first = next(place for place, item in enumerate(placed.head) if _is_title(item))
    return replace(
        placed,
        head=(*placed.head[:first], *moved(placed.head[first:], move)),
        art=moved((placed.art,), move)[0] if placed.art else None,
        tree=scaled(placed.tree, 1.0, 0.0, drop),
        foot=moved(placed.foot, move),
        frame=move.box(placed.frame),
    )


def _spare(placed: PlacedPuzzle) -> float:
    """The height left between what stands under the picture and the foot of the side."""
    lowest = max((_lower_end(item) for item in placed.foot), default=0.0)
    return max(placed.sheet.area.bottom - FOOT - FOLIO_GAP - lowest, 0.0)


def _lower_end(item: Item) -> float:
    if isinstance(item, Line):
        return item.y + DESCENT * item.size * POINT
    return item.box.bottom if isinstance(item, Frame) else 0.0


def _is_title(item: Item) -> bool:
    return isinstance(item, Line) and item.role == "title"


def regions_of(page: CertifiedPage, sheet: Sheet, words: Words) -> Regions:
    """What stands around the picture of a page on ``sheet``, and the room for the picture."""
    return (_board if sheet.is_board else _page)(page, sheet, words)


def lay_out_puzzle(side: Side, content: Puzzle, setting: Setting) -> LaidOut:
    """The whole page, on the side of the paper where it stands."""
    page = content.page
    placed = setting.puzzles[page.id]
    tree, words = placed.tree, setting.words
    given = tuple(
        written_in_spot(spot, number.text, "given", words)
        for name, number in page.given
        for spot in tree.spots
        if spot.name == name
    )
    told = in_words(page, words)
    frame = placed.frame
    picture = replace(placed.art, alt=told) if placed.art else Description(frame, told)
    items = (*placed.head, picture, *tree.links, *tree.tags, *tree.spots, *given, *placed.foot)
    sheet = replace(placed.sheet, recto=side.recto)
    shift = sheet.area.x - placed.sheet.area.x
    foot = (*_credit(side, page, sheet, words), *_to_key(side, page, sheet, setting))
    return sheet, (*moved(items, Move(shift, 0.0)), *foot)


def in_words(page: Page, words: Words) -> str:
    """The page for those who can't see it: its picture, its spots, and what is linked."""
    links = words("list.mark").join(words("alt.link", a=link.a, b=link.b) for link in page.links)
    return words(
        "alt.puzzle",
        len(page.spots),
        picture=(page.description or page.name).rstrip("."),
        links=links,
    )


def written_in_spot(spot: PlacedSpot, text: str, role: str, words: Words) -> Line:
    """A number set in the middle of a spot, as large as the spot comfortably holds."""
    size = spot.radius * 1.05 / POINT
    shown = words.number(text)
    room = spot.radius * 1.5
    size = min(size, size * room / max(width(shown, "strong", size), 0.01))
    baseline = spot.y + ascent("strong", size) / 2
    return Line(spot.x, baseline, shown, size, "strong", "middle", role)


def _page(page: CertifiedPage, sheet: Sheet, words: Words, column: Box | None = None) -> Regions:
    """On paper: the numbers stand close under the picture, larger where it leaves them room.

    ``column`` is what all of it stands in, where that is not the whole area.
    """
    area = column or sheet.area
    head, top = _head(page, area, words)
    shown = tuple(words.number(number.text) for number in page.numbers)
    rows = NumberRows(shown, area.width - CLIMB - 6).closed_up()
    fact = told(page.fact, area.width)
    bottom = area.bottom - FOOT - FOLIO_GAP - fact.height - rows.height

    def foot(below: float) -> tuple[Item, ...]:
        spare = max(bottom - PICTURE_GAP - below, 0.0)
        large = _roomy(rows, spare)
        y = min(below + min(PICTURE_GAP + ROOMY * spare, MOST_PICTURE_GAP), bottom)
        steps = climb(page.certificate.band, area.right - CLIMB, y + large.height)
        return (*large.at(area.x, y), *steps, *fact.at(area.x, y + large.height))

    frame = Box(area.x, top, area.width, bottom - PICTURE_GAP - top)
    return Regions(head, frame, foot, page_sizes(page, sheet.paper))


def _roomy(rows: NumberRows, spare: float) -> NumberRows:
    """``rows`` with larger boxes, as far as ``spare`` height and their measure allow."""
    box = min(rows.box + ROOMY * spare, MOST_BOX)
    large = replace(rows, box=box, size=rows.size * box / rows.box)
    return large if large.columns == rows.columns else rows


def _board(page: CertifiedPage, sheet: Sheet, words: Words) -> Regions:
    """On a board: title and numbers in a column, the picture beside it."""
    area = sheet.area
    size, lines = fit_size(page.name, "title", TITLE_SIZES, BOARD_COLUMN, 4)
    first = area.y + 1.5 + ascent("title", size)
    head = _title(lines, size, (area.x, first))
    y = first + len(lines) * size * POINT * 1.12 + 4
    shown = tuple(words.number(number.text) for number in page.numbers)
    rows = NumberRows(shown, BOARD_COLUMN, BOARD_BOX, BOARD_NUMBER, 4.0)
    steps = climb(page.certificate.band, area.x, y + rows.height + 14)
    sizes = page_sizes(page, sheet.paper)
    under = y + rows.height + 14 + BOARD_GAP
    fact = told_on_board(page.fact, BOARD_COLUMN, area.bottom - FOOT - under)
    items = (*head, *rows.at(area.x, y), *steps, *fact.at(area.x, under))
    return Regions(items, board_frame(area), lambda below: (), sizes)


def board_frame(area: Box) -> Box:
    """The room for a picture on a board, beside the column of what is said."""
    left = BOARD_COLUMN + BOARD_GAP
    return Box(area.x + left, area.y, area.width - left, area.height)


def _close(page: Page, picture: Picture, regions: Regions) -> Box:
    """The frame cut down to what the picture and its spots take of its height."""
    frame = regions.frame
    art, spots = on_picture(page, picture, frame, regions.sizes)
    assert art is not None
    reach = regions.sizes.radius + 0.7
    top = min([art.window.y, *(y - reach for _, _, y in spots)])
    bottom = max([art.window.bottom, *(y + reach for _, _, y in spots)])
    return replace(frame, height=min(bottom - top + 0.1, frame.height))


def on_picture(
    page: Page, picture: Picture | None, frame: Box, sizes: Sizes
) -> tuple[PlacedArt | None, tuple[tuple[str, float, float], ...]]:
    """Where the picture lies in ``frame``, and where on the paper its spots are wanted (mm)."""
    measures = (picture.width, picture.height) if picture else (frame.width, frame.height)
    per_cent = [(spot.x, spot.y) for spot in page.spots]
    trim = picture.trim if picture else WHOLE
    place = fit_art(*measures, trim, per_cent, frame, sizes)
    spots = tuple((spot.name, *place.at(spot.x, spot.y)) for spot in page.spots)
    if picture is None:
        return None, spots
    return PlacedArt(picture.digest, place.box, place.window), spots


def _head(page: Page, area: Box, words: Words) -> tuple[tuple[Item, ...], float]:
    """Name, date and title; gives the items and where the picture may begin."""
    name, date = words("puzzle.name"), words("puzzle.date")
    date_wide = label_width(date) + DATE_LINE
    apart = label_width(name) + NAME_LINE + 8 + date_wide <= area.width
    base = area.y + NAME_BASE
    items = list(to_write(name, (area.x, base), _name_line(area, words)))
    measure = area.width - (0 if apart else date_wide + 6)
    size, lines = fit_title(page.name, TITLE_SIZES, measure)
    first = base + UNDER_NAME + ascent("title", size)
    items += to_write(date, (area.right - date_wide, base if apart else first), DATE_LINE)
    items += _title(lines, size, (area.x, first))
    return tuple(items), first + (len(lines) - 1) * size * POINT * 1.12 + PICTURE_GAP


def _name_line(area: Box, words: Words) -> float:
    """As long as asked for, or, in large print on small paper, as there is room."""
    return min(NAME_LINE, area.width - label_width(words("puzzle.name")))


def _title(lines: tuple[str, ...], size: float, at: tuple[float, float]) -> tuple[Line, ...]:
    x, first = at
    return tuple(
        Line(x, first + i * size * POINT * 1.12, text, size, "title", "start", "title", "H1", i > 0)
        for i, text in enumerate(lines)
    )


def _credit(side: Side, page: Page, sheet: Sheet, words: Words) -> tuple[Line, ...]:
    """The artist's credit, in the inner lower corner."""
    if not page.artist:
        return ()
    area = sheet.area
    inner = area.x if side.recto else area.right
    anchor: Anchor = "start" if side.recto else "end"
    credit = words("credit.artist", artist=page.artist)
    measure = BOARD_COLUMN if sheet.is_board else area.width - 16
    size, lines = fit_size(credit, "text", CREDIT_SIZES, measure, 1)
    last = area.bottom - 1.2
    return tuple(
        Line(
            inner,
            last - i * row_height(size),
            text,
            size,
            "text",
            anchor,
            "quiet",
            "Footer",
            joins=i < len(lines) - 1,
        )
        for i, text in reversed(tuple(enumerate(reversed(lines))))
    )


def _to_key(side: Side, page: Page, sheet: Sheet, setting: Setting) -> tuple[Item, ...]:
    """The page's number, which leads to its answer on a screen."""
    number = folio(side, sheet)
    answer = setting.bound.side_of(Answers).get(page.id)
    if answer is None:
        return (number,)
    x = number.x - (8 if number.anchor == "end" else 0)
    return (number, InternalLink(Box(x, number.y - 5, 8, 6), answer.name))
