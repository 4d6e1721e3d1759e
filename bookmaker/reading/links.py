"""The key ``links`` of a page: which spots are joined, and whether they make a tree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bookmaker.model import Link, Problem
from bookmaker.reading.names import by_letters, composed, name_all, shorten, show
from bookmaker.reading.spots import MOST_SPOTS, is_placed, nearest_spot, spot_names
from bookmaker.reading.table import Table
from bookmaker.reading.tree import loops, pieces

AUTO = "auto"
_DASHES = "‐‑‒–—−"


@dataclass(frozen=True, slots=True)
class _Entry:
    """An entry of the list: where it stands, and the spots that it names, if it can be read."""

    place: int
    text: str
    ends: tuple[str, str] | None


def links_of(page: Table) -> tuple[Link, ...]:
    """The links of a page without a fault, in the manifest's order and spelling."""
    return tuple(Link(*entry.ends) for entry in _entries(page) if entry.ends)


def check_links(page: Table) -> Iterator[Problem]:
    """Every fault of the key ``links``, where the page has one."""
    value = page.get("links")
    if "links" not in page.values or value == AUTO:
        return
    if not isinstance(value, list):
        mend = 'Write a list like links = ["nose-back", "back-tail"], or links = "auto".'
        yield page.problem("bad-value", f"links can't be {show(value)}", mend, "links")
        return
    entries = list(_entries(page))
    for entry, item in zip(entries, value, strict=True):
        if entry.ends is None:
            yield page.problem("bad-value", *_bad_link(item), "links", entry.place)
    spots = spot_names(page)
    whole = [entry for entry in entries if entry.ends]
    yield from _check_each(page, whole)
    yield from _check_names(page, whole, spots)
    named = {end for entry in whole for end in entry.ends or ()}
    real = [spot for spot in spots if spot in named or is_placed(page, spot)]
    if 1 < len(real) <= 10 * MOST_SPOTS:  # the time that it takes grows with their square
        yield from _check_tree(page, entries, real)


def _entries(page: Table) -> Iterator[_Entry]:
    value = page.get("links")
    spots = by_letters(spot_names(page))
    for place, item in enumerate(value if isinstance(value, list) else []):
        text = item if isinstance(item, str) else ""
        yield _Entry(place, text, _ends(text, spots))


def _ends(text: str, spots: Mapping[str, str]) -> tuple[str, str] | None:
    """The two names in ``"a-b"``, as ``spots`` has them by their letters. A spot may be (wrongly)
    named with a hyphen itself."""
    parts = composed(text).split("-")
    joined = [("-".join(parts[:at]), "-".join(parts[at:])) for at in range(1, len(parts))]
    splits = [(spots.get(a, a), spots.get(b, b)) for a, b in joined]
    for (a, b), split in zip(joined, splits, strict=True):
        if a in spots and b in spots:
            return split
    if len(splits) == 1 and all(part == part.strip() != "" for part in parts):
        return splits[0]
    return None


def _bad_link(item: object) -> tuple[str, str]:
    example = 'Write the names of two spots with a hyphen between, like "nose-back".'
    if not isinstance(item, str):
        return f"a link must be a text in quotation marks, not {show(item)}", example
    plain = item.translate({ord(dash): "-" for dash in _DASHES})
    tidy = "-".join(part.strip() for part in plain.split("-"))
    if tidy != item and tidy.count("-") == 1 and not tidy.startswith("-") and tidy[-1] != "-":
        what = "a long dash" if plain != item else "a space in it"
        return f"the link {show(item)} has {what}", f"Write {show(tidy)}, with a plain hyphen."
    return f"the link {show(item)} does not name two spots", example


def _check_each(page: Table, entries: Sequence[_Entry]) -> Iterator[Problem]:
    """Links that can't be right, whatever the spots are."""
    seen: dict[frozenset[str], _Entry] = {}
    for entry in entries:
        ends = frozenset(entry.ends or ())
        first = seen.setdefault(ends, entry)
        if len(ends) == 1:
            message = f"the link {shorten(entry.text)} joins a spot to itself"
            mend = "Take it out, or let it join two different spots."
            yield page.problem("self-link", message, mend, "links", entry.place)
        elif first is not entry:
            line = page.line("links", first.place)
            message = f"the link {shorten(entry.text)} is there already: {shorten(first.text)}"
            mend = "Take one of the two out, or let it join two other spots."
            way = ("links", entry.place)
            yield page.problem("repeated-link", f"{message} in line {line}", mend, *way)


def _check_names(page: Table, entries: Sequence[_Entry], spots: Sequence[str]) -> Iterator[Problem]:
    """Spots that links name and the page does not have: one problem for each name.

    Of a page with fewer than two spots that is said alone, not for each link as well.
    """
    unknown: dict[str, list[_Entry]] = {}
    for entry in entries:
        for name in dict.fromkeys(entry.ends or ()):
            if len(spots) > 1 and name not in spots:
                unknown.setdefault(name, []).append(entry)
    for name, users in unknown.items():
        links = name_all([entry.text for entry in users])
        subject = f"the link {links} names" if len(users) == 1 else f"the links {links} name"
        message = f"{subject} a spot that the page does not have: {shorten(name)}"
        mend = nearest_spot(name, spots)
        yield page.problem("unknown-spot", message, mend, "links", users[0].place)


def _check_tree(page: Table, entries: Sequence[_Entry], spots: Sequence[str]) -> Iterator[Problem]:
    good: dict[frozenset[str], _Entry] = {}
    for entry in entries:
        a, b = entry.ends or ("", "")
        if a != b and a in spots and b in spots:
            good.setdefault(frozenset((a, b)), entry)
    sound = list(good.values())
    edges = [entry.ends for entry in sound if entry.ends]
    for index, around in loops(spots, edges):
        way = " - ".join(shorten(spot) for spot in around[:40])
        message = f"the links form a loop: {way}"
        mend = "Take one of these links out."
        yield page.problem("loop", message, mend, "links", sound[index].place)
    found = pieces(spots, edges)
    spoilt = len(entries) - len(sound)
    if len(found) - 1 > spoilt:  # each spoilt link would join two pieces, were it right
        yield page.problem("disconnected", *_apart(found), "links")


def _apart(found: Sequence[Sequence[str]]) -> tuple[str, str]:
    alone = [piece[0] for piece in found if len(piece) == 1]
    if len(alone) == len(found):
        return "no two spots are joined by a link", f"Join {name_all(alone)} up by links."
    if len(found) == 2 and len(alone) == 1:
        rest = next(piece for piece in found if len(piece) > 1)
        message = f"the spot {shorten(alone[0])} is not joined to the others"
        return message, f"Add a link between {shorten(alone[0])} and one of {name_all(rest)}."
    said = "; ".join(name_all(piece) for piece in found[:8])
    said += f"; and {len(found) - 8} more" if len(found) > 8 else ""
    links = "a link" if len(found) == 2 else f"{len(found) - 1} links"
    return f"the spots fall into {len(found)} pieces: {said}", f"Add {links} to join them up."
