"""Style sheets stay inside their file."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.pictures.css import clean_sheet, clean_style, percent_to_number, without_outside


@pytest.mark.parametrize(
    ("value", "kept", "outside"),
    [
        ("url(#water)", "url(#water)", []),
        ("url('#water')", "url(#water)", []),
        ('url( "#water" ) teal', "url(#water) teal", []),
        ("url(http://example.org/a.svg#b)", "none", ["http://example.org/a.svg#b"]),
        ("URL(other.svg)", "none", ["other.svg"]),
        ("url(data:image/png;base64,AAAA)", "none", []),
        ("url(unclosed", "none", ["unclosed"]),
        ("teal", "teal", []),
    ],
)
def test_references_out_of_the_file_become_none(value: str, kept: str, outside: list[str]) -> None:
    assert without_outside(value) == (kept, outside)


def test_a_sheet_imports_nothing_and_brings_no_fonts() -> None:
    sheet = """
        @import url("http://example.org/a.css"); @import 'b.css';
        @font-face { font-family: pond; src: url(pond.woff) }
        /* url(http://example.org/in-a-comment) */
        .a { fill: teal; stroke: url(#g) }
    """
    kept, outside, effects = clean_sheet(sheet)
    assert outside == ["http://example.org/a.css", "b.css", "pond.woff"]
    assert " ".join(kept.split()) == ".a { fill: teal; stroke: url(#g) }"
    assert not effects


@pytest.mark.parametrize(
    ("style", "kept", "effects"),
    [
        ("filter:url(#blur);fill:red", "fill:red", True),
        ("fill:red;mix-blend-mode:multiply", "fill:red;", True),
        ("mix-blend-mode:normal;fill:red", "fill:red", False),
        ("filter:none", "", False),
        (
            "opacity:50%;fill-opacity: 25% ;stop-opacity:.5",
            "opacity:0.5;fill-opacity: 0.25;stop-opacity:0.5",
            False,
        ),
        ("opacity:nonsense", "opacity:1", False),
        ("fill:hsl(120,100%,25%)", "fill:#008000", False),
        ("backdrop-filter-like:1", "backdrop-filter-like:1", False),
    ],
)
def test_declarations_are_made_printable(style: str, kept: str, effects: bool) -> None:
    assert clean_style(style) == (kept, [], effects)


@pytest.mark.parametrize(
    ("text", "number"),
    [("100%", "1"), ("50 %", "0.5"), (".25", "0.25"), ("1e-1", "0.1"), ("7", "1"), ("-1", "0")],
)
def test_opacities_are_numbers_from_nought_to_one(text: str, number: str) -> None:
    """SVG 2, 3.6 and CSS Color 4, 12: a number or a per cent, clamped to 0 ... 1."""
    assert percent_to_number(text) == number


@pytest.mark.parametrize("text", ["", "half", "50%%", "1.2.3", "nan", "var(--x)"])
def test_what_is_no_opacity_is_none(text: str) -> None:
    assert percent_to_number(text) is None


@given(st.text(alphabet="url(#'\")a;: {}@import/*\n", max_size=120))
def test_no_reference_leaves_the_file_however_it_is_written(text: str) -> None:
    kept, _, _ = clean_sheet(text)
    assert without_outside(kept)[1] == []
