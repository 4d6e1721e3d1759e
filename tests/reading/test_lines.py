"""The index of lines, against a renderer that knows its lines, tomlkit and tomllib itself."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.reading.lines import Where, outline
from tests.reading.faults import GOOD

TEXT = """\
# a comment = 1
title = "x"  # "a = b"

introduction = \"\"\"
[page]
name = "no key"
\"\"\"
a.b.c = { d = [1,
  2], "e f" = 3 }
'quoted key' = '''
one'''
[term]
weeks = 12
[[page]]
name = "one"
links = [ # ]
  "a-b",

  "b-c", "c-d",
]
[page.spots]
a = [1, 2]
[[page]]
  [page.spots]
  b = [
    3,
    4,
  ]
[[page]]
spots.c = [1, 2]
when = 1979-05-27 07:32:00
"""

LINES: dict[Where, int] = {
    ("title",): 2,
    ("introduction",): 4,
    ("a",): 8,
    ("a", "b"): 8,
    ("a", "b", "c"): 8,
    ("a", "b", "c", "d"): 8,
    ("a", "b", "c", "d", 0): 8,
    ("a", "b", "c", "d", 1): 9,
    ("a", "b", "c", "e f"): 9,
    ("quoted key",): 10,
    ("term",): 12,
    ("term", "weeks"): 13,
    ("page",): 14,
    ("page", 0): 14,
    ("page", 0, "name"): 15,
    ("page", 0, "links"): 16,
    ("page", 0, "links", 0): 17,
    ("page", 0, "links", 1): 19,
    ("page", 0, "links", 2): 19,
    ("page", 0, "spots"): 21,
    ("page", 0, "spots", "a"): 22,
    ("page", 0, "spots", "a", 0): 22,
    ("page", 0, "spots", "a", 1): 22,
    ("page", 1): 23,
    ("page", 1, "spots"): 24,
    ("page", 1, "spots", "b"): 25,
    ("page", 1, "spots", "b", 0): 26,
    ("page", 1, "spots", "b", 1): 27,
    ("page", 2): 29,
    ("page", 2, "spots"): 30,
    ("page", 2, "spots", "c"): 30,
    ("page", 2, "spots", "c", 0): 30,
    ("page", 2, "spots", "c", 1): 30,
    ("page", 2, "when"): 31,
}


def test_every_value_of_a_worked_example_has_its_line() -> None:
    assert dict(outline(TEXT).lines) == LINES
    assert set(LINES) == set(ways(tomllib.loads(TEXT)))


@pytest.mark.parametrize("text", [TEXT, str(GOOD["book.toml"]), str(GOOD["01.toml"])])
def test_a_key_has_the_line_from_which_on_tomllib_knows_it(text: str) -> None:
    """tomllib reads ever longer beginnings of the text: a key stands on the first line of the
    statement with which it appears."""
    lines = text.splitlines()
    known: set[Where] = set()
    start = 1
    for end in range(1, len(lines) + 1):
        try:
            read = set(ways(tomllib.loads("\n".join(lines[:end]))))
        except tomllib.TOMLDecodeError:
            continue
        new = [way for way in read - known if isinstance(way[-1], str)]
        found = outline(text).lines
        assert all(start <= found[way] <= end for way in new), (start, end)
        known, start = read, end + 1


keys = st.text(st.characters(codec="utf-8", exclude_categories=("Cs",)), max_size=8)
scalars = (
    st.text(st.characters(codec="utf-8", exclude_categories=("Cs",)), max_size=20)
    | st.integers(-(2**40), 2**40)
    | st.booleans()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.dates()
)
values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(keys, values, max_size=5))
def test_whatever_tomlkit_writes_is_followed_to_its_last_value(document: dict[str, object]) -> None:
    text = tomlkit.dumps(document).replace("\r\n", "\n")
    found = outline(text)
    assert not [each for each in found.statements if each.broken or each.first]
    known = set(ways(tomllib.loads(text)))
    assert {way for way in known if len(way) < 8} <= set(found.lines)
    assert all(1 <= line <= text.count("\n") + 1 for line in found.lines.values())


class Writer:
    """Writes TOML line by line and notes where each value comes to stand."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.text = ""
        self.lines: dict[Where, int] = {}

    def note(self, where: Where) -> None:
        self.lines[where] = self.text.count("\n") + 1

    def gap(self, line_ends: bool) -> None:
        gaps = ["", " ", "\t"] + (["\n", "\n\n  ", " # a ] comment } = 1\n"] if line_ends else [])
        self.text += self.draw(st.sampled_from(gaps))

    def pair(self, base: Where, key: str, depth: int) -> None:
        quoted = self.draw(st.sampled_from([f"{key}", f'"{key}"', f"'{key}'"]))
        self.note((*base, key))
        self.text += quoted + " = "
        self.value((*base, key), depth)

    def value(self, where: Where, depth: int, *, inline: bool = False) -> None:
        kind = self.draw(st.sampled_from(["word", "long", "list", "table"][: 4 if depth else 1]))
        if kind == "list":
            self.list(where, depth)
        elif kind == "table":
            self.table(where, depth)
        elif kind == "long" and not inline:
            self.text += self.draw(st.sampled_from(['"""a\n[b]\nc = ""1"""', "'''\nd = 'e\n'''"]))
        else:
            words = ["1", "-0.5", "true", '"a # b"', "'c ] d'", '"\\"e"', "1979-05-27T07:32:00Z"]
            self.text += self.draw(st.sampled_from(words))

    def list(self, where: Where, depth: int) -> None:
        self.text += "["
        count = self.draw(st.integers(0, 3))
        for place in range(count):
            self.gap(True)
            self.note((*where, place))
            self.value((*where, place), depth - 1)
            self.gap(True)
            if place < count - 1 or self.draw(st.booleans()):
                self.text += ","
        self.gap(True)
        self.text += "]"

    def table(self, where: Where, depth: int) -> None:
        self.text += "{"
        count = self.draw(st.integers(0, 3))
        for place in range(count):
            self.gap(False)
            self.pair(where, f"k{place}", depth - 1)
            self.text += "," if place < count - 1 else ""
        self.text += "}"


@st.composite
def written(draw: st.DrawFn) -> Writer:
    writer = Writer(draw)
    for place in range(draw(st.integers(0, 2))):
        writer.pair((), f"top{place}", 3)
        writer.text += "\n"
    for page in range(draw(st.integers(0, 3))):
        writer.lines.setdefault(("page",), writer.text.count("\n") + 1)
        writer.note(("page", page))
        writer.text += draw(st.sampled_from(["[[page]]\n", "[[ page ]] # next\n\n"]))
        for place in range(draw(st.integers(0, 2))):
            writer.pair(("page", page), f"key{place}", 2)
            writer.text += draw(st.sampled_from(["\n", " # why\n", "\n\n"]))
        if draw(st.booleans()):
            writer.note(("page", page, "spots"))
            writer.text += "[page.spots]\n"
            writer.pair(("page", page, "spots"), "nose", 2)
            writer.text += "\n"
    return writer


@given(written())
def test_a_rendered_document_has_the_lines_at_which_it_was_rendered(writer: Writer) -> None:
    assert set(ways(tomllib.loads(writer.text))) == set(writer.lines), "the writer is at fault"
    found = dict(outline(writer.text).lines)
    assert found == {way: line for way, line in writer.lines.items() if len(way) <= 8}


@given(st.text(st.sampled_from("ab=.[]{}\"'#,\\\n 1é")))
def test_no_text_stops_the_scanner(text: str) -> None:
    found = outline(text)
    ends = [0, *(each.end for each in found.statements)]
    assert all(each.start >= end for each, end in zip(found.statements, ends, strict=False))
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert not [each for each in found.statements if each.broken or each.first]


def test_a_way_too_deep_for_any_manifest_is_not_kept() -> None:
    deep = ".".join(["a"] * 40)
    assert max(map(len, outline(f"{deep} = 1\n[{deep}]\n").lines)) < 20
    deeper = ".".join(["a"] * 3000)
    assert [each.broken for each in outline(f"{deeper} = 1\n").statements] == ["depth"]


def ways(value: object, where: Where = ()) -> Iterator[Where]:
    """The way to every value in ``value``."""
    if where:
        yield where
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from ways(inner, (*where, key))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from ways(inner, (*where, place))


def test_the_scanner_goes_on_behind_each_broken_statement() -> None:
    text = "name = Newt\nlinks = [\n  1\n  2\n]\nart = 'x\nlast = 1\n"
    found = outline(text)
    assert [each.broken for each in found.statements] == ["", "comma", "text", ""]
    assert found.lines["last",] == 7
