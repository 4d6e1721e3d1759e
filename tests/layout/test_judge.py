"""The judge finds what is planted, and says by how much."""

from __future__ import annotations

import re

import pytest

from tests.layout.judge import Breach, Rules, judge

RULES = Rules.of("a4")


def circle(name: str, x: float, y: float, r: float = 10) -> str:
    ring = f'<circle cx="{x}" cy="{y}" r="{r}" stroke-width="1.1"/>'
    return f'<g class="spot" data-spot="{name}">{ring}</g>'


def link(name: str, path: str, width: float = 1.2) -> str:
    edge, line = (f'<path d="{path}" stroke-width="{w}"/>' for w in (3, width))
    return f'<g class="link" data-link="{name}">{edge}{line}</g>'


def tag(name: str, x: float, y: float, width: float = 15, height: float = 12) -> str:
    size = f'width="{width}" height="{height}"'
    box = f'<rect x="{x}" y="{y}" {size} rx="2" stroke-width="0.7"/>'
    return f'<g class="tag" data-link="{name}">{box}</g>'


def page(*groups: str, size: str = "210 297") -> str:
    body = "".join(groups)
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}">{body}</svg>'


ART = '<g class="art" data-box="14 34 186 228"/>'
# Three spots in a bent row: a at (40, 60), b at (100, 60), c at (100, 130).
AB, BC = link("a-b", "M50,60 L90,60"), link("b-c", "M100,70 L100,120")
TAB, TBC = tag("a-b", 62.5, 54), tag("b-c", 92.5, 89)
A, B, C = circle("a", 40, 60), circle("b", 100, 60), circle("c", 100, 130)
CLEAN = (ART, AB, BC, TAB, TBC, A, B, C)


def rules_broken(svg: str) -> dict[str, Breach]:
    return {breach.rule: breach for breach in judge(svg, RULES)}


def test_a_clean_page_has_nothing_against_it() -> None:
    wanted = {"a": (100 * 26 / 186, 100 * 26 / 228)}
    assert judge(page(*CLEAN), RULES, wanted=wanted, proportion=186 / 228) == []


# what is put in place of what -> the rule that is broken, by whom, by how much
PLANTED = [
    (A, circle("a", 40, 60, 9.5), "a spot too small", {"a"}, 1.0),
    (C, circle("c", 122, 60), "two spots", {"b", "c"}, 3.0),
    (A, circle("a", 20, 60), "ink in the margin", {"spot a"}, 4.55),
    (AB, link("a-b", "M50,60 L89,60"), "a link ends off its ring", {"a-b", "b"}, 1.0),
    (AB, link("a-b", "M50,60 C60,60 100,70 92,54"), "a link in its own spot", {"a-b", "b"}, None),
    (BC, link("b-c", "M100,70 C20,40 30,80 100,120"), "a link and a spot", {"b-c", "a"}, None),
    (BC, link("b-c", "M100,70 C100,0 40,120 100,120"), "two links cross", {"a-b", "b-c"}, 3.0),
    (BC, link("b-c", "M90.6,63.42 L100,120"), "angle", {"a-b", "b-c", "b"}, None),
    (TAB, tag("a-b", 62.5, 54, 14), "a tag too small", {"a-b"}, 1.0),
    (TAB, tag("a-b", 62.5, 50, 15, 20), "a tag higher than wide", {"a-b"}, 5.0),
    (TAB, tag("a-b", 62.5, 57), "a tag off its link", {"a-b"}, 2.5),
    (TAB, tag("a-b", 51.5, 54), "a link hidden by its tag", {"a-b"}, 1.5),
    (TAB, tag("a-b", 74, 54), "a tag and a spot", {"a-b", "b"}, 1.0),
    (TBC, tag("b-c", 80, 60.5), "a tag and a link", {"b-c", "a-b"}, 1.5),
    (TBC, tag("b-c", 70, 67), "two tags", {"a-b", "b-c"}, 1.0),
    (AB, link("a-b", "M50,60 L90,60", 1.4), "a stroke too wide", {"link a-b"}, 0.2),
    (TAB, "", "a link without its tag", {"a-b"}, 1.0),
    (AB, link("a-b", "M50,60 C120,90 20,90 90,60"), "a link crosses itself", {"a-b"}, 1.0),
]


@pytest.mark.parametrize(("there", "planted", "rule", "who", "missing"), PLANTED)
def test_a_planted_breach_is_found(
    there: str, planted: str, rule: str, who: set[str], missing: float | None
) -> None:
    found = rules_broken(page(*(planted if group == there else group for group in CLEAN)))
    assert rule in found
    assert set(found[rule].who) == who
    if missing is not None:
        assert found[rule].missing == pytest.approx(missing, abs=0.01)


def test_cords_that_run_side_by_side_are_a_breach() -> None:
    near = link("b-c", "M100,70 C80,62 70,62 54,62")
    assert (
        rules_broken(page(ART, AB, near, TAB, TBC, A, B, C))["two links side by side"].missing > 0
    )


def test_a_page_of_the_wrong_size_is_a_breach() -> None:
    assert rules_broken(page(*CLEAN, size="210 300"))["the paper's size"].missing == 3.0


def test_the_binding_side_has_the_wider_margin() -> None:
    near = page(*CLEAN[:-3], circle("a", 200 - 11.5, 60), B, C)
    recto, verso = (judge(near, Rules.of("a4", recto=side)) for side in (True, False))
    assert "ink in the margin" not in {breach.rule for breach in recto}
    assert "ink in the margin" in {breach.rule for breach in verso}


def test_a_stretched_picture_and_a_spot_moved_too_far_are_breaches() -> None:
    wanted = {"a": (100 * 26 / 186, 100 * 34 / 228)}
    found = judge(page(*CLEAN), RULES, wanted=wanted, proportion=0.5)
    missing = {breach.rule: breach.missing for breach in found}
    assert missing["a spot moved too far"] == pytest.approx(2.0)
    assert missing["the picture is stretched"] == pytest.approx(72.0, abs=0.1)


def test_a_transform_on_a_mark_is_a_breach() -> None:
    turned = A.replace("<circle", '<circle transform="scale(2)"')
    assert "a transform stands on a mark" in rules_broken(page(*CLEAN[:-3], turned, B, C))


def test_a_path_that_the_judge_cannot_read_is_an_error() -> None:
    with pytest.raises(ValueError, match="can't read"):
        judge(page(*(re.sub("L90,60", "H90", group) for group in CLEAN)), RULES)
