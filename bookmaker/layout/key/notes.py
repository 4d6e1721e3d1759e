"""Notes for each chapter: questions to ask the class, and the wrong ideas to expect."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bookmaker.layout.furniture import folio
from bookmaker.layout.key.saying import said
from bookmaker.layout.key.setting import FOOT, Set, columns, heading, text, title
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Box, ChapterNotes, ClassNotes, Item, Question, Side
from bookmaker.typeset import Sheet
from bookmaker.words import Words

CHAPTER_GAP = 5.0
QUESTION_GAP = 1.4


def lay_out_notes(side: Side, content: ClassNotes, setting: Setting) -> LaidOut:
    """Chapter after chapter, in columns of even height."""
    sheet, words = setting.sheet(side), setting.words
    items, top = title(sheet, words("notes.title"))
    room = _room(sheet, words)
    places = columns(Box(sheet.area.x, top, sheet.area.width, room), _count(sheet))
    heights = [_chapter(each, (0.0, 0.0), places[0].width, words)[1] for each in content.chapters]
    filled = _even(heights, room, len(places))
    placed: list[Item] = [*items]
    for box, members in zip(places, filled, strict=False):
        y = top
        for member in members:
            told, y = _chapter(content.chapters[member], (box.x, y), box.width, words)
            placed += told
    return sheet, (*placed, folio(side, sheet))


def share_notes(
    chapters: Sequence[ChapterNotes], sheet: Sheet, words: Words
) -> tuple[tuple[ChapterNotes, ...], ...]:
    """The chapters that stand on each side; parted between two questions where that saves one."""
    count, room = _count(sheet), _room(sheet, words)
    measure = columns(sheet.area, count)[0].width
    heights = [_chapter(each, (0.0, 0.0), measure, words)[1] for each in chapters]
    whole = [[chapters[member] for member in column] for column in _filled(heights, room)]
    kept = flowing = _on_sides(whole, count)
    for percent in range(100, 40, -4):
        evener = _on_sides(_flowing(chapters, measure, room * percent / 100, words), count)
        if len(evener) > len(flowing) or len(evener) == len(kept):
            break
        flowing = evener
    return flowing


def _on_sides(
    filled: Sequence[Sequence[ChapterNotes]], count: int
) -> tuple[tuple[ChapterNotes, ...], ...]:
    """Columns put onto sides, ``count`` on each."""
    sides = (filled[first : first + count] for first in range(0, len(filled), count))
    return tuple(tuple(each for column in side for each in column) for side in sides)


def _flowing(
    chapters: Sequence[ChapterNotes], measure: float, room: float, words: Words
) -> list[list[ChapterNotes]]:
    """Column after column, each filled as far as questions go; two of them stay together."""
    filled: list[list[ChapterNotes]] = [[]]
    left = room
    for chapter in chapters:
        start, total = 0, len(chapter.questions) + len(chapter.wrong)
        while start < total:
            ends = [total, *range(total - 2, start + 1, -1)]
            parts = ((end, _part(chapter, start, end)) for end in ends)
            sized = ((*each, _chapter(each[1], (0.0, 0.0), measure, words)[1]) for each in parts)
            fitting = next((each for each in sized if each[2] - CHAPTER_GAP <= left), None)
            if fitting is None and filled[-1]:
                filled.append([])
                left = room
                continue
            end, part, high = fitting or (total, _part(chapter, start, total), room)
            filled[-1].append(part)
            start, left = end, left - high
    return filled


def _part(chapter: ChapterNotes, start: int, end: int) -> ChapterNotes:
    """Some of the questions of ``chapter``, and of the wrong ideas, which follow them."""
    asked = len(chapter.questions)
    wrong = chapter.wrong[max(start - asked, 0) : max(end - asked, 0)]
    return replace(chapter, questions=chapter.questions[start:end], wrong=wrong)


def _count(sheet: Sheet) -> int:
    if sheet.is_board:
        return 3
    return 1 if sheet.is_narrow else 2


def _room(sheet: Sheet, words: Words) -> float:
    _, top = title(sheet, words("notes.title"))
    return sheet.area.bottom - FOOT - top


def _even(heights: Sequence[float], room: float, count: int) -> list[list[int]]:
    """Columns as even as can be: the least room into which all go."""
    filled = _filled(heights, room)
    for percent in range(98, 20, -2):
        evener = _filled(heights, room * percent / 100)
        if len(evener) > count:
            break
        filled = evener
    return filled


def _filled(heights: Sequence[float], room: float) -> list[list[int]]:
    """Column after column, each filled as far as it goes."""
    filled: list[list[int]] = [[]]
    left = room
    for place, high in enumerate(heights):
        if filled[-1] and high - CHAPTER_GAP > left:
            filled.append([])
            left = room
        filled[-1].append(place)
        left -= high
    return filled


def _chapter(notes: ChapterNotes, at: tuple[float, float], measure: float, words: Words) -> Set:
    """A chapter's title, its questions with what to listen for, and the wrong ideas."""
    items, y = heading(notes.title, *at, measure)
    placed: list[Item] = [*items]
    for key, questions in (("notes.ask", notes.questions), ("notes.wrong", notes.wrong)):
        if questions:
            told, y = text(words(key), at[0], y, measure, "strong")
            placed += told
        for question in questions:
            told, y = _question(question, (at[0], y), measure, words)
            placed += told
    return tuple(placed), y + CHAPTER_GAP


def _question(question: Question, at: tuple[float, float], measure: float, words: Words) -> Set:
    asks, y = text(said(question.asks, words), *at, measure)
    answer, y = text(said(question.answer, words), at[0], y, measure, "italic")
    return (*asks, *answer), y + QUESTION_GAP
