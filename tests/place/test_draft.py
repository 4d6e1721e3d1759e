"""Manifests parted and changed: what is not changed keeps its every byte."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.place import edits
from bookmaker.place.draft import Numbering, parted

NAMES = ("nose", "back", "tail", "Nüstern", "left_paw")
comment = st.sampled_from(["", "  # a note", "\t# [[page]]", "   "])
space = st.sampled_from(["", " ", "   "])
number = st.one_of(st.integers(0, 100), st.floats(0, 100).map(lambda value: round(value, 2)))


@st.composite
def manifests(draw: st.DrawFn) -> str:
    """Chapters as people write them, with notes, blanks and line ends of their own."""
    lines = ['title = "The pond"' + draw(comment), draw(comment).strip()]
    lines += ['introduction = """', "[[page]]", 'is not a page"""'] if draw(st.booleans()) else []
    for place in range(draw(st.integers(0, 4))):
        lines += [draw(comment).strip(), f"{draw(space)}[[page]]{draw(comment)}"]
        lines.append(f'name{draw(space)}={draw(space)}"Page {place}"{draw(comment)}')
        inner = draw(st.sampled_from([", ", ",", ",\n   "]))
        links = inner.join(['"nose-back"', '"back-tail"', '"Nüstern-tail"'])
        lines.append(f"links = [{links}]{draw(comment)}")
        lines.append(f"[page.spots]{draw(comment)}")
        for name in NAMES[:4]:
            key = name if name.isascii() else f'"{name}"'
            lines.append(f"{key}{draw(space)} = [{draw(number)},{draw(space)}{draw(number)}]")
            lines[-1] += draw(comment)
    text = "\n".join(lines) + draw(st.sampled_from(["", "\n", "\n\n"]))
    return text.replace("\n", draw(st.sampled_from(["\n", "\r\n"])))


@given(manifests(), st.sampled_from([b"", b"\xef\xbb\xbf"]))
def test_parting_a_file_loses_nothing(text: str, mark: bytes) -> None:
    data = mark + text.encode()
    file = parted(Path("pond.toml"), data, Numbering())
    assert file.data == data
    assert len(file.pages) == len(tomllib.loads(text).get("page", []))


@given(manifests())
def test_each_page_is_found_by_its_lines(text: str) -> None:
    file = parted(Path("pond.toml"), text.encode(), Numbering())
    lines = text.split("\n")
    for start, page in zip(file.starts(), file.pages, strict=True):
        assert "[[page]]" in lines[start - 1]
        assert file.at_line(start) == page.uid
        assert file.at_line(start + page.text.count("\n") - 1) == page.uid


def change_of(kind: str) -> edits.Change:
    return {
        "move": edits.move_spot("back", 12.345, 99.999),
        "name": edits.name_spot("back", "spine"),
        "remove": edits.remove_spot("back"),
        "link": edits.add_link("nose", "Nüstern"),
        "unlink": edits.remove_link("back-tail"),
        "add": edits.add_spot("new", 1, 2),
        "give": edits.give("tail", "3"),
        "text": edits.set_text("artist", 'A "quoted" <name>'),
    }[kind]


@given(
    manifests(),
    st.sampled_from(["move", "name", "remove", "link", "unlink", "add", "give", "text"]),
)
def test_a_change_leaves_every_line_that_it_does_not_mean(text: str, kind: str) -> None:
    file = parted(Path("pond.toml"), text.encode(), Numbering())
    for page in file.pages:
        after = edits.changed(page.text, change_of(kind))
        tomllib.loads(after)
        before = page.text.splitlines()
        meant = {"move": "back", "name": "back", "remove": "back", "unlink": "back", "link": ""}
        kept = [line for line in before if meant.get(kind, "\0") not in line]
        if kind not in ("link", "unlink", "remove", "name"):
            found = iter(after.splitlines())
            assert all(line in found for line in kept), (kind, kept, after)
        for line in before:
            if "#" in line and line.strip().startswith("#"):
                assert line in after


def test_a_change_is_what_it_says() -> None:
    page = '[[page]]\nname = "A"\nlinks = ["a-b", "b-c"]\ngiven = { b = 3 }\n[page.spots]\n'
    page += "a = [1, 2] # first\nb = [3, 4]\nc = [5, 6]\n"

    def after(change: edits.Change) -> dict[str, object]:
        found = tomllib.loads(edits.changed(page, change))["page"][0]
        assert isinstance(found, dict)
        return found

    assert after(edits.move_spot("a", 7, 8.25))["spots"] == {
        "a": [7, 8.25],
        "b": [3, 4],
        "c": [5, 6],
    }
    named = after(edits.name_spot("b", "q"))
    assert named["links"] == ["a-q", "q-c"]
    assert named["given"] == {"q": 3}
    assert list(named["spots"]) == ["a", "q", "c"]  # type: ignore[call-overload]
    gone = after(edits.remove_spot("b"))
    assert gone["links"] == []
    assert "given" not in gone
    assert after(edits.set_position(2))["position"] == 2
    assert after(edits.set_switch("turn", True))["turn"] is True


@pytest.mark.parametrize(
    ("change", "key"),
    [
        (edits.move_spot("none", 1, 2), "place.refused.gone"),
        (edits.name_spot("a", "b"), "place.refused.taken"),
        (edits.add_link("b", "a"), "place.refused.linked"),
        (edits.remove_link("c-a"), "place.refused.gone"),
    ],
)
def test_what_can_not_be_done_is_refused_and_changes_nothing(
    change: edits.Change, key: str
) -> None:
    page = '[[page]]\nlinks = ["a-b"]\n[page.spots]\na = [1, 2]\nb = [3, 4]\n'
    with pytest.raises(edits.Refused) as refused:
        edits.changed(page, change)
    assert refused.value.key == key


def test_lines_that_are_broken_are_left_to_be_mended_by_hand() -> None:
    with pytest.raises(edits.Refused) as refused:
        edits.changed('[[page]]\nname = "A\n', edits.add_spot("a", 1, 2))
    assert refused.value.key == "place.refused.broken"
