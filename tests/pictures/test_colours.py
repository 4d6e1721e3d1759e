"""Colours are put into a form that the renderer reads."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageColor

from bookmaker.pictures.colours import plain_colours

SAME = [
    ("rgb(200 100 50)", "#c86432", "CSS Color 4, 5.1"),
    ("rgb(200, 100, 50)", "#c86432", "CSS Color 4, 5.1 (legacy form)"),
    ("rgb(100%, 0%, 50%)", "#ff0080", "CSS Color 4, 5.1"),
    ("rgba(255, 0, 0, 0.5)", "rgba(255,0,0,0.5)", "CSS Color 4, 5.1"),
    ("rgb(255 0 0 / 50%)", "rgba(255,0,0,0.5)", "CSS Color 4, 5.1"),
    ("hsl(120, 100%, 25%)", "#008000", "CSS Color 4, example 13 (green)"),
    ("hsl(120deg 75% 25%)", "#107010", "CSS Color 4, example 13 (deep green)"),
    ("hsl(0.5turn 100% 50%)", "#00ffff", "CSS Color 4, 7"),
    ("hsla(240 100% 50% / 25%)", "rgba(0,0,255,0.25)", "CSS Color 4, 7"),
    ("#f008", "rgba(255,0,0,0.5333)", "CSS Color 4, 5.2"),
    ("#ff0000cc", "rgba(255,0,0,0.8)", "CSS Color 4, 5.2"),
    ("#f00", "#f00", "CSS Color 4, 5.2"),
    ("#ff0000", "#ff0000", "CSS Color 4, 5.2"),
    ("fill:#ff000080; stroke: #0f0f", "fill:rgba(255,0,0,0.502); stroke: #00ff00", ""),
    ("teal", "teal", "a name"),
    ("rgb(1,2)", "rgb(1,2)", "no colour"),
    ("rgb(a,b,c)", "rgb(a,b,c)", "no colour"),
    ("url(#abcd)", "url(#abcd)", "no colour"),
    ("#abcd > g { fill: #abc }", "#abcd > g { fill: #abc }", "a selector"),
]


@pytest.mark.parametrize(("given_", "plain", "source"), SAME)
def test_each_form_has_its_plain_one(given_: str, plain: str, source: str) -> None:
    assert plain_colours(given_) == plain, source


@given(st.integers(0, 359), st.integers(0, 100), st.integers(0, 100))
def test_hues_agree_with_pillow(hue: int, saturation: int, light: int) -> None:
    text = f"hsl({hue}, {saturation}%, {light}%)"
    mine = ImageColor.getrgb(plain_colours(text))
    theirs = ImageColor.getrgb(text)
    assert all(abs(one - other) <= 1 for one, other in zip(mine, theirs, strict=True))


@given(st.text(max_size=80))
def test_no_text_breaks_it(text: str) -> None:
    assert isinstance(plain_colours(text), str)
