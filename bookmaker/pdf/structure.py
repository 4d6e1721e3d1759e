"""What screen readers are told: the tree of a document's elements (ISO 32000-1, 14.7 and 14.8).

Pages give their elements one after the other as they were painted; here they get the parents that
they need, a document round all of them, contents and tables round their parts, and the tree that
leads from each piece of marked content back to its element.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import Any, Final

from pikepdf import Array, Dictionary, Name, Object, Pdf

from bookmaker.model import Box
from bookmaker.pdf.painting import CELLS, FIGURE, Tagged
from bookmaker.pdf.units import MM

ENTRY: Final = "TOCI"
"""The tag of an entry of the contents."""
ITEM: Final = ("Lbl", "LBody")
"""Tags of a list's items: a label, such as a numeral, and what it is of."""


@dataclass(frozen=True, slots=True)
class Element:
    """An element of the tree: its kind, what is under it, and where it stands.

    ``numbers`` are those of its marked content on side ``side``, ``link`` is an area there that
    leads somewhere. ``alt`` and ``box`` are those of a picture, ``scope`` that of a table's head.
    """

    kind: str
    kids: tuple[Element, ...] = ()
    side: int = 0
    numbers: tuple[int, ...] = ()
    link: Object | None = None
    alt: str = ""
    box: Box | None = None
    scope: str = ""


def elements_of(side: int, tagged: Sequence[Tagged], links: Sequence[Object]) -> list[Element]:
    """The elements of the side of that number, and its links behind them."""
    found = [Element(each.tag, (), side, each.numbers, None, each.alt, each.box) for each in tagged]
    leading = [Element("Link", side=side, link=link, alt=str(link.Contents)) for link in links]
    return found + leading


def structured(elements: Sequence[Element]) -> Element:
    """All of them under a document, in parts: contents, tables, paragraphs of links."""
    return Element("Document", tuple(each for part in _parts(elements) for each in part))


def _parts(elements: Sequence[Element]) -> Iterator[list[Element]]:
    kinds = {ENTRY: "TOC", "Link": "P", **dict.fromkeys(CELLS, "Table"), **dict.fromkeys(ITEM, "L")}
    for kind, run in groupby(_entries(elements), key=lambda each: kinds.get(each[0], "")):
        found = [each for _, each in run]
        if kind == "TOC":
            yield [Element(kind, tuple(_toc_items(found)))]
        elif kind == "Table":
            yield [Element(kind, tuple(_rows(table))) for table in _tables(found)]
        elif kind == "L":
            yield [Element(kind, tuple(_items(found)))]
        elif kind == "P":
            yield [Element(kind, tuple(found))]
        else:
            yield found


def _entries(elements: Sequence[Element]) -> Iterator[tuple[str, Element]]:
    """Each with its kind; a picture that stands before its entry in the contents is of that, one
    that stands between a label and what it is of, is of the list."""
    for place, each in enumerate(elements):
        follows = elements[place + 1].kind if place + 1 < len(elements) else ""
        belongs = each.kind == FIGURE and follows in (ENTRY, ITEM[1])
        yield follows if belongs else each.kind, each


def _items(run: Sequence[Element]) -> Iterator[Element]:
    """A list's items: each a label, and what stands behind it up to the next."""
    starts = [place for place, each in enumerate(run) if each.kind == ITEM[0]]
    for first, last in zip(starts, [*starts[1:], len(run)], strict=True):
        body = [
            replace(each, kind="P") if each.kind == ITEM[1] else each
            for each in run[first + 1 : last]
        ]
        yield Element("LI", (run[first], Element(ITEM[1], tuple(body))))


def _toc_items(run: Sequence[Element]) -> Iterator[Element]:
    """The entries, each with the picture before it."""
    pictures: list[Element] = []
    for each in run:
        if each.kind == FIGURE:
            pictures.append(each)
        else:
            yield Element(ENTRY, (*pictures, replace(each, kind="P")))
            pictures = []


def _tables(run: Sequence[Element]) -> list[list[Element]]:
    """One table behind the other, each begun by its heads."""
    tables: list[list[Element]] = []
    for each in run:
        if each.kind == CELLS[0] or not tables:
            tables.append([])
        tables[-1].append(each)
    return tables


def _rows(run: Sequence[Element]) -> Iterator[Element]:
    rows: list[list[Element]] = []
    for each in run:
        if each.kind in ("THead", "TR") or not rows:
            rows.append([])
        head = each.kind in ("THead", "TH")
        cell = replace(each, kind="TH", scope="Column") if head else replace(each, kind="TD")
        rows[-1].append(cell)
    yield from (Element("TR", tuple(cells)) for cells in rows)


def write_structure(pdf: Pdf, document: Element, pages: Sequence[tuple[Object, float]]) -> None:
    """Write the tree under ``document`` into ``pdf``, and the tree of parents beside it.

    ``pages`` are the page objects with their heights in millimetres.
    """
    if not document.kids:
        return
    root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
    writer = _Writer(pdf, pages)
    root.K = writer.written(document, root)
    root.ParentTree = pdf.make_indirect(Dictionary(Nums=Array(writer.parents())))
    root.ParentTreeNextKey = len(pages) + len(writer.links)
    pdf.Root.StructTreeRoot = root
    pdf.Root.MarkInfo = Dictionary(Marked=True)  # readers heed the tags only where this says so


@dataclass(slots=True)
class _Writer:
    """Elements as objects of the file, and whose each piece of marked content is."""

    pdf: Pdf
    pages: Sequence[tuple[Object, float]]
    owners: dict[int, dict[int, Object]] = field(default_factory=dict)
    links: list[Object] = field(default_factory=list)

    def written(self, element: Element, parent: Object) -> Object:
        facts: dict[str, Any] = {"/S": Name(f"/{element.kind}"), "/P": parent}
        made = self.pdf.make_indirect(Dictionary(facts))
        page, height = self.pages[element.side]
        if element.numbers or element.link is not None:
            made.Pg = page
        if element.alt:
            made.Alt = element.alt
        if element.box:
            made.A = Dictionary(O=Name.Layout, BBox=Array(_corners(element.box, height)))
        if element.scope:
            made.A = Dictionary(O=Name.Table, Scope=Name(f"/{element.scope}"))
        kids: list[Any] = [self.written(kid, made) for kid in element.kids]
        owners = self.owners.setdefault(element.side, {})
        owners.update(dict.fromkeys(element.numbers, made))
        kids += element.numbers
        if element.link is not None:
            kids.append(self._reference(element.link, made))
        if kids:
            made.K = kids[0] if kids == list(element.numbers[:1]) else Array(kids)
        return made

    def _reference(self, link: Object, owner: Object) -> Object:
        """To an annotation (14.7.4.3), which leads back by a number behind those of the pages."""
        link.StructParent = len(self.pages) + len(self.links)
        self.links.append(owner)
        return Dictionary(Type=Name.OBJR, Obj=link)

    def parents(self) -> Iterable[Any]:
        """The number tree (14.7.4.4): a page's pieces in their order, then each link."""
        for side, (page, _) in enumerate(self.pages):
            owners = self.owners.get(side, {})
            if owners:
                page.StructParents = side
                yield side
                yield Array([owners[number] for number in sorted(owners)])
        for place, owner in enumerate(self.links):
            yield len(self.pages) + place
            yield owner


def _corners(box: Box, height: float) -> list[float]:
    """In points, left, bottom, right and top (14.8.5.4.3)."""
    ends = (box.x, height - box.bottom, box.right, height - box.y)
    return [round(end * MM, 1) for end in ends]
