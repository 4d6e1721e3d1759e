"""The child process that draws may be lost without harm."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

import pytest
from PIL import Image

from bookmaker.cache import MemoryCache
from bookmaker.model import Picture
from bookmaker.pictures import Limits, PictureFault, RendererMissing, take_in
from bookmaker.pictures.workroom import Workroom
from tests.pictures.makers import BOX, encoded
from tests.pictures.test_inside import uri

FINE = f'{BOX}<circle cx="50" cy="30" r="20"/></svg>'.encode()
SLOW = (
    f"{BOX}"
    + '<g opacity=".9"><path d="M0 0H100V60H0Z"/><path d="M0 0H99V60H0Z"/></g>' * 12_000
    + "</svg>"
).encode()
"""See-through groups, each of which a viewer must lay over all the others."""

ROUND = (
    f"{BOX}<style>.c{{fill:url(#a)}}</style><pattern id='a' width='9' height='9'>"
    "<rect class='c' width='9' height='9'/></pattern><rect class='c' width='50' height='50'/></svg>"
).encode()


def written(folder: Path, **files: bytes) -> dict[str, Path]:
    paths = {name: folder / f"{name}.svg" for name in files}
    for name, data in files.items():
        paths[name].write_bytes(data)
    return paths


def test_one_picture_that_takes_for_ever_does_not_take_the_others_with_it(tmp_path: Path) -> None:
    paths = written(tmp_path, a=FINE, b=SLOW, c=FINE + b"\n", d=ROUND, e=FINE + b"\n\n")
    start = time.monotonic()
    taken = take_in(paths.values(), cache=MemoryCache(), limits=Limits(seconds=1.0))
    assert time.monotonic() - start < 15
    assert [type(taken[paths[name]]) for name in "abcde"] == [
        Picture,
        PictureFault,
        Picture,
        PictureFault,
        Picture,
    ]
    slow = taken[paths["b"]]
    assert isinstance(slow, PictureFault)
    assert slow.code == "art-too-large"
    assert "b.svg takes more than 1 seconds to draw" in slow.message


@pytest.mark.skipif(sys.platform == "win32", reason="limits of memory are the system's")
def test_a_picture_that_takes_too_much_memory_is_refused(tmp_path: Path) -> None:
    inside = uri(encoded(Image.new("1", (5400, 5400)), "PNG"))
    paths = written(tmp_path, a=f'{BOX}<image href="{inside}"/></svg>'.encode(), b=FINE)
    limits = Limits(memory=330_000_000)
    taken = take_in(paths.values(), cache=MemoryCache(), limits=limits)
    first, second = taken[paths["a"]], taken[paths["b"]]
    assert isinstance(first, PictureFault)
    assert "more memory than allowed" in first.message
    assert isinstance(second, Picture)


def test_a_child_that_dies_is_followed_by_another() -> None:
    with Workroom(Limits()) as workroom:
        assert workroom.draw(FINE).width == 100
        child = workroom._child
        assert child is not None
        child.kill()
        child.wait()
        with pytest.raises(Exception, match="to draw"):
            workroom.draw(FINE)
        assert workroom.draw(FINE).width == 100
        assert workroom._child is not child
    assert workroom._child is None


def test_no_child_outlives_the_workroom() -> None:
    with Workroom(Limits()) as workroom:
        workroom.draw(FINE)
        child = workroom._child
        assert child is not None
    assert child.returncode is not None


def test_without_the_renderer_the_fault_is_the_systems(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "cairosvg").mkdir()
    (tmp_path / "cairosvg" / "__init__.py").write_text("raise OSError('no library called cairo')")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    with Workroom(Limits()) as workroom, pytest.raises(RendererMissing, match="library cairo"):
        workroom.draw(FINE)


def test_the_current_folder_does_not_matter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("PYTHONPATH", raising=False)
    with Workroom(Limits()) as workroom:
        assert workroom.draw(FINE).height == 60


def test_nothing_that_is_drawn_reaches_the_network_or_another_file(tmp_path: Path) -> None:
    """The source that is drawn holds no reference; the renderer is handed a fetcher as well."""
    from bookmaker.pictures.svg import _fetch_nothing

    secret = tmp_path / "secret.png"
    secret.write_bytes(b"secret")
    for target in (secret.as_uri(), str(secret), "http://127.0.0.1:9/", "data:,no,picture"):
        assert b"secret" not in _fetch_nothing(target, "image/*")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no such files here")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "newt.svg"
    os.mkfifo(pipe)
    found = take_in([pipe], cache=MemoryCache())[pipe]
    assert isinstance(found, PictureFault)
    assert "no ordinary file" in found.message
