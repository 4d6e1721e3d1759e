"""Rasters stand in an update behind the file (ISO 32000-1, 7.5.6), and every reader finds them."""

from __future__ import annotations

import io
import shutil
import subprocess
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from pypdf import PdfReader

from bookmaker.pdf.pressed import Pressed, Raster, with_rasters

SQUARE = bytes(range(0, 192, 4)) * 3  # 12 x 12 pixels of one grey byte


class Lying:
    """Bytes that lie elsewhere, and a note of each time that they are read."""

    def __init__(self, data: bytes, size: int | None = None) -> None:
        self.data, self.size, self.times = data, len(data) if size is None else size, 0

    def read(self) -> bytes:
        self.times += 1
        return self.data


def file_with_placeholders(count: int) -> bytes:
    """A page for each raster, on which its placeholder is drawn."""
    with pikepdf.new() as pdf:
        for number in range(count):
            page = pdf.add_blank_page(page_size=(120, 120))
            placeholder = pikepdf.Stream(pdf, b"%d" % number, ColorSpace=pikepdf.Name.DeviceGray)
            page.Resources.XObject = pikepdf.Dictionary({f"/Art{number}": placeholder})
            page.Contents = pikepdf.Stream(pdf, f"120 0 0 120 0 0 cm /Art{number} Do".encode())
        pdf.trailer.Info = pdf.make_indirect(pikepdf.Dictionary(Title="squares"))
        out = io.BytesIO()
        pdf.save(out, deterministic_id=True)
    return out.getvalue()


def raster(stored: bytes | Lying) -> Raster:
    facts = {"/Type": pikepdf.Name.XObject, "/Subtype": pikepdf.Name.Image}
    return Raster(stored, {**facts, "/Width": 12, "/Height": 12, "/BitsPerComponent": 8})


@pytest.fixture
def three() -> bytes:
    rasters = {f"/Art{n}": raster(Lying(bytes([60 * n]) * 144)) for n in range(3)}
    return bytes(with_rasters(file_with_placeholders(3), rasters))


def test_qpdf_finds_no_fault_in_the_file(three: bytes, tmp_path: Path) -> None:
    if not shutil.which("qpdf"):
        pytest.skip("qpdf is not installed")
    (tmp_path / "three.pdf").write_bytes(three)
    command = ["qpdf", "--check", str(tmp_path / "three.pdf")]
    told = subprocess.run(command, capture_output=True, text=True, check=False)
    assert told.returncode == 0, told.stdout + told.stderr


def test_pypdf_reads_each_raster_from_its_own_page(three: bytes) -> None:
    reader = PdfReader(io.BytesIO(three), strict=True)
    for number, page in enumerate(reader.pages):
        image = page["/Resources"]["/XObject"][f"/Art{number}"]  # type: ignore[index]
        assert image.get_data() == bytes([60 * number]) * 144
    assert reader.metadata is not None
    assert reader.metadata.title == "squares"


def test_pdfium_draws_each_raster_on_its_own_page(three: bytes) -> None:
    found = pypdfium2.PdfDocument(three)
    for number in range(3):
        level = found[number].render(scale=0.5).to_pil().convert("L").getpixel((30, 30))
        assert level == pytest.approx(60 * number, abs=1)
    found.close()


def test_a_raster_that_lies_elsewhere_is_read_only_when_its_turn_comes() -> None:
    lying = Lying(SQUARE)
    pressed = with_rasters(file_with_placeholders(1), {"/Art0": raster(lying)})
    assert lying.times == 0
    assert SQUARE in bytes(pressed)
    assert lying.times == 1


def test_a_file_without_rasters_is_left_as_it_is() -> None:
    file = file_with_placeholders(1)
    assert bytes(with_rasters(file, {})) == file


def test_a_raster_of_another_length_than_announced_is_a_fault() -> None:
    with pytest.raises(RuntimeError, match="not made again"):
        bytes(Pressed((Lying(SQUARE, size=7),)))


@pytest.mark.parametrize(
    "identity", [b"_muZ\x7f_\xf6PV\xde{|^lwO", b"(\\)<>\r\n%abcdefgh", bytes(16)]
)
def test_a_file_s_id_may_be_any_bytes(identity: bytes) -> None:
    """The ID is a digest (ISO 32000-1, 14.4), and may be written as a string of its very bytes."""
    with pikepdf.open(io.BytesIO(file_with_placeholders(1))) as pdf:
        pdf.trailer.ID = pikepdf.Array([pikepdf.String(identity), pikepdf.String(identity)])
        out = io.BytesIO()
        pdf.save(out, static_id=False)
    written = out.getvalue()
    with pikepdf.open(io.BytesIO(written)) as pdf:
        before = [bytes(each) for each in pdf.trailer.ID]  # the first is kept by whoever saves it
    assert before[0] == identity
    made = bytes(with_rasters(written, {"/Art0": raster(bytes(144))}))
    with pikepdf.open(io.BytesIO(made)) as pdf:
        assert [bytes(each) for each in pdf.trailer.ID] == before
        assert pdf.pages[0].Resources.XObject["/Art0"].read_bytes() == bytes(144)
