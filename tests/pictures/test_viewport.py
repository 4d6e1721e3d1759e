"""What an SVG shows, and how large it is."""

from __future__ import annotations

from xml.etree.ElementTree import Element

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.pictures.viewport import Viewport, length, viewport_of

LENGTHS = [
    ("1in", 96.0),
    ("2.54cm", 96.0),
    ("25.4mm", 96.0),
    ("101.6Q", 96.0),
    ("72pt", 96.0),
    ("6pc", 96.0),
    ("96px", 96.0),
    ("96", 96.0),
    ("6em", 96.0),
    ("6rem", 96.0),
    ("12ex", 96.0),
    (" 9.6e1 ", 96.0),
    ("+.5in", 48.0),
]
"""CSS Values and Units 3, sections 5.1 and 5.2; 1 em = 16 px is common practice, no source."""


@pytest.mark.parametrize(("text", "pixels"), LENGTHS)
def test_lengths_are_counted_in_css_pixels(text: str, pixels: float) -> None:
    assert length(text) == pytest.approx(pixels)


@pytest.mark.parametrize("text", ["", "100%", "auto", "1e999", "nan", "inf", "12 px 3", "5furlong"])
def test_what_is_no_length_is_none(text: str) -> None:
    assert length(text) is None


@pytest.mark.parametrize(
    ("attributes", "view"),
    [
        ({"viewBox": "0 0 200 100"}, Viewport(0, 0, 200, 100)),
        ({"viewBox": "-10,-20, 200 100"}, Viewport(-10, -20, 200, 100)),
        ({"viewBox": "0 0 200 100", "width": "5cm", "height": "9"}, Viewport(0, 0, 200, 100)),
        ({"width": "2in", "height": "96"}, Viewport(0, 0, 192, 96)),
        ({"viewBox": "0 0 0 100", "width": "20", "height": "30"}, Viewport(0, 0, 20, 30)),
        ({"viewBox": "0 0 nan 1", "width": "20", "height": "30"}, Viewport(0, 0, 20, 30)),
        ({"viewBox": "1 2 3", "width": "20", "height": "30"}, Viewport(0, 0, 20, 30)),
        ({"width": "100%", "height": "100%"}, None),
        ({"width": "100"}, None),
        ({"width": "-5", "height": "10"}, None),
        ({"width": "1e300", "height": "10"}, None),
        ({}, None),
    ],
)
def test_the_view_box_goes_before_the_size(
    attributes: dict[str, str], view: Viewport | None
) -> None:
    assert viewport_of(Element("svg", attributes)) == view


@given(st.text(max_size=40))
def test_any_view_box_is_read_or_none(text: str) -> None:
    view = viewport_of(Element("svg", {"viewBox": text}))
    assert view is None or (view.width > 0 and view.height > 0)
