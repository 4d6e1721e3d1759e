"""Pictures go into bytes and come back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.cache import MemoryCache
from bookmaker.model import Box, Picture
from bookmaker.pictures.packing import make, pack, recall, unpack
from bookmaker.pictures.stored import Opened

SHARES = st.floats(0, 1)
PICTURES = st.builds(
    lambda form, size, trim, data, notes, extras: Picture(
        form, *size, Box(*trim), data, make(form, 1, 1, data).digest, extras[0], tuple(notes),
        extras[1], extras[2], extras[3], extras[1][::-1], glance=extras[1] * 2,
    ),
    st.sampled_from(["svg", "jpeg", "png"]),
    st.tuples(st.floats(1e-3, 1e6), st.floats(1e-3, 1e6)),
    st.tuples(SHARES, SHARES, SHARES, SHARES),
    st.binary(max_size=60),
    st.lists(st.text(max_size=20), max_size=3),
    st.tuples(st.integers(1, 8), st.binary(max_size=60), st.sampled_from([1, 3, 4]), st.booleans()),
)  # fmt: skip


@settings(max_examples=50)
@given(PICTURES)
def test_a_picture_comes_back_as_it_was(picture: Picture) -> None:
    assert unpack(pack(picture)) == picture


@settings(max_examples=50)
@given(PICTURES, st.integers(2, 200))
def test_a_packed_picture_that_breaks_off_is_refused(picture: Picture, cut: int) -> None:
    packed = pack(picture)
    with pytest.raises((ValueError, KeyError, TypeError)):
        unpack(packed[: max(len(packed) - cut, 0)])


def test_the_digest_is_sha_256() -> None:
    """FIPS 180-4, appendix B.1: SHA-256 of "abc"."""
    known = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert make("png", 1, 1, b"abc").digest == known


def test_a_picture_that_lies_in_a_file_comes_back_with_that_file_alone() -> None:
    file = Opened(Path("newt.jpg"), (9, 1), b"a picture")
    held = make("jpeg", 3, 3, b"a pic.")
    lying = replace(held, stored=file.lying([(0, 5), b"."]))
    assert unpack(pack(lying), file) == lying
    with pytest.raises(ValueError, match="without the file"):
        unpack(pack(lying))


@pytest.mark.parametrize(
    "packed", [b"", b"{}\n", b'{"format": "jpeg", "lengths": [0, 0, 0]}\n', b"7"]
)
def test_what_was_packed_in_another_way_counts_as_forgotten(packed: bytes) -> None:
    cache = MemoryCache()
    cache.put("newt", packed)
    assert recall(cache, "newt") is None
    assert recall(cache, "eft") is None
