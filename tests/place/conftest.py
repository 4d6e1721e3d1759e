"""A little book on the desk."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.little_book import write_book
from tests.place.asking import Asker


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "book")


@pytest.fixture
def asker(book: Path) -> Asker:
    return Asker(book)
