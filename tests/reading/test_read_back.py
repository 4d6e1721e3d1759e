"""Random good manifests are read back as the pages of which they were written, line by line."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from bookmaker.model import Link, Number, Page, Spot
from bookmaker.reading import read
from bookmaker.reading.names import id_of

LETTERS = "abcXYZ_0159éñßøжщλΩ鼻川한"


@dataclass
class Sheet:
    """A chapter while it is written: its text and the pages that should come of it."""

    text: str = 'title = "The spring"\n'
    pages: list[Page] = field(default_factory=list)

    @property
    def line(self) -> int:
        return self.text.count("\n") + 1


spot_names = st.lists(
    st.text(st.sampled_from(LETTERS), min_size=1, max_size=6), min_size=2, max_size=9, unique=True
)
parts = st.integers(0, 100).map(str) | st.decimals(1, 100, places=2).map(str)
number_texts = st.integers(0, 999).map(str) | st.decimals(0, 99, places=1).map(str)


def quoted(name: str) -> str:
    return name if name.isascii() else f'"{name}"'


@st.composite
def trees(draw: st.DrawFn, names: list[str]) -> list[str]:
    """Links that join all the spots, each written from either end, in any order."""
    links = []
    for place in range(1, len(names)):
        ends = [names[place], names[draw(st.integers(0, place - 1))]]
        links.append("-".join(draw(st.permutations(ends))))
    return draw(st.permutations(links))


@st.composite
def chapters(draw: st.DrawFn) -> Sheet:
    sheet = Sheet()
    names = draw(st.lists(st.sampled_from(["Newt", "Héron", "Otter 2", "Ёж"]), unique=True))
    for name in names or ["Pike"]:
        write_page(draw, sheet, name)
    return sheet


def write_page(draw: st.DrawFn, sheet: Sheet, name: str) -> None:
    sheet.text += draw(st.sampled_from(["", "\n", "# next\n\n"]))
    start, lines = sheet.line, {}
    sheet.text += "[[page]]\n"
    spots = draw(spot_names)
    texts = draw(st.lists(number_texts, min_size=9, max_size=9, unique_by=Fraction))
    keys = {"name": f'"{name}"', "art": '"newt.svg"', "links": "", "numbers": ""}
    for key in draw(st.permutations(list(keys))):
        lines[key] = sheet.line
        if key == "links":
            links = write_links(draw, sheet, draw(trees(spots)), lines)
        elif key == "numbers":
            sheet.text += f"numbers = {{ list = [{', '.join(texts)}] }}\n"
        else:
            sheet.text += f"{key} = {keys[key]}\n"
    places = write_spots(draw, sheet, spots, lines)
    sheet.pages.append(
        Page(
            id=id_of(name),
            name=name,
            chapter="chapter",
            file="",
            line=start,
            art=None,
            artist="",
            licence="",
            spots=places,
            links=links,
            numbers=tuple(Number(Fraction(text), text) for text in texts[: len(spots)]),
            lines=tuple(sorted(lines.items())),
        )
    )


def write_links(
    draw: st.DrawFn, sheet: Sheet, links: list[str], lines: dict[str, int]
) -> tuple[Link, ...]:
    sheet.text += "links = ["
    for link in links:
        sheet.text += draw(st.sampled_from(["", "\n  ", "\n\n", ' # "a-b",\n']))
        lines[f"links.{link}"] = sheet.line
        sheet.text += f'"{link}",'
    sheet.text += draw(st.sampled_from(["]\n", "\n]\n\n"]))
    return tuple(Link(*link.split("-")) for link in links)


def write_spots(
    draw: st.DrawFn, sheet: Sheet, spots: list[str], lines: dict[str, int]
) -> tuple[Spot, ...]:
    style = draw(st.sampled_from(["table", "inline", "dotted"]))
    places = draw(
        st.lists(
            st.tuples(parts, parts),
            min_size=len(spots),
            max_size=len(spots),
            unique_by=lambda place: (float(place[0]), float(place[1])),
        )
    )
    lines["spots"] = sheet.line
    sheet.text += {"table": "[page.spots]\n", "inline": "spots = {", "dotted": ""}[style]
    for index, (spot, (x, y)) in enumerate(zip(spots, places, strict=True)):
        lines[f"spots.{spot}"] = sheet.line
        before = {"table": "", "inline": ", " if index else " ", "dotted": "spots."}[style]
        after = "" if style == "inline" else draw(st.sampled_from(["\n", "\n\n", " # here\n"]))
        sheet.text += f"{before}{quoted(spot)} = [{x}, {y}]{after}"
    sheet.text += " }\n" if style == "inline" else ""
    return tuple(Spot(spot, float(x), float(y)) for spot, (x, y) in zip(spots, places, strict=True))


@settings(max_examples=60)
@given(chapters(), st.sampled_from(["\n", "\r\n"]), st.booleans())
def test_a_good_chapter_is_read_back(sheet: Sheet, line_end: str, mark: bool) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "chapter.toml"
        data = sheet.text.replace("\n", line_end).encode("utf-8-sig" if mark else "utf-8")
        path.write_bytes(data)
        path.with_name("newt.svg").write_text("<svg/>")
        reading = read(path)
    assert reading.problems == (), sheet.text
    assert reading.book
    for found, expected in zip(reading.book.pages, sheet.pages, strict=True):
        assert found.file == str(path) and found.art == path.with_name("newt.svg")
        for key in Page.__dataclass_fields__:
            if key not in ("file", "art", "lines"):
                assert getattr(found, key) == getattr(expected, key), key
        assert tuple(sorted(found.lines)) == expected.lines
