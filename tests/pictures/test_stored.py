"""Pictures stay in their files: what is read from there later is what was taken in."""

from __future__ import annotations

import hashlib
import io
import os
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops, ImageStat

from bookmaker.cache import FolderCache, MemoryCache
from bookmaker.model import InputProblems, Picture
from bookmaker.pictures import at_size, look, take_in
from bookmaker.pictures.stored import InFile, Opened, Part, joined, put_together
from tests.pictures.makers import encoded, photograph, picture

FILE = bytes(range(256))
PLACES = st.tuples(st.integers(0, 256), st.integers(0, 256)).map(lambda two: (min(two), max(two)))
PARTS = st.lists(st.one_of(st.binary(max_size=9), PLACES), max_size=12)


@settings(max_examples=60)
@given(PARTS)
def test_parts_joined_are_the_same_bytes_in_fewer_parts(parts: list[Part]) -> None:
    found = joined(parts)
    assert put_together(found, FILE) == put_together(parts, FILE)
    assert len(found) <= len(parts)


@settings(max_examples=30)
@given(parts=PARTS)
def test_bytes_read_from_a_file_are_those_of_its_parts(
    tmp_path_factory: pytest.TempPathFactory, parts: list[Part]
) -> None:
    path = tmp_path_factory.mktemp("files") / "newt"
    path.write_bytes(FILE)
    known = path.stat()
    lying = Opened(path, (known.st_size, known.st_mtime_ns), FILE).lying(parts)
    assert lying.read() == put_together(parts, FILE)
    assert lying.size == len(lying.read())


@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_a_raster_that_is_printed_as_it_is_is_not_held(tmp_path: Path, form: str) -> None:
    data = encoded(photograph(300, 200), form)
    found = picture(tmp_path, data, f"newt.{form.lower()}")
    assert isinstance(found.stored, InFile)
    assert sum(len(part) for part in found.stored.parts if isinstance(part, bytes)) < 200
    assert hashlib.sha256(found.data).hexdigest() == found.digest
    assert Image.open(io.BytesIO(found.data)).tobytes() == Image.open(io.BytesIO(data)).tobytes()


def test_what_the_cache_knows_of_a_photograph_is_not_its_bytes(tmp_path: Path) -> None:
    path = tmp_path / "newt.jpg"
    path.write_bytes(encoded(photograph(600, 400), "JPEG"))
    cache = FolderCache(tmp_path / "kept")
    first = take_in([path], cache=cache)[path]
    assert sum(file.stat().st_size for file in (tmp_path / "kept").iterdir()) < 2000
    assert take_in([path], cache=cache)[path] == first


@pytest.mark.parametrize("orientation", [1, 6])
def test_a_large_photograph_is_looked_at_without_its_file(tmp_path: Path, orientation: int) -> None:
    path, exif = tmp_path / "newt.jpg", Image.Exif()
    exif[274] = orientation
    image = photograph(300, 200).resize((2400, 1600))
    image.save(path, exif=exif)
    cache = FolderCache(tmp_path / "kept")
    first = take_in([path], cache=cache)[path]
    assert isinstance(first, Picture)
    assert sum(file.stat().st_size for file in (tmp_path / "kept").iterdir()) < 60_000
    assert take_in([path], cache=cache)[path] == first
    known = look(replace(first, glance=b""), "RGB", 288)
    path.unlink()
    seen = look(first, "RGB", 288)
    assert seen.size == known.size
    apart = ImageChops.difference(seen, known)
    assert max(ImageStat.Stat(apart).mean) < 4


def test_the_same_photograph_in_two_files_is_read_from_each(tmp_path: Path) -> None:
    data = encoded(photograph(300, 200), "JPEG")
    cache = MemoryCache()
    paths = [tmp_path / "newt.jpg", tmp_path / "eft.jpg"]
    for path in paths:
        path.write_bytes(data)
        found = take_in([path], cache=cache)[path]
        assert isinstance(found, Picture)
        assert found.data == data
    paths[0].unlink()
    assert found.data == data


@pytest.mark.parametrize("how", ["changed", "gone"])
def test_a_picture_that_changes_meanwhile_is_a_problem_of_the_input(
    tmp_path: Path, how: str
) -> None:
    found = picture(tmp_path, encoded(photograph(300, 200), "JPEG"), "newt.jpg")
    path = tmp_path / "newt.jpg"
    if how == "gone":
        path.unlink()
    else:
        os.utime(path, ns=(0, 0))
    with pytest.raises(InputProblems) as caught:
        _ = found.data
    (problem,) = caught.value.problems
    assert (problem.file, problem.code) == ("newt.jpg", "art-unreadable")


def test_a_picture_brought_down_is_kept_by_the_cache_alone(tmp_path: Path) -> None:
    found = picture(tmp_path, encoded(photograph(1200, 900), "JPEG"), "newt.jpg")
    cache = MemoryCache()
    down = at_size(found, 20, cache=cache)
    assert not isinstance(down.stored, bytes)
    assert down.stored.size == len(down.data)
    assert hashlib.sha256(down.data).hexdigest() == down.digest
    cache._kept.clear()  # a cache may forget at any time
    assert hashlib.sha256(down.data).hexdigest() == down.digest
