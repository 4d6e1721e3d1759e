"""Whatever may hold a colour in a PDF of one picture is grey afterwards, and as light as it was.

Reference: PDFium's rendering of the same page before, and relative luminance (WCAG 2.2).
"""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pikepdf import Array, Dictionary, Name, Pdf, Stream

from bookmaker.colour import grey_level
from bookmaker.pdf.finished_colour import colour_left
from bookmaker.pdf.grey_form import grey_pdf
from bookmaker.pdf.grey_space import NoGrey
from tests.benchmarks.greys import lightness

SIDE = 1000
AXIS = {"ShadingType": 2, "Coords": [0, 0, SIDE, 0], "Extend": [True, True]}
EXACT = 0.02
"""Of lightness, 0 to 1: levels are bytes, and PDFium draws fades in steps."""


BLENDED = 0.08
"""What is see-through is mixed with paper as bytes: a mix is not as light as that of its grey."""


def exponential(*ends: list[float], **more: Any) -> Dictionary:
    return Dictionary(FunctionType=2, Domain=[0, 1], N=1, C0=ends[0], C1=ends[1], **more)


RED_TO_BLUE = ([0.9, 0.2, 0.1], [0.1, 0.2, 0.9])
WARM_TO_COLD = ([0.9, 0.7, 0.1], [0.1, 0.4, 0.6])


def stitched() -> Dictionary:
    parts = [exponential(*RED_TO_BLUE), exponential(*WARM_TO_COLD)]
    facts = {"Bounds": [0.4], "Encode": [0, 1, 0, 1], "Functions": parts}
    return Dictionary(FunctionType=3, Domain=[0, 1], **facts)


def sampled(pdf: Pdf, bits: int = 8) -> Stream:
    colours = [(255, 40, 0), (0, 200, 90), (30, 60, 250)]
    data = b"".join(bytes(each) for each in colours)
    if bits == 16:
        data = b"".join(bytes((byte, byte)) for each in colours for byte in each)
    facts = {"Domain": [0, 1], "Range": [0, 1] * 3, "Size": [3], "BitsPerSample": bits}
    return Stream(pdf, data, FunctionType=0, **facts)


def calculated(pdf: Pdf, code: bytes = b"{dup 1 exch sub dup 0.3 mul exch}", n: int = 3) -> Stream:
    return Stream(pdf, code, FunctionType=4, Domain=[0, 1], Range=[0, 1] * n)


FUNCTIONS: dict[str, Callable[[Pdf], Any]] = {
    "exponential": lambda pdf: exponential(*RED_TO_BLUE),
    "stitched": lambda pdf: stitched(),
    "sampled": lambda pdf: sampled(pdf),
    "sampled in 16 bits": lambda pdf: sampled(pdf, 16),
    "calculated": calculated,
    "one for each channel": lambda pdf: Array(
        [exponential([first], [last]) for first, last in zip(*RED_TO_BLUE, strict=True)]
    ),
    "calculated for each channel": lambda pdf: Array(
        [calculated(pdf, code, 1) for code in (b"{}", b"{1 exch sub}", b"{0.5 mul}")]
    ),
    "stitched for each channel": lambda pdf: Array(
        [
            Dictionary(
                FunctionType=3,
                Domain=[0, 1],
                Bounds=[0.5],
                Encode=[0, 1, 0, 1],
                Functions=[exponential([a], [b]), exponential([b], [a])],
            )
            for a, b in ((0.1, 0.8), (0.7, 0.3), (0.5, 0.9))
        ]
    ),
}


def page_of(content: bytes, fill: Callable[[Pdf], dict[str, Any]]) -> bytes:
    with pikepdf.new() as pdf:
        page = pdf.add_blank_page(page_size=(SIDE, SIDE))
        page.Resources = Dictionary({f"/{key}": value for key, value in fill(pdf).items()})
        page.Contents = Stream(pdf, content)
        page.obj.Group = Dictionary(S=Name.Transparency, CS=Name.DeviceRGB)
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


def check_grey(before: bytes, tolerance: float = EXACT) -> None:
    after = grey_pdf(before)
    with pikepdf.open(io.BytesIO(after)) as pdf:
        assert list(colour_left(pdf)) == []
    first, second = lightness(before), lightness(after)
    assert first.std() > 0.01 or first.mean() < 0.99, "nothing is drawn"
    assert np.abs(first - second).mean() < tolerance / 2
    assert np.quantile(np.abs(first - second), 0.99) < tolerance


@pytest.mark.parametrize("kind", FUNCTIONS)
@pytest.mark.parametrize("place", ["shading", "pattern", "pattern in a form", "shared"])
def test_a_gradient_is_grey_whatever_gives_its_colours(kind: str, place: str) -> None:
    def fill(pdf: Pdf) -> dict[str, Any]:
        function = FUNCTIONS[kind](pdf)
        if place == "shared":
            function = pdf.make_indirect(function)
        shading = Dictionary(ColorSpace=Name.DeviceRGB, Function=function, **AXIS)
        pattern = Dictionary(PatternType=2, Shading=shading)
        found: dict[str, Any] = {
            "Shading": Dictionary(S=Dictionary(shading)),
            "Pattern": Dictionary(P=pattern),
        }
        form = Stream(pdf, FILLED, Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, SIDE, SIDE])
        form.Resources = Dictionary(Pattern=Dictionary(P=Dictionary(pattern)))
        form.Group = Dictionary(S=Name.Transparency, CS=Name.DeviceRGB)
        return {**found, "XObject": Dictionary(F=form)}

    content = {"shading": b"/S sh", "pattern in a form": b"/F Do"}.get(place, FILLED)
    check_grey(page_of(content, fill), 0.03)


FILLED = b"/Pattern cs /P scn 100 100 800 800 re f 0.1 0.6 0.3 RG 40 w 100 100 800 800 re S"


@pytest.mark.parametrize(
    "content",
    [
        b"1 0 0 rg 0 0 500 1000 re f 0 0.5 0.2 RG 200 w 700 0 m 700 1000 l S",
        b"0.2 0.9 0 0.1 k 0 0 500 1000 re f 0.9 0.1 0 0 K 200 w 700 0 m 700 1000 l S",
        b"/DeviceRGB cs 0.9 0.4 0.1 sc 0 0 1000 500 re f",
        b"/DeviceRGB CS 0.9 0.4 0.1 SCN 300 w 0 300 m 1000 300 l S",
        b"/DeviceCMYK cs 0.9 0.4 0.1 0 scn 0 0 1000 500 re f",
        b"q 1 0 0 rg q /DeviceRGB cs 0 1 0 sc Q 0 0 900 900 re f Q",
        b"/Named cs 0.2 0.5 0.9 scn 0 0 1000 500 re f",
        b"/Index cs 1 sc 0 0 1000 500 re f",
        b"/Spot cs 0.7 scn 0 0 1000 500 re f",
        b"/Tiles cs 0.8 0.3 0.1 /T scn 0 0 1000 1000 re f",
        b"/Pattern cs /C scn 0 0 1000 1000 re f",
        b"/F Do",
    ],
)
def test_operators_are_grey(content: bytes) -> None:
    def fill(pdf: Pdf) -> dict[str, Any]:
        tile = {"PatternType": 1, "TilingType": 1, "BBox": [0, 0, 50, 50], "XStep": 50, "YStep": 50}
        plain = Stream(pdf, b"0 0 30 30 re f", PaintType=2, **tile, Resources=Dictionary())
        coloured = Stream(pdf, b"1 0.5 0 rg 0 0 30 30 re f", PaintType=1, **tile)
        coloured.Resources = Dictionary()
        form = Stream(pdf, b"0 0.4 1 rg 0 0 900 900 re f", Type=Name.XObject, Subtype=Name.Form)
        form.BBox = Array([0, 0, SIDE, SIDE])
        profile = Stream(pdf, b"", N=3, Alternate=Name.DeviceRGB)
        spaces = Dictionary(
            Named=[Name.ICCBased, profile],
            Index=[Name.Indexed, Name.DeviceRGB, 1, pikepdf.String(b"\x00\x00\x00\xf0\x90\x20")],
            Spot=[Name.Separation, Name.Leaf, Name.DeviceRGB, exponential([1, 1, 1], [0, 0.5, 0])],
            Tiles=[Name.Pattern, Name.DeviceRGB],
        )
        patterns = Dictionary(T=plain, C=coloured)
        return {"ColorSpace": spaces, "Pattern": patterns, "XObject": Dictionary(F=form)}

    # of CMYK PDFium makes other colours than those of ISO 32000-1, 10.3.5
    check_grey(page_of(content, fill), 0.3 if b"CMYK" in content or b" k" in content else EXACT)


def image(pdf: Pdf, space: Any, channels: int, bits: int, **facts: Any) -> Stream:
    """Twelve columns of different colours, nine rows."""
    rng = np.random.default_rng(bits * channels)
    samples = np.repeat(rng.integers(0, 1 << bits, (1, 12, channels)), 9, axis=0).reshape(9, -1)
    if bits == 16:
        data = samples.astype(">u2").tobytes()
    else:
        places = (samples[..., None] >> np.arange(bits - 1, -1, -1)) & 1
        data = np.packbits(places.reshape(9, -1).astype(np.uint8), axis=1).tobytes()
    size = {"Width": 12, "Height": 9, "BitsPerComponent": bits}
    return Stream(pdf, data, Subtype=Name.Image, ColorSpace=space, **size, **facts)


@pytest.mark.parametrize("bits", [1, 2, 4, 8, 16])
@pytest.mark.parametrize("kind", ["rgb", "decoded", "indexed", "profile", "masked"])
def test_pictures_of_every_depth_are_grey(bits: int, kind: str) -> None:
    if kind == "indexed" and bits == 16:
        pytest.skip("an index has eight bits at most (ISO 32000-1, table 89)")

    def fill(pdf: Pdf) -> dict[str, Any]:
        table = np.random.default_rng(3).integers(0, 256, ((1 << min(bits, 8)), 3), np.uint8)
        if kind == "indexed":
            name = pikepdf.String(table.tobytes())
            found = image(pdf, Array([Name.Indexed, Name.DeviceRGB, len(table) - 1, name]), 1, bits)
        elif kind == "profile":
            profile = Stream(pdf, b"", N=3, Alternate=Name.DeviceRGB)
            found = image(pdf, Array([Name.ICCBased, profile]), 3, bits)
        else:
            found = image(pdf, Name.DeviceRGB, 3, bits)
        if kind == "decoded":
            found.Decode = Array([1, 0, 0, 1, 0.5, 1])
        if kind == "masked":
            found.SMask = image(pdf, Name.DeviceGray, 1, 8)
        return {"XObject": Dictionary(I=found)}

    tolerance = 3 * BLENDED if kind == "masked" else EXACT
    check_grey(page_of(b"1000 0 0 1000 0 0 cm /I Do", fill), tolerance)


def test_a_soft_mask_lets_through_as_much_as_before() -> None:
    def fill(pdf: Pdf) -> dict[str, Any]:
        group = Stream(pdf, b"0.7 0.7 0.7 rg 0 0 500 1000 re f", Subtype=Name.Form)
        group.BBox = Array([0, 0, SIDE, SIDE])
        group.Group = Dictionary(S=Name.Transparency, CS=Name.DeviceRGB)
        mask = Dictionary(S=Name.Luminosity, G=pdf.make_indirect(group), BC=[0.2, 0.2, 0.2])
        return {"ExtGState": Dictionary(M=Dictionary(SMask=mask))}

    check_grey(page_of(b"/M gs 0.1 0.2 0.8 rg 0 0 1000 1000 re f", fill), BLENDED)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0, 1, width=32), min_size=3, max_size=3))
def test_a_calculated_colour_s_grey_is_that_of_any_colour(colour: list[float]) -> None:
    code = b"{pop %f %f %f}" % tuple(colour)

    def fill(pdf: Pdf) -> dict[str, Any]:
        function = calculated(pdf, code)
        shading = Dictionary(ColorSpace=Name.DeviceRGB, Function=function, **AXIS)
        return {"Shading": Dictionary(S=shading)}

    levels = lightness(grey_pdf(page_of(b"/S sh", fill)))
    assert levels.mean() == pytest.approx(grey_level(*colour), abs=0.01)


def test_what_can_t_be_turned_is_told() -> None:
    def fill(pdf: Pdf) -> dict[str, Any]:
        mesh = Stream(pdf, bytes(8), ShadingType=4, ColorSpace=Name.DeviceRGB)
        return {"Shading": Dictionary(S=mesh)}

    with pytest.raises(NoGrey, match="type 4"):
        grey_pdf(page_of(b"/S sh", fill))


def test_a_shape_with_a_gradient_and_a_stroke_is_grey(tmp_path: Path) -> None:
    """Cairo writes its gradient into a pattern, where it was missed: colour was printed."""
    from tests.pdf.test_grey import svg

    picture = svg(
        tmp_path,
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 80"><defs>'
        '<radialGradient id="a"><stop offset="0" stop-color="#ff8800"/>'
        '<stop offset=".6" stop-color="#005500"/><stop offset="1" stop-color="#2244ff"/>'
        '</radialGradient></defs><rect x="10" y="10" width="80" height="60" fill="url(#a)" '
        'stroke="url(#a)" stroke-width="8"/><circle cx="50" cy="40" r="20" fill="none" '
        'stroke="url(#a)" stroke-opacity=".5" stroke-width="5"/></svg>',
    )
    check_grey(picture.pdf, BLENDED)
