"""Every kind of side on every paper, in every language: nothing leaves the margins or collides."""

from __future__ import annotations

import pytest

from bookmaker.layout import lay_out
from bookmaker.layout.setting import Setting
from bookmaker.model import Box, PlacedPage, PlacedSpot, Puzzle, Side
from bookmaker.typeset import LARGE, PAPERS, Sheet
from bookmaker.words import languages
from tests.layout.books import Shape, setting_of
from tests.layout.looking import collisions, outside

UPRIGHT = ("a4", "letter", "a5", "half-letter")
LONG = "Grandmother’s very old and rather sleepy salamander with the spotted tail {}"
ENDLESS = "Wanderfalterraupenfresser " * 7 + "am Fluss {}"
SHAPES = {
    "few": Shape(chapters=1, pages=2),
    "term": Shape(chapters=6, pages=4),
    "wide": Shape(chapters=2, pages=3, wide=True),
    "long names": Shape(chapters=2, pages=5, name=LONG, title=LONG.format("")),
    "200 letters": Shape(
        chapters=2, pages=5, name=ENDLESS, title=ENDLESS.format(""), artist=ENDLESS.format("")
    ),
    "many": Shape(chapters=2, pages=31),
}


def area_of(side: Side, setting: Setting) -> Box:
    """What the margins leave of the paper itself."""
    area = Sheet(setting.paper, side.recto, scale=setting.scale).area
    scale = setting.scale
    return Box(area.x * scale, area.y * scale, area.width * scale, area.height * scale)


def faults(setting: Setting) -> list[str]:
    found = []
    for side in setting.bound.sides:
        page = lay_out(side, setting)
        wrong = [*outside(page, area_of(side, setting)), *collisions(page)]
        found += [f"{side.name}: {fault}" for fault in wrong]
    return found


@pytest.mark.parametrize("paper", UPRIGHT)
@pytest.mark.parametrize("shape", SHAPES)
def test_nothing_leaves_the_margins_or_collides(shape: str, paper: str) -> None:
    assert faults(setting_of(SHAPES[shape], paper)) == []


@pytest.mark.parametrize("language", [name for name in languages() if name != "en"])
@pytest.mark.parametrize("paper", UPRIGHT)
def test_other_languages_fit_as_well(language: str, paper: str) -> None:
    assert faults(setting_of(SHAPES["long names"], paper, language)) == []


@pytest.mark.parametrize("language", languages())
def test_a_board_holds_everything(language: str) -> None:
    for shape in ("term", "long names", "wide"):
        assert faults(setting_of(SHAPES[shape], "board", language)) == []


@pytest.mark.parametrize("paper", [*UPRIGHT, "a3"])
def test_large_print_holds_everything(paper: str) -> None:
    for shape in ("term", "long names"):
        assert faults(setting_of(SHAPES[shape], paper, scale=LARGE)) == []


def test_large_print_is_larger_by_as_much_as_it_says() -> None:
    plain, large = setting_of(SHAPES["few"], "a4"), setting_of(SHAPES["few"], "a4", scale=LARGE)
    for one, other in zip(plain.bound.sides, large.bound.sides, strict=True):
        if isinstance(one.content, Puzzle):
            small = spot_radius(lay_out(one, plain))
            assert spot_radius(lay_out(other, large)) >= small * LARGE - 1e-6


def spot_radius(page: PlacedPage) -> float:
    return min(item.radius for item in page.items if isinstance(item, PlacedSpot))


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_has_the_size_of_its_paper(paper: str) -> None:
    setting = setting_of(SHAPES["few"], paper)
    for side in setting.bound.sides:
        page = lay_out(side, setting)
        assert (page.width, page.height) == PAPERS[paper]
