"""Style sheets of an SVG brought into its elements' own style attributes.

So all that looks at an element sees what its sheets say, and a rule keeps its meaning wherever the
element is put. Order and weight of rules are those of the cascade (CSS Cascading 3, section 6).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element

import tinycss2
from cssselect2 import ElementWrapper, Matcher, SelectorError, compile_selector_list


@dataclass(frozen=True, slots=True)
class Declarations:
    """What a rule or a style attribute says, as text: plainly, and as important."""

    plain: str
    important: str


def inline_sheets(root: Element) -> bool:
    """Move the rules of every sheet into style attributes; whether a rule could not be read."""
    sheets = [(parent, sheet) for parent in root.iter() for sheet in parent.findall("style")]
    if not sheets:
        return False
    matcher, spoilt = Matcher(), False
    for parent, sheet in sheets:
        parent.remove(sheet)
        for selectors, declarations in _rules(sheet.text or ""):
            if selectors is None:
                spoilt = True
                continue
            for selector in selectors:
                matcher.add_selector(selector, declarations)
    for element in ElementWrapper.from_xml_root(root).iter_subtree():
        found = [match[-1] for match in matcher.match(element) if match[2] is None]
        if found:
            _say(element.etree_element, found)
    return spoilt


def _rules(text: str) -> Iterator[tuple[list[object] | None, Declarations]]:
    for rule in tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True):
        if rule.type == "qualified-rule":
            said = declarations_of(rule.content)
            try:
                yield compile_selector_list(rule.prelude), said
            except SelectorError:
                yield None, said


def declarations_of(content: object) -> Declarations:
    """The declarations in ``content``, text or tokens."""
    plain: list[str] = []
    important: list[str] = []
    for each in tinycss2.parse_blocks_contents(content, skip_comments=True, skip_whitespace=True):
        if each.type == "declaration":
            said = f"{each.lower_name}:{tinycss2.serialize(each.value).strip()}"
            (important if each.important else plain).append(said)
    return Declarations(";".join(plain), ";".join(important))


def _say(element: Element, found: list[Declarations]) -> None:
    own = declarations_of(element.get("style", ""))
    said = [*(rule.plain for rule in found), own.plain]
    said += [*(rule.important for rule in found), own.important]
    element.set("style", ";".join(each for each in said if each))
