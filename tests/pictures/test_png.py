"""PNG samples go into a PDF as they are, or are redrawn."""

from __future__ import annotations

import io
import zlib
from pathlib import Path

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import DictionaryObject, NameObject, NumberObject, StreamObject

from bookmaker.pictures import png_stream
from bookmaker.pictures.png import lift, read
from tests.pictures.makers import (
    bare_png,
    decoded,
    encoded,
    fault,
    photograph,
    picture,
    png_chunk,
    quarters,
    shows_quarters,
)


def idat(data: bytes) -> bytes:
    """The image data of a PNG whose samples lie in one chunk."""
    at = data.index(b"IDAT")
    return data[at + 4 : at + 4 + int.from_bytes(data[at - 4 : at], "big")]


@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_opaque_samples_are_kept_as_they_are(tmp_path: Path, mode: str) -> None:
    data = encoded(quarters().convert(mode), "PNG")
    found = picture(tmp_path, data)
    stream = png_stream(found)
    assert stream.data == idat(data)
    assert (stream.colours, stream.bits) == (len(mode.replace("L", "x")), 8)
    assert found.colours == stream.colours


@pytest.mark.parametrize("bits", [1, 2, 4])
def test_grey_of_few_bits_is_kept(tmp_path: Path, bits: int) -> None:
    row = b"\0" + bytes([0b01010101]) * (32 * bits // 8)
    data = bare_png(32, 20, bits, 0, zlib.compress(row * 20))
    assert png_stream(picture(tmp_path, data)).bits == bits


def test_text_and_trailing_data_stay_behind(tmp_path: Path) -> None:
    data = encoded(quarters(), "PNG")
    samples = idat(data)
    hidden = bare_png(96, 64, 8, 2, samples + b"hidden behind the stream")
    secret = png_chunk(b"tEXt", b"Author\0a pupil's name") + png_chunk(b"tIME", bytes(7))
    found = picture(tmp_path, hidden[:33] + secret + hidden[33:] + b"a pupil's name")
    assert b"pupil" not in found.data
    assert png_stream(found).data == samples


@pytest.mark.parametrize(
    "why", ["interlaced", "16 bits", "alpha", "palette", "see-through grey", "short samples"]
)
def test_what_a_pdf_could_not_take_is_not_lifted(why: str) -> None:
    samples = zlib.compress((b"\0" + bytes(32 * 3)) * 20)
    plain = bare_png(32, 20, 8, 2, samples)
    data = {
        "interlaced": plain[:28] + b"\1" + plain[29:],
        "16 bits": bare_png(32, 20, 16, 2, samples),
        "alpha": bare_png(32, 20, 8, 6, samples),
        "palette": bare_png(32, 20, 8, 3, samples),
        "see-through grey": plain[:33] + png_chunk(b"tRNS", bytes(6)) + plain[33:],
        "short samples": bare_png(32, 20, 8, 2, zlib.compress(b"\0" * 50)),
    }[why]
    assert lift(plain, read(plain)) is not None
    assert lift(data, read(data)) is None


def test_a_stream_that_swells_far_beyond_its_picture_is_not_followed() -> None:
    swollen = bare_png(32, 20, 8, 2, zlib.compress(bytes(300_000_000), 1))
    assert lift(swollen, read(swollen)) is None


def test_a_pdf_shows_the_lifted_samples(tmp_path: Path) -> None:
    """ISO 32000-1, 7.4.4.4: /Predictor 15 is PNG's own filtering; read back with pypdf."""
    found = picture(tmp_path, encoded(photograph(120, 90), "PNG"))
    samples = png_stream(found)
    image = StreamObject()
    image._data = samples.data
    parms = {"/Colors": samples.colours, "/BitsPerComponent": samples.bits, "/Columns": 120}
    parms["/Predictor"] = 15
    image[NameObject("/Filter")] = NameObject("/FlateDecode")
    image[NameObject("/DecodeParms")] = DictionaryObject(
        {NameObject(key): NumberObject(value) for key, value in parms.items()}
    )
    writer = PdfWriter()
    reference = writer._add_object(image)
    writer.root_object[NameObject("/Art")] = reference
    out = io.BytesIO()
    writer.write(out)
    read_back = PdfReader(io.BytesIO(out.getvalue())).root_object["/Art"].get_data()
    assert read_back == photograph(120, 90).tobytes()


@pytest.mark.parametrize("share", [0.1, 0.5, 0.95])
def test_a_png_that_breaks_off_is_refused(tmp_path: Path, share: float) -> None:
    whole = encoded(photograph(120, 90), "PNG")
    assert "cut off" in fault(tmp_path, whole[: int(len(whole) * share)]).message


def test_a_png_with_damaged_samples_is_refused(tmp_path: Path) -> None:
    damaged = bytearray(encoded(photograph(120, 90), "PNG"))
    damaged[len(damaged) // 2] ^= 0xFF
    assert fault(tmp_path, bytes(damaged)).code == "art-unreadable"


def test_a_redrawn_png_shows_the_same_picture(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(quarters().convert("RGBA"), "PNG"))
    assert png_stream(found).bits == 8
    assert shows_quarters(decoded(found), within=0)
