"""Any value of TOML in the place of any other is told, or read; it never stops the reader."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bookmaker.reading import read
from tests.reading.faults import GOOD, write

WEIRD = [
    *[
        "0",
        "-1",
        "7",
        "99999999999999999999",
        "1.5",
        "-0.0",
        "nan",
        "inf",
        "1e400",
        "true",
        "1979-05-27",
        "07:32:00",
    ],
    "0x" + "f" * 5000,
    '""',
    '" "',
    '"x"',
    '"a-b"',
    '"-"',
    '"\\u0000"',
    '"\\u202e"',
    '"../../../etc"',
    '"' + "x" * 9000 + '"',
    '"""\na\nb"""',
    "[]",
    "[1]",
    "[1, 2]",
    "[true, false]",
    '["a-b", 1, [], {}]',
    "[[1, 2], [3, 4]]",
    "[{}]",
    "{}",
    "{ a = 1 }",
    "{ a = { b = [] } }",
    "{ a = [1, 2], b = [3, 4] }",
    "{ list = [] }",
    "{ list = [1, [], {}, true, nan, 1979-05-27] }",
    "{ start = [], step = {} }",
]
FILLED = {
    "book.toml": str(GOOD["book.toml"]).replace(
        "\n[term]", 'school = "a"\nauthor = "b"\ncover = "newt.svg"\nclimb_to = "steep"\n\n[term]'
    ),
    "01.toml": str(GOOD["01.toml"])
    .replace(
        "\n[[page]]",
        '\nintroduction = "a"\noptional = true\nornament = "newt.svg"\nnumbers.start = 1\n'
        "numbers.step = 2\n[[page]]",
        1,
    )
    .replace(
        'art = "heron.svg"\n',
        'art = "heron.svg"\nturn = true\nfixed = true\ndescription = "a"\n'
        "given = { bill = 1 }\nnumbers = { start = 1, step = 2 }\nposition = 2\n",
    ),
}
PLACES = [
    (file, found.start(1), found.end(1))
    for file, text in FILLED.items()
    for found in re.finditer(r"^[\w.]+ *= (.*?)$", text, re.MULTILINE)
    if found[1] != "["
]


def test_the_filled_book_is_good(tmp_path: Path) -> None:
    assert read(write({**GOOD, **FILLED}, tmp_path)).problems == ()


@pytest.mark.parametrize(
    ("file", "start", "end"),
    PLACES,
    ids=lambda value: str(value),
)
def test_a_weird_value_is_told_or_read(file: str, start: int, end: int, tmp_path: Path) -> None:
    text = FILLED[file]
    manifest = write({**GOOD, **FILLED}, tmp_path)
    for value in WEIRD:
        (tmp_path / file).write_text(text[:start] + value + text[end:], encoding="utf-8")
        for told in read(manifest).problems:
            assert told.line >= 1 and len(str(told)) < 600 + len(str(tmp_path)), value
            assert str(told).isprintable(), value


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.sampled_from(sorted(FILLED)),
    st.lists(
        st.tuples(
            st.floats(0, 1),
            st.integers(0, 30),
            st.text(st.sampled_from("[]{}\"'=,.#\n a1\\é-"), max_size=3),
        ),
        min_size=1,
        max_size=5,
    ),
)
def test_a_manifest_damaged_in_several_places_is_told_or_read(
    tmp_path: Path, file: str, damages: list[tuple[float, int, str]]
) -> None:
    text = FILLED[file]
    for place, cut, put in damages:
        at = int(place * len(text))
        text = text[:at] + put + text[at + cut :]
    reading = read(write({**GOOD, **FILLED, file: text}, tmp_path))
    last = text.count("\n") + 1
    assert all(0 <= each.line <= max(last, 60) for each in reading.problems)
    assert reading.book or reading.problems
