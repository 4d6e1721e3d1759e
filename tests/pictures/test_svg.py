"""SVG as it is drawn, against a second renderer (resvg) and against plain facts."""

from __future__ import annotations

import io
from pathlib import Path

import cairosvg
import numpy as np
import pikepdf
import pypdfium2
import pytest
from PIL import Image, ImageFilter
from pypdf import PdfReader

from bookmaker.cache import MemoryCache
from bookmaker.model import Picture
from bookmaker.pictures import take_in
from tests.pictures.drawings import DRAWINGS
from tests.pictures.makers import BOX, SVG, encoded, near, picture, quarters
from tests.pictures.test_inside import uri

ACROSS = 300


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Picture]:
    """All drawings, taken in together: one child process draws them."""
    folder = tmp_path_factory.mktemp("drawings")
    paths = {}
    for name, body in DRAWINGS.items():
        paths[name] = folder / f"{name}.svg"
        paths[name].write_text(f"{BOX}{body}</svg>")
    taken = take_in(paths.values(), cache=MemoryCache())
    found = {name: taken[path] for name, path in paths.items()}
    assert all(isinstance(one, Picture) for one in found.values()), found
    return found  # type: ignore[return-value]


def rendered(found: Picture, across: int = ACROSS) -> Image.Image:
    """The picture's PDF on white, with pdfium, four times as fine and averaged."""
    page = pypdfium2.PdfDocument(found.pdf)[0]
    fine = page.render(scale=4 * across / page.get_width()).to_pil().convert("RGB")
    return fine.resize((across, round(across * found.height / found.width)), Image.Resampling.BOX)


def by_resvg(source: str, across: int = ACROSS) -> Image.Image:
    resvg = pytest.importorskip("resvg_py")
    data = bytes(resvg.svg_to_bytes(svg_string=source, width=across))
    layered = Image.open(io.BytesIO(data)).convert("RGBA")
    paper = Image.new("RGBA", layered.size, "white")
    return Image.alpha_composite(paper, layered).convert("RGB")


def apart(one: Image.Image, other: Image.Image) -> float:
    """The mean difference of two pictures' levels, 0 to 255, edges blurred."""
    assert one.size == other.size
    soft = [np.asarray(image.filter(ImageFilter.GaussianBlur(1)), float) for image in (one, other)]
    return float(np.abs(soft[0] - soft[1]).mean())


@pytest.mark.parametrize("name", sorted(DRAWINGS))
def test_two_renderers_agree(drawn: dict[str, Picture], name: str) -> None:
    original = by_resvg(f"{BOX}{DRAWINGS[name]}</svg>")
    assert apart(rendered(drawn[name]), original) < 1.5, name
    assert np.asarray(original).min() < 200


@pytest.mark.parametrize("name", sorted(DRAWINGS))
def test_the_screened_source_shows_the_same(drawn: dict[str, Picture], name: str) -> None:
    original = by_resvg(f"{BOX}{DRAWINGS[name]}</svg>")
    assert apart(by_resvg(drawn[name].data.decode()), original) < 0.5


@pytest.mark.parametrize("name", sorted(DRAWINGS))
def test_art_stays_vector(drawn: dict[str, Picture], name: str) -> None:
    """No image XObject in the page's PDF (ISO 32000-1, 8.9.5), whatever it is drawn with."""
    assert b"/Subtype /Image" not in drawn[name].pdf


def test_the_page_is_the_picture_and_its_longer_side_a_thousand_points(tmp_path: Path) -> None:
    for view, size in (("0 0 100 50", (1000, 500)), ("-1 -1 2 8", (250, 1000))):
        data = f'{SVG} viewBox="{view}"><rect width="1" height="1"/></svg>'.encode()
        found = picture(tmp_path, data, "newt.svg")
        page = PdfReader(io.BytesIO(found.pdf)).pages[0]
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size)


def test_tiny_units_are_drawn_as_exactly_as_large_ones(tmp_path: Path) -> None:
    pages = []
    for scale in (0.001, 1.0, 1000.0):
        body = f'<circle cx="{37 * scale}" cy="{21 * scale}" r="{11.3 * scale}" fill="teal"/>'
        data = f'{SVG} viewBox="0 0 {100 * scale} {60 * scale}">{body}</svg>'.encode()
        pages.append(rendered(picture(tmp_path, data, "newt.svg")))
    assert apart(pages[0], pages[1]) < 0.05
    assert apart(pages[2], pages[1]) < 0.05


def test_a_view_that_does_not_start_at_nought_is_shown_whole(tmp_path: Path) -> None:
    data = f'{SVG} viewBox="-50 -30 100 60"><circle r="20" fill="#c00000"/></svg>'.encode()
    found = rendered(picture(tmp_path, data, "newt.svg"))
    assert near(found, 0.5, 0.5, (192, 0, 0), 4)
    assert near(found, 0.1, 0.1, (255, 255, 255), 0)


def test_units_are_those_of_css(tmp_path: Path) -> None:
    data = f'{SVG} width="10cm" height="60mm"><rect width="1in" height="36pt"/></svg>'.encode()
    found = picture(tmp_path, data, "newt.svg")
    assert (found.width, found.height) == pytest.approx((10 / 2.54 * 96, 6 / 2.54 * 96))
    page = np.asarray(rendered(found).convert("L")) < 128
    assert page.any(axis=0).sum() / page.shape[1] == pytest.approx(2.54 / 10, abs=0.006)
    assert page.any(axis=1).sum() / page.shape[0] == pytest.approx(1.27 / 6, abs=0.006)


@pytest.mark.parametrize("size", ["", ' width="100%" height="100%"', ' width="100"'])
def test_art_that_says_no_size_is_as_large_as_what_it_draws(tmp_path: Path, size: str) -> None:
    body = '<rect x="10" y="10" width="190" height="90" fill="#008080"/>'
    found = picture(tmp_path, f"{SVG}{size}>{body}</svg>".encode(), "newt.svg")
    assert (found.width, found.height) == pytest.approx((200, 100), abs=1)
    assert "says no size" in found.notes[0]
    assert near(rendered(found), 0.97, 0.9, (0, 128, 128), 2)


def test_a_size_of_another_shape_than_the_view_is_told(tmp_path: Path) -> None:
    body = '<rect width="100" height="60"/></svg>'
    bent = f'{SVG} viewBox="0 0 100 60" width="100" height="100">{body}'
    straight = f'{SVG} viewBox="0 0 100 60" width="5cm" height="3cm">{body}'
    assert "another shape" in picture(tmp_path, bent.encode(), "bent.svg").notes[0]
    assert picture(tmp_path, straight.encode(), "straight.svg").notes == ()


def test_a_size_in_a_style_does_not_bend_the_picture(tmp_path: Path) -> None:
    data = (
        f'{SVG} viewBox="0 0 100 60" style="width:50%;height:900px"><style>svg{{width:7px}}</style>'
        '<rect width="50" height="60" fill="#008000"/></svg>'
    )
    found = rendered(picture(tmp_path, data.encode(), "newt.svg"))
    assert near(found, 0.48, 0.95, (0, 128, 0), 2)
    assert near(found, 0.52, 0.5, (255, 255, 255), 2)


def test_a_style_sheet_that_cannot_be_read_is_left_out_and_told(tmp_path: Path) -> None:
    body = '<style>rect::::x{fill:red}</style><rect width="50" height="60" fill="#008000"/>'
    for view in (BOX, f"{SVG}>"):
        found = picture(tmp_path, f"{view}{body}</svg>".encode(), "newt.svg")
        assert "style sheet that can't be read" in found.notes[0]
        assert near(rendered(found), 0.2, 0.5, (0, 128, 0), 2)


def test_a_small_picture_inside_is_drawn(tmp_path: Path) -> None:
    body = f'<image x="10" y="6" width="48" height="32" href="{uri(encoded(quarters(), "PNG"))}"/>'
    found = rendered(picture(tmp_path, f"{BOX}{body}</svg>".encode(), "newt.svg"))
    assert near(found, 0.22, 0.2, (220, 30, 30), 4)
    assert near(found, 0.46, 0.5, (230, 200, 20), 4)


def test_the_same_art_gives_the_same_bytes(tmp_path: Path) -> None:
    data = f'{BOX}<text x="5" y="30">newt</text><circle r="9" opacity=".5"/></svg>'.encode()
    first, second = (picture(tmp_path, data, "newt.svg") for _ in range(2))
    assert first == second
    with pikepdf.open(io.BytesIO(first.pdf)) as opened:  # some cairos pack what stands in there
        assert str(opened.docinfo.CreationDate).removeprefix("D:") == "20000101000000Z"


def test_a_viewbox_that_begins_elsewhere_is_drawn_alike_inside_another_svg(tmp_path: Path) -> None:
    """By cairosvg, which forgets where the viewBox of an SVG inside another begins."""
    body = '<rect x="40" y="-20" width="30" height="20" fill="#a03020"/>'
    (tmp_path / "newt.svg").write_text(f"{SVG} viewBox='10 -50 80 60'>{body}</svg>")
    found = take_in([tmp_path / "newt.svg"], cache=MemoryCache())[tmp_path / "newt.svg"]
    assert isinstance(found, Picture)
    inside = f'<image width="80" height="60" href="{uri(found.data, "image/svg+xml")}"/>'
    page = f"{SVG} viewBox='0 0 80 60'>{inside}</svg>"
    png = cairosvg.svg2png(bytestring=page.encode(), output_width=160, background_color="white")
    shown = np.asarray(Image.open(io.BytesIO(png)).convert("L"))
    rows, columns = np.nonzero(shown < 200)
    assert (columns.min(), columns.max() + 1) == (60, 120)
    assert (rows.min(), rows.max() + 1) == (60, 100)


def test_a_drawing_that_is_lost_on_a_large_sheet_is_trimmed_to_what_is_drawn(
    tmp_path: Path,
) -> None:
    hen = '<rect x="60" y="120" width="60" height="80" fill="#753"/>'
    data = f'{SVG} viewBox="0 0 200 300">{hen}</svg>'.encode()
    trim = picture(tmp_path, data, "hen.svg").trim
    assert (trim.x, trim.right) == pytest.approx((0.3, 0.6), abs=0.035)
    assert (trim.y, trim.bottom) == pytest.approx((0.4, 2 / 3), abs=0.025)
    assert trim.x <= 0.3
    assert trim.bottom >= 2 / 3


@pytest.mark.parametrize(
    "body",
    [
        '<rect x="25" y="50" width="150" height="200" fill="#753"/>',
        '<rect x="60" y="120" width="60" height="80" fill="#753"/>',
        '<circle cx="60" cy="200" r="40" fill="#9c6"/>',
    ],
)
def test_a_margin_is_cut_off_a_drawing_as_off_its_own_picture(tmp_path: Path, body: str) -> None:
    data = f'{SVG} viewBox="0 0 200 300">{body}</svg>'.encode()
    trim = picture(tmp_path, data, "hen.svg").trim
    png = cairosvg.svg2png(bytestring=data, output_width=800, background_color="white")
    raster = picture(tmp_path, png, "hen.png").trim
    for side in ("x", "y", "right", "bottom"):
        assert getattr(trim, side) == pytest.approx(getattr(raster, side), abs=0.005)


def test_a_drawing_that_fills_its_sheet_is_kept_whole(tmp_path: Path) -> None:
    body = '<rect width="200" height="300" fill="#adf"/><circle cx="100" cy="150" r="20"/>'
    data = f'{SVG} viewBox="0 0 200 300">{body}</svg>'.encode()
    trim = picture(tmp_path, data, "hen.svg").trim
    assert (trim.x, trim.y, trim.width, trim.height) == (0, 0, 1, 1)
