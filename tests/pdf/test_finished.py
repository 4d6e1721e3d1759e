"""A finished file that is not sound is refused, whatever is wrong with it; a sound one is not.

Each case takes a sound file, breaks one rule with pikepdf, and names a part of what is to be told.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pikepdf import Array, Dictionary, Name, Pdf, Stream

from bookmaker.model import Box, Description, InternalLink, Line, PlacedPage
from bookmaker.pdf import FinishedFileFault, check_pdf
from bookmaker.pdf.reading_back import _extremes
from tests.pdf.test_document import page_of, printed, save_jpeg, taken

CELLS = (("THead", "TH"), ("TR", "TD"), ("TR", "TD"))


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> PlacedPage:
    """A page with a picture, words, a table, a drawing and a link."""
    folder = tmp_path_factory.mktemp("art")
    found = page_of(taken(save_jpeg(folder / "newt.jpg")))
    cells = tuple(
        Line(30 + 40 * column, 250 + 6 * row, "" if row > column else f"{row}{column}", 11, tag=tag)
        for row, tags in enumerate(CELLS)
        for column, tag in enumerate(tags)
    )
    heads = (Line(20, 60, "Look", 14, tag="H2"), Line(20, 280, "the end", 12))
    more = (*heads, *cells, Description(Box(150, 245, 10, 10), "a plot"))
    return replace(found, items=(*found.items, *more))


@pytest.fixture(scope="module")
def sound(page: PlacedPage, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    folder = tmp_path_factory.mktemp("sound")
    return printed([page], [taken(save_jpeg(folder / "newt.jpg"))], folder)


@pytest.fixture(scope="module")
def sound_grey(tmp_path_factory: pytest.TempPathFactory) -> tuple[PlacedPage, bytes]:
    folder = tmp_path_factory.mktemp("grey")
    words = PlacedPage("grey", 210, 297, (Line(20, 30, "grey", 12),), "1")
    return words, printed([words], [], folder, "grey")


def broken(file: bytes, change: Callable[[Pdf], None]) -> bytes:
    with pikepdf.open(io.BytesIO(file)) as pdf:
        change(pdf)
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


def content(old: str, new: str) -> Callable[[Pdf], None]:
    """The page's operators with ``new`` in place of the first ``old``."""

    def change(pdf: Pdf) -> None:
        data = pdf.pages[0].Contents.read_bytes()
        assert old.encode() in data
        pdf.pages[0].Contents = Stream(pdf, data.replace(old.encode(), new.encode(), 1))

    return change


def element(kind: str, place: int = 0) -> Callable[[Pdf], Any]:
    """The element of that kind, in the order of reading."""

    def find(pdf: Pdf) -> Any:
        found: list[Any] = []

        def walk(each: Any) -> None:
            if str(each.S) == f"/{kind}":
                found.append(each)
            kids = each.get("/K", [])
            for kid in kids if isinstance(kids, Array) else []:
                if not isinstance(kid, int) and "/S" in kid:
                    walk(kid)

        walk(pdf.Root.StructTreeRoot.K)
        return found[place]

    return find


def without(owner: Callable[[Pdf], Any], key: str) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        del owner(pdf)[key]

    return change


def with_(owner: Callable[[Pdf], Any], key: str, value: Any) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        owner(pdf)[key] = value(pdf) if callable(value) else value

    return change


def first_page(pdf: Pdf) -> Any:
    return pdf.pages[0].obj


def font(pdf: Pdf) -> Any:
    return pdf.pages[0].Resources.Font["/title"]


def other_parents(pdf: Pdf) -> None:
    nums = pdf.Root.StructTreeRoot.ParentTree.Nums
    nums[1] = Array(reversed(list(nums[1])))


def twice_in_the_tree(pdf: Pdf) -> None:
    element("H2")(pdf).K = Array([element("H2")(pdf).K, element("H1")(pdf).K])


def a_picture_that_is_not_cut(pdf: Pdf) -> None:
    content("150 0 0 -200 20 240 cm", "150 0 0 -200 20 400 cm")(pdf)
    content("W n", "n")(pdf)


def a_cell_less(pdf: Pdf) -> None:
    row = element("TR", 1)(pdf)
    row.K = Array([row.K[0]])


BROKEN: dict[str, tuple[Callable[[Pdf], None], str]] = {
    "a number that is none": (content(" re", " nan re"), "nan"),
    "an infinite number": (content(" re", " inf re"), "inf"),
    "a number too few": (content("0 0 -", "0 -"), "numbers belong"),
    "an unknown operator": (content("EMC", "EMC xyz"), "'xyz' is no operator"),
    "a state that was never saved": (content("EMC", "EMC Q"), "never saved"),
    "a state that is left open": (content("EMC", "EMC q"), "middle"),
    "a tag that is left open": (content("EMC", ""), "tags"),
    "a tag that ends twice": (content("EMC", "EMC EMC"), "not begun"),
    "ink without a tag": (content("EMC", "EMC 20 20 9 9 re f"), "0 tags"),
    "a shape over the edge": (content("EMC", "EMC /Artifact BMC 200 20 19 9 re f EMC"), "edge"),
    "a picture over the edge": (a_picture_that_is_not_cut, "edge"),
    "a picture that is not there": (content("/Art1 Do", "/Art9 Do"), "/Art9 is shown"),
    "a face that is not there": (content("/title ", "/other "), "no face"),
    "a letter that is none": (content("<00", "<ff"), "no letter"),
    "a text off the sheet": (content("1 0 0 -1 20 30", "1 0 0 -1 -20 30"), "'A newt looks back'"),
    "a text below the sheet": (content("1 0 0 -1 20 30", "1 0 0 -1 20 299"), "not stand on the"),
    "a text that lies": (content("1 0 0 -1 20 30", "0 1 1 0 20 30"), "upright"),
    "a text over another": (
        content("1 0 0 -1 20 280", "1 0 0 -1 20 60"),
        "'Look' and 'the end' stand over each other",
    ),
    "a text that is lost": (content("Tj", "Tm"), "numbers belong"),
    "two pieces of one number": (content("/MCID 1", "/MCID 2"), "the number 2"),
    "a piece without a number": (content("/P <</MCID", "/P <</Nothing"), "no number"),
    "a piece of no element": (content("/H1 <</MCID 1", "/H1 <</MCID 99"), "99"),
    "no parents' number": (without(first_page, "/StructParents"), "tree of parents"),
    "parents in another order": (other_parents, "tree of parents"),
    "a piece of two elements": (twice_in_the_tree, "two elements"),
    "a figure without words": (without(element("Figure"), "/Alt"), "no words"),
    "a figure without a box": (without(element("Figure"), "/A"), "no box"),
    "a head without a scope": (without(element("TH"), "/A"), "head of"),
    "a row that is short": (a_cell_less, "different numbers"),
    "an unknown kind": (with_(element("P"), "/S", Name.Sect), "no kind"),
    "a wrong parent": (with_(element("P"), "/P", element("H1")), "parent"),
    "a cell outside of a table": (with_(element("P"), "/S", Name.TD), "stands under"),
    "a level left out": (with_(element("H2"), "/S", Name.H3), "follows one of level 1"),
    "no title first": (with_(element("H1"), "/S", Name.P), "level 0"),
    "a link of no element": (with_(element("Link"), "/S", Name.P), "no element Link"),
    "a link that says nothing": (
        without(lambda pdf: pdf.pages[0].Annots[0], "/Contents"),
        "where it leads",
    ),
    "a link's other parent": (
        with_(lambda pdf: pdf.pages[0].Annots[0], "/StructParent", 2),
        "elsewhere than a link",
    ),
    "another tab order": (with_(first_page, "/Tabs", Name.R), "tab key"),
    "no tree": (without(lambda pdf: pdf.Root, "/StructTreeRoot"), "no tree"),
    "a foreign face": (with_(font, "/BaseFont", Name("/ABCDEF+Serif")), "none of ours"),
    "a face that is not embedded": (
        without(lambda pdf: font(pdf).DescendantFonts[0].FontDescriptor, "/FontFile2"),
        "not embedded",
    ),
    "another size": (with_(first_page, "/MediaBox", Array([0, 0, 500, 700])), "500 x 700"),
    "no picture": (without(lambda pdf: pdf.pages[0].Resources, "/XObject"), "0 of its 1"),
}


def test_a_sound_file_passes(sound: bytes, page: PlacedPage) -> None:
    check_pdf(sound, [page])
    check_pdf(broken(sound, lambda pdf: None), [page])


@pytest.mark.parametrize("case", BROKEN)
def test_a_file_that_breaks_a_rule_is_refused(case: str, sound: bytes, page: PlacedPage) -> None:
    change, told = BROKEN[case]
    with pytest.raises(FinishedFileFault) as fault:
        check_pdf(broken(sound, change), [page], name="newt.pdf")
    assert str(fault.value).startswith("newt.pdf: ")
    assert told in str(fault.value)


@pytest.mark.parametrize("way", ["lost", "spelt otherwise", "printed twice"])
def test_words_that_are_not_those_laid_out_are_refused(
    way: str, sound: bytes, page: PlacedPage
) -> None:
    items = {
        "lost": (*page.items, Line(20, 290, "more", 10)),
        "spelt otherwise": tuple(
            replace(item, text="Lock") if isinstance(item, Line) and item.text == "Look" else item
            for item in page.items
        ),
        "printed twice": tuple(
            item for item in page.items if not (isinstance(item, Line) and item.text == "Look")
        ),
    }[way]
    with pytest.raises(FinishedFileFault, match="printed as it was laid out"):
        check_pdf(sound, [replace(page, items=items)])


def test_words_over_other_words_are_refused(sound: bytes, page: PlacedPage) -> None:
    with pytest.raises(FinishedFileFault, match="over each other"):
        check_pdf(broken(sound, content("1 0 0 -1 20 280", "1 0 0 -1 20 60")), [page])


@pytest.mark.parametrize("reach", [0.1, 0.4])
def test_lines_may_touch_but_not_stand_in_each_other(reach: float, tmp_path: Path) -> None:
    """Capitals of 12 points are 2.9 mm high."""
    for apart, is_sound in ((3.0 - reach, True), (1.2 - reach, False)):
        lines = (Line(20, 30, "HOT", 12), Line(20, 30 + apart, "POT", 12))
        page = PlacedPage("lines", 210, 297, lines, "1")
        pdf = printed([page], [], tmp_path)
        if is_sound:
            check_pdf(pdf, [page])
        else:
            with pytest.raises(FinishedFileFault, match="'HOT' and 'POT'"):
                check_pdf(pdf, [page])


def coloured(pdf: Pdf, **facts: Any) -> Any:
    return pdf.make_indirect(Dictionary(facts))


def in_resources(kind: str, made: Callable[[Pdf], Any]) -> Callable[[Pdf], None]:
    def change(pdf: Pdf) -> None:
        pdf.pages[0].Resources[kind] = Dictionary({"/X": made(pdf)})

    return change


def form(pdf: Pdf, data: bytes, **facts: Any) -> Stream:
    return Stream(pdf, data, Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, 1, 1], **facts)


COLOURED: dict[str, Callable[[Pdf], None]] = {
    "an operator of the page": content(" g", " 0 0 rg"),
    "a stroke of the page": content(" g", " 0 0 RG"),
    "a form's operator": in_resources("/XObject", lambda pdf: form(pdf, b"1 0 0 rg 0 0 1 1 re f")),
    "a form's stroke in CMYK": in_resources("/XObject", lambda pdf: form(pdf, b"1 0 0 0 K")),
    "a form's fill in CMYK": in_resources("/XObject", lambda pdf: form(pdf, b"1 0 0 0 k")),
    "a form's space": in_resources("/XObject", lambda pdf: form(pdf, b"/DeviceRGB cs 1 0 0 sc")),
    "a form's group": in_resources(
        "/XObject",
        lambda pdf: form(pdf, b"n", Group=Dictionary(S=Name.Transparency, CS=Name.DeviceRGB)),
    ),
    "an inline image": in_resources(
        "/XObject", lambda pdf: form(pdf, b"BI /W 1 /H 1 /CS /RGB /BPC 8 ID abc\nEI")
    ),
    "an image": in_resources(
        "/XObject",
        lambda pdf: Stream(
            pdf, b"abc", Subtype=Name.Image, Width=1, Height=1, ColorSpace=Name.DeviceRGB
        ),
    ),
    "an indexed image": in_resources(
        "/ColorSpace", lambda pdf: Array([Name.Indexed, Name.DeviceRGB, 0, b"abc"])
    ),
    "a profile": in_resources(
        "/ColorSpace", lambda pdf: Array([Name.ICCBased, Stream(pdf, b"", N=3)])
    ),
    "a calibrated space": in_resources("/ColorSpace", lambda pdf: Array([Name.CalRGB, {}])),
    "Lab": in_resources("/ColorSpace", lambda pdf: Array([Name.Lab, {}])),
    "a shading in a pattern": in_resources(
        "/Pattern",
        lambda pdf: Dictionary(PatternType=2, Shading=Dictionary(ColorSpace=Name.DeviceRGB)),
    ),
}


def test_a_grey_file_passes_as_grey(sound_grey: tuple[PlacedPage, bytes]) -> None:
    page, pdf = sound_grey
    check_pdf(pdf, [page], grey=True)


@pytest.mark.parametrize("case", COLOURED)
def test_a_grey_file_with_colour_in_it_is_refused(
    case: str, sound_grey: tuple[PlacedPage, bytes]
) -> None:
    page, pdf = sound_grey
    file = broken(pdf, COLOURED[case])
    if "page" not in case:
        check_pdf(file, [page])
    with pytest.raises(FinishedFileFault, match="grey file"):
        check_pdf(file, [page], grey=True)


@pytest.mark.parametrize(
    ("data", "is_sound"),
    [(b"1 nan l", False), (b"0 -inf m", False), (b"BT (nan inf) Tj ET", True), (b"0 0 m", True)],
)
def test_a_picture_with_a_number_that_is_none_is_refused(
    data: bytes, is_sound: bool, sound_grey: tuple[PlacedPage, bytes]
) -> None:
    page, pdf = sound_grey
    inner = in_resources("/XObject", lambda pdf: form(pdf, data))
    outer = in_resources(
        "/XObject",
        lambda pdf: form(
            pdf, b"n", Resources=Dictionary(Pattern=Dictionary(P=Stream(pdf, data, PatternType=1)))
        ),
    )
    for change in (inner, outer):
        if is_sound:
            check_pdf(broken(pdf, change), [page])
        else:
            with pytest.raises(FinishedFileFault, match="where a number belongs"):
                check_pdf(broken(pdf, change), [page])


def test_a_picture_with_a_face_that_is_not_embedded_is_refused(
    sound_grey: tuple[PlacedPage, bytes],
) -> None:
    page, pdf = sound_grey
    bare = Dictionary(F=Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica))
    change = in_resources("/XObject", lambda pdf: form(pdf, b"n", Resources=Dictionary(Font=bare)))
    with pytest.raises(FinishedFileFault, match="Helvetica"):
        check_pdf(broken(pdf, change), [page])


def test_a_link_alone_is_sound(tmp_path: Path) -> None:
    items = (Line(20, 30, "To itself", 12, tag="H1"), InternalLink(Box(20, 25, 30, 9), "alone"))
    page = PlacedPage("alone", 210, 297, items, "1")
    check_pdf(printed([page], [], tmp_path), [page])


CURVE = "EMC /Artifact BMC 100 100 m {} {} {} c S EMC"


def test_a_curve_is_judged_by_its_ink_and_not_by_its_control_points(
    sound: bytes, page: PlacedPage
) -> None:
    within = CURVE.format("-20 110", "-20 190", "100 200")  # turns at x = 10
    check_pdf(broken(sound, content("EMC", within)), [page])
    beyond = CURVE.format("-80 110", "-80 190", "100 200")  # turns at x = -35
    with pytest.raises(FinishedFileFault, match="edge"):
        check_pdf(broken(sound, content("EMC", beyond)), [page])


@given(st.lists(st.floats(-100, 100), min_size=4, max_size=4))
def test_the_extremes_of_a_curve_are_those_of_many_points_on_it(ends: list[float]) -> None:
    start, one, two, end = ends
    steps = [k / 2000 for k in range(2001)]
    on = [
        (1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * one + 3 * (1 - t) * t * t * two + t**3 * end
        for t in steps
    ]
    found = [start, end, *_extremes(start, one, two, end)]
    assert min(found) == pytest.approx(min(on), abs=0.01)
    assert max(found) == pytest.approx(max(on), abs=0.01)
