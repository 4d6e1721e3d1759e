"""Pages written down as SVG."""

from __future__ import annotations

from xml.etree import ElementTree

from bookmaker.model import Box, Description, PlacedPage
from bookmaker.pdf import INKS
from bookmaker.pdf.svg_page import page_svg

NAMESPACE = "{http://www.w3.org/2000/svg}"


def test_what_is_told_in_words_is_a_title_and_leaves_no_ink() -> None:
    """SVG 1.1, 5.4: a title describes the element that it stands in."""
    page = PlacedPage("p", 210, 297, (Description(Box(20, 20, 100, 100), "a snail"),))
    root = ElementTree.fromstring(page_svg(page, INKS["full"], {}))
    (group,) = root.findall(f"{NAMESPACE}g")
    assert group.get("class") == "description"
    assert [element.tag for element in group] == [f"{NAMESPACE}title"]
    assert group[0].text == "a snail"
