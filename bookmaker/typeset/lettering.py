"""Letters that the book's faces lack: found before layout, because they would print as boxes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookmaker.model import Book, Chapter, Classroom, Face, Page, Problem, Pupil
from bookmaker.typeset.faces import missing_letters

FACES: tuple[Face, ...] = ("title", "strong", "text")
"""Faces in which a title or a name is set somewhere in the book."""


def missing_in(book: Book) -> tuple[Problem, ...]:
    """A problem for each text of ``book`` that is printed and can't be, with its letters."""
    return tuple(_missing(book))


def is_printable(text: str) -> bool:
    """Whether every face has all letters of ``text``."""
    return not any(missing_letters("".join(text.split()), face) for face in FACES)


def missing_in_names(classroom: Classroom) -> tuple[Problem, ...]:
    """Warnings for the pupils' names, which stand on the teacher's lists, or their numbers do."""
    return tuple(each for p in classroom.pupils for each in _of_pupil(classroom, p, ("name",)))


def missing_in_titles(classroom: Classroom) -> tuple[Problem, ...]:
    """Warnings for titles and credits of drawings, in whose place the sheets' numbers stand."""
    return tuple(
        each
        for p in classroom.pupils
        if p.drawing != "no"
        for each in _of_pupil(classroom, p, ("creature", *(["credit"] if p.show_name else [])))
    )


def _of_pupil(classroom: Classroom, pupil: Pupil, keys: Sequence[str]) -> Iterator[Problem]:
    for key in keys:
        place = (classroom.roster_file, pupil.line, pupil.name)
        for told in _told(getattr(pupil, key), *place, f"the {key}"):
            mend = "The sheet's number stands instead. Write it in Latin letters if it is to be "
            yield replace(told, mend=f"{mend}printed.", severity="warning")


def _missing(book: Book) -> Iterator[Problem]:
    lines = dict(book.lines)
    texts = {"title": book.title, "school": book.school}
    texts |= {"artist": book.artist, "licence": book.licence}
    for key, text in texts.items():
        yield from _told(text, book.file, lines.get(key, 0), "", f"the {key}")
    for chapter in book.chapters:
        yield from _in_chapter(chapter)


def _in_chapter(chapter: Chapter) -> Iterator[Problem]:
    lines = dict(chapter.lines)
    for key, text in (("title", chapter.title), ("introduction", chapter.introduction)):
        yield from _told(text, chapter.file, lines.get(key, 0), "", f"the chapter's {key}")
    for page in chapter.pages:
        yield from _on_page(page)


def _on_page(page: Page) -> Iterator[Problem]:
    texts = {"name": page.name, "fact": page.fact}
    texts |= {"artist": page.artist, "licence": page.licence}
    for key, text in texts.items():
        yield from _told(text, page.file, page.line_of(key), page.name, f"the {key}")


def _told(text: str, file: str, line: int, page: str, what: str) -> Iterator[Problem]:
    shown = "".join(text.split())
    lacking = tuple(dict.fromkeys(c for face in FACES for c in missing_letters(shown, face)))
    if lacking:
        named = ", ".join(_named(letter) for letter in lacking[:8])
        more = f" and {len(lacking) - 8} more" if len(lacking) > 8 else ""
        yield Problem(
            file,
            line,
            page,
            "missing-letters",
            f"{what} has letters that the book's type lacks: {named}{more}",
            "Write it in Latin letters, or leave these out: they would print as empty boxes.",
        )


def _named(letter: str) -> str:
    return f"{letter} (U+{ord(letter):04X})"
