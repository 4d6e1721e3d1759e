"""Ways through a document on a screen: its outline, page labels, named places, areas to touch."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pikepdf import Array, Dictionary, Name, Object, Pdf, String

from bookmaker.model import InternalLink, Line, PlacedPage
from bookmaker.pdf.units import MM


def write_places(pdf: Pdf, pages: Sequence[PlacedPage], objects: Sequence[Object]) -> None:
    """Names of all pages, their labels and the outline (ISO 32000-1, 12.3.2.3, 12.4.2, 12.3.3)."""
    places = {
        page.name: Array([place, Name.XYZ, 0, points(page.height), 0])
        for page, place in zip(pages, objects, strict=True)
    }
    sorted_names = sorted(places, key=lambda name: bytes(String(name)))
    names = [item for name in sorted_names for item in (String(name), places[name])]
    pdf.Root.Names = Dictionary(Dests=pdf.make_indirect(Dictionary(Names=Array(names))))
    labels = [item for i, page in enumerate(pages) for item in (i, Dictionary(P=page.label))]
    pdf.Root.PageLabels = Dictionary(Nums=Array(labels))
    _write_outline(pdf, pages)


def _write_outline(pdf: Pdf, pages: Sequence[PlacedPage]) -> None:
    root = pdf.make_indirect(Dictionary(Type=Name.Outlines))
    open_entries = [root]
    for page in pages:
        if page.bookmark:
            level, title = page.bookmark
            del open_entries[level + 1 :]
            entry = pdf.make_indirect(Dictionary(Title=title, Dest=String(page.name)))
            _append(open_entries[-1], entry)
            open_entries.append(entry)
    if "/First" in root:
        pdf.Root.Outlines = root


def _append(parent: Object, entry: Object) -> None:
    """Behind the last entry under ``parent``, which stays closed where it is one itself."""
    entry.Parent = parent
    if "/First" in parent:
        entry.Prev, parent.Last.Next = parent.Last, entry
    else:
        parent.First = entry
    parent.Last = entry
    step = 1 if parent.get("/Type") == Name.Outlines else -1
    parent.Count = int(parent.get("/Count", 0)) + step


def titles(pages: Sequence[PlacedPage]) -> dict[str, str]:
    """Each side's title, or what leads to it in the outline, and its number, by its name."""
    return {page.name: _titled(page) for page in pages}


def _titled(page: PlacedPage) -> str:
    lines = (item.text for item in page.items if isinstance(item, Line) and item.tag == "H1")
    title = page.bookmark[1] if page.bookmark else next(lines, "")
    return ", ".join(part for part in (title, page.label) if part)


def links(pdf: Pdf, page: PlacedPage, told: Mapping[str, str]) -> list[Object]:
    """The areas of ``page`` that lead somewhere (12.5.6.5); ``told`` says where to, in words."""
    return [
        pdf.make_indirect(_link(item, page.height, told[item.target]))
        for item in page.items
        if isinstance(item, InternalLink)
    ]


def _link(jump: InternalLink, height: float, told: str) -> Any:
    box = jump.box
    ends = (box.x, height - box.bottom, box.right, height - box.y)
    return Dictionary(
        Type=Name.Annot,
        Subtype=Name.Link,
        Rect=Array([points(end) for end in ends]),
        Border=Array([0, 0, 0]),
        F=4,  # printed with the page, though there is nothing to see (PDF/UA wants it not hidden)
        Dest=String(jump.target),
        Contents=told,
    )


def points(millimetres: float) -> float:
    """A length in points, as exact as a PDF needs it."""
    return round(millimetres * MM, 3)
