"""Changes to one page's text, each a small one, written through tomlkit: all else stays."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, Final

from bookmaker.model import Link, Spot

TEXTS: Final = {"name": 200, "artist": 200, "licence": 200, "description": 1000}
"""What may be written into a page from the screen, and its longest in signs."""
SWITCHES: Final = ("turn", "fixed")


class Refused(Exception):
    """A change can't be made. ``key`` names the sentence that says why, ``values`` fill it."""

    def __init__(self, key: str, **values: object) -> None:
        super().__init__(key)
        self.key, self.values = key, values


Change = Callable[[Any], None]
"""What is done to a page's table, a mapping of tomlkit's."""


def changed(text: str, change: Change) -> str:
    """``text``, one page, with ``change`` done to it. Raises Refused."""
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    try:
        document = tomlkit.parse(text)
        pages: Any = document["page"]
        change(pages[0])
        return tomlkit.dumps(document)
    except (TOMLKitError, TypeError, AttributeError, IndexError) as error:
        raise Refused("place.refused.broken") from error


def move_spot(name: str, x: float, y: float) -> Change:
    """Put a spot elsewhere: ``x`` and ``y`` in per cent of the picture."""

    def change(page: Any) -> None:
        spots = _spots(page)
        if name not in spots:
            raise Refused("place.refused.gone", name=name)
        old = spots[name]
        if isinstance(old, list) and len(old) == 2:
            old[0], old[1] = _tidy(x), _tidy(y)
        else:
            spots[name] = [_tidy(x), _tidy(y)]

    return change


def add_spot(name: str, x: float, y: float) -> Change:
    def change(page: Any) -> None:
        _spots(page)[name] = [_tidy(x), _tidy(y)]

    return change


def place_spots(spots: Sequence[Spot]) -> Change:
    """Other spots in place of all that there are; links and given numbers go with those."""

    def change(page: Any) -> None:
        table = _spots(page)
        for name in list(table):
            del table[name]
        for spot in spots:
            table[spot.name] = [_tidy(spot.x), _tidy(spot.y)]
        page.pop("given", None)

    return change


def name_spot(old: str, new: str) -> Change:
    """Another name for a spot, everywhere on its page."""

    def change(page: Any) -> None:
        spots = _spots(page)
        if old not in spots:
            raise Refused("place.refused.gone", name=old)
        if new in spots:
            raise Refused("place.refused.taken", name=new)
        _renamed(spots, old, new)
        links = page.get("links")
        for place, link in enumerate(links if isinstance(links, list) else []):
            ends = str(link).split("-")
            if old in ends:
                links[place] = "-".join(new if end == old else end for end in ends)
        given = page.get("given")
        if isinstance(given, dict) and old in given:
            _renamed(given, old, new)

    return change


def remove_spot(name: str) -> Change:
    """Take a spot out, with its links and the number given for it."""

    def change(page: Any) -> None:
        spots = _spots(page)
        if name not in spots:
            raise Refused("place.refused.gone", name=name)
        del spots[name]
        links = page.get("links")
        if isinstance(links, list):
            _keep(links, lambda link: name not in str(link).split("-"))
        _forget(page, name)

    return change


def add_link(a: str, b: str) -> Change:
    """Link two spots."""

    def change(page: Any) -> None:
        links = _links(page)
        if any({a, b} == set(str(link).split("-")) for link in links):
            raise Refused("place.refused.linked", a=a, b=b)
        links.append(f"{a}-{b}")

    return change


def remove_link(name: str) -> Change:
    """Take a link out, by the manifest's spelling of it."""

    def change(page: Any) -> None:
        links = _links(page)
        if name not in links:
            raise Refused("place.refused.gone", name=name)
        gone = list(links).index(name)
        links.pop(gone)

    return change


def set_links(links: Iterable[Link]) -> Change:
    """These links and no others; what was wished for links has had its day."""

    def change(page: Any) -> None:
        page["links"] = [link.name for link in links]
        for key in ("band", "one_in"):
            page.pop(key, None)

    return change


def set_auto() -> Change:
    """Leave the links to us."""

    def change(page: Any) -> None:
        page["links"] = "auto"

    return change


def give(spot: str, number: str | None) -> Change:
    """Print ``number`` in a spot beforehand; None takes it away."""

    def change(page: Any) -> None:
        import tomlkit

        if number is None:
            _forget(page, spot)
            return
        if not isinstance(page.get("given"), dict):
            page["given"] = tomlkit.inline_table()
        whole = number.lstrip("-").isdigit()
        page["given"][spot] = int(number) if whole else number

    return change


def set_text(key: str, text: str) -> Change:
    """Write one of TEXTS; an empty one is taken out, but for the name."""
    if key not in TEXTS or len(text) > TEXTS[key]:
        raise Refused("place.refused.words")

    def change(page: Any) -> None:
        said = " ".join(text.split()) if key != "description" else text.strip()
        if said or key == "name":
            page[key] = said
        else:
            page.pop(key, None)

    return change


def set_switch(key: str, on: bool) -> Change:
    if key not in SWITCHES:
        raise Refused("place.refused.words")

    def change(page: Any) -> None:
        if on:
            page[key] = True
        else:
            page.pop(key, None)

    return change


def set_position(place: int | None) -> Change:
    """A fixed place in the chapter, from 1; None leaves it to how hard the page is."""

    def change(page: Any) -> None:
        if place is None:
            page.pop("position", None)
        else:
            page["position"] = place

    return change


def page_text(values: Mapping[str, str], newline: str = "\n") -> str:
    """A new page's text, with an empty line before it."""
    import tomlkit

    table = tomlkit.table()
    for key, value in values.items():
        table[key] = value
    table["links"] = []
    table["spots"] = tomlkit.table()
    lines = tomlkit.dumps({"page": [table]}).strip("\n")
    return f"\n{lines}\n".replace("\n", newline)


def _spots(page: Any) -> Any:
    """The table of spots, made where there is none, or where they were left to us."""
    import tomlkit

    if not isinstance(page.get("spots"), dict):
        page.pop("spots", None)
        page.pop("shape", None)
        page["spots"] = tomlkit.table()
    return page["spots"]


def _links(page: Any) -> Any:
    if not isinstance(page.get("links"), list):
        page["links"] = []
    return page["links"]


def _renamed(table: Any, old: str, new: str) -> None:
    """Give a key another name at its own place: what stands beside it stays there."""
    inner = getattr(table, "value", table)
    inner._replace(old, new, table[old])
    dict.pop(table, old, None)
    dict.__setitem__(table, new, inner[new])


def _keep(links: Any, wanted: Callable[[object], bool]) -> None:
    for place in reversed(range(len(links))):
        if not wanted(links[place]):
            links.pop(place)


def _forget(page: Any, spot: str) -> None:
    given = page.get("given")
    if isinstance(given, dict) and spot in given:
        del given[spot]
        if not given:
            page.pop("given")


def _tidy(value: float) -> float:
    """A place in per cent: a fiftieth of a millimetre on the largest paper is fine enough."""
    near = round(min(max(value, 0.0), 100.0), 2)
    return int(near) if near == int(near) else near
