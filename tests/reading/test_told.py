"""Chapters, strays and loops: told by the right names, and as much as a line can hold."""

from __future__ import annotations

from pathlib import Path

import pytest

from bookmaker.reading import read


def test_a_chapter_listed_under_two_names_is_listed_twice(tmp_path: Path) -> None:
    (tmp_path / "one.toml").write_text('title = "x"\n[[page]]\nname = "a"\nspots = 3\n', "utf-8")
    (tmp_path / "deep").mkdir()
    book = tmp_path / "book.toml"
    book.write_text('title = "x"\nchapters = ["one.toml", "deep/../one.toml"]\n', "utf-8")
    assert 'the chapter "deep/../one.toml" is listed twice' in str(read(book).problems)


@pytest.mark.parametrize(
    ("text", "heading"),
    [
        (
            '[[page]]\nname = "a"\n[page.spots]\na = [1, 2]\nb = [9, 9]\nlinks = ["a-b"]\n',
            "[page.spots]",
        ),
        ('title = "x"\n[term]\nchapters = ["one.toml"]\n', "[term]"),
    ],
)
def test_a_stray_key_is_told_the_heading_that_it_stands_below(
    text: str, heading: str, tmp_path: Path
) -> None:
    (tmp_path / "stray.toml").write_text(text, "utf-8")
    found = [each for each in read(tmp_path / "stray.toml").problems if "stands below" in str(each)]
    assert [each.mend for each in found] == [f"Move its line up, above {heading}."]


def test_a_very_long_loop_is_told_in_part(tmp_path: Path) -> None:
    names = [f"s{n}" for n in range(60)]
    links = ", ".join(f'"{a}-{b}"' for a, b in zip(names, [*names[1:], names[0]], strict=True))
    spots = "".join(f"{name} = [{n}, {n}]\n" for n, name in enumerate(names, 1))
    page = f'[[page]]\nname = "a"\nart = "a.svg"\nlinks = [{links}]\n[page.spots]\n{spots}'
    (tmp_path / "one.toml").write_text(f'title = "x"\n{page}', "utf-8")
    (loop,) = [each for each in read(tmp_path / "one.toml").problems if each.code == "loop"]
    assert loop.message.count(" - ") == 39
