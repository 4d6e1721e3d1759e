"""What the browser asks for, out of JSON: each change looked at before anything is done."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from bookmaker.linking import propose_spots
from bookmaker.linking.choose import choose
from bookmaker.model import BANDS, Band, Spot, Wish
from bookmaker.place import edits
from bookmaker.place.bench import Bench, OnBench
from bookmaker.place.draft import Draft, Numbering, PageText, parted
from bookmaker.place.edits import Refused
from bookmaker.place.loosely import page_values
from bookmaker.place.room import free_place
from bookmaker.reading import is_spot_name
from bookmaker.typeset import PAPERS
from bookmaker.words import load

MOST_SPOTS: Final = 35
USUAL: Final = 6
"""Spots of a page that has none yet: middling at eight and nine years (common practice)."""
Asked = Mapping[str, Any]


class NotUnderstood(ValueError):
    """The browser sent something that no screen of ours sends."""


@dataclass(frozen=True, slots=True)
class Asking:
    """One change asked for: on what, with which bench."""

    draft: Draft
    uid: int
    bench: Bench
    wants: Asked

    def on_bench(self) -> OnBench:
        return self.bench.put(self.draft, self.uid)

    def text(self, key: str, most: int = 200) -> str:
        value = self.wants.get(key)
        if not isinstance(value, str) or len(value) > most or "\0" in value:
            raise NotUnderstood(key)
        return value

    def place(self) -> tuple[float, float]:
        """Where something is to go, in per cent of the picture."""
        value = self.wants.get("to")
        if not isinstance(value, list) or len(value) != 2 or not all(map(_is_finite, value)):
            raise NotUnderstood("to")
        return float(value[0]), float(value[1])

    def changed(self, change: edits.Change) -> Draft:
        _, page = self.draft.find(self.uid)
        return self.draft.with_page(self.uid, edits.changed(page.text, change))


def done(asking: Asking) -> Draft:
    """The draft with the change made. Raises Refused, NotUnderstood, KeyError."""
    file, _ = asking.draft.find(asking.uid)
    if file.raw is not None:
        raise Refused("place.refused.broken")
    do = asking.wants.get("do")
    if not isinstance(do, str) or do not in CHANGES:
        raise NotUnderstood("do")
    return CHANGES[do](_written_down(asking) if do in OF_TREES else asking)


def _written_down(asking: Asking) -> Asking:
    """What was left to us, spots or links, written down as it is seen: it stays, whatever else is
    changed on the page."""
    values = page_values(_text(asking))
    if isinstance(values.get("links"), list) and isinstance(values.get("spots"), dict):
        return asking
    on = asking.on_bench()
    if on.page.unplaced:
        asking = replace(asking, draft=asking.changed(edits.place_spots(on.page.spots)))
    if on.chosen or on.page.unplaced:
        asking = replace(asking, draft=asking.changed(edits.set_links(on.page.links)))
    return asking


def _move(asking: Asking) -> Draft:
    return asking.changed(edits.move_spot(asking.text("spot"), *asking.place()))


def _add(asking: Asking) -> Draft:
    on = asking.on_bench()
    spots = page_values(_text(asking)).get("spots")
    names = set(spots) if isinstance(spots, dict) else set()
    if len(names) >= MOST_SPOTS:
        raise Refused("place.refused.many", n=MOST_SPOTS)
    at = asking.place() if "to" in asking.wants else free_place(on)
    return asking.changed(edits.add_spot(_new_name(names, on.language), *at))


def _new_name(names: set[str], language: str) -> str:
    word = load(language)("place.spot-name")
    number = len(names) + 1
    while f"{word}_{number}" in names:
        number += 1
    return f"{word}_{number}"


def _name(asking: Asking) -> Draft:
    new = "_".join(asking.text("to", 60).replace("-", " ").split())
    if not is_spot_name(new):
        raise Refused("place.refused.name")
    old = asking.text("spot")
    return asking.draft if new == old else asking.changed(edits.name_spot(old, new))


def _remove_spot(asking: Asking) -> Draft:
    return asking.changed(edits.remove_spot(asking.text("spot")))


def _link(asking: Asking) -> Draft:
    a, b = asking.text("a"), asking.text("b")
    spots = page_values(_text(asking)).get("spots")
    if a == b or not isinstance(spots, dict) or not {a, b} <= set(spots):
        raise Refused("place.refused.link")
    return asking.changed(edits.add_link(a, b))


def _unlink(asking: Asking) -> Draft:
    return asking.changed(edits.remove_link(asking.text("link", 500)))


def _give(asking: Asking) -> Draft:
    number = asking.wants.get("number")
    if number is not None:
        number = asking.text("number", 40)
        known = [each.text for each in asking.on_bench().page.numbers]
        if number not in known:
            raise NotUnderstood("number")
    return asking.changed(edits.give(asking.text("spot"), number))


def _write(asking: Asking) -> Draft:
    key = asking.text("key")
    text = asking.text("text", edits.TEXTS.get(key, 0))
    if key == "name" and not text.strip():
        raise Refused("place.refused.nameless")
    return asking.changed(edits.set_text(key, text))


def _turn(asking: Asking) -> Draft:
    return asking.changed(edits.set_switch("turn", asking.wants.get("on") is True))


def _position(asking: Asking) -> Draft:
    """A fixed place; whoever has it already gives it up."""
    place = asking.wants.get("place")
    file, _ = asking.draft.find(asking.uid)
    if place is None:
        return asking.changed(edits.set_position(None))
    if isinstance(place, bool) or not isinstance(place, int) or not 1 <= place <= len(file.pages):
        raise NotUnderstood("place")
    draft = asking.draft
    for page in file.pages:
        if page.uid != asking.uid and page_values(page.text).get("position") == place:
            other = edits.changed(page.text, edits.set_position(None))
            draft = draft.with_page(page.uid, other)
    return replace(asking, draft=draft).changed(edits.set_position(place))


def _order(asking: Asking) -> Draft:
    """The page one place earlier (-1) or later (1) among those of its file."""
    by = asking.wants.get("by")
    file, page = asking.draft.find(asking.uid)
    pages = list(file.pages)
    here = pages.index(page)
    if by not in (-1, 1) or not 0 <= here + by < len(pages):
        raise Refused("place.refused.nothing")
    pages[here], pages[here + by] = pages[here + by], pages[here]
    ended = (PageText(p.uid, p.text if p.text.endswith("\n") else f"{p.text}\n") for p in pages)
    return asking.draft.with_file(replace(file, pages=tuple(ended)))


def _choose(asking: Asking) -> Draft:
    """Links of our choice: of a band, easier or harder than now, or simply short ones."""
    on = asking.on_bench()
    if not 2 <= len(on.page.spots) <= MOST_SPOTS:
        raise Refused("place.refused.few")
    band = _band(asking.wants.get("band"), on)
    page = replace(on.page, wish=Wish(band), links=(), given=())
    choice = choose(page, on.picture, on.paper, asking.bench.cache, asking.bench.seed)
    return asking.changed(edits.set_links(choice.page.links))


def _propose(asking: Asking) -> Draft:
    """Spots of our choice where the picture suggests them, and links between them."""
    on, count = asking.on_bench(), asking.wants.get("count")
    if on.picture is None:
        raise Refused("place.refused.unseen")
    if count is None:
        count = len(on.page.spots) if len(on.page.spots) > 1 else USUAL
    if isinstance(count, bool) or not isinstance(count, int) or not 2 <= count <= MOST_SPOTS:
        raise NotUnderstood("count")
    word = load(on.language)("place.spot-name")
    blank = tuple(Spot(f"{word}_{place}", 0.0, 0.0) for place in range(1, count + 1))
    proposal = propose_spots(
        replace(on.page, spots=blank), on.picture, on.paper, asking.bench.cache
    )
    spots = [replace(s, x=x, y=y) for s, (x, y) in zip(blank, proposal.spots, strict=False)]
    spotted = replace(asking, draft=asking.changed(edits.place_spots(spots)))
    left = replace(spotted, draft=spotted.changed(edits.set_auto()))
    links = left.on_bench().page.links
    return spotted.changed(edits.set_links(links))


def _band(wanted: object, on: OnBench) -> Band | None:
    now = BANDS.index(on.certificate.band) if on.certificate else 0
    if wanted == "easier":
        return BANDS[max(now - 1, 0)]
    if wanted == "harder":
        return BANDS[min(now + 1, len(BANDS) - 1)]
    return next((band for band in BANDS if band == wanted), None)


def _paper(asking: Asking) -> Draft:
    paper = asking.text("paper")
    if paper not in PAPERS:
        raise NotUnderstood("paper")
    return with_paper(asking.draft, paper)


def with_paper(draft: Draft, paper: str) -> Draft:
    """Another paper: a book's is written down, a chapter has none of its own."""
    import tomlkit

    if not draft.is_book:
        return replace(draft, paper=paper)
    book = draft.files[0]
    document = tomlkit.parse(book.head)
    document["paper"] = paper
    return replace(draft, paper=None).with_file(replace(book, head=tomlkit.dumps(document)))


def _lines(asking: Asking) -> Draft:
    """The page's own lines, mended by hand; its picture stays the one that it was."""
    text = asking.text("text", 50_000)
    found = parted(Path(), text.encode(), Numbering())
    if found.head.strip() or len(found.pages) != 1:
        raise Refused("place.refused.words")
    before, after = page_values(_text(asking)), page_values(text)
    if any(key in after and after[key] != before.get(key) for key in ("art", "mark")):
        raise Refused("place.refused.art")
    return asking.draft.with_page(asking.uid, text if text.endswith("\n") else f"{text}\n")


def _text(asking: Asking) -> str:
    return asking.draft.find(asking.uid)[1].text


def _is_finite(value: object) -> bool:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    return number and math.isfinite(value)  # type: ignore[arg-type]


OF_TREES: Final = ("move", "add", "name", "remove", "link", "unlink", "give")
"""Changes to spots and links: what is not written down yet is, before them."""

CHANGES: Final[Mapping[str, Callable[[Asking], Draft]]] = {
    "move": _move,
    "add": _add,
    "name": _name,
    "remove": _remove_spot,
    "link": _link,
    "unlink": _unlink,
    "give": _give,
    "write": _write,
    "turn": _turn,
    "position": _position,
    "order": _order,
    "choose": _choose,
    "propose": _propose,
    "paper": _paper,
    "lines": _lines,
}
