"""A finished file, opened and looked at again before anybody is told that it is done."""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, Final

from pikepdf import Dictionary, Object, Page, Pdf, PdfError, Stream, parse_content_stream

from bookmaker.model import Line, PlacedArt, PlacedPage
from bookmaker.pdf.finished_colour import colour_left
from bookmaker.pdf.finished_structure import structure_fault
from bookmaker.pdf.reading_back import Font, Malformed, PageInk, SetText, read_content
from bookmaker.pdf.units import MM
from bookmaker.typeset import FACES, missing_letters

TOLERANCE = 0.02
"""Points by which a page's size may differ."""
BEYOND = 0.25 * MM
"""Points by which ink may reach over its sheet: paper laid over a picture is a hair larger."""
OVERLAP = 0.5 * MM
"""Points by which texts may reach into each other, across and down."""
STRANGE: Final = ("nan", "inf", "infinity")
"""What other programs write for a number that is none."""


class FinishedFileFault(Exception):
    """A finished file is not what was laid out: a fault of ours, nothing is to be written."""


def check_pdf(
    pdf: bytes | Path,
    pages: Sequence[PlacedPage],
    grey: bool = False,
    name: str = "",
) -> None:
    """Raise FinishedFileFault unless ``pdf``, a file or its bytes, is a sound PDF of ``pages``.

    ``name`` is what the file will be called, for what is told of it.

    Looks at the number and size of pages; that each picture and all words are there, on the sheet
    and not over each other; that faces are ours and embedded; that every operator is one; that the
    structure fits what is tagged; and, where it is to be ``grey``, that no colour is left.
    """
    try:
        file = pdf if isinstance(pdf, Path) else io.BytesIO(pdf)
        with Pdf.open(file, attempt_recovery=False) as opened:
            fault = next(_faults(opened, pages, grey), "")
    except PdfError as error:
        fault = f"the file can't be opened again: {error}"
    if fault:
        raise FinishedFileFault(f"{name}: {fault}" if name else fault)


def _faults(pdf: Pdf, pages: Sequence[PlacedPage], grey: bool) -> Iterator[str]:
    """What is wrong, in words, the first of it first."""
    if len(pdf.pages) != len(pages):
        yield f"{len(pdf.pages)} pages stand in the file instead of {len(pages)}"
        return
    fonts: dict[Any, Font] = {}
    forms: set[Any] = set()
    pieces: list[dict[int, str]] = []
    for number, (page, placed) in enumerate(zip(pdf.pages, pages, strict=True), 1):
        try:
            _check_resources(page, placed, fonts)
            _check_forms(page, forms)
            ink = read_content(page.obj.Contents.read_bytes(), _fonts(page, fonts))
            _check_names(ink, page)
            _check_edges(ink, placed)
            _check_words(ink, placed)
        except Malformed as fault:
            yield f"page {number}: {fault}"
            return
        pieces.append(ink.pieces)
    yield from structure_fault(pdf, pieces)
    if grey:
        yield from colour_left(pdf)


def _check_resources(page: Page, placed: PlacedPage, known: dict[Any, Font]) -> None:
    left, bottom, right, top = (float(value) for value in page.mediabox)
    width, height = right - left, top - bottom
    off = max(abs(width - placed.width * MM), abs(height - placed.height * MM))
    if off > TOLERANCE:
        raise Malformed(f"it is {width:g} x {height:g} points large")
    art = {item.picture for item in placed.items if isinstance(item, PlacedArt)}
    laid = [each for each in _named(page.obj.Resources, "/XObject").values() if "/Subtype" in each]
    if len(laid) < len(art):
        raise Malformed(f"it shows {len(laid)} of its {len(art)} pictures")
    for font in _named(page.obj.Resources, "/Font").values():
        if font.objgen not in known:
            _check_face(font)
            known[font.objgen] = _read_font(font)


def _check_face(font: Object) -> None:
    name = str(font.get("/BaseFont", ""))[1:]
    if name.partition("+")[2] not in {face.path.stem for face in FACES.values()}:
        raise Malformed(f"the face {name} is none of ours")
    if not _is_embedded(font):
        raise Malformed(f"the face {name} is not embedded")


def _is_embedded(font: Object) -> bool:
    font = font.DescendantFonts[0] if "/DescendantFonts" in font else font
    if font.get("/Subtype") == "/Type3":  # its glyphs are content of the file
        return True
    descriptor = _named(font, "/FontDescriptor")
    return any(f"/FontFile{kind}" in descriptor for kind in ("", "2", "3"))


def _read_font(font: Object) -> Font:
    """Letters and widths by code, as a reader of the file finds them (9.7.4.3, 9.10.3)."""
    glyphs = font.DescendantFonts[0]
    letters = {
        bytes(code).hex(): bytes(letter).decode("utf-16-be")
        for step in parse_content_stream(font.ToUnicode)
        if str(step.operator) == "endbfchar"
        for code, letter in zip(step.operands[::2], step.operands[1::2], strict=True)
    }
    first, widths = int(glyphs.W[0]), list(glyphs.W[1])
    descriptor = glyphs.FontDescriptor
    return Font(
        letters,
        {f"{first + place:04x}": float(width) / 1000 for place, width in enumerate(widths)},
        float(descriptor.CapHeight) / 1000,
        float(descriptor.Descent) / 1000,
    )


def _fonts(page: Page, known: dict[Any, Font]) -> dict[str, Font]:
    fonts = _named(page.obj.Resources, "/Font")
    return {name[1:]: known[font.objgen] for name, font in fonts.items()}


def _check_names(ink: PageInk, page: Page) -> None:
    resources = page.obj.Resources
    there = {*_named(resources, "/XObject"), *_named(resources, "/ExtGState")}
    if ink.named - there:
        raise Malformed(f"{min(ink.named - there)} is shown and is not there")


def _check_edges(ink: PageInk, placed: PlacedPage) -> None:
    width, height = placed.width * MM, placed.height * MM
    for text in ink.texts:
        ends = (text.left, text.depth, text.right, text.top)
        if _outside(ends, width, height):
            raise Malformed(f"{_told(text)} does not stand on the sheet")
    if _outside(ink.reach, width, height):
        raise Malformed("a shape reaches over the edge of the sheet")


def _check_words(ink: PageInk, placed: PlacedPage) -> None:
    for one, other in _overlapping(ink.texts):
        raise Malformed(f"{_told(one)} and {_told(other)} stand over each other")
    wanted = Counter(_printed(item) for item in placed.items if isinstance(item, Line))
    shown = Counter(text.text.strip() for text in ink.texts)
    for words in (wanted - shown, shown - wanted):
        if "".join(words):
            raise Malformed(f"{' '.join(words)!r} is not printed as it was laid out")


def _outside(ends: Sequence[float], width: float, height: float) -> bool:
    left, bottom, right, top = ends
    return min(left, bottom, width - right, height - top) < -BEYOND


def _overlapping(texts: Sequence[SetText]) -> Iterator[tuple[SetText, SetText]]:
    """Pairs of texts that stand over each other; from the top down."""
    shown = sorted((text for text in texts if text.text), key=lambda text: -text.top)
    for place, one in enumerate(shown):
        for other in shown[place + 1 :]:
            if other.top - one.bottom <= OVERLAP:
                break
            across = min(one.right, other.right) - max(one.left, other.left)
            down = min(one.top, other.top) - max(one.bottom, other.bottom)
            if across > OVERLAP and down > OVERLAP:
                yield one, other


def _printed(line: Line) -> str:
    missing = missing_letters(line.text, line.face)
    return "".join("?" if letter in missing else letter for letter in line.text).strip()


def _told(text: SetText) -> str:
    return f"'{text.text.strip()}'"


def _check_forms(page: Page, known: set[Any]) -> None:
    """Pictures of the page that are drawn by operators, each once: numbers are numbers, and faces
    are embedded."""
    for name, form in _named(page.obj.Resources, "/XObject").items():
        if form.objgen not in known:
            known.add(form.objgen)
            if form.get("/Subtype") == "/Form":
                _check_form(form, name[1:], known)


def _check_form(form: Object, name: str, known: set[Any]) -> None:
    _check_numbers(form, name)
    resources = form.get("/Resources", Dictionary())
    for face in _named(resources, "/Font").values():
        if not _is_embedded(face):
            raise Malformed(f"the face {face.get('/BaseFont', '')} in {name} is not embedded")
    for kind in ("/XObject", "/Pattern"):
        for part in _named(resources, kind).values():
            if isinstance(part, Stream) and part.objgen not in known:
                known.add(part.objgen)
                if part.get("/Subtype") != "/Image":
                    _check_form(part, name, known)


def _check_numbers(form: Object, name: str) -> None:
    """A word such as nan may be part of a text: only where there is one is all of it read."""
    data = form.read_bytes().lower()
    if b"nan" in data or b"inf" in data:
        for step in parse_content_stream(form):
            if str(step.operator).lower().lstrip("+-") in STRANGE:
                raise Malformed(f"{step.operator} stands in {name} where a number belongs")


def _named(owner: Object, part: str) -> dict[str, Object]:
    """The entries of a dictionary's part by their names; none where it has no such part."""
    return dict(owner[part].items()) if part in owner else {}
