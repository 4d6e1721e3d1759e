"""The register's line of pale marks."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import Box, PlacedLink, PlacedSpot, PlacedTag
from bookmaker.scanning.pale import PaleMarks, read_pale, write_pale

names = st.text(min_size=1, max_size=12)
lengths = st.integers(0, 30_000).map(lambda hundredths: hundredths / 100)
points = st.tuples(lengths, lengths)
marks = st.builds(
    PaleMarks,
    st.lists(st.builds(PlacedSpot, names, lengths, lengths, lengths), max_size=4).map(tuple),
    st.lists(
        st.builds(PlacedLink, names, st.one_of(st.tuples(*[points] * 2), st.tuples(*[points] * 4))),
        max_size=4,
    ).map(tuple),
    st.lists(
        st.builds(PlacedTag, names, st.builds(Box, lengths, lengths, lengths, lengths)),
        max_size=4,
    ).map(tuple),
)


@given(marks)
def test_marks_are_read_back_as_they_were_written(said: PaleMarks) -> None:
    assert read_pale(write_pale(said)) == said


@given(marks)
def test_marks_take_one_line(said: PaleMarks) -> None:
    assert "\n" not in write_pale(said)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        "spots",
        '{"spots": [["a", 1]], "links": [], "tags": []}',
        '{"spots": [], "links": [["a-b", [1, 2]]], "tags": []}',
        '{"spots": [["a", "x", 1, 2]], "links": [], "tags": []}',
        "[" * 5000,
        json.dumps({"spots": 3, "links": [], "tags": []}),
    ],
)
def test_a_damaged_line_is_said_to_be_one(text: str) -> None:
    with pytest.raises(ValueError, match="pale marks can't be read"):
        read_pale(text)
