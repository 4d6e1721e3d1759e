"""What the browser is told of a page: one record, documented in README.md of this folder."""

from __future__ import annotations

from typing import Any

from bookmaker.pdf import INKS
from bookmaker.pdf.svg_page import page_svg
from bookmaker.place.bench import OnBench, art_box, radius_of
from bookmaker.place.draft import Draft
from bookmaker.place.loosely import page_values
from bookmaker.place.saying import verdict
from bookmaker.words import Words, spoken

Record = dict[str, Any]


def page_record(on: OnBench, draft: Draft, words: Words) -> Record:
    """All of one page: the sheet as SVG without its picture, its spots, links and words, and the
    verdict. Places on the sheet are in millimetres from its top left."""
    page, (file, text) = on.page, draft.find(on.uid)
    certificate = on.certificate
    return {
        "page": on.uid,
        "side": [on.placed.label, on.puzzle.sheet.recto],
        "name": page.name,
        "chapter": file.path.stem,
        "svg": page_svg(on.placed, INKS["full"], {}),
        "size": [on.placed.width, on.placed.height],
        "art": _art(on),
        "radius": radius_of(on),
        "spots": _spots(on),
        "links": [
            {"name": link.name, "a": link.a, "b": link.b, "said": _between(link.a, link.b)}
            for link in page.links
        ],
        "chosen": on.chosen,
        "numbers": [number.text for number in page.numbers] if on.sound else [],
        "texts": {
            "name": page.name,
            "artist": page.artist,
            "licence": page.licence,
            "description": page.description,
        },
        "turn": page.turn,
        "position": _position(text.text),
        "places": len(file.pages),
        "band": certificate.band if certificate else "",
        "work": certificate.work if certificate else None,
        "ready": on.is_ready,
        "verdict": verdict(on, words),
        "tight": [[round(value, 2) for value in gap] for gap in on.tight or ()],
        "lines": text.text if _is_broken(on) else None,
    }


def _art(on: OnBench) -> Record:
    """The picture: what per cents refer to, what of it shows, and where to ask for it."""
    window = on.puzzle.art.window if on.puzzle.art else on.puzzle.frame
    return {
        "picture": on.picture.digest if on.picture else None,
        "box": [round(value, 3) for value in art_box(on)],
        "window": [round(v, 3) for v in (window.x, window.y, window.width, window.height)],
    }


def _spots(on: OnBench) -> list[Record]:
    given = {name: number.text for name, number in on.page.given}
    placed = {spot.name: spot for spot in on.puzzle.tree.spots}
    return [
        {
            "name": spot.name,
            "said": spoken(spot.name),
            "x": spot.x,
            "y": spot.y,
            "at": [round(placed[spot.name].x, 3), round(placed[spot.name].y, 3)],
            "given": given.get(spot.name),
        }
        for spot in on.page.spots
        if spot.name in placed
    ]


def _between(a: str, b: str) -> str:
    return f"{spoken(a)} – {spoken(b)}"


def _position(text: str) -> int | None:
    place = page_values(text).get("position")
    return place if isinstance(place, int) else None


def _is_broken(on: OnBench) -> bool:
    """Whether something is wrong that no button mends: then the page's own lines are shown."""
    mended = {"loop", "disconnected", "too-few-spots", "repeated-link", "spots-too-close"}
    return not on.sound and any(
        p.code not in mended and p.code != "missing-key" for p in on.problems
    )
