"""The press: what is printed is what was laid out, each picture once, and nothing of a camera's."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image, ImageOps
from pypdf import PdfReader

from bookmaker.cache import MemoryCache
from bookmaker.model import (
    Box,
    Frame,
    InternalLink,
    Line,
    Picture,
    PlacedArt,
    PlacedLink,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Rule,
)
from bookmaker.pdf import INKS, Document, FinishedFileFault, check_pdf, press
from bookmaker.pdf.svg_page import page_svg
from bookmaker.pictures import standing_alone, take_in

DOCUMENT = Document("Down the river", "en", author="a founder")
DOTS = {(10, 10): (200, 30, 30), (90, 20): (30, 160, 30), (30, 85): (30, 30, 200)}
"""Per cent of the picture's width and height, and the colour of the dot there."""


def dotted(width: int = 600, height: int = 800) -> Image.Image:
    picture = Image.new("RGB", (width, height), (240, 232, 210))
    for (x, y), colour in DOTS.items():
        left, top = round(x / 100 * width), round(y / 100 * height)
        picture.paste(colour, (left - 20, top - 20, left + 20, top + 20))
    return picture


def taken(path: Path) -> Picture:
    picture = take_in([path], cache=MemoryCache())[path]
    assert isinstance(picture, Picture), picture
    return picture


def page_of(picture: Picture, name: str = "page-newt") -> PlacedPage:
    box = Box(20, 40, 150, 150 * picture.height / picture.width)
    spots = tuple(
        PlacedSpot(f"s{i}", box.x + x / 100 * box.width, box.y + y / 100 * box.height, 10)
        for i, (x, y) in enumerate(((50, 50), (80, 80)))
    )
    link = PlacedLink("s0-s1", ((102.0, 147.0), (120.0, 150.0), (130.0, 180.0), (133.0, 193.0)))
    items = (
        PlacedArt(picture.digest, box, box, "a newt"),
        Line(20, 30, "A newt looks back", 30, "title", "start", "title", "H1"),
        link,
        PlacedTag("s0-s1", Box(112, 160, 15, 12)),
        *spots,
        Line(180, 280, "Frame 1Il 69", 16, "strong", "end", "body"),
        Frame(Box(20, 260, 10, 10), "number-box", 1.5),
        Rule((40, 270), (120, 270), "write"),
        InternalLink(Box(20, 20, 50, 10), name),
    )
    return PlacedPage(name, 210, 297, items, "1", (0, name))


def printed(
    pages: list[PlacedPage], pictures: list[Picture], folder: Path, ink: str = "full"
) -> bytes:
    by_digest = {picture.digest: picture for picture in pictures}
    return bytes(press(pages, INKS[ink], by_digest, DOCUMENT, MemoryCache()))


def rendered(pdf: bytes, page: int = 0, dots_per_mm: float = 4) -> np.ndarray:
    found = pypdfium2.PdfDocument(pdf)
    picture = found[page].render(scale=dots_per_mm * 25.4 / 72).to_pil().convert("RGB")
    found.close()
    return np.asarray(picture, dtype=float)


def save_jpeg(path: Path, **options: object) -> Path:
    dotted().save(path, quality=90, **options)
    return path


def test_a_printed_page_and_its_svg_are_the_same_picture(tmp_path: Path) -> None:
    """Reference: the SVG drawn by cairosvg, the PDF by PDFium: two renderers of their own."""
    import cairosvg

    picture = taken(save_jpeg(tmp_path / "newt.jpg"))
    page = page_of(picture)
    pdf = rendered(printed([page], [picture], tmp_path))
    svg = page_svg(page, INKS["full"], {picture.digest: (*standing_alone(picture), 0.3)})
    png = cairosvg.svg2png(
        bytestring=svg.encode(), output_width=pdf.shape[1], output_height=pdf.shape[0]
    )
    drawn = np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=float)
    assert pdf.shape == drawn.shape
    assert np.abs(pdf - drawn).mean() < 2.0
    assert (np.abs(pdf - drawn).max(axis=2) > 128).mean() < 0.004


@pytest.mark.parametrize("orientation", range(1, 9))
def test_photographs_are_printed_upright(orientation: int, tmp_path: Path) -> None:
    """EXIF 2.3 (JEITA CP-3451), tag 0x0112; reference: Pillow's ImageOps.exif_transpose."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = save_jpeg(tmp_path / "newt.jpg", exif=exif)
    upright = ImageOps.exif_transpose(Image.open(path))
    picture = taken(path)
    page = page_of(picture)
    box = page.items[0].box  # type: ignore[union-attr]
    found = rendered(printed([page], [picture], tmp_path))
    for x, y in ((0.1, 0.1), (0.9, 0.1), (0.1, 0.9), (0.9, 0.9), (0.2, 0.9), (0.9, 0.3)):
        there = upright.getpixel((int(x * upright.width), int(y * upright.height)))
        printed_at = found[int((box.y + y * box.height) * 4), int((box.x + x * box.width) * 4)]
        assert printed_at == pytest.approx(there, abs=12)


def test_a_jpeg_goes_in_as_it_is_and_without_its_metadata(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010F] = "A telephone of somebody"
    path = save_jpeg(tmp_path / "newt.jpg", exif=exif)
    picture = taken(path)
    pdf = printed([page_of(picture)], [picture], tmp_path)
    scan = path.read_bytes()
    tail = scan[scan.index(b"\xff\xda") :]
    assert tail in pdf
    assert b"A telephone" not in pdf


def test_a_picture_stands_in_the_file_once_however_many_pages_show_it(tmp_path: Path) -> None:
    picture = taken(save_jpeg(tmp_path / "newt.jpg"))
    pages = [page_of(picture, f"page-{number}") for number in range(5)]
    pdf = printed(pages, [picture], tmp_path)
    assert pdf.count(b"/DCTDecode") == pdf.count(b"/Image") == 1


def test_every_way_of_being_a_raster_is_printed_in_its_colours(tmp_path: Path) -> None:
    kinds = {
        "rgb.png": dotted(),
        "grey.png": dotted().convert("L"),
        "palette.png": dotted().convert("P"),
        "grey.jpg": dotted().convert("L"),
        "cmyk.jpg": dotted().convert("CMYK"),
        "newt.webp": dotted(),
        "newt.tif": dotted(),
        "newt.bmp": dotted(),
        "newt.gif": dotted(),
    }
    for name, image in kinds.items():
        image.save(tmp_path / name)
        picture = taken(tmp_path / name)
        page = page_of(picture)
        box = page.items[0].box  # type: ignore[union-attr]
        found = rendered(printed([page], [picture], tmp_path))
        for (x, y), colour in DOTS.items():
            at = found[
                int((box.y + y / 100 * box.height) * 4), int((box.x + x / 100 * box.width) * 4)
            ]
            expected = np.asarray(colour, dtype=float)
            if "grey" in name:
                expected = np.full(
                    3, Image.new("RGB", (1, 1), colour).convert("L").getpixel((0, 0))
                )
            close = 80 if "cmyk" in name else 30  # renderers differ in their four-colour recipes
            assert np.abs(at - expected).max() < close, name


def test_the_file_is_sound_and_says_its_words_with_their_spaces(tmp_path: Path) -> None:
    """qpdf checks the file, poppler reads its structure (ISO 32000-1, 14.7 and 14.8)."""
    picture = taken(save_jpeg(tmp_path / "newt.jpg"))
    file = tmp_path / "book.pdf"
    file.write_bytes(printed([page_of(picture)], [picture], tmp_path))
    if shutil.which("qpdf"):
        checked = subprocess.run(
            ["qpdf", "--check", file], capture_output=True, text=True, check=False
        )
        assert checked.returncode == 0, checked.stdout + checked.stderr
    if shutil.which("pdfinfo"):
        told = subprocess.run(
            ["pdfinfo", "-struct-text", file], capture_output=True, text=True, check=True
        ).stdout
        assert "A newt looks back" in told
        facts = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
        assert re.search(r"Tagged:\s+yes", facts)
        assert "H1" in told
    elements = PdfReader(file).trailer["/Root"]["/StructTreeRoot"]  # type: ignore[index]
    assert "a newt" in _alts(elements)


def _alts(element: object) -> str:
    found = element.get_object()  # type: ignore[attr-defined]
    if isinstance(found, list):
        return " ".join(_alts(kid) for kid in found)
    if not hasattr(found, "get"):
        return ""
    kids = found.get("/K")
    return str(found.get("/Alt", "")) + (_alts(kids) if kids is not None else "")


def test_faces_are_embedded_as_subsets_and_once_for_the_whole_book(tmp_path: Path) -> None:
    picture = taken(save_jpeg(tmp_path / "newt.jpg"))
    pages = [page_of(picture, f"page-{number}") for number in range(4)]
    reader = PdfReader(io.BytesIO(printed(pages, [picture], tmp_path)))
    names = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            names.add(font.get_object()["/BaseFont"])
    assert {name.partition("+")[2] for name in names} == {"Rowdies-Regular", "FiraSans-Bold"}


def test_a_file_that_is_not_what_was_laid_out_is_refused(tmp_path: Path) -> None:
    picture = taken(save_jpeg(tmp_path / "newt.jpg"))
    page = page_of(picture)
    pdf = printed([page], [picture], tmp_path)
    check_pdf(pdf, [page])
    with pytest.raises(FinishedFileFault, match="instead of 2"):
        check_pdf(pdf, [page, page])
    with pytest.raises(FinishedFileFault, match="large"):
        check_pdf(pdf, [PlacedPage(page.name, 200, 297, page.items)])
    with pytest.raises(FinishedFileFault, match="can't be opened"):
        check_pdf(pdf[: len(pdf) - 9], [page])
    with pytest.raises(FinishedFileFault, match="0 of its 1 pictures"):
        check_pdf(pdf[: pdf.index(b"%%EOF") + 6], [page])  # a place for the picture, and none
    bare = printed([page], [], tmp_path)
    with pytest.raises(FinishedFileFault, match="pictures"):
        check_pdf(bare, [page])
