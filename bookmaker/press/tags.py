"""What screen readers need, as far as cairo does not write it (ISO 32000-1, 14.6 to 14.8).

Cairo tags what stands between two of its calls and leaves everything else bare. Here the rest is
marked as an artifact, pictures get their words, links say where they lead, and elements get the
parents that they need: a document round all of them, contents and tables round their parts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from pikepdf import Array, Dictionary, Name, Object, Page, Pdf, Stream

from bookmaker.drawing import ArtMark, Group, Unseen
from bookmaker.model import Jump, Line, PlacedPage
from bookmaker.press.paint import FIGURE

ARTIFACT: Final = "/Artifact BMC"

_BEGINS = re.compile(rb"^/(\w+) *<< */MCID +(\d+) *>> *BDC$", re.MULTILINE)
_ENDS = b"\nEMC\n"
"""A marked sequence as cairo writes it. A line of its own is no part of a text: a string that runs
on in the next line has a stroke before the break and a bracket behind its end."""
_OPENING = re.compile(rb"\A\s*(?:[-\d. ]+ cm\n)?(?:q\n)?")
_PAINTS = re.compile(rb"(?:^|[\s\])>])(?:[SsFf]|[Bb]|[fBb]\*|T[jJ]|Do|sh)\s")

CELLS: Final = ("THead", "TH", "TR", "TD")
"""Tags of a table's cells as lines have them: the first of a head's row, another of that row, the
first of any other row, another of that row."""


@dataclass(frozen=True, slots=True)
class _Element:
    """An element of the structure with its type, whatever cairo called it."""

    kind: str
    object: Object


def with_artifacts(pdf: Pdf, page: Page, groups: Iterable[Group]) -> list[str]:
    """Mark everything untagged on ``page`` as an artifact, and take its pictures' tags out of it.

    ``groups`` are what was painted. Gives the operators that are to open each of their pictures
    where it is laid under them.
    """
    data = page.obj.Contents.read_bytes() if "/Contents" in page.obj else b""
    shown = _figures(groups)
    figures, marked = _marked(data, [isinstance(mark, ArtMark) for mark in shown if mark.alt])
    if data:
        page.obj.Contents = Stream(pdf, marked)
    openings = (f"/{FIGURE} <</MCID {number}>> BDC" for number in figures)
    art = (mark for mark in shown if isinstance(mark, ArtMark))
    return [next(openings, ARTIFACT) if mark.alt else ARTIFACT for mark in art]


def _figures(groups: Iterable[Group]) -> list[ArtMark | Unseen]:
    marks = (mark for group in groups for mark in group.marks)
    return [mark for mark in marks if isinstance(mark, ArtMark | Unseen)]


def _marked(data: bytes, are_pictures: Sequence[bool]) -> tuple[list[int], bytes]:
    """The numbers of pictures' marked content, and ``data`` without it and with artifacts.

    ``are_pictures`` says of each figure in turn whether it is one.
    """
    start = _OPENING.match(data)
    first = start.end() if start else 0
    last = max(len(data.rstrip().removesuffix(b"Q")), first)
    pieces, figures, at = [data[:first]], [], first
    waiting = iter(are_pictures)
    while found := _BEGINS.search(data, at, last):
        ends = data.index(_ENDS, found.end()) + len(_ENDS)
        pieces.append(_artifact(data[at : found.start()]))
        if found[1].decode() == FIGURE and next(waiting):
            figures.append(int(found[2]))
            pieces.append(data[found.end() + 1 : ends - len(_ENDS) + 1])
        else:
            pieces.append(data[found.start() : ends])
        at = ends
    return figures, b"".join([*pieces, _artifact(data[at:last]), data[last:]])


def _artifact(data: bytes) -> bytes:
    return b"/Artifact BMC\n%bEMC\n" % data if _PAINTS.search(data) else data


def finish_structure(
    pdf: Pdf, pages: Sequence[PlacedPage], drawn: Sequence[Sequence[Group]]
) -> None:
    """Complete the tree of tags that cairo wrote for ``pages``, ``drawn`` as these groups."""
    root = pdf.Root.get("/StructTreeRoot")
    if root is None or "/K" not in root:
        return
    elements = [_Element(str(each.S)[1:], each) for each in _listed(root.K)]
    names = {page.name: _titled(page) for page in pages}
    own: dict[tuple[int, int], list[_Element]] = {page.obj.objgen: [] for page in pdf.pages}
    for each in elements:
        own[each.object.Pg.objgen].append(each)
    for placed, groups, found in zip(pages, drawn, own.values(), strict=True):
        if found:  # cairo leaves out all tags of a page that has no ink of its own
            _describe_figures(found, placed, groups)
            _describe_links(found, placed, names)
    document = pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name.Document, P=root))
    tree = _Tree(pdf)
    tree.put(document, [each for part in _parts(elements) for each in tree.grouped(part)])
    root.K = document
    for page in pdf.pages:
        if "/Annots" in page.obj:
            page.obj.Tabs = Name.S


def _listed(kids: Object) -> list[Object]:
    return list(kids) if isinstance(kids, Array) else [kids]


def _describe_figures(
    elements: Iterable[_Element], page: PlacedPage, groups: Iterable[Group]
) -> None:
    """Give each figure its words, and the box in which it stands (14.8.5.4.3)."""
    told = (mark for mark in _figures(groups) if mark.alt)
    figures = (each.object for each in elements if each.kind == FIGURE)
    for figure, mark in zip(figures, told, strict=True):
        box = mark.window
        corners = (box.x, page.height - box.bottom, box.right, page.height - box.y)
        figure.Alt = mark.alt
        figure.A = Dictionary(O=Name.Layout, BBox=Array([round(v * 72 / 25.4, 1) for v in corners]))


def _describe_links(
    elements: Iterable[_Element], page: PlacedPage, names: Mapping[str, str]
) -> None:
    """Say of each link where it leads, in the element and on the area that is touched."""
    jumps = (item for item in page.items if isinstance(item, Jump))
    links = (each.object for each in elements if each.kind == "Link")
    for link, jump in zip(links, jumps, strict=True):
        link.Alt = names[jump.target]
        for kid in _listed(link.K):
            if isinstance(kid, Dictionary) and "/Obj" in kid:
                kid.Obj.Contents = names[jump.target]


def _titled(page: PlacedPage) -> str:
    """A side's title, or what leads to it in the outline, and its number."""
    lines = (item.text for item in page.items if isinstance(item, Line) and item.tag == "H1")
    title = page.bookmark[1] if page.bookmark else next(lines, "")
    return ", ".join(part for part in (title, page.label) if part)


def _parts(elements: Sequence[_Element]) -> Iterator[tuple[str, list[_Element]]]:
    """Runs of elements that belong together: entries of contents, cells of a table, links."""
    kinds = {"TOCI": "TOC", "Link": "Link", **dict.fromkeys(CELLS, "Table")}
    for kind, run in groupby(_entries(elements), key=lambda each: kinds.get(each.kind, "")):
        yield kind, list(run)


def _entries(elements: Sequence[_Element]) -> Iterator[_Element]:
    """``elements``, a picture that stands before its entry in the contents counted as one, too."""
    for place, each in enumerate(elements):
        follows = elements[place + 1].kind if place + 1 < len(elements) else ""
        is_entry = each.kind == FIGURE and follows == "TOCI"
        yield _Element("TOCI", each.object) if is_entry else each


class _Tree:
    """Elements put under new ones."""

    def __init__(self, pdf: Pdf) -> None:
        self._pdf = pdf

    def put(self, parent: Object, kids: Sequence[Object]) -> Object:
        """``parent`` with ``kids`` under it."""
        parent.K = Array(kids)
        for kid in kids:
            kid.P = parent
        return parent

    def grouped(self, part: tuple[str, list[_Element]]) -> Iterator[Object]:
        """A part's elements under the element that the part is; others as they are."""
        kind, run = part
        if kind == "TOC":
            yield self.put(self._new("TOC"), list(self._toc_items(run)))
        elif kind == "Table":
            yield self.put(self._new("Table"), list(self._rows(run)))
        elif kind == "Link":
            yield self.put(self._new("P"), [each.object for each in run])
        else:
            yield from (each.object for each in run)

    def _new(self, kind: str) -> Object:
        made = Dictionary(Type=Name.StructElem, S=Name(f"/{kind}"))
        return self._pdf.make_indirect(made)

    def _toc_items(self, run: Sequence[_Element]) -> Iterator[Object]:
        """The entries, each with the picture before it."""
        pictures: list[Object] = []
        for each in run:
            if str(each.object.S) == f"/{FIGURE}":
                pictures.append(each.object)
                continue
            words = each.object
            words.S = Name.P
            yield self.put(self._new("TOCI"), [*pictures, words])
            pictures = []

    def _rows(self, run: Sequence[_Element]) -> Iterator[Object]:
        rows: list[list[Object]] = []
        for each in run:
            if each.kind in ("THead", "TR") or not rows:
                rows.append([])
            is_head = each.kind in ("THead", "TH")
            each.object.S = Name.TH if is_head else Name.TD
            if is_head:
                each.object.A = Dictionary(O=Name.Table, Scope=Name.Column)
            rows[-1].append(each.object)
        yield from (self.put(self._new("TR"), cells) for cells in rows)
