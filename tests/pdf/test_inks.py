"""Inks: every role has its paint, marks stand out, grey is grey, and light fades to its cover."""

from __future__ import annotations

import re

import pytest

from bookmaker.colour import channels, grey, luminance, under_paper
from bookmaker.layout import lay_out
from bookmaker.layout.gallery import TO_COLOUR
from bookmaker.pdf import INKS, Circle, Paint, Path, Rect, TextRun, draw
from bookmaker.pdf.svg_page import page_svg
from tests.layout.books import Shape, setting_of
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
    for colour in colours("full"):
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


@pytest.mark.parametrize(("cover", "left"), [(0.5, 0.15), (0.2, 0.15), (0.15, 0.15), (0.1, 0.1)])
def test_light_leaves_fifteen_per_cent_of_cover(cover: float, left: float) -> None:
    """Paper laid over a picture with opacity f leaves (1 - f) of its cover."""
    assert cover * (1 - INKS["light"].fade(cover)) == pytest.approx(left)
    assert INKS["full"].fade(cover) == 0


def test_light_fades_an_ornament_however_much_white_is_in_it() -> None:
    """Faded by its own cover alone, it would be stronger than the pictures beside it."""
    light = INKS["light"]
    assert light.fade(0.05) == 0
    assert light.fade(0.05, ornament=True) >= light.fade(0.3) - 0.1
    assert light.fade(0.9, ornament=True) == light.fade(0.9)
    assert INKS["full"].fade(0.05, ornament=True) == 0


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
    share = INKS[name].fade(cover, TO_COLOUR)
    level = ((share + 0.055) / 1.055) ** 2.4
    assert level > 0.5
    assert share < 0.9, "the creature has to be seen as well"
