"""Every kept SVG is plain, small, told in words, and of the palette's papers alone."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from art.kit.palette import INK, PALETTE
from tests.art.pictures import ART, CREATURES, FILES, MARKS, SCENES

SVG = "{http://www.w3.org/2000/svg}"
PLAIN = {"svg", "title", "desc", "defs", "clipPath", "g", "path"}
ATTRIBUTES = {
    "svg": {"width", "height", "viewBox", "role"},
    "clipPath": {"id"},
    "g": {"id", "clip-path"},
    "path": {"fill", "fill-opacity", "d"},
}
MOST_BYTES = 150 * 1024
UPRIGHT, WIDE = "0 0 1000 1200", "0 0 1200 1000"


def root_of(file: str) -> ElementTree.Element:
    return ElementTree.parse(ART / file).getroot()


def test_there_are_twenty_four_creatures_and_what_goes_around_them() -> None:
    assert len(CREATURES) == 24
    assert len([file for file in SCENES if file.startswith("ornament-")]) == 8
    others = {file for file in SCENES if not file.startswith("ornament-")}
    assert others == {"cover.svg", "dragonfly.svg", "map-left.svg", "map-right.svg"}


def test_no_svg_is_kept_that_the_kit_does_not_draw() -> None:
    kept = {path.relative_to(ART).as_posix() for path in ART.rglob("*.svg")}
    assert kept == set(FILES)


@pytest.mark.parametrize("file", FILES)
def test_it_is_smaller_than_150_kilobytes(file: str) -> None:
    assert (ART / file).stat().st_size < MOST_BYTES


@pytest.mark.parametrize("file", FILES)
def test_it_says_what_it_shows(file: str) -> None:
    root = root_of(file)
    title, desc = root.findtext(f"{SVG}title", ""), root.findtext(f"{SVG}desc", "")
    assert title.strip()
    assert len(desc.split()) >= 6, desc


@pytest.mark.parametrize("file", FILES)
def test_its_view_box_is_one_of_the_sets(file: str) -> None:
    root = root_of(file)
    allowed = {UPRIGHT, WIDE} if file in CREATURES else {UPRIGHT}
    if file in MARKS or file == "dragonfly.svg":
        allowed = {"0 0 600 600"}
    elif file.startswith("ornament-"):
        allowed = {"0 0 1200 440"}
    assert root.get("viewBox") in allowed
    assert root.get("viewBox") == f"0 0 {root.get('width')} {root.get('height')}"


@pytest.mark.parametrize("file", FILES)
def test_it_is_made_of_plain_paths_and_groups(file: str) -> None:
    for element in root_of(file).iter():
        kind = element.tag.removeprefix(SVG)
        assert kind in PLAIN
        assert set(element.attrib) <= ATTRIBUTES.get(kind, set())


@pytest.mark.parametrize("file", FILES)
def test_its_colours_are_the_palettes(file: str) -> None:
    fills = set()
    for path in root_of(file).iter(f"{SVG}path"):
        fill, opacity = path.get("fill"), path.get("fill-opacity")
        if opacity:
            assert (fill, opacity) == (INK, "0.2"), "a shadow is ink at a fifth of its strength"
        elif fill:
            fills.add(fill)
    assert fills <= set(PALETTE.values())
    if file in MARKS:
        assert len(fills) == 2


@pytest.mark.parametrize("file", FILES)
def test_every_part_that_it_names_is_there(file: str) -> None:
    text = (ART / file).read_text("utf-8")
    named = re.findall(r'\bid="([^"]+)"', text)
    assert len(named) == len(set(named))
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(named)
