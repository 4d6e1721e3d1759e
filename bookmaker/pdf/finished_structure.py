"""The tree of tags of a finished file against what is tagged on its pages (ISO 14289-1, 7)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from pikepdf import Array, Dictionary, NumberTree, Object, Pdf

KINDS: Final = frozenset(
    {"Document", "H1", "H2", "H3", "P", "Figure", "L", "LI", "Lbl", "LBody"}
    | {"Table", "TR", "TH", "TD", "TOC", "TOCI", "Link"}
)
"""Standard types (ISO 32000-1, 14.8.4) that our documents are made of."""
_PARENTS: Final = {"LI": "L", "LBody": "LI", "TR": "Table", "TH": "TR", "TD": "TR", "TOCI": "TOC"}
"""What stands under one kind of element alone."""


@dataclass(slots=True)
class _Found:
    """The tree as it is walked: owners of marked content by page and number, and links."""

    pieces: dict[tuple[Any, int], Object] = field(default_factory=dict)
    links: dict[Any, Object] = field(default_factory=dict)
    heading: int = 0


def structure_fault(pdf: Pdf, pieces: Sequence[dict[int, str]]) -> Iterator[str]:
    """What does not fit, in words; ``pieces`` are the numbers on each page, with their tags."""
    root = pdf.Root.get("/StructTreeRoot")
    if root is None:
        if any(pieces):
            yield "it is tagged, and has no tree of tags"
        return
    found = _Found()
    yield from _walk(root.K, root, found)
    parents = NumberTree(root.ParentTree)
    for number, (page, own) in enumerate(zip(pdf.pages, pieces, strict=True), 1):
        yield from _page_fault(page.obj, own, found, parents, f"page {number}")


def _walk(element: Object, parent: Object, found: _Found) -> Iterator[str]:
    """Everything under ``element``, in the order of reading."""
    kind = str(element.S)[1:]
    if kind not in KINDS:
        yield f"{kind} is no kind of element that we write"
    if element.P.objgen != parent.objgen:
        yield f"an element {kind} does not know its parent"
    above = str(parent.get("/S", "/"))[1:]
    if _PARENTS.get(kind, above) != above:
        yield f"an element {kind} stands under {above}"
    yield from _own_fault(element, kind, found)
    kids = element.get("/K", Array())
    for kid in kids if isinstance(kids, Array) else [kids]:
        if isinstance(kid, int):
            key = (element.Pg.objgen, kid)
            if key in found.pieces:
                yield f"piece {kid} of marked content belongs to two elements"
            found.pieces[key] = element
        elif "/Obj" in kid:
            found.links[kid.Obj.objgen] = element
        else:
            yield from _walk(kid, element, found)


def _own_fault(element: Object, kind: str, found: _Found) -> Iterator[str]:
    attributes = element.get("/A", Dictionary())
    if kind == "Figure" and not str(element.get("/Alt", "")):
        yield "a figure has no words"
    if kind == "Figure" and "/BBox" not in attributes:
        yield "a figure has no box"
    if kind == "TH" and "/Scope" not in attributes:
        yield "a table's head does not say what it is the head of"
    if kind.startswith("H") and kind[1:].isdecimal():
        if int(kind[1:]) > found.heading + 1:
            yield f"a heading {kind} follows one of level {found.heading}"
        found.heading = int(kind[1:])
    if kind == "Table" and len({_columns(row) for row in element.K}) > 1:
        yield "the rows of a table have different numbers of cells"


def _columns(row: Object) -> int:
    spans = (int(cell.get("/A", Dictionary()).get("/ColSpan", 1)) for cell in row.K)
    return sum(spans)


def _page_fault(
    page: Object, own: dict[int, str], found: _Found, parents: NumberTree, told: str
) -> Iterator[str]:
    owners = {
        number: found.pieces[page.objgen, number]
        for number in own
        if (page.objgen, number) in found.pieces
    }
    for number, tag in own.items():
        if number not in owners:
            yield f"{told}: piece {number} of marked content, {tag}, belongs to no element"
    there = {number for place, number in found.pieces if place == page.objgen}
    for number in there - own.keys():
        yield f"{told}: an element has piece {number}, which is not there"
    if own and _parent(parents, page, "/StructParents") != [
        owners[number].objgen for number in sorted(owners)
    ]:
        yield f"{told}: the tree of parents leads elsewhere than the elements"
    yield from _links_fault(page, found, parents, told)
    if page.get("/Tabs") != "/S":
        yield f"{told}: the tab key does not follow the tags"


def _parent(parents: NumberTree, owner: Object, key: str) -> Any:
    """Which objects the tree of parents leads to from the number under ``key``; None if nowhere."""
    try:
        found = parents[int(owner[key])]
    except (KeyError, IndexError):
        return None
    return [each.objgen for each in found] if isinstance(found, Array) else found.objgen


def _links_fault(page: Object, found: _Found, parents: NumberTree, told: str) -> Iterator[str]:
    for link in page.get("/Annots", Array()):
        owner = found.links.get(link.objgen)
        if owner is None or str(owner.S) != "/Link":
            yield f"{told}: a link belongs to no element Link"
        elif _parent(parents, link, "/StructParent") != owner.objgen:
            yield f"{told}: the tree of parents leads elsewhere than a link"
        if not str(link.get("/Contents", "")):
            yield f"{told}: a link does not say where it leads"
