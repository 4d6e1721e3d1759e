"""Names out of file names, and manifests that read back as what was written."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.reading import id_of
from bookmaker.reading.manifest_text import (
    book_text,
    chapter_text,
    name_for,
    page_text,
    readable,
)


@pytest.mark.parametrize(
    ("stem", "name"),
    [
        ("red_fox-02", "Red fox 2"),
        ("IMG_20240503_101112", "IMG 20240503 101112"),
        ("été à la mer", "Été à la mer"),
        ("o'hare & co.", "O'hare & co"),
        ("007", "7"),
        ("000", "0"),
        ("newt  (copy)", "Newt copy"),
        ("___", ""),
    ],
)
def test_a_files_name_is_made_readable(stem: str, name: str) -> None:
    assert readable(stem) == name


@given(st.lists(st.text(max_size=12), max_size=12))
def test_no_two_names_are_one_id_and_none_is_without(stems: list[str]) -> None:
    taken: set[str] = set()
    for place, stem in enumerate(stems, 1):
        name = name_for(stem, taken, f"Picture {place}", lambda text: True)
        assert id_of(name)
        assert id_of(name) not in taken
        taken.add(id_of(name))


def test_a_name_that_can_not_be_printed_gives_way() -> None:
    assert name_for("狐", set(), "Picture 3", lambda text: False) == "Picture 3"


printable = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30)


@given(printable, printable, st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), max_size=9))
def test_what_is_written_reads_back_the_same(
    name: str, art: str, places: list[tuple[float, float]]
) -> None:
    spots = [(round(x, 1), round(y, 1)) for x, y in places]
    read = tomllib.loads(chapter_text(name) + page_text(name, art, spots) * 2)
    assert read["title"] == name
    assert [page["art"] for page in read["page"]] == [art, art]
    assert [tuple(place) for place in read["page"][0].get("spots", {}).values()] == spots


@given(printable, st.none() | st.integers(1, 53))
def test_a_books_text_reads_back_the_same(title: str, weeks: int | None) -> None:
    read = tomllib.loads(book_text(title, "pages.toml", {"grade": "4"}, weeks))
    assert (read["title"], read["grade"], read["climb"]) == (title, "4", True)
    assert read["chapters"] == ["pages.toml"]
    assert read.get("term", {}).get("weeks") == weeks
