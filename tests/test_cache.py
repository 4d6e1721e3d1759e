"""What is kept comes back whole or not at all."""

import errno
import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.cache import FolderCache, MemoryCache


@given(st.binary(max_size=200), st.text(max_size=20))
def test_a_memory_cache_gives_back_what_was_put(value: bytes, key: str) -> None:
    cache = MemoryCache()
    assert cache.get(key) is None
    cache.put(key, value)
    assert cache.get(key) == value


def test_a_folder_cache_gives_back_what_was_put_in_another_life(tmp_path: Path) -> None:
    FolderCache(tmp_path / "kept").put("a shape", b"counts")
    assert FolderCache(tmp_path / "kept").get("a shape") == b"counts"
    assert FolderCache(tmp_path / "kept").get("another") is None


def test_a_damaged_file_is_as_good_as_none(tmp_path: Path) -> None:
    cache = FolderCache(tmp_path)
    cache.put("a shape", b"counts")
    (file,) = tmp_path.iterdir()
    file.write_bytes(file.read_bytes()[:-1] + b"X")
    assert cache.get("a shape") is None


def test_a_folder_that_can_not_be_made_only_costs_the_work_again(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    cache = FolderCache(tmp_path / "file" / "kept")
    cache.put("a shape", b"counts")
    assert cache.get("a shape") is None


def test_a_disk_that_fills_up_is_left_without_crumbs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(Path, "replace", full)
    FolderCache(tmp_path).put("a shape", b"counts")
    assert list(tmp_path.iterdir()) == []
