"""A line to read aloud for each creature, in three languages."""

from __future__ import annotations

import tomllib
from itertools import pairwise
from pathlib import Path

import pytest

from art.kit import gallery
from tests.art.pictures import ART


def _facts() -> dict[str, dict[str, str]]:
    """By picture and language: the English ones are what the demo's chapters print."""
    facts: dict[str, dict[str, str]] = tomllib.loads((ART / "facts.toml").read_text("utf-8"))
    chapters = sorted((ART.parent / "chapters" / "river-term").glob("0*.toml"))
    for page in (p for file in chapters for p in tomllib.loads(file.read_text("utf-8"))["page"]):
        facts.setdefault(Path(page["art"]).stem, {})["en"] = page["fact"]
    return facts


FACTS = _facts()
LINES = [(name, language, line) for name, told in FACTS.items() for language, line in told.items()]
MOST = 95
"""Letters that fill two lines of 14 points on A5, by trial."""


def test_every_creature_has_its_line_in_three_languages() -> None:
    assert sorted(FACTS) == sorted(name.replace("_", "-") for name in gallery.names())
    assert all(sorted(told) == ["en", "es", "fr"] for told in FACTS.values())


@pytest.mark.parametrize(("name", "language", "line"), LINES)
def test_a_line_is_short_and_whole(name: str, language: str, line: str) -> None:
    assert len(line) <= MOST
    assert line[0].isupper()
    assert line.endswith(".")
    assert "'" not in line, "an apostrophe is printed as ’"


@pytest.mark.parametrize("line", [line for _, language, line in LINES if language == "fr"])
def test_french_has_a_hard_space_before_its_high_marks(line: str) -> None:
    """Lexique des règles typographiques en usage à l'Imprimerie nationale, 2002, from memory."""
    assert all(one == "\u00a0" for one, mark in pairwise(line) if mark in ":;!?")


def test_no_line_is_told_twice() -> None:
    lines = [line for _, _, line in LINES]
    assert len(lines) == len(set(lines))
