"""What a screen reader is told (ISO 32000-1, 14.6 to 14.8; ISO 14289-1, 7: from memory).

Read with pikepdf's own parser of content streams and with poppler, neither of which wrote them.
"""

from __future__ import annotations

import io
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from bookmaker.layout import lay_out
from bookmaker.model import (
    Box,
    Contents,
    Description,
    Disc,
    HowTo,
    InternalLink,
    Item,
    Line,
    Picture,
    PlacedArt,
    PlacedPage,
    Rule,
)
from tests.layout.books import Shape, setting_of
from tests.pdf.test_document import page_of, printed, save_jpeg, taken

PAINTING = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "Tj", "TJ", "'", '"'}
"""Operators that leave marks on the page (ISO 32000-1, tables 60, 77, 87 and 109)."""
TRICKY = ("EMC", "a) BDC", "/P << /MCID 0 >> BDC", "(B S f Tj", "back\\slash")
"""Names of creatures that look like operators."""


def lines(texts: Sequence[str], tag: str = "P") -> tuple[Line, ...]:
    return tuple(Line(20, 60 + 10 * i, text, 16, tag=tag) for i, text in enumerate(texts))


def photograph(tmp_path: Path) -> Picture:
    file = tmp_path / "newt.jpg"
    return taken(file if file.exists() else save_jpeg(file))


def opened(pages: list[PlacedPage], tmp_path: Path, ink: str = "full") -> pikepdf.Pdf:
    """The pages printed; their pictures are one photograph under any name."""
    picture = photograph(tmp_path)
    shown = {item.picture for page in pages for item in page.items if isinstance(item, PlacedArt)}
    assert shown <= {picture.digest}
    return pikepdf.open(io.BytesIO(printed(pages, [picture], tmp_path, ink)))


def with_picture(tmp_path: Path, *more: Any, name: str = "page-newt") -> PlacedPage:
    page = page_of(photograph(tmp_path), name)
    return PlacedPage(page.name, 210, 297, (*page.items, *more), "1", page.bookmark)


def marked(page: pikepdf.Page) -> Iterator[tuple[str, str, int | None, int]]:
    """Each painting operator with the tag it stands under, its number, and how deep ``q`` is."""
    tags: list[tuple[str, int | None, int]] = []
    depth = 0
    for operands, operator in pikepdf.parse_content_stream(page):
        told = str(operator)
        if told in ("BMC", "BDC"):
            number = operands[1].get("/MCID") if told == "BDC" else None
            tags.append((str(operands[0]), number, depth))
            if number is not None:
                yield "BDC", *tags[-1]
        elif told == "EMC":
            assert tags.pop()[2] == depth, "marked content and saved states do not nest"
        elif told in ("q", "Q"):
            depth += 1 if told == "q" else -1
        elif told in PAINTING:
            assert len(tags) == 1, f"{told} stands under {tags}"
            yield told, *tags[-1]
    assert not tags
    assert depth == 0


def elements(pdf: pikepdf.Pdf) -> list[Any]:
    """All elements of the structure, in the order of reading."""
    found: list[Any] = []

    def walk(element: Any) -> None:
        found.append(element)
        kids = element.get("/K", [])
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
                assert kid.P.objgen == element.objgen, "a child does not know its parent"
                walk(kid)

    root = pdf.Root.StructTreeRoot.K
    assert str(root.S) == "/Document"
    walk(root)
    return found


def kinds(pdf: pikepdf.Pdf) -> Counter[str]:
    return Counter(str(each.S)[1:] for each in elements(pdf))


@pytest.mark.parametrize("ink", ["full", "light", "grey"])
def test_everything_that_is_painted_is_tagged_or_an_artifact(tmp_path: Path, ink: str) -> None:
    more = (*lines(TRICKY), Rule((20, 200), (80, 200), "cut"), *lines(["7"], ""))
    with opened([with_picture(tmp_path, *more)], tmp_path, ink) as pdf:
        found = list(marked(pdf.pages[0]))
        assert {tag for operator, tag, _, _ in found if operator == "Do"} == {"/Figure"}
        words = [tag for operator, tag, _, _ in found if operator in ("Tj", "TJ")]
        assert words.count("/Artifact") == 1  # the number that is no part of the text
        assert words.count("/P") == len(TRICKY) + 1


def test_a_page_without_ink_and_one_of_ink_alone_are_sound(tmp_path: Path) -> None:
    blank = PlacedPage("blank", 210, 297, (InternalLink(Box(20, 20, 50, 10), "ruled"),))
    ruled = PlacedPage("ruled", 210, 297, (Rule((20, 20), (80, 20), "cut"),))
    with opened([blank, ruled, with_picture(tmp_path)], tmp_path) as pdf:
        assert not list(marked(pdf.pages[0]))
        assert [tag for _, tag, _, _ in marked(pdf.pages[1])] == ["/Artifact"]


@pytest.mark.parametrize(
    ("kind", "figures", "links"),
    [("picture", 2, 1), ("picture with a link", 2, 2), ("words alone", 2, 1), ("no words", 1, 2)],
)
def test_a_page_without_ink_of_its_own_is_tagged_as_any(
    tmp_path: Path, kind: str, figures: int, links: int
) -> None:
    box = Box(20, 20, 100, 120)
    picture = PlacedArt(photograph(tmp_path).digest, box, box, "alone")
    jump = InternalLink(box, "page-newt")
    items: dict[str, tuple[Item, ...]] = {
        "picture": (picture,),
        "picture with a link": (picture, jump),
        "words alone": (Description(box, "a plot"),),
        "no words": (Line(20, 20, "", 12), jump),
    }
    bare = PlacedPage("bare", 210, 297, items[kind], "1")
    with opened([bare, with_picture(tmp_path)], tmp_path) as pdf:
        assert {tag for what, tag, _, _ in marked(pdf.pages[0])} <= {"/Figure"}
        assert kinds(pdf)["Figure"] == figures
        assert kinds(pdf)["Link"] == links


def test_shapes_of_a_drawing_stand_in_its_figure_and_others_in_none(tmp_path: Path) -> None:
    """So that what is told in words has ink of its own, whose place a reader can show."""
    inside = (Disc(40, 40, 5), *lines(["7"], ""), Line(45, 45, "9", 12, tag=""))
    items = (Description(Box(20, 20, 50, 50), "a plot"), *inside, Disc(120, 40, 5))
    with opened([PlacedPage("plot", 210, 297, items)], tmp_path) as pdf:
        (figure,) = (each for each in elements(pdf) if str(each.S) == "/Figure")
        assert str(figure.Alt) == "a plot"
        numbers = {int(figure.K)}
        painted = [(tag, number) for what, tag, number, _ in marked(pdf.pages[0]) if what != "BDC"]
        assert Counter(tag for tag, _ in painted) == {"/Figure": 3, "/Artifact": 1}
        assert {number for tag, number in painted if tag == "/Figure"} == numbers


def test_each_piece_of_marked_content_belongs_to_one_element(tmp_path: Path) -> None:
    """The tree of parents leads from each number on a page to its element (14.7.4.4)."""
    pages = [with_picture(tmp_path, *lines(TRICKY), name=name) for name in ("one", "two")]
    with opened(pages, tmp_path) as pdf:
        parents = pikepdf.NumberTree(pdf.Root.StructTreeRoot.ParentTree)
        known = {each.objgen for each in elements(pdf)}
        for page in pdf.pages:
            numbers = [number for what, _, number, _ in marked(page) if what == "BDC"]
            owners = parents[int(page.obj.StructParents)]
            assert sorted(numbers) == list(range(len(owners)))
            assert all(owner.objgen in known for owner in owners)


def test_a_picture_has_its_words_and_its_box(tmp_path: Path) -> None:
    drawn = Description(Box(20, 250, 30, 20), "a plot")
    with opened([with_picture(tmp_path, drawn)], tmp_path) as pdf:
        figures = [each for each in elements(pdf) if str(each.S) == "/Figure"]
        assert [str(figure.Alt) for figure in figures] == ["a newt", "a plot"]
        left, bottom, right, top = (float(value) * 25.4 / 72 for value in figures[1].A.BBox)
        assert (left, right) == pytest.approx((20, 50), abs=0.1)
        assert (297 - top, 297 - bottom) == pytest.approx((250, 270), abs=0.1)


def test_links_say_where_they_lead(tmp_path: Path) -> None:
    """ISO 14289-1, 7.18.5: in the annotation's contents, in a Link element; 7.18.3: tab order."""
    items = (*lines(["elsewhere"]), InternalLink(Box(20, 20, 50, 10), "page-newt"))
    pages = [with_picture(tmp_path), PlacedPage("other", 210, 297, items, "2")]
    with opened(pages, tmp_path) as pdf:
        for page in pdf.pages:
            assert str(page.obj.Tabs) == "/S"
            assert [str(link.Contents) for link in page.Annots] == ["page-newt, 1"]
        links = [each for each in elements(pdf) if str(each.S) == "/Link"]
        assert [str(link.Alt) for link in links] == ["page-newt, 1"] * 2


def test_contents_are_a_table_of_contents_each_entry_with_its_picture(tmp_path: Path) -> None:
    setting = setting_of(Shape(2, 3))
    side = next(side for side in setting.bound.sides if isinstance(side.content, Contents))
    page = lay_out(side, setting)
    digest = photograph(tmp_path).digest
    items = tuple(
        PlacedArt(digest, i.box, i.window, i.alt, True) if isinstance(i, PlacedArt) else i
        for i in page.items
        if not isinstance(i, InternalLink)
    )
    with opened([PlacedPage("contents", 210, 297, items)], tmp_path) as pdf:
        found = elements(pdf)
        entries = [each for each in found if str(each.S) == "/TOCI"]
        held = [[str(kid.S) for kid in entry.K] for entry in entries]
        assert held == [["/Figure", "/P"]] * 6 + [["/P"]] * 3
        assert {str(entry.P.S) for entry in entries} == {"/TOC"}
        assert kinds(pdf)["TOC"] == 2  # a chapter each; what stands after them follows the last


def test_cells_make_rows_and_rows_a_table_under_its_heads(tmp_path: Path) -> None:
    cells = [
        Line(20 + 30 * column, 60 + 10 * row, f"{row}{column}", 11, tag=tag)
        for row, tags in enumerate((("THead", "TH"), ("TR", "TD"), ("TR", "TD")))
        for column, tag in enumerate(tags)
    ]
    plan = PlacedPage("plan", 210, 297, (*lines(["Term plan"], "H1"), *cells, *lines(["after"])))
    with opened([plan], tmp_path) as pdf:
        (table,) = (each for each in elements(pdf) if str(each.S) == "/Table")
        rows = [[str(cell.S) for cell in row.K] for row in table.K]
        assert rows == [["/TH", "/TH"], ["/TD", "/TD"], ["/TD", "/TD"]]
        assert {str(cell.A.Scope) for cell in table.K[0].K} == {"/Column"}
        assert kinds(pdf)["P"] == 1


def test_the_worked_example_is_told_step_by_step() -> None:
    setting = setting_of(Shape(1, 1))
    side = next(side for side in setting.bound.sides if isinstance(side.content, HowTo))
    told = [item.text for item in lay_out(side, setting).items if isinstance(item, Description)]
    assert len(told) == 4
    assert "difference" not in told[0]
    assert all("difference" in each for each in told[1:])
    assert told[1] == told[2] != told[3]


def test_a_file_says_of_itself_what_pdf_ua_asks_for(tmp_path: Path) -> None:
    """ISO 14289-1, 5 and 7.1: identifier, title, that it is shown, language (read by pikepdf)."""
    with opened([with_picture(tmp_path)], tmp_path) as pdf:
        with pdf.open_metadata() as told:
            assert told["pdfuaid:part"] == "1"
            assert told["dc:title"] == "Down the river"
            assert told["dc:creator"] == ["a founder"]
            assert "xmp:CreateDate" not in told
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        assert str(pdf.docinfo["/Title"]) == "Down the river"


@pytest.mark.skipif(not shutil.which("pdfinfo"), reason="poppler is not there")
def test_poppler_reads_the_structure_without_a_warning(tmp_path: Path) -> None:
    file = tmp_path / "tags.pdf"
    page = with_picture(tmp_path, *lines(["one two", "three"]))
    file.write_bytes(printed([page], [photograph(tmp_path)], tmp_path))
    told = subprocess.run(
        ["pdfinfo", "-struct-text", file], capture_output=True, text=True, check=True
    )
    assert "Warning" not in told.stderr
    assert told.stdout.startswith("Document")
    assert '"one two"' in told.stdout


def test_steps_are_a_list_each_with_its_numeral_and_its_picture(tmp_path: Path) -> None:
    setting = setting_of(Shape(1, 1))
    side = next(side for side in setting.bound.sides if isinstance(side.content, HowTo))
    with opened([lay_out(side, setting)], tmp_path) as pdf:
        (found,) = (each for each in elements(pdf) if str(each.S) == "/L")
        items = [[str(kid.S) for kid in item.K] for item in found.K]
        assert items == [["/Lbl", "/LBody"]] * 4
        bodies = [[str(kid.S) for kid in item.K[1].K] for item in found.K]
        assert bodies == [["/Figure", "/P"]] * 4
        assert kinds(pdf)["H2"] == 0


def test_a_title_that_goes_on_is_a_running_header_on_the_next_side(tmp_path: Path) -> None:
    """ISO 14289-1, 7.8: running headers are artifacts of pagination."""
    title = Line(20, 20, "Answers", 20, "title", tag="H1")
    sides = [
        PlacedPage(name, 210, 297, (title, *lines([name])), "") for name in ("first", "second")
    ]
    other = PlacedPage("third", 210, 297, (replace(title, text="Notes"), *lines(["second"])), "")
    with opened([*sides, other], tmp_path) as pdf:
        assert kinds(pdf) == Counter({"P": 3, "H1": 2, "Document": 1})
        tags = [tag for what, tag, _, _ in marked(pdf.pages[1]) if what == "Tj"]
        assert tags == ["/Artifact", "/P"]


def test_a_table_begins_anew_with_its_heads_and_an_empty_cell_keeps_its_column(
    tmp_path: Path,
) -> None:
    rows = (
        (("THead", ""), ("TH", "A")),
        (("TR", "Mirror"), ("TD", "3")),
        (("TR", ""), ("TD", "5")),
    )
    cells = [
        Line(20 + 30 * column, 60 + 10 * row, text, 11, tag=tag)
        for row, own in enumerate((*rows, *rows[:2]))
        for column, (tag, text) in enumerate(own)
    ]
    with opened([PlacedPage("key", 210, 297, tuple(cells))], tmp_path) as pdf:
        tables = [each for each in elements(pdf) if str(each.S) == "/Table"]
        assert [len(table.K) for table in tables] == [3, 2]
        assert {len(row.K) for table in tables for row in table.K} == {2}
        assert "/K" not in tables[0].K[2].K[0]
