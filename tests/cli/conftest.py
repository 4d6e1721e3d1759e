"""A class edition for the tests: its sheets printed, drawn on, photographed and taken in once."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bookmaker.cli.exits import run
from tests.classroom.classes import copied, drawn_on, photo, printed, write_class


@pytest.fixture(scope="session")
def finished(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A class whose sheets were printed, drawn on, taken and taken in; nothing is said yes to."""
    folder = tmp_path_factory.mktemp("edition")
    manifest = write_class(folder)
    assert run(["sheets", str(manifest), "--out", str(folder / "out"), "--spare", "1"]) == 0
    scans = folder / "scans"
    scans.mkdir()
    pdf = folder / "out" / "heron-class-sheets.pdf"
    pages = [drawn_on(printed(pdf, sheet), sheet) for sheet in (1, 2, 3, 4)]
    (scans / "amina.jpg").write_bytes(photo(pages[0], 1))
    for page, name in zip(pages[1:], ("b.jpg", "c.jpg", "d.jpg"), strict=True):
        (scans / name).write_bytes(copied(page, len(name)))
    (scans / "other.txt").write_text("no picture", "utf-8")
    (scans / "film.mov").write_bytes(b"\0\0\0\x14ftypqt  ")
    assert run(["intake", str(manifest), str(scans)]) == 0
    return folder


@pytest.fixture
def edition(finished: Path, tmp_path: Path) -> Path:
    """A copy of it for one test; gives the class's manifest."""
    shutil.copytree(finished, tmp_path / "e")
    return tmp_path / "e" / "heron-class" / "class.toml"
