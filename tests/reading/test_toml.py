"""What can be read of a file is read; what can't is told."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.reading.toml import Written, parse
from tests.reading.faults import GOOD

CHAPTER = str(GOOD["01.toml"])


@pytest.mark.parametrize(
    "data",
    [
        CHAPTER.encode(),
        b"\xef\xbb\xbf" + CHAPTER.encode(),
        CHAPTER.replace("\n", "\r\n").encode(),
        b"\xef\xbb\xbf" + CHAPTER.replace("\n", "\r\n").encode(),
    ],
    ids=["plain", "byte-order mark", "CRLF", "byte-order mark and CRLF"],
)
def test_marks_and_line_ends_change_nothing(data: bytes) -> None:
    assert parse(data) == parse(CHAPTER.encode())
    assert parse(data).slips == ()
    assert parse(data).lines["page", 1, "spots", "leg"] == 28


def test_decimals_are_kept_as_they_are_written() -> None:
    assert parse(b"a = 0.10\nb = 1e400\nc = nan").values == {
        "a": Written("0.10"),
        "b": Written("1e400"),
        "c": Written("nan"),
    }


def test_a_slip_costs_its_own_statement_alone() -> None:
    parsed = parse(b"a = 1\nb = two\nc = [1, 2\nd = 4\n")
    assert parsed.values == {"a": 1, "d": 4}
    assert parsed.unreadable == {("b",), ("c",)}
    assert [slip.line for slip in parsed.slips] == [2, 3]
    assert parsed.lines["d",] == 4


def test_a_heading_with_a_bracket_left_out_still_begins_its_page() -> None:
    for heading in ("[[page]", "[page]]", "[[page"):
        parsed = parse(
            f'[[page]]\nname = "a"\n{heading}\nname = "b"\n[page.spots]\nc = [1, 2]\n'.encode()
        )
        assert parsed.values == {"page": [{"name": "a"}, {"name": "b", "spots": {"c": [1, 2]}}]}
        assert [(slip.line, slip.where) for slip in parsed.slips] == [(3, ("page", 1))]


def test_what_follows_a_heading_written_twice_is_left_out() -> None:
    parsed = parse(b"[a]\nb = 1\n[a]\nb = 2\nc = 3\n[d]\ne = 4\n")
    assert parsed.values == {"a": {"b": 1}, "d": {"e": 4}}
    assert [slip.line for slip in parsed.slips] == [3]


def test_every_key_written_twice_is_told_with_its_first_line() -> None:
    parsed = parse(b"a = 1\na = 2\nb = 3\n\nb = [\n4]\n")
    assert parsed.values == {"a": 1, "b": 3}
    assert [(slip.line, slip.message) for slip in parsed.slips] == [
        (2, "a is written twice, here and in line 1"),
        (5, "b is written twice, here and in line 3"),
    ]


def test_statements_that_are_good_alone_but_not_together_are_told() -> None:
    parsed = parse(b"a = { b = 1 }\n[a.c]\nd = 1\n")
    assert parsed.values is None
    assert [(slip.line, slip.code) for slip in parsed.slips] == [(2, "bad-toml")]


@pytest.mark.parametrize(
    ("text", "line", "words", "mend"),
    [
        ("a = Newt", 1, "stands without quotation marks", 'Write "Newt".'),
        ("a = True", 1, "capital letter", "Write true."),
        ("a: 1", 1, "a colon", "Write = instead of the colon."),
        ("a 1", 1, "neither a heading nor a key", "Write a key, an equals sign"),
        ("= 1", 1, "no key", "Write a key, an equals sign"),
        ("a = 1 2", 1, "does not belong", "Take it out"),
        ('a = "x" y', 1, "does not belong", "Take it out"),
        ("a = 01", 1, "starts with a nought", "Write 5 instead of 05."),
        ("a = .5", 1, "a digit is missing", "Write 0.5"),
        ("a = 5.", 1, "a digit is missing", "Write 0.5"),
        ('\na = """x\ny', 2, "no closing quotation marks", "three"),
        ("\na = [1,\n 2\n", 2, "never closed", "Write ] at its end"),
        ("a = [\n 1,\n 2\n 3]", 3, "a comma is missing", "Write a comma"),
        ("a = { b = 1", 1, "never closed", "Write } at its end"),
        ("a = { b = 1,\n c = 2 }", 1, "must stand on one line", "Join its lines"),
        ('a = "b\\c d"', 1, "has a meaning of its own", "Write / between folders"),
        ("a = “Newt”", 1, "curly", "Type straight ones"),
        ("río = 1", 1, "only between quotation marks", 'Write "río" before'),
        ("a = 1999-02-30", 1, "can't be read as TOML", "Write a key"),
        ("[page.]", 1, "heading", "Write it like [[page]]"),
    ],
)
def test_a_slip_is_told_in_plain_words(text: str, line: int, words: str, mend: str) -> None:
    (slip,) = parse(text.encode()).slips
    assert (slip.line, slip.code) == (line, "bad-toml")
    assert words in slip.message and mend in slip.mend


@given(st.binary(max_size=200))
def test_no_bytes_stop_the_reader(data: bytes) -> None:
    assert parse(data).slips or parse(data).values is not None


@given(
    st.integers(0, len(CHAPTER)),
    st.integers(0, 3),
    st.text(st.sampled_from("[]{}\"'=,.#\n a1\\é"), max_size=3),
)
def test_a_damaged_chapter_has_slips_where_tomllib_refuses_it(at: int, cut: int, put: str) -> None:
    text = CHAPTER[:at] + put + CHAPTER[at + cut :]
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        slips = parse(text.encode()).slips
        assert slips and all(1 <= slip.line <= text.count("\n") + 1 for slip in slips)
    else:
        assert not parse(text.encode()).slips
