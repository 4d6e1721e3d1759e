"""How much a drawing comes to."""

from __future__ import annotations

from xml.etree.ElementTree import fromstring

import pytest

from bookmaker.pictures.limits import Limits, Unfit
from bookmaker.pictures.weight import weigh

BOMBS = {
    "copies of copies": '<g id="a0"><rect/></g>'
    + "".join(f'<g id="a{n}">' + f'<use href="#a{n - 1}"/>' * 10 + "</g>" for n in range(1, 9)),
    "patterns in patterns": '<pattern id="a0"><rect/></pattern>'
    + "".join(
        f'<pattern id="a{n}">' + f'<rect fill="url(#a{n - 1})"/>' * 8 + "</pattern>"
        for n in range(1, 9)
    ),
    "patterns said in styles": '<pattern id="a0"><rect/></pattern>'
    + "".join(
        f'<pattern id="a{n}">' + f'<rect style="stroke:url(#a{n - 1})"/>' * 8 + "</pattern>"
        for n in range(1, 9)
    ),
    "markers on every corner": '<marker id="m">' + "<rect/>" * 500 + "</marker>"
    '<path marker-mid="url(#m)" d="' + "l1 1" * 2000 + '"/>',
    "paint that children inherit": '<pattern id="p">' + "<rect/>" * 500 + "</pattern>"
    '<g fill="url(#p)">' + "<rect/>" * 500 + "</g>",
}

LOOPS = {
    "a copy of itself": '<use id="a" href="#a"/>',
    "two copies of each other": '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>',
    "a pattern painted with itself": '<pattern id="p"><rect fill="url(#p)"/></pattern>',
    "a mask that masks itself": '<mask id="m"><g mask="url(#m)"/></mask>',
    "a copy of what holds it": '<g id="a"><g><use href="#a"/></g></g>',
}


def weigh_text(body: str, limits: Limits | None = None) -> None:
    weigh(fromstring(f"<svg>{body}</svg>"), limits or Limits())


@pytest.mark.parametrize("name", sorted(BOMBS))
def test_bombs_are_refused_without_being_drawn(name: str) -> None:
    with pytest.raises(Unfit) as refused:
        weigh_text(BOMBS[name])
    assert refused.value.code == "art-too-large"
    assert "once its copies are drawn" in refused.value.reason


@pytest.mark.parametrize("name", sorted(LOOPS))
def test_circles_are_refused(name: str) -> None:
    with pytest.raises(Unfit, match="in a circle"):
        weigh_text(LOOPS[name])


def test_a_chain_of_copies_counts_as_nesting() -> None:
    chain = '<g id="a0"/>' + "".join(
        f'<g id="a{n}"><use href="#a{n - 1}"/></g>' for n in range(1, 5000)
    )
    with pytest.raises(Unfit, match="nested"):
        weigh_text(chain)


def test_a_flower_of_many_petals_is_fine() -> None:
    petals = "".join(f'<use href="#petal" transform="rotate({n})"/>' for n in range(360))
    weigh_text('<defs><g id="petal"><path d="M0 0L5 5"/><circle r="2"/></g></defs>' + petals)


def test_references_to_nothing_weigh_nothing() -> None:
    weigh_text('<use href="#nowhere"/><rect fill="url(#nothing)"/>')
