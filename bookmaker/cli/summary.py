"""What is said of a finished document: its pages, its sheets, its ink."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from bookmaker.cli.tell import many
from bookmaker.compile import Compiled
from bookmaker.context import BuildOptions
from bookmaker.layout import MOST_SHEETS
from bookmaker.model import Puzzle
from bookmaker.pdf import average_cover
from bookmaker.reading import name_all, read_toml

MUCH_INK = 0.30
"""Average cover from which the light ink is worth a word."""


def told(compiled: Compiled, options: BuildOptions, pdf: Path, whom: str) -> str:
    """The file, who it is for, and how much paper and ink it takes."""
    lines = [f"{pdf}: {whom}, {many(len(compiled.pages), 'page')}{_on_paper(compiled, options)}"]
    sides = zip(compiled.bound.sides, compiled.pages, strict=True)
    puzzles = [page for side, page in sides if isinstance(side.content, Puzzle)]
    cover = average_cover(puzzles, compiled.ink, compiled.inked)
    if cover:
        light = " --ink light fades the pictures." if cover > MUCH_INK else ""
        lines.append(f"Ink: pictures cover about {cover:.0%} of a puzzle page.{light}")
    return "\n".join(lines)


def _on_paper(compiled: Compiled, options: BuildOptions) -> str:
    if compiled.bound.ordered.paper == "board":
        return " to project"
    folded = f" of {_sheet(compiled)} to fold and staple" if options.output == "booklet" else ""
    folded = folded or (", printed on both sides" if len(compiled.pages) > 1 else "")
    return f" on {many(compiled.sheets, 'sheet')}{folded}"


def _sheet(compiled: Compiled) -> str:
    """The doubled paper of a booklet."""
    doubled = {"a5": "A4", "a4": "A3", "half-letter": "letter", "a3": "A2", "letter": "tabloid"}
    return doubled.get(compiled.bound.ordered.paper, "doubled") + " paper"


def advice(compiled: Compiled, options: BuildOptions, manifest: Path) -> Iterator[str]:
    """What a teacher should know before printing."""
    if options.output == "booklet":
        yield "Print on both sides at 100%, flipped on the short edge. Fold, then staple."
        if compiled.bound.ordered.paper in ("a4", "letter"):
            small = "a5" if compiled.bound.ordered.paper == "a4" else "half-letter"
            yield f"For a booklet on ordinary sheets: --booklet --paper {small}."
        if compiled.sheets > MOST_SHEETS:
            yield from _smaller(compiled, manifest)
    paper = compiled.bound.ordered.paper
    asked = options.paper or compiled.prepared.own_paper
    if options.large and paper != asked:
        shown = paper if paper == "letter" else paper.upper()
        yield f"On {shown} paper: large print needs more room than {asked.upper()} has."


def same_name(manifest: Path) -> Iterator[str]:
    """A word of warning where another book's file has the same name: its folder's."""
    if not _is_book(manifest):
        return
    others = (file for file in sorted(manifest.parent.glob("*.toml")) if file.name != manifest.name)
    names = [file.name for file in others if _is_book(file)]
    if names:
        folder = manifest.resolve().parent.name
        are = "is a book" if len(names) == 1 else "are books"
        yield (
            f"{name_all(names)} in the same folder {are} as well, and each is written to "
            f"{folder}.pdf. Give each book a folder of its own, or another place with --out."
        )


def _is_book(file: Path) -> bool:
    try:
        return file.is_file() and "chapters" in (read_toml(file).values or {})
    except OSError:
        return False  # whoever reads it as a book says what is wrong with it


def _smaller(compiled: Compiled, manifest: Path) -> Iterator[str]:
    chapters = [chapter.id for chapter in compiled.bound.ordered.chapters]
    yield (
        f"A stapler for booklets takes about {MOST_SHEETS} sheets, and this one has "
        f"{compiled.sheets}."
    )
    if len(chapters) < 3:
        return
    paper = compiled.bound.ordered.paper
    yield "Make one booklet for every two chapters:"
    for first in range(0, len(chapters), 2):
        named = " ".join(f"--chapter {name}" for name in chapters[first : first + 2])
        yield f"  bookmaker build {manifest} --booklet --paper {paper} {named}"
