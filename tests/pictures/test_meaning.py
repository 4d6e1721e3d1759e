"""Pictures that were printed otherwise than they are meant: drawn right by now, or told."""

from __future__ import annotations

import base64
import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, TiffImagePlugin

from bookmaker.model import Picture
from bookmaker.pictures import PictureFault
from tests.pictures.against import apart, by_pillow, by_resvg, printed, taken

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="{}">{}</svg>'
BOXES = ("0 0 100 100", "-20 -20 140 140", "10 5 90 95")
SQUARE = 'x="10" y="10" width="80" height="80"'
ALL = '<rect width="100" height="100" fill="#345" {}/>'


def grey(bits: int) -> bytes:
    ramp = np.linspace(0, 2**bits - 1, 64 * 64).reshape(64, 64)
    stream = io.BytesIO()
    Image.fromarray(ramp.astype(np.uint16 if bits == 16 else np.uint8)).save(stream, "PNG")
    return stream.getvalue()


GREY = base64.b64encode(grey(16)).decode()
DRAWN = {
    "an even-odd clip": '<clipPath id="c"><path clip-rule="evenodd" '
    'd="M10 10H90V90H10ZM30 30H70V70H30Z"/></clipPath>' + ALL.format('clip-path="url(#c)"'),
    "an even-odd clip in a sheet": "<style>.c{clip-rule:evenodd}</style>"
    '<clipPath id="c"><path class="c" d="M10 10H90V90H10ZM30 30H70V70H30Z"/></clipPath>'
    + ALL.format('clip-path="url(#c)"'),
    "an even-odd clip among definitions": '<defs><clipPath id="c"><path clip-rule="evenodd" '
    'd="M10 10H90V90H10ZM30 30H70V70H30Z"/></clipPath></defs>'
    '<g clip-path="url(#c)"><circle cx="50" cy="50" r="45"/></g>'
    '<path d="M0 0H9V9H0ZM2 2H7V7H2Z"/>',
    "a clip of two pieces": '<clipPath id="c"><path d="M10 10H90V90H10ZM30 30H70V70H30Z"/>'
    "</clipPath>" + ALL.format('clip-path="url(#c)"'),
    "plus signs": '<path d="M+10+10L+90+10 +90+90z" fill="#345"/>',
    "plus signs between": '<path d="M10+10l80+0 0+80z" fill="#345"/>',
    "plus signs of exponents": '<path d="M1e+1 10L9e1+10 90+90z" fill="#345"/>',
    "plus signs of points": '<polygon points="+10+10 +90+10 +50,+90" fill="#345"/>',
    "an empty fill": f'<rect {SQUARE} fill=""/>',
    "an empty fill in a style": f'<rect {SQUARE} style="fill:"/>',
    "an empty stroke": f'<rect {SQUARE} fill="#c33" stroke=""/>',
    "an empty opacity": f'<rect {SQUARE} fill="#c33" opacity=""/>',
    "an order of paints in a sheet": "<style>.a{paint-order:stroke;stroke:#000;stroke-width:20;"
    'fill:#e33}</style><rect class="a" x="30" y="30" width="40" height="40"/>',
    "an order of paints of a group": '<g paint-order="stroke" stroke="#000" stroke-width="20">'
    '<rect fill="#e33" x="30" y="30" width="40" height="40"/></g>',
    "a see-through shape in a group's outline": '<g stroke="#000" stroke-width="20">'
    '<rect opacity=".5" fill="#e33" x="30" y="30" width="40" height="40"/></g>',
    "children of the root": f"<style>svg>rect{{fill:#393}}</style><rect {SQUARE}/>",
    "the next child": f"<style>rect+rect{{fill:#393}}</style><rect {SQUARE}/><rect {SQUARE}/>",
    "an important rule": "<style>rect{fill:#393!important}</style>"
    f'<rect {SQUARE} style="fill:#f00"/>',
    "a rule against an attribute": f'<style>.a{{fill:#393}}</style><rect class="a" {SQUARE} '
    'fill="#f00"/>',
    "two rules": f"<style>#b{{fill:#393}} .a{{fill:#f00}}</style><rect id='b' class='a' {SQUARE}/>",
    "no number in a stroke": f'<rect {SQUARE} fill="none" stroke="#000" stroke-width="NaN"/>',
    "no number in a style": f'<rect {SQUARE} fill="#ccc" style="stroke:#000;stroke-width:inf"/>',
    "no number in a dash": f'<rect {SQUARE} fill="none" stroke="#000" stroke-width="5" '
    'stroke-dasharray="NaN 5"/>',
    "no number in a gradient": '<linearGradient id="g" x1="NaN" x2="1"><stop stop-color="red"/>'
    '<stop offset="1" stop-color="blue"/></linearGradient><rect width="90" height="90" '
    'fill="url(#g)"/>',
    "no number in a place": '<rect x="nan" y="10" width="80" height="80"/>',
    "numbers beyond all sheets": '<rect x="1e400" y="10" width="80" height="80"/>'
    '<circle cx="50" cy="50" r="9999999999999"/>',
    "a reckoned width": f'<rect {SQUARE} style="fill:#345;stroke-width:calc(1px + 2px)"/>',
    "a white mask": '<mask id="m"><rect x="20" y="20" width="40" height="40" fill="white"/></mask>'
    + ALL.format('mask="url(#m)"'),
    "a picture of sixteen bits": f'<image width="100" height="100" '
    f'href="data:image/png;base64,{GREY}"/>',
}
UNCOMPARED = {"numbers beyond all sheets"}
"""Where the other renderer goes on for ever, or draws what no sheet can show."""


@pytest.mark.parametrize("box", BOXES)
@pytest.mark.parametrize("name", sorted(DRAWN))
def test_a_drawing_is_printed_as_another_renderer_draws_it(
    name: str, box: str, tmp_path: Path
) -> None:
    svg = SVG.format(box, DRAWN[name]).encode()
    picture = taken(tmp_path, svg, "newt.svg")
    assert isinstance(picture, Picture), picture
    assert b"nan" not in picture.pdf and not [n for n in picture.notes if "blank" not in n]
    if name not in UNCOMPARED:
        shown = printed(picture)
        assert apart(shown, by_resvg(svg, shown.size)) < 4


MASKS = {
    "a grey mask": '<rect x="20" y="20" width="60" height="60" fill="#808080"/>',
    "a mask that is black by default": '<rect width="100" height="50"/>',
    "a mask with a hole": '<rect width="100" height="100" fill="white"/><circle r="30"/>',
    "a mask of a class": '<style>.w{fill:#777}</style><rect class="w" width="99" height="50"/>',
}


@pytest.mark.parametrize("name", sorted(MASKS))
def test_a_mask_that_may_be_drawn_otherwise_is_told(name: str, tmp_path: Path) -> None:
    body = f'<mask id="m">{MASKS[name]}</mask>' + ALL.format('mask="url(#m)"')
    picture = taken(tmp_path, SVG.format(BOXES[0], body).encode(), "newt.svg")
    assert isinstance(picture, Picture)
    assert any("mask" in note for note in picture.notes)


BLANK = {
    "definitions alone": "<defs><rect width='90' height='90'/></defs>",
    "hidden": "<rect width='90' height='90' visibility='hidden'/>",
    "not displayed": "<style>rect{display:none}</style><rect width='90' height='90'/>",
    "see-through": "<rect width='90' height='90' opacity='0'/>",
    "outside": "<rect x='200' width='90' height='90'/>",
    "white": "<rect width='90' height='90' fill='#fff'/>",
}


@pytest.mark.parametrize("name", sorted(BLANK))
def test_a_blank_drawing_is_told(name: str, tmp_path: Path) -> None:
    picture = taken(tmp_path, SVG.format(BOXES[0], BLANK[name]).encode(), "newt.svg")
    if isinstance(picture, Picture):
        assert any("blank" in note for note in picture.notes)
    else:
        assert "draws nothing" in picture.message


@pytest.mark.parametrize("form", ["PNG", "JPEG", "GIF", "WEBP", "TIFF"])
def test_a_blank_raster_is_told_and_one_with_a_pale_line_is_not(form: str, tmp_path: Path) -> None:
    image = Image.new("RGB", (200, 160), "white")
    for blank in (True, False):
        stream = io.BytesIO()
        if not blank:
            image.paste((200, 200, 200), (40, 40, 120, 60))
        image.save(stream, form)
        picture = taken(tmp_path, stream.getvalue(), f"newt.{form.lower()}")
        assert isinstance(picture, Picture)
        assert any("blank" in note for note in picture.notes) == blank


def cmyk(mark: bool) -> bytes:
    """A CMYK JPEG, pale blue; Pillow writes Adobe's mark, and inverts as it says."""
    image = Image.new("CMYK", (64, 64), (60, 20, 0, 0))
    image.paste((0, 0, 0, 200), (16, 16, 48, 48))
    stream = io.BytesIO()
    image.save(stream, "JPEG", quality=95)
    data = stream.getvalue()
    at = data.index(b"\xff\xee")
    return data if mark else data[:at] + data[at + 2 + int.from_bytes(data[at + 2 : at + 4]) :]


@pytest.mark.parametrize("mark", [True, False])
def test_four_colours_are_inverted_whether_adobe_says_so_or_not(mark: bool, tmp_path: Path) -> None:
    picture = taken(tmp_path, cmyk(mark), "newt.jpg")
    assert isinstance(picture, Picture)
    assert picture.inverted


def tiff(values: np.ndarray, from_white: bool = False) -> bytes:
    stream = io.BytesIO()
    tags = TiffImagePlugin.ImageFileDirectory_v2()
    Image.fromarray(values).save(stream, "TIFF", tiffinfo=tags)
    data = bytearray(stream.getvalue())
    if from_white:  # tag 262, SHORT, one value: 1 (black is zero) becomes 0 (TIFF 6.0)
        entry = data.index(b"\x06\x01\x03\x00\x01\x00\x00\x00")
        data[entry + 8 : entry + 10] = b"\0\0"
    return bytes(data)


RAMP = np.linspace(0.0, 1.0, 64 * 64).reshape(64, 64)


@pytest.mark.parametrize(
    ("values", "from_white"),
    [
        ((RAMP * 65535).astype(np.uint16), False),
        (((1 - RAMP) * 65535).astype(np.uint16), True),
        (RAMP.astype(np.float32), False),
        ((RAMP * 255).astype(np.float32), False),
        ((RAMP * 65535).astype(np.float32), False),
        ((RAMP * 65535).astype(np.int32), False),
        ((RAMP * 255).astype(np.uint8), False),
    ],
)
def test_greys_of_any_depth_run_from_black_to_white(
    values: np.ndarray, from_white: bool, tmp_path: Path
) -> None:
    picture = taken(tmp_path, tiff(values, from_white), "newt.tif")
    assert isinstance(picture, Picture)
    expected = Image.fromarray((RAMP * 255).astype(np.uint8)).convert("RGB")
    assert apart(printed(picture), expected) < 3


def photograph() -> bytes:
    rng = np.random.default_rng(1)
    coarse = Image.fromarray(rng.integers(0, 255, (40, 30, 3), dtype=np.uint8))
    stream = io.BytesIO()
    coarse.resize((600, 800), Image.Resampling.BICUBIC).save(stream, "JPEG", quality=85)
    return stream.getvalue()


@pytest.mark.parametrize("kept", [0.3, 0.5, 0.8])
def test_a_photograph_that_loses_the_rest_of_its_scan_is_told(kept: float, tmp_path: Path) -> None:
    whole = photograph()
    scan = whole.index(b"\xff\xda")
    spoilt = whole[: scan + int((len(whole) - scan) * kept)].rstrip(b"\xff") + b"\xff\xd9"
    picture = taken(tmp_path, spoilt, "newt.jpg")
    assert isinstance(picture, Picture)
    (note,) = picture.notes
    share = int(note.split("%")[0].rsplit(" ", 1)[1]) / 100
    assert share == pytest.approx(1 - kept, abs=0.1)


def with_flat_end(colour: str) -> bytes:
    image = Image.open(io.BytesIO(photograph()))
    image.paste(Image.new("RGB", (600, 300), colour), (0, 500))
    stream = io.BytesIO()
    image.save(stream, "JPEG", quality=85)
    return stream.getvalue()


@pytest.mark.parametrize("data", [photograph(), with_flat_end("white"), with_flat_end("#456")])
def test_a_whole_photograph_is_not_told_to_break_off(data: bytes, tmp_path: Path) -> None:
    picture = taken(tmp_path, data, "newt.jpg")
    assert isinstance(picture, Picture)
    assert picture.notes == ()


def test_marks_of_colour_that_contradict_each_other_are_settled_as_decoders_settle_them(
    tmp_path: Path,
) -> None:
    """JFIF says YCbCr, Adobe's transform 0 says RGB: libjpeg goes by JFIF, some viewers do not."""
    data = photograph()
    adobe = b"\xff\xee\0\x0eAdobe\0\x64\0\0\0\0\0"
    at = 4 + int.from_bytes(data[4:6])
    odd = data[:at] + adobe + data[at:]
    picture = taken(tmp_path, odd, "newt.jpg")
    assert isinstance(picture, Picture)
    assert b"Adobe" not in picture.data
    assert apart(printed(picture), by_pillow(odd)) < 2


def test_see_through_groups_that_a_viewer_needs_minutes_for_are_refused(tmp_path: Path) -> None:
    groups = '<g opacity=".9"><path d="M0 0H100V90H0Z"/><path d="M0 0H99V80H0Z"/></g>' * 12_000
    found = taken(tmp_path, SVG.format(BOXES[0], groups).encode(), "newt.svg")
    assert isinstance(found, PictureFault)
    assert found.code == "art-too-large"
