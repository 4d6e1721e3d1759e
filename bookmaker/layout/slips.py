"""Hint slips: a strip for each rung of a page's ladder, to be cut apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookmaker.layout.furniture import FOOT, PUPIL_SIZE, head
from bookmaker.layout.little import little_tree
from bookmaker.layout.loose import NOTE_SIZE
from bookmaker.layout.setting import LaidOut, PlacedPuzzle, Setting
from bookmaker.model import Box, Description, Disc, Item, Line, Rule, Side, Slip, Slips
from bookmaker.typeset import LEADING, POINT, Move, Sheet, ascent, fit_size, moved, paragraph
from bookmaker.words import Words, spoken

STRIP = 24.0
"""Least height of a strip."""
PAD = 2.5
TREE = 21.0
"""Width of the little tree on a slip."""
LEAST_SLIP = 90.0
"""Width of a slip at least, where two stand beside each other."""
HEAD_SIZES = (14.0, 13.0, 12.0, 11.0, 10.0)
DESCENT = 0.25
"""How deep letters reach below their baseline, in sizes of the type."""
HEAD_GAP = 2.0
"""Between a heading and the hint's capitals."""


def share_slips(slips: Sequence[Slip], sheet: Sheet, words: Words) -> tuple[tuple[Slip, ...], ...]:
    """What stands on each side of the slips."""
    _, top = _opening(sheet, words)
    room = sheet.area.bottom - FOOT - top
    sides: list[tuple[Slip, ...]] = []
    for slip in slips:
        # A side's strips are as high as its highest, so a long name costs only its own side.
        longer = (*sides[-1], slip) if sides else (slip,)
        if sides and _rows(longer, sheet) * _strip(longer, sheet, words) <= room:
            sides[-1] = longer
        else:
            sides.append((slip,))
    return tuple(sides)


def lay_out_slips(side: Side, content: Slips, setting: Setting) -> LaidOut:
    """Slips of one height, column after column, with lines to cut along."""
    sheet = setting.sheet(side)
    area = sheet.area
    opening, top = _opening(sheet, setting.words)
    high = _strip(content.slips, sheet, setting.words)
    items: list[Item] = [*opening]
    rows, wide = _rows(content.slips, sheet), _width(sheet)
    for place, slip in enumerate(content.slips):
        column, row = divmod(place, rows)
        box = Box(area.x + column * wide, top + row * high, wide, high)
        items += _slip(slip, box, setting)
    edges = [top + row * high for row in range(rows + 1)]
    items += [Rule((area.x, y), (area.right, y), "cut") for y in edges]
    between = [area.x + column * wide for column in range(1, _columns(sheet))]
    items += [Rule((x, top), (x, edges[-1]), "cut") for x in between]
    return sheet, tuple(items)


def _columns(sheet: Sheet) -> int:
    """Slips beside each other: two on large paper, which halves it."""
    return max(1, int(sheet.area.width // LEAST_SLIP))


def _rows(slips: Sequence[Slip], sheet: Sheet) -> int:
    return -(-len(slips) // _columns(sheet))


def _width(sheet: Sheet) -> float:
    return sheet.area.width / _columns(sheet)


def _strip(slips: Sequence[Slip], sheet: Sheet, words: Words) -> float:
    """The height in which each of ``slips`` has room, in millimetres."""
    box = Box(0.0, 0.0, _width(sheet), 0.0)
    return max([STRIP, *(slip_text(slip, box, words)[1] + PAD for slip in slips)])


def _opening(sheet: Sheet, words: Words) -> tuple[tuple[Item, ...], float]:
    area = sheet.area
    title, y = head(sheet, words("slips.title"))
    how, y = paragraph(words("slips.how"), (area.x, y + 3), area.width, NOTE_SIZE)
    care, y = paragraph(words("loose.care"), (area.x, y), area.width, NOTE_SIZE)
    return (*title, *how, *care), y


def _slip(slip: Slip, box: Box, setting: Setting) -> Iterator[Item]:
    words = setting.words
    page = slip.page
    inner = Box(box.x + PAD, box.y + PAD, box.width - 2 * PAD, box.height - 2 * PAD)
    tree = Box(inner.x, inner.y, TREE, inner.height)
    yield from _little_tree(setting.puzzles[page.id], tree, slip.spot, words)
    lines, lowest = slip_text(slip, box, words)
    yield from moved(lines, Move(0.0, max(inner.bottom - lowest, 0.0) / 2))


def slip_text(slip: Slip, box: Box, words: Words) -> tuple[list[Line], float]:
    """Heading and hint beside the little tree; gives how far down their letters reach, too."""
    x = box.x + PAD + TREE + 3
    measure = box.right - PAD - x
    headed = words("slip.head", page=slip.page.name, step=slip.step)
    size, _ = fit_size(headed, "strong", HEAD_SIZES, measure, 2)
    base = box.y + PAD + ascent("strong", size)
    placed, after = paragraph(headed, (x, base), measure, size, "strong", "heading")
    step = size * POINT * LEADING
    # From the heading's lowest letters on, however small it is against the hint.
    below = after - step + DESCENT * size * POINT + HEAD_GAP
    start = (x, below + ascent("text", PUPIL_SIZE))
    said, end = paragraph(saying(slip, words), start, measure, PUPIL_SIZE)
    lowest = end - PUPIL_SIZE * POINT * (LEADING - DESCENT)
    return [*(replace(line, tag="H2") for line in placed), *said], lowest


def saying(slip: Slip, words: Words) -> str:
    """The hint in words."""
    shown = [words.number(number.text) for number in slip.numbers]
    if slip.fact:
        return words(f"slip.{slip.fact}", **dict(zip("abcd", shown, strict=False)))
    told = words("slip.number", number=shown[0])
    if slip.mirror is None:
        return told
    other, turn = (words.number(number.text) for number in slip.mirror)
    return f"{told} {words('slip.mirror', other=other, turn=turn)}"


def _little_tree(placed: PlacedPuzzle, frame: Box, marked: str, words: Words) -> Iterator[Item]:
    """The page's tree without its picture, the ``marked`` spot dark."""
    links, spots = little_tree(placed.tree, frame)
    yield from links
    for spot in spots:
        yield spot
        if spot.name == marked:
            yield Description(frame, words("slip.alt", spot=spoken(marked)))
            yield Disc(spot.x, spot.y, spot.radius, "marked")
