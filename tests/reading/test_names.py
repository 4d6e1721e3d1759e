"""Ids, nearest words and values in messages."""

from __future__ import annotations

import datetime
import difflib
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.reading.names import id_of, is_spot_name, name_all, nearest, shorten, show
from bookmaker.reading.toml import Written


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Newt", "newt"),
        ("The Old Heron's  nest!", "the-old-heron-s-nest"),
        ("Été à la rivière", "ete-a-la-riviere"),
        ("Mýval 2", "myval-2"),
        ("ÅNGSTRÖM", "angstrom"),
        ("Ζώο", "ζωο"),
        ("Тритон", "тритон"),
        ("बिल्ली", "बिल्ली"),
        ("カワセミ", "カワセミ"),
        ("물총새", "물총새"),
        ("ﬁsh", "fish"),
        ("-- 7 --", "7"),
        ("İstanbul", "istanbul"),
        ("?!", ""),
    ],
)
def test_an_id_keeps_letters_of_any_script_and_drops_accents(name: str, expected: str) -> None:
    assert id_of(name) == expected


@given(st.text())
def test_an_id_is_words_parted_by_single_hyphens_and_its_own_id(name: str) -> None:
    made = id_of(name)
    assert re.fullmatch(r"([^\s\-/\\.]+(-[^\s\-/\\.]+)*)?", made)
    assert id_of(made) == made


@pytest.mark.parametrize("name", ["nose", "left_paw", "b2", "nariz", "río", "鼻", "_"])
def test_a_spot_name_may_be_of_any_script(name: str) -> None:
    assert is_spot_name(name)


@pytest.mark.parametrize("name", ["", "a b", "a-b", "a.b", "a/b", 'a"', "a\n"])
def test_a_spot_name_has_no_other_signs(name: str) -> None:
    assert not is_spot_name(name)


@given(st.text("abcdé", min_size=1, max_size=6), st.lists(st.text("abcdé", max_size=6), min_size=1))
def test_the_nearest_word_is_as_like_as_any(word: str, known: list[str]) -> None:
    def likeness(other: str) -> float:
        return difflib.SequenceMatcher(None, other, word, autojunk=False).ratio()

    assert likeness(nearest(word, known) or "") == max(map(likeness, known))


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (True, "true"),
        (12, "12"),
        (10**40, "a very large number"),
        (Written("1e400"), "1e400"),
        ("", "an empty text"),
        ("two\nlines", '"two lines"'),
        ("x" * 100, '"' + "x" * 39 + '…"'),
        ([1], "a list"),
        ({}, "a table"),
        (datetime.date(2024, 1, 1), "a date"),
    ],
)
def test_a_value_is_shown_on_one_short_line(value: object, expected: str) -> None:
    assert show(value) == expected


def test_a_number_with_more_digits_than_python_writes_is_shown() -> None:
    assert show(int("f" * 8000, 16)) == show(-(16**8000)) == "a very large number"


@given(st.text())
def test_a_shortened_text_can_be_printed(text: str) -> None:
    assert shorten(text).isprintable() and len(shorten(text)) <= 40


def test_names_are_told_as_a_sentence() -> None:
    assert name_all(["nose"]) == "nose"
    assert name_all(["nose", "back", "tail"]) == "nose, back and tail"
    assert name_all([str(place) for place in range(20)], 3) == "0, 1, 2 and 17 more"
