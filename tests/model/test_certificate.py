"""Bands and the key's letters."""

import pytest

from bookmaker.model import band_of, letter


@pytest.mark.parametrize(
    ("work", "band"),
    [
        *((0, "gentle"), (14.9, "gentle"), (15, "steady"), (39.9, "steady")),
        *((40, "steep"), (69.9, "steep"), (70, "sheer"), (5000, "sheer")),
    ],
)
def test_a_band_begins_at_its_floor(work: float, band: str) -> None:
    assert band_of(work) == band


@pytest.mark.parametrize(("index", "text"), [(0, "A"), (25, "Z"), (26, "AA"), (52, "BA")])
def test_letters_go_on_after_z(index: int, text: str) -> None:
    assert letter(index) == text
