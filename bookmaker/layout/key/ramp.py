"""The ramp: a mark for each page in the order of the book, as high as the logarithm of its work."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bookmaker.layout.key.setting import RISE, SIZE, STEP, spaced
from bookmaker.layout.setting import Setting
from bookmaker.model import (
    BAND_FLOORS,
    BANDS,
    Answers,
    Box,
    CertifiedPage,
    Description,
    Disc,
    InternalLink,
    Item,
    Line,
    OrderedChapter,
    Outline,
    Point,
    Rule,
    TermPlan,
)
from bookmaker.typeset import width, wrap
from bookmaker.words import Words

MARK = 1.7
"""Radius of a page's mark at most, in millimetres."""
MOST_TITLE = 3
"""Lines that a chapter's title may take over its part of the plot."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """The plot's rectangle; pages run along it, work climbs from ``low`` to ``high``."""

    box: Box
    count: int
    low: float
    high: float

    def x(self, place: float) -> float:
        return self.box.x + (place + 0.5) * self.box.width / self.count

    def y(self, work: float) -> float:
        part = math.log(max(work, self.low) / self.low) / math.log(self.high / self.low)
        return self.box.bottom - part * self.box.height


def ramp(room: Box, setting: Setting) -> tuple[Item, ...]:
    """The plot in ``room``: chapters above, page numbers and weeks below, bands at the left."""
    chapters, words = setting.bound.ordered.chapters, setting.words
    pages = setting.bound.ordered.pages
    works = [page.certificate.work for page in pages]
    left = _margin(words)
    title_lines = _titles(chapters, (room.width - left) / max(len(pages), 1))
    above = max(len(lines) for lines in title_lines) * STEP + 2.0
    below = 2 * STEP + 5.0
    plot = Box(room.x + left, room.y + above, room.width - left, room.height - above - below)
    scale = _Scale(plot, len(pages), max(1.0, min(works) / 1.5), max(max(works) * 1.4, 30.0))
    ends = (words.number(f"{work:.0f}") for work in (min(works), max(works)))
    told = words("ramp.alt", len(pages), **dict(zip(("low", "high"), ends, strict=True)))
    return (
        Description(room, told),
        *_bands(scale, room.x, words),
        *_chapters(scale, chapters, title_lines, room.y),
        *_line(scale, chapters),
        *_marks(scale, chapters, setting),
        *_numbers(scale, pages, setting, room.x),
        *_weeks(scale, setting, room.x),
    )


def chapters_by_number(measure: float, setting: Setting) -> bool:
    """Whether the chapters' titles are too long to stand over a plot ``measure`` wide."""
    ordered = setting.bound.ordered
    step = (measure - _margin(setting.words)) / max(len(ordered.pages), 1)
    return _titles(ordered.chapters, step)[0] == ("1",)


def _margin(words: Words) -> float:
    """Room at the left for the names of bands, and the work at which they begin."""
    names = max(width(words(f"band.{band}"), "text", SIZE) for band in BANDS)
    floor = width(str(BAND_FLOORS[-1]), "text", SIZE)
    rows = max(width(words(key), "strong", SIZE) for key in ("ramp.page", "ramp.week"))
    return max(names + floor + 4.5, rows + 3.0)


def _bands(scale: _Scale, x: float, words: Words) -> Iterator[Item]:
    box = scale.box
    yield Rule((box.x, box.y), (box.x, box.bottom), "axis")
    yield Rule((box.x, box.bottom), (box.right, box.bottom), "axis")
    edges = [scale.low, *BAND_FLOORS[1:], scale.high]
    for band, (floor, ceiling) in zip(BANDS, pairwise(edges), strict=True):
        if floor >= scale.high:
            break
        low, high = scale.y(floor), scale.y(min(ceiling, scale.high))
        if low - high >= STEP * 0.9:
            name = words(f"band.{band}")
            yield Line(x, (low + high) / 2 + RISE / 2, name, SIZE, "text", "start", "quiet")
        if floor > scale.low:
            yield Rule((box.x, low), (box.right, low), "rule")
            yield Line(box.x - 1.5, low + RISE / 2, f"{floor:.0f}", SIZE, "text", "end", "quiet")


def _titles(chapters: Sequence[OrderedChapter], step: float) -> list[tuple[str, ...]]:
    """The chapters' titles, each wrapped over its own pages; numbers where one does not fit."""
    titles = []
    for chapter in chapters:
        measure = len(chapter.pages) * step - 2.0
        told = chapter.title
        lines = wrap(told, "text", SIZE, max(measure, 1.0))
        whole = all(width(word, "text", SIZE) <= measure for word in told.split())
        if not whole or len(lines) > MOST_TITLE:
            return [(str(number),) for number in range(1, len(chapters) + 1)]
        titles.append(lines)
    return titles


def _chapters(
    scale: _Scale, chapters: Sequence[OrderedChapter], titles: list[tuple[str, ...]], top: float
) -> Iterator[Item]:
    """A line between chapters, and each one's title over its own pages."""
    most, place = max(len(lines) for lines in titles), 0
    for chapter, lines in zip(chapters, titles, strict=True):
        start, end = scale.x(place - 0.5), scale.x(place + len(chapter.pages) - 0.5)
        first = top + (most - len(lines)) * STEP + RISE
        for row, told in enumerate(lines):
            at = ((start + end) / 2, first + row * STEP)
            yield Line(*at, told, SIZE, "text", "middle", "heading", "P")
        if place:
            yield Rule((start, scale.box.y), (start, scale.box.bottom), "rule")
        place += len(chapter.pages)


def _line(scale: _Scale, chapters: Sequence[OrderedChapter]) -> Iterator[Item]:
    """The marks of a chapter joined, so that each chapter's own climb shows."""
    place = 0
    for chapter in chapters:
        points = tuple(_at(scale, place + i, page) for i, page in enumerate(chapter.pages))
        if len(points) > 1:
            yield Outline((points,), "climb", closed=False)
        place += len(chapter.pages)


def _at(scale: _Scale, place: int, page: CertifiedPage) -> Point:
    return (scale.x(place), scale.y(page.certificate.work))


def _marks(scale: _Scale, chapters: Sequence[OrderedChapter], setting: Setting) -> Iterator[Item]:
    """A disc for each page, an empty diamond for one of an optional chapter."""
    radius = min(MARK, scale.box.width / scale.count * 0.4)
    answered = setting.bound.side_of(Answers)
    place = 0
    for chapter in chapters:
        for page in chapter.pages:
            x, y = _at(scale, place, page)
            if chapter.optional:
                r = radius * 1.35
                yield Outline((((x - r, y), (x, y - r), (x + r, y), (x, y + r)),), "dot-open")
            else:
                yield Disc(x, y, radius, "dot")
            if page.id in answered:
                box = Box(x - radius, y - radius, 2 * radius, 2 * radius)
                yield InternalLink(box, answered[page.id].name)
            place += 1


def _numbers(
    scale: _Scale, pages: Sequence[CertifiedPage], setting: Setting, x: float
) -> Iterator[Item]:
    """The pages' numbers in the book, as many as there is room for."""
    base = scale.box.bottom + 2.0 + RISE
    yield Line(x, base, setting.words("ramp.page"), SIZE, "strong", "start", "quiet")
    labels = [setting.bound.label_of(page.id) or str(place) for place, page in enumerate(pages, 1)]
    widest = max(width(label, "text", SIZE) for label in labels) + 1.2
    every = max(1, math.ceil(widest * scale.count / scale.box.width))
    for place in range(0, len(labels), every):
        x = min(scale.x(place), scale.box.right - width(labels[place], "text", SIZE) / 2)
        yield spaced(Line(x, base, labels[place], SIZE, "text", "middle", "quiet"))


def _weeks(scale: _Scale, setting: Setting, x: float) -> Iterator[Item]:
    """A bracket under the pages of each week, with the week's number."""
    top = scale.box.bottom + 2.0 + STEP + 1.0
    base = top + 1.6 + RISE
    yield Line(x, base, setting.words("ramp.week"), SIZE, "strong", "start", "quiet")
    weeks = [
        row.week
        for side in setting.bound.sides
        if isinstance(side.content, TermPlan)
        for row in side.content.rows
    ]
    widest = width("00", "text", SIZE)
    free = 0.0
    brackets: list[Rule] = []
    for week in sorted(set(weeks)):
        first, last = weeks.index(week), len(weeks) - 1 - weeks[::-1].index(week)
        inset = min(0.7, scale.box.width / scale.count * 0.2)
        start, end = scale.x(first - 0.5) + inset, scale.x(last + 0.5) - inset
        brackets.append(Rule((start, top), (end, top), "axis"))
        middle = (start + end) / 2
        if middle - widest / 2 >= free:
            yield spaced(Line(middle, base, str(week), SIZE, "text", "middle", "quiet"))
            free = middle + widest / 2 + 1.0
    yield from brackets
