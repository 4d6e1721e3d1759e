"""A book whose links are others than in the last build says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from bookmaker.cli.exits import run
from tests.cli.little_book import write_book


def test_links_that_changed_since_the_last_build_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = write_book(tmp_path / "little-book")
    command = ["build", str(book), "--no-key", "--out", str(tmp_path)]
    assert run(command) == 0
    assert run(command) == 0
    assert "links have changed" not in capsys.readouterr().err
    chapter = book.parent / "one.toml"
    text = chapter.read_text("utf-8")
    chapter.write_text(text.replace('"heart-foot"', '"head-foot"'), "utf-8")
    assert run(command) == 0
    told = capsys.readouterr().err
    assert "links have changed on" in told and "the old links" in told


def test_a_certificate_that_can_not_be_read_is_no_hindrance(tmp_path: Path) -> None:
    book = write_book(tmp_path / "little-book")
    (tmp_path / "little-book-no-key.certificate.json").write_text("[1", "utf-8")
    assert run(["build", str(book), "--no-key", "--out", str(tmp_path)]) == 0
