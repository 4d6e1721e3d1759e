"""Files of every kind that a teacher drops in the folder."""

import io
from collections.abc import Iterator
from pathlib import Path

import img2pdf
import numpy as np
import pillow_heif
import pytest
from PIL import Image
from pypdf import PdfReader, PdfWriter

from bookmaker.scanning.sources import Source, count_pictures, open_picture, open_pictures


def noise(width: int = 400, height: int = 300, seed: int = 0) -> Image.Image:
    """A soft pattern that lossy formats keep."""
    small = np.random.default_rng(seed).integers(0, 256, (6, 8, 3)).astype(np.uint8)
    return Image.fromarray(small).resize((width, height), Image.Resampling.BICUBIC)


def packed(picture: Image.Image, kind: str, **how: object) -> bytes:
    out = io.BytesIO()
    picture.save(out, kind, **how)
    return out.getvalue()


def far_apart(source: Source, picture: Image.Image) -> float:
    assert source.picture is not None
    seen = np.asarray(source.picture.convert("RGB").resize(picture.size), float)
    return float(np.abs(seen - np.asarray(picture.convert("RGB"))).mean())


def pages(path: Path) -> Iterator[Source]:
    yield from open_pictures(path)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
def test_a_picture_is_read_whatever_its_name_says(kind: str, tmp_path: Path) -> None:
    file = tmp_path / "scan.dat"
    file.write_bytes(packed(noise(), kind))
    (source,) = pages(file)
    assert (source.file, source.page, source.trouble) == ("scan.dat", 0, "")
    assert far_apart(source, noise()) < 3


def test_a_telephones_heic_is_read(tmp_path: Path) -> None:
    file = tmp_path / "photo.heic"
    pillow_heif.from_pillow(noise()).save(file, quality=90)
    (source,) = pages(file)
    assert far_apart(source, noise()) < 4


def test_every_frame_of_a_tiff_is_a_picture(tmp_path: Path) -> None:
    file, frames = tmp_path / "copier.tif", [noise(seed=seed) for seed in range(3)]
    frames[0].save(file, "TIFF", save_all=True, append_images=frames[1:])
    sources = list(pages(file))
    assert [source.page for source in sources] == [1, 2, 3]
    assert all(far_apart(s, frame) < 1 for s, frame in zip(sources, frames, strict=True))


def test_a_pdf_gives_its_jpegs_as_they_are(tmp_path: Path) -> None:
    file, frames = tmp_path / "copier.pdf", [noise(seed=seed) for seed in range(3)]
    file.write_bytes(img2pdf.convert([packed(frame, "JPEG", quality=95) for frame in frames]))
    sources = list(pages(file))
    assert [source.page for source in sources] == [1, 2, 3]
    for source, frame in zip(sources, frames, strict=True):
        assert source.picture is not None and source.picture.format == "JPEG"
        assert source.picture.size == frame.size and far_apart(source, frame) < 3


def test_a_pdf_in_black_and_white_is_drawn(tmp_path: Path) -> None:
    file, page = tmp_path / "copier.pdf", noise(800, 1000).convert("1")
    file.write_bytes(img2pdf.convert(packed(page, "TIFF", compression="group4")))
    (source,) = pages(file)
    assert source.picture is not None
    assert far_apart(source, page) < 40


def test_a_page_in_strips_becomes_one_picture(tmp_path: Path) -> None:
    file, whole = tmp_path / "strips.pdf", noise(800, 1000)
    strips = [whole.crop((0, top, 800, top + 250)) for top in range(0, 1000, 250)]
    file.write_bytes(_stacked([packed(strip, "JPEG", quality=95) for strip in strips]))
    (source,) = pages(file)
    assert source.picture is not None
    assert far_apart(source, whole) < 4


def test_a_page_without_a_picture_is_said_to_be_one(tmp_path: Path) -> None:
    file, writer = tmp_path / "letter.pdf", PdfWriter()
    for _ in range(3):
        writer.add_blank_page(595, 842)
    writer.write(file)
    assert list(pages(file)) == [
        Source("letter.pdf", page, None, "not-a-picture") for page in (1, 2, 3)
    ]


def test_a_locked_pdf_is_said_to_be_one(tmp_path: Path) -> None:
    file, writer = tmp_path / "locked.pdf", PdfWriter()
    writer.add_blank_page(595, 842)
    writer.encrypt("secret")
    writer.write(file)
    assert list(pages(file)) == [Source("locked.pdf", 0, None, "locked")]


@pytest.mark.parametrize(
    ("name", "data", "trouble"),
    [
        ("film.mp4", b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom" + b"\0" * 500, "not-a-picture"),
        ("notes.txt", b"buy more paper", "not-a-picture"),
        ("empty.jpg", b"", "not-a-picture"),
        ("broken.pdf", b"%PDF-1.7\nnothing more", "damaged"),
    ],
)
def test_what_is_no_picture_is_said_to_be_none(
    name: str, data: bytes, trouble: str, tmp_path: Path
) -> None:
    (tmp_path / name).write_bytes(data)
    assert list(pages(tmp_path / name)) == [Source(name, 0, None, trouble)]  # type: ignore[arg-type]


def test_a_missing_file_and_a_folder_are_said_to_be_that(tmp_path: Path) -> None:
    assert list(pages(tmp_path / "gone.jpg")) == [Source("gone.jpg", 0, None, "missing")]
    assert next(pages(tmp_path)).trouble == "damaged"


def test_a_file_that_may_not_be_read_is_said_to_be_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    assert list(pages(tmp_path / "a.jpg")) == [Source("a.jpg", 0, None, "forbidden")]


def test_a_picture_that_would_fill_the_memory_is_not_opened(tmp_path: Path) -> None:
    file = tmp_path / "huge.png"
    file.write_bytes(packed(Image.new("1", (12_000, 12_000)), "PNG"))
    assert list(pages(file)) == [Source("huge.png", 0, None, "too-large")]


def test_a_very_fine_jpeg_is_decoded_at_half_its_size() -> None:
    picture = open_picture(packed(Image.new("L", (7200, 900), 200), "JPEG"))
    assert picture.size == (3600, 450)


def _stacked(jpegs: list[bytes]) -> bytes:
    """A PDF page of JPEG strips, the first on top, as some copiers write it."""
    reader = PdfReader(io.BytesIO(img2pdf.convert(jpegs)))
    writer = PdfWriter()
    whole = writer.add_blank_page(
        reader.pages[0].mediabox.width, 4 * reader.pages[0].mediabox.height
    )
    for place, page in enumerate(reader.pages):
        whole.merge_translated_page(page, 0, (3 - place) * float(page.mediabox.height))
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def test_pictures_are_counted_before_any_is_looked_at(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(img2pdf.convert([packed(noise(), "JPEG")] * 3))
    (tmp_path / "b.jpg").write_bytes(packed(noise(), "JPEG"))
    (tmp_path / "c.pdf").write_bytes(b"%PDF-1.7 and no more")
    counts = [count_pictures(tmp_path / name) for name in ("a.pdf", "b.jpg", "c.pdf", "gone.jpg")]
    assert counts == [3, 1, 1, 1]
