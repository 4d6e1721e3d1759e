"""A manifest may ask for every paper that layout has and every language that words has."""

from __future__ import annotations

from pathlib import Path

import pytest

from bookmaker.reading.opening import open_manifest
from bookmaker.typeset import PAPERS
from bookmaker.words import languages
from tests.cli.little_book import write_book


@pytest.mark.parametrize(
    "line",
    [
        *(f'language = "{language}"' for language in languages()),
        *(f'paper = "{paper}"' for paper in PAPERS),
    ],
)
def test_what_there_is_may_be_asked_for(line: str, tmp_path: Path) -> None:
    manifest = write_book(tmp_path)
    manifest.write_text(f"{line}\n{manifest.read_text('utf-8')}", "utf-8")
    reading = open_manifest(manifest)
    assert not reading.problems
    assert reading.book is not None
    assert line.split('"')[1] in (reading.book.language, reading.book.paper)
