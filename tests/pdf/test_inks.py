"""Inks: every role has its paint, marks stand out, grey is grey, and light fades to its cover."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pypdfium2 as pdfium
import pytest

from bookmaker.cache import MemoryCache
from bookmaker.colour import channels, grey, luminance, under_paper
from bookmaker.layout import lay_out
from bookmaker.layout.gallery import TO_COLOUR
from bookmaker.model import Line, Rule
from bookmaker.pdf import INKS, Circle, Document, Paint, Path, Rect, TextRun, draw, press
from bookmaker.pdf.svg_page import page_svg
from tests.layout.books import Shape, setting_of, with_key
from tests.layout.looking import line_box
from tests.layout.test_loose import loose

WIDEST_STROKE = 1.2
"""Millimetres: what the gaps between marks are reckoned with."""


def colours(ink: str) -> set[str]:
    found = {paint.fill for paint in INKS[ink].paints.values()}
    found |= {paint.stroke for paint in INKS[ink].paints.values()}
    return {colour for colour in found | set(INKS[ink].words.values()) if colour}


def contrast(one: str, other: str) -> float:
    """Contrast of two colours ``#rrggbb``, 1 to 21 (WCAG 2.2, contrast ratio)."""
    dark, light = sorted(luminance(*channels(colour)) for colour in (one, other))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),
        ("#777777", "#ffffff", 4.48),
        ("#ffffff", "#ffffff", 1.0),
    ],
)
def test_contrast_is_reckoned_as_wcag_does(one: str, other: str, ratio: float) -> None:
    """WCAG 2.2, contrast ratio; #777777 on white is the well-known 4.48:1 (from memory)."""
    assert contrast(one, other) == pytest.approx(ratio, abs=0.01)


@pytest.mark.parametrize("ink", INKS)
def test_rings_cords_and_tags_stand_out_from_their_white_seven_to_one(ink: str) -> None:
    paints = INKS[ink].paints
    for role in ("ring", "tag"):
        assert contrast(str(paints[role].stroke), str(paints[role].fill)) >= 7
    assert contrast(str(paints["link-stroke"].stroke), str(paints["link-stroke-edge"].stroke)) >= 7


@pytest.mark.parametrize("ink", INKS)
def test_words_on_paper_can_be_read(ink: str) -> None:
    """At least 4.5:1, WCAG 2.2, success criterion 1.4.3."""
    for role, colour in INKS[ink].words.items():
        if role != "letter":
            assert contrast(colour, "#ffffff") >= 4.5, role


def test_no_stroke_of_a_puzzles_marks_is_wider_than_gaps_are_reckoned_for() -> None:
    paints = INKS["full"].paints
    for role in ("ring", "link-stroke", "tag"):
        assert paints[role].width <= WIDEST_STROKE
        assert paints[role].scaled(1.4).width <= WIDEST_STROKE


def test_grey_has_no_colour_and_keeps_how_light_things_are() -> None:
    for colour in colours("grey"):
        assert colour[1:3] == colour[3:5] == colour[5:7]
    for colour in colours("full"):  # as pictures are turned grey
        as_grey, own = (
            luminance(*(int(c[i : i + 2], 16) / 255 for i in (1, 3, 5)))
            for c in (grey(colour), colour)
        )
        assert as_grey == pytest.approx(own, abs=0.01)


def test_no_plain_red_and_no_plain_blue() -> None:
    for colour in colours("full"):
        red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
        assert blue < 2 * max(red, green, 1)
        assert not (red > 200 and green < 60 and blue < 60)


@pytest.mark.parametrize(
    ("covers", "kept"), [((0.5, 0.1), 0.5), ((0.2, 0.2), 0.75), ((0.1, 0.05), 1.0), ((), 0.5)]
)
def test_light_leaves_every_picture_the_same_share_of_its_ink(
    covers: tuple[float, ...], kept: float
) -> None:
    """Paper laid over a picture with opacity f leaves (1 - f) of its cover: 15% on average, and
    none is left as it is beside others that are faded."""
    ink = INKS["light"].over(covers)
    assert 1 - ink.fade() == pytest.approx(kept)
    assert INKS["light-grey"].over(covers).fade() == ink.fade()
    assert INKS["full"].over(covers).fade() == 0


def test_light_fades_an_ornament_however_much_white_is_in_it() -> None:
    """Faded with pictures that need no fading, it would be stronger than its page."""
    assert INKS["light"].over([0.05]).fade() == 0
    assert INKS["light"].over([0.05]).fade(ornament=True) >= 0.5
    assert INKS["full"].fade(ornament=True) == 0


def test_grey_is_black_where_a_copier_must_keep_it() -> None:
    """Words, and all lines but those that are pale on purpose."""
    for name in ("grey", "light-grey"):
        ink = INKS[name]
        assert set(ink.words.values()) <= {"#000000", "#ffffff"}
        pale = ("snail-", "pale-", "rule")
        strokes = {r: p.stroke for r, p in ink.paints.items() if not r.startswith(pale)}
        assert set(strokes.values()) <= {None, "#000000", "#ffffff"}


@pytest.mark.parametrize("ink", INKS)
def test_what_is_written_on_or_ticked_has_lines_of_six_tenths_of_a_millimetre(ink: str) -> None:
    for role in ("write", "number-box", "frame", "step-off", "tick-ring", "ring", "link-stroke"):
        paint = INKS[ink].paints[role]
        assert paint.width >= 0.6, role
        assert contrast(str(paint.stroke), "#ffffff") >= 7, role


@pytest.mark.parametrize("ink", ["grey", "light-grey", "full"])
def test_a_copy_in_black_and_white_keeps_lines_words_and_signs(ink: str) -> None:
    """Cut at half of the light, at 150 dots an inch: every line to write on is there from end to
    end, and no letter or sign loses half of its ink."""
    setting = with_key(setting_of(Shape(1, 2)))
    pages = [lay_out(side, setting) for side in setting.bound.sides]
    pdf = bytes(press(pages, INKS[ink], {}, Document("copy", "en"), MemoryCache()))
    for page, sheet in zip(pages, pdfium.PdfDocument(pdf), strict=True):
        shown = np.asarray(sheet.render(scale=150 / 72, grayscale=True).to_numpy()).squeeze()
        black = shown < 128
        for item in page.items:
            if isinstance(item, Rule) and item.role in ("write", "axis", "frame"):
                assert _kept_along(black, item) == 1, item
            if isinstance(item, Line) and item.role != "letter" and item.text.strip():
                copied, full = _ink_of(black, item), _ink_of((255 - shown) / 255, item)
                assert copied >= 0.5 * full, item


def _kept_along(black: Any, rule: Rule) -> float:
    """The part of a rule's points beside which a black dot stands, its ends aside."""
    points = [
        (
            rule.start[0] + (rule.end[0] - rule.start[0]) * t / 50,
            rule.start[1] + (rule.end[1] - rule.start[1]) * t / 50,
        )
        for t in range(1, 50)
    ]
    dots = [(round(y / 25.4 * 150), round(x / 25.4 * 150)) for x, y in points]
    return sum(black[r - 2 : r + 3, c - 2 : c + 3].any() for r, c in dots) / len(dots)


def _ink_of(picture: Any, line: Line) -> float:
    box = line_box(line)
    left, top, right, bottom = (
        round(v / 25.4 * 150) for v in (box.x, box.y, box.right, box.bottom)
    )
    return float(picture[top : bottom + 1, left : right + 1].sum())


def test_light_fades_the_worked_example_as_well() -> None:
    for role, paint in INKS["full"].paints.items():
        if role.startswith("snail-"):
            assert luminance(*channels(str(INKS["light"].paints[role].fill))) > luminance(
                *channels(str(paint.fill))
            )


@pytest.mark.parametrize(("share", "mixed"), [(0.0, "#336699"), (0.5, "#99b2cc"), (1.0, "#ffffff")])
def test_paper_over_a_colour_lightens_each_channel(share: float, mixed: str) -> None:
    """Source-over compositing of white (W3C, Compositing and Blending, 5.1), by hand."""
    assert under_paper("#336699", share) == mixed


@pytest.mark.parametrize("ink", INKS)
def test_everything_that_layout_places_can_be_drawn(ink: str) -> None:
    for setting in (setting_of(Shape(2, 2)), setting_of(Shape(1, 2), "board"), loose()):
        for side in setting.bound.sides:
            groups = draw(lay_out(side, setting), INKS[ink])
            for mark in (mark for group in groups for mark in group.marks):
                if isinstance(mark, Circle | Rect | Path):
                    assert isinstance(mark.paint, Paint)
                elif isinstance(mark, TextRun):
                    assert re.fullmatch("#[0-9a-f]{6}", mark.colour)


def test_a_grey_page_written_as_svg_names_no_colour() -> None:
    setting = setting_of(Shape(1, 1))
    for side in setting.bound.sides:
        svg = page_svg(lay_out(side, setting), INKS["grey"], {})
        for colour in re.findall("#[0-9a-f]{6}", svg):
            assert colour[1:3] == colour[3:5] == colour[5:7]


@pytest.mark.parametrize("name", list(INKS))
@pytest.mark.parametrize("cover", [0.0, 0.3, 1.0])
def test_a_pale_picture_leaves_room_for_pencils_in_every_ink(name: str, cover: float) -> None:
    """Black under that much paper reflects over half of the light (WCAG 2.2 relative luminance)."""
    share = INKS[name].over([cover]).fade(TO_COLOUR)
    level = ((share + 0.055) / 1.055) ** 2.4
    assert level > 0.5
    assert share < 0.9, "the creature has to be seen as well"
