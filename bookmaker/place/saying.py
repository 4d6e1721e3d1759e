"""The verdict on a page in sentences, each fault with its mend and the spots and links it means."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from bookmaker.model import Certificate, Link, Page, Problem
from bookmaker.place.bench import OnBench
from bookmaker.placement import NoCleanLayout
from bookmaker.words import Words, spoken

QUIET = ("links-chosen",)
"""Warnings that the screen shows in another way."""
Record = dict[str, Any]


def verdict(on: OnBench, words: Words) -> Record:
    """What ``check`` says of the page, in the language of ``words``.

    ``state`` is "good", "look" (warnings alone) or "mend"; ``faults`` come worst first.
    """
    told = [p for p in on.problems if p.code not in QUIET]
    faults = [fault(problem, on.page, words) for problem in told]
    if on.refusal:
        faults.insert(0, _no_room(on.refusal, on.page, words))
    faults.sort(key=lambda each: each["severity"] != "problem")
    mend = sum(each["severity"] == "problem" for each in faults)
    if mend:
        state, head = "mend", words("place.verdict.mend", mend)
    elif faults:
        state, head = "look", words("place.verdict.look", len(faults))
    else:
        state, head = "good", words("place.verdict.good")
    says = list(_says(on, words)) if on.certificate else []
    return {"state": state, "head": head, "says": says, "faults": faults}


def fault(problem: Problem, page: Page, words: Words) -> Record:
    """One fault: its sentence, how grave it is, and what is to be lit up."""
    spots, links = _meant(problem, page)
    what = [spoken(name) for name in spots] or [_said(link) for link in links]
    key = _key(problem)
    if key in words.table:
        text = words(key, what=words("list.mark").join(what), page=page.name)
    else:
        text = f"{problem.message[:1].upper()}{problem.message[1:]}. {problem.mend}"
    return _record(problem.code, problem.severity, text, spots, links)


def _record(
    code: str, severity: str, text: str, spots: Iterable[str], links: Iterable[Link]
) -> Record:
    return {
        "code": code,
        "severity": severity,
        "text": text,
        "spots": list(spots),
        "links": [link.name for link in links],
    }


def _key(problem: Problem) -> str:
    """The sentence for a problem; what is missing says which key it is in its last word."""
    key = f"place.fault.{problem.code}"
    return f"{key}-{problem.message.split()[-1]}" if problem.code == "missing-key" else key


def _no_room(refusal: NoCleanLayout, page: Page, words: Words) -> Record:
    by_ends = {frozenset(link.ends): link for link in page.links}
    named = (frozenset(name.split("-")) for name in refusal.links)
    links = [by_ends[ends] for ends in named if ends in by_ends]
    spots = [*refusal.spots]
    about = [spoken(name) for name in spots] or [_said(link) for link in links]
    kind = refusal.gap if refusal.gap in ("spot-spot", "spot-edge", "crossing") else "other"
    text = words(
        f"place.room.{kind}",
        what=words("list.mark").join(about),
        missing=words.number(f"{refusal.missing_mm:.1f}"),
    )
    return _record(refusal.code, "problem", text, spots, links)


def _says(on: OnBench, words: Words) -> Iterable[str]:
    certificate = on.certificate
    assert certificate is not None
    yield _ways(certificate, words)
    if certificate.one_in:
        yield words("place.verdict.rare", number=words.number(f"{certificate.one_in:.3g}"))
    about = "place.verdict.work" if not certificate.work_error else "place.verdict.work-about"
    band = words(f"band.{certificate.band}")
    yield words(about, round(certificate.work), band=band)
    if on.is_ready and on.tight is not None:
        tight = len(on.tight)
        yield words("place.verdict.tight", tight) if tight else words("place.verdict.roomy")
    if on.chosen:
        yield words("place.verdict.chosen")


def _ways(certificate: Certificate, words: Words) -> str:
    if certificate.solutions is None:
        return words("place.verdict.uncounted")
    ways = words("place.verdict.ways", certificate.solutions)
    apart = certificate.distinct_solutions
    if apart is None or apart == certificate.solutions:
        return ways
    return f"{ways} {words('place.verdict.apart', apart)}"


def _meant(problem: Problem, page: Page) -> tuple[list[str], list[Link]]:
    """What a problem is about: of a page in pieces the smallest, else what the message names."""
    if problem.code == "disconnected":
        return min(_pieces(page), key=len, default=[]), []
    return _named(problem.message, page)


def _pieces(page: Page) -> list[list[str]]:
    """The spots that hang together, piece by piece."""
    piece = {name: {name} for name in page.spot_names}
    for link in page.links:
        joined = piece[link.a] | piece[link.b]
        piece |= dict.fromkeys(joined, joined)
    return [[n for n in page.spot_names if n in each] for each in piece.values()]


def _named(message: str, page: Page) -> tuple[list[str], list[Link]]:
    """The spots and links of ``page`` that a message names."""
    tokens = set(re.findall(r"[\w]+(?:-[\w]+)*", message))
    links = [link for link in page.links if link.name in tokens]
    spots = [name for name in page.spot_names if name in tokens]
    if "loop" in message and len(spots) > 2:
        around = set(spots)
        links = [link for link in page.links if set(link.ends) <= around]
    return spots, links


def _said(link: Link) -> str:
    return f"{spoken(link.a)} – {spoken(link.b)}"
