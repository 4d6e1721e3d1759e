"""Files in, pictures or faults out."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from bookmaker.cache import FolderCache, MemoryCache
from bookmaker.model import Picture
from bookmaker.pictures import PictureFault, take_in
from bookmaker.pictures import workroom as workroom_module
from bookmaker.pictures.limits import Limits, Unfit
from bookmaker.pictures.taking import _read
from tests.pictures.makers import BOX, encoded, fault, quarters

ART = f'{BOX}<circle cx="50" cy="30" r="20"/></svg>'.encode()


def some(folder: Path) -> list[Path]:
    files = {
        "a.svg": ART,
        "b.png": encoded(quarters(), "PNG"),
        "c.jpg": encoded(quarters(), "JPEG"),
        "d.gif": encoded(quarters(), "GIF"),
        "e.png": b"",
        "f.jpg": ART,
    }
    for name, data in files.items():
        (folder / name).write_bytes(data)
    return [folder / name for name in sorted(files)]


def test_every_file_gets_its_picture_or_its_fault(tmp_path: Path) -> None:
    paths = some(tmp_path)
    missing = tmp_path / "missing.png"
    taken = take_in([*paths, missing, paths[0]], cache=MemoryCache())
    assert set(taken) == {*paths, missing}
    assert [type(taken[path]) for path in paths] == [
        *(Picture, Picture, Picture, Picture),
        *(PictureFault, Picture),
    ]
    assert taken[paths[0]] == taken[paths[5]]


def test_a_second_build_starts_no_child_and_decodes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = some(tmp_path)
    cache = FolderCache(tmp_path / "cache")
    first = take_in(paths, cache=cache)

    def refuse(*_: object) -> None:
        raise AssertionError("a child was started")

    monkeypatch.setattr(workroom_module.Workroom, "_start", refuse)
    monkeypatch.setattr("bookmaker.pictures.raster.take_raster", refuse)
    assert take_in(paths, cache=cache) == first


def test_a_cache_full_of_rubbish_is_not_believed(tmp_path: Path) -> None:
    class Rubbish(MemoryCache):
        def get(self, key: str) -> bytes | None:
            return b'{"format": "png"}\nrubbish'

    paths = some(tmp_path)[:3]
    assert take_in(paths, cache=Rubbish()) == take_in(paths, cache=MemoryCache())


def test_limits_are_part_of_what_the_cache_remembers(tmp_path: Path) -> None:
    path = some(tmp_path)[1]
    cache = MemoryCache()
    assert isinstance(take_in([path], cache=cache)[path], Picture)
    tight = take_in([path], cache=cache, limits=Limits(pixels=100))[path]
    assert isinstance(tight, PictureFault)


FILES = [
    (b"", "newt.png", "art-unreadable", "newt.png is empty"),
    (b"A newt.\n", "newt.png", "art-unreadable", "newt.png holds text"),
    (encoded(quarters(), "PNG")[:90], "newt.png", "art-unreadable", "cut off"),
    (b"<svg", "newt.svg", "art-unreadable", "no well-formed SVG"),
    (b"%PDF-1.7", "newt.svg", "art-unreadable", "is a PDF"),
]


@pytest.mark.parametrize(("data", "name", "code", "words"), FILES)
def test_a_fault_names_the_file_the_reason_and_the_mend(
    tmp_path: Path, data: bytes, name: str, code: str, words: str
) -> None:
    found = fault(tmp_path, data, name)
    assert found.code == code
    assert found.message.startswith(name)
    assert words in found.message
    assert not found.message.endswith(".")
    assert found.mend.endswith(".")


def test_what_is_no_file_is_told(tmp_path: Path) -> None:
    folder = tmp_path / "newts"
    folder.mkdir()
    long = tmp_path / ("n" * 400)
    paths = [folder, tmp_path / "no" / "newt.png", long, tmp_path / "nul\0.png"]
    taken = take_in(paths, cache=MemoryCache())
    found = [taken[path] for path in paths]
    assert all(isinstance(one, PictureFault) for one in found)
    codes = [one.code for one in found if isinstance(one, PictureFault)]
    assert codes[:2] == ["art-unreadable", "art-missing"]
    assert set(codes[2:]) <= {"art-missing", "art-unreadable"}


def test_a_file_that_may_not_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = some(tmp_path)[0]

    def refuse(_: Path, mode: str) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(Unfit, match="may not be read"):
        _read(path, Limits())


def test_a_file_of_many_megabytes_is_refused_unread(tmp_path: Path) -> None:
    path = some(tmp_path)[1]
    with pytest.raises(Unfit) as refused:
        _read(path, Limits(file_bytes=10))
    assert refused.value.code == "art-too-large"


def test_the_parent_loads_no_renderer_and_starts_quickly() -> None:
    script = (
        "import sys, bookmaker.pictures;"
        "print(sorted({'cairosvg', 'numpy', 'pillow_heif', 'pypdf'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
