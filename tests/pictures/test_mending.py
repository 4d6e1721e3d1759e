"""What the renderer draws wrongly is said otherwise."""

from __future__ import annotations

from xml.etree.ElementTree import fromstring

import pytest

from bookmaker.pictures.mending import has_doubtful_mask, mend


def test_a_gradient_takes_stops_and_attributes_along_its_chain() -> None:
    """SVG 2, 14.2.2 and 14.1.1: what is not said is taken from the template, stop by stop."""
    root = fromstring(
        '<svg><linearGradient id="c" href="#b" x1="1"/><linearGradient id="b" href="#a" x2="2"/>'
        '<linearGradient id="a" x1="9" spreadMethod="pad"><stop id="s" offset="0"/>'
        "</linearGradient></svg>"
    )
    mend(root)
    first = root[0]
    assert first.attrib == {"id": "c", "x1": "1", "x2": "2", "spreadMethod": "pad"}
    assert [stop.attrib for stop in first] == [{"offset": "0"}]


def test_gradients_that_go_round_in_a_circle_end() -> None:
    root = fromstring('<svg><pattern id="a" href="#b"/><pattern id="b" href="#a" x="1"/></svg>')
    mend(root)
    assert "href" not in root[0].attrib
    assert root[0].get("x") == "1"


def test_the_looks_of_a_copy_go_to_a_group_around_it() -> None:
    root = fromstring('<svg><g><use href="#a" x="3" opacity=".5" transform="scale(2)"/></g></svg>')
    mend(root)
    group = root[0][0]
    assert (group.tag, group.attrib) == ("g", {"opacity": ".5", "transform": "scale(2)"})
    assert (group[0].tag, group[0].attrib) == ("use", {"href": "#a", "x": "3"})


@pytest.mark.parametrize(
    ("mask", "masked", "doubtful"),
    [
        ('<mask id="m"><rect fill="white"/></mask>', '<rect mask="url(#m)"/>', False),
        (
            '<mask id="m"><path style="fill:#FFF;stroke:none"/></mask>',
            '<g style="mask:url(#m)"/>',
            False,
        ),
        ('<mask id="m"><rect fill="white"/></mask>', "<rect/>", False),
        ('<mask id="m"><rect fill="#888"/></mask>', "<rect/>", False),
        ('<mask id="m"><rect fill="#888"/></mask>', '<rect mask="url(#m)"/>', True),
        ('<mask id="m"><rect fill="url(#fade)"/></mask>', '<rect mask="url(#m)"/>', True),
        ('<mask id="m"><rect style="fill: black"/></mask>', '<rect mask="url(#m)"/>', True),
        ('<mask id="m"><rect/></mask>', '<rect mask="url(#m)"/>', True),
        ('<mask id="m"><rect fill="white" opacity=".5"/></mask>', '<rect mask="url(#m)"/>', True),
        ('<mask id="m"><image/></mask>', '<rect mask="url(#m)"/>', True),
        ('<mask id="m"><rect fill="white"/></mask>', '<g mask="url(#m)"><image/></g>', True),
        (
            '<mask id="m" maskContentUnits="objectBoundingBox"><rect fill="white"/></mask>',
            '<rect mask="url(#m)"/>',
            True,
        ),
        ("", '<rect mask="url(#gone)"/>', True),
    ],
)
def test_masks_that_are_drawn_otherwise_are_noticed(mask: str, masked: str, doubtful: bool) -> None:
    assert has_doubtful_mask(fromstring(f"<svg>{mask}{masked}</svg>")) is doubtful


def test_fill_and_outline_are_parted_only_where_it_matters() -> None:
    plain = '<rect fill="red" stroke="blue" paint-order="fill"/><rect fill="red" opacity=".5"/>'
    root = fromstring(f"<svg>{plain}</svg>")
    mend(root)
    assert [element.tag for element in root] == ["rect", "rect"]


def test_an_outline_under_its_fill_is_drawn_first() -> None:
    """SVG 2, 13.8: paint-order "stroke" paints the stroke, then the fill."""
    root = fromstring('<svg><path id="a" stroke="blue" style="paint-order:stroke;fill:red"/></svg>')
    mend(root)
    group = root[0]
    assert (group.tag, group.get("id")) == ("g", "a")
    ends = [path.get("style", "").rpartition(";")[2] for path in group]
    assert ends == ["fill:none", "stroke:none"]


def test_shapes_that_clip_are_left_alone() -> None:
    root = fromstring('<svg><clipPath><rect stroke="blue" opacity=".5"/></clipPath></svg>')
    mend(root)
    assert root[0][0].tag == "rect"


def test_an_outline_said_by_a_group_is_parted_from_its_fills_too() -> None:
    root = fromstring(
        '<svg stroke="blue"><g style="paint-order:stroke"><rect fill="red"/></g>'
        '<rect fill="red" opacity=".5"/></svg>'
    )
    mend(root)
    assert (root[0][0].tag, root[1].tag) == ("g", "g")
