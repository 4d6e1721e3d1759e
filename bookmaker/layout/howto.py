"""How it works: an example is worked, two differences are the same, and a swap mends it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from bookmaker.layout.furniture import FOOT, folio, head
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.layout.snail import BOUNDS, HEIGHT, SPOTS, WIDTH, snail
from bookmaker.model import (
    Box,
    Description,
    Example,
    Frame,
    HowTo,
    Item,
    Line,
    Number,
    Outline,
    PlacedSpot,
    Point,
    Side,
    difference,
)
from bookmaker.placement import Arrange, Sizes, TreePlacement, arrange
from bookmaker.typeset import LEADING, POINT, Move, ascent, moved, paragraph, width, wrap
from bookmaker.words import Words

NUMERAL_SIZE = 30.0
NUMERAL_WIDTH = 9.0
PICTURE_SHARE = 0.48
TALL = 0.6
"""Height to width of a row from which the words go below the picture."""
ROW_GAP = 5.0
COLUMN_GAP = 9.0
CLASH_RIM = 2.6
"""How far the rim of a tag with a clash stands off."""
LIFT = 0.36
"""How far the arrow of the swap rises, of the way between its spots."""
HEAD = 8.0
"""Length of a side of an arrow's head; the arrow's line ends inside of it."""


def lay_out_howto(side: Side, content: HowTo, setting: Setting) -> LaidOut:
    """The steps of this side below each other, each with its picture and a few words."""
    sheet = setting.sheet(side)
    area = sheet.area
    title, y = head(sheet, setting.words("howto.title"))
    count = len(content.steps)
    high = (area.bottom - FOOT - 3 - y - (count - 1) * ROW_GAP) / count
    worked = Worked(content.example, setting.words, setting.arrange)
    size = 44.0 if sheet.is_board else 16.0 if sheet.is_narrow else 20.0
    row = Box(area.x, y, area.width, high)
    size = worked.text_size(content.steps, row, size)
    items: list[Item] = [*title]
    for place, step in enumerate(content.steps):
        row = Box(area.x, y + place * (high + ROW_GAP), area.width, high)
        items += worked.step(step, row, size)
    return sheet, (*items, folio(side, sheet))


@dataclass(frozen=True, slots=True)
class Worked:
    """The example in its four steps: written in, worked out, two the same, mended."""

    example: Example
    words: Words
    arrange: Arrange = arrange

    def step(self, number: int, row: Box, size: float) -> tuple[Item, ...]:
        """One step in ``row``: its picture on the left, its words (``size`` points) beside it; in
        a tall row they stand below a larger one."""
        if _is_tall(row):
            return self._stacked(number, row, size)
        scale, measure = _scale(row), _measure(row)
        dy = row.y + (row.height - HEIGHT * scale) / 2
        picture = self.picture_at(number, (row.x + NUMERAL_WIDTH, dy), scale)
        top = dy + ascent("title", NUMERAL_SIZE)
        numeral = Line(row.x, top, str(number), NUMERAL_SIZE, "title", "start", "accent", "Lbl")
        lines = wrap(self._saying(number), "text", size, measure)
        tall = (len(lines) - 1) * size * POINT * LEADING + ascent("text", size)
        first = row.y + (row.height - tall) / 2 + ascent("text", size)
        told, _ = paragraph(self._saying(number), (row.right - measure, first), measure, size)
        return (numeral, *picture, *(replace(line, tag="LBody") for line in told))

    def _stacked(self, number: int, row: Box, size: float) -> tuple[Item, ...]:
        left, measure = row.x + NUMERAL_WIDTH, _measure(row)
        lines = wrap(self._saying(number), "text", size, measure)
        tall = len(lines) * size * POINT * LEADING
        scale = min(measure / WIDTH, (row.height - tall - ROW_GAP) / HEIGHT)
        picture = self.picture_at(number, (left, row.y), scale)
        top = row.y + ascent("title", NUMERAL_SIZE)
        numeral = Line(row.x, top, str(number), NUMERAL_SIZE, "title", "start", "accent", "Lbl")
        first = row.y + HEIGHT * scale + ROW_GAP + ascent("text", size)
        told, _ = paragraph(self._saying(number), (left, first), measure, size)
        return (numeral, *picture, *(replace(line, tag="LBody") for line in told))

    def text_size(self, steps: tuple[int, ...], row: Box, size: float) -> float:
        """The largest size up to ``size`` at which the words of every step go into their row."""
        sizes = [size * part for part in (1.0, 0.9, 0.8, 0.7, 0.6)]
        return next((each for each in sizes if self._go_in(steps, row, each)), sizes[-1])

    def _go_in(self, steps: tuple[int, ...], row: Box, size: float) -> bool:
        """Whether the words of every step go into their row, no word of them torn."""
        told = [self._saying(step) for step in steps]
        lines = [wrap(saying, "text", size, _measure(row)) for saying in told]
        whole = all(" ".join(own) == said for own, said in zip(lines, told, strict=True))
        return whole and max(map(len, lines)) * size * POINT * LEADING <= row.height

    def _saying(self, number: int) -> str:
        clash = self._differences(self.example.start)[self.example.clash[0]]
        return self.words(f"howto.{number}", difference=self.words.number(clash.text))

    def picture_at(self, step: int, at: Point, scale: float) -> tuple[Item, ...]:
        """The picture of one step alone, its top left ``at`` a place, in millimetres."""
        return moved(self._picture(step), Move(*at, scale))

    def _picture(self, step: int) -> tuple[Item, ...]:
        tree = self._tree()
        numbers = self.example.solution if step == 4 else self.example.start
        written = [*self._in_spots(tree, numbers)]
        if step > 1:
            written += self._in_tags(tree, numbers)
        marks = [*self._clash(tree), *self._swap(tree)] if step == 3 else []
        told = Description(Box(0.0, 0.0, WIDTH, HEIGHT), self._in_words(numbers, step))
        return (told, *snail(), *tree.links, *marks, *tree.tags, *tree.spots, *written)

    def _in_words(self, numbers: tuple[tuple[str, Number], ...], step: int) -> str:
        """The picture of a step for those who can't see it, with what is written in it."""
        at, words = dict(numbers), self.words
        links = (
            words(
                "howto.alt.link" if step > 1 else "alt.link",
                a=words.number(at[link.a].text),
                b=words.number(at[link.b].text),
                difference=words.number(difference(at[link.a], at[link.b]).text),
            )
            for link in self.example.links
        )
        return words("howto.alt", links=words("list.mark").join(links))

    def _in_spots(
        self, tree: TreePlacement, numbers: tuple[tuple[str, Number], ...]
    ) -> Iterator[Line]:
        at = dict(numbers)
        for spot in tree.spots:
            text = self.words.number(at[spot.name].text)
            yield fitted(text, (spot.x, spot.y), spot.radius * 1.5, 30.0, "example")

    def _in_tags(
        self, tree: TreePlacement, numbers: tuple[tuple[str, Number], ...]
    ) -> Iterator[Line]:
        differences = self._differences(numbers)
        for tag in tree.tags:
            text = self.words.number(differences[tag.link].text)
            yield fitted(text, tag.box.middle, tag.box.width * 0.8, 25.0, "example")

    def _differences(self, numbers: tuple[tuple[str, Number], ...]) -> dict[str, Number]:
        at = dict(numbers)
        return {link.name: difference(at[link.a], at[link.b]) for link in self.example.links}

    def _clash(self, tree: TreePlacement) -> Iterator[Frame]:
        """A second rim around the two tags that hold the same difference."""
        for tag in tree.tags:
            if tag.link in self.example.clash:
                around = tag.box.grown(CLASH_RIM)
                yield Frame(around, "clash-edge", 4.0)
                yield Frame(around, "clash", 4.0)

    def _tree(self) -> TreePlacement:
        spots = tuple((name, *SPOTS[name]) for name in self.example.spots)
        ends = tuple(link.ends for link in self.example.links)
        return self.arrange(spots, ends, BOUNDS, Sizes.of("a4", 2))

    def _swap(self, tree: TreePlacement) -> tuple[Item, ...]:
        """An arrow with two heads between the two spots whose numbers change places."""
        one, other = (s for s in tree.spots if s.name in self.example.swap)
        return double_arrow(one, other)


def _scale(row: Box) -> float:
    return min(row.height / HEIGHT, row.width * PICTURE_SHARE / WIDTH)


def _is_tall(row: Box) -> bool:
    return row.height > TALL * row.width


def _measure(row: Box) -> float:
    """The length of the lines beside a picture, or below it."""
    if _is_tall(row):
        return row.width - NUMERAL_WIDTH
    return row.width - NUMERAL_WIDTH - WIDTH * _scale(row) - COLUMN_GAP


def fitted(text: str, middle: Point, room: float, size: float, role: str) -> Line:
    """``text`` around ``middle``, ``size`` points large or as large as ``room`` allows."""
    size = min(size, size * room / max(width(text, "strong", size), 0.01))
    x, y = middle
    return Line(x, y + ascent("strong", size) / 2, text, size, "strong", "middle", role, "")


def double_arrow(one: PlacedSpot, other: PlacedSpot) -> tuple[Item, ...]:
    """A bow from spot to spot, bent upwards and clear of the spots between, headed at each end."""
    (x0, y0), (x1, y1) = sorted(((one.x, one.y), (other.x, other.y)))
    length = math.hypot(x1 - x0, y1 - y0)
    lift = length * LIFT
    middle = ((x0 + x1) / 2 + (y1 - y0) / length * lift, (y0 + y1) / 2 - (x1 - x0) / length * lift)
    points = [_bow((x0, y0), middle, (x1, y1), i / 200) for i in range(201)]
    reach = one.radius + 2.5
    shown = [p for p in points if min(math.dist(p, (x0, y0)), math.dist(p, (x1, y1))) >= reach]
    first, last = shown[0], shown[-1]
    shaft = [p for p in shown if min(math.dist(p, first), math.dist(p, last)) >= HEAD / 2]
    heads = (_arrowhead(shaft[0], first), _arrowhead(shaft[-1], last))
    return (
        Outline((tuple(shaft),), "swap-line-edge", closed=False),
        Outline(heads, "swap-edge"),
        Outline((tuple(shaft),), "swap", closed=False),
        Outline(heads, "swap-head"),
    )


def _bow(start: Point, pull: Point, end: Point, t: float) -> Point:
    """A quadratic curve that passes through ``pull`` half way."""
    cx, cy = (2 * pull[i] - (start[i] + end[i]) / 2 for i in (0, 1))
    a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t**2
    return a * start[0] + b * cx + c * end[0], a * start[1] + b * cy + c * end[1]


def _arrowhead(behind: Point, tip: Point) -> tuple[Point, ...]:
    angle = math.atan2(tip[1] - behind[1], tip[0] - behind[0])
    wings = (
        (tip[0] - HEAD * math.cos(angle + turn), tip[1] - HEAD * math.sin(angle + turn))
        for turn in (0.45, -0.45)
    )
    return (tip, *wings)
