"""Certificates for pages: the solver's word, and the checker's word on it."""

from __future__ import annotations

from collections.abc import Iterable

from bookmaker.cache import Cache
from bookmaker.model import Certificate, CertifiedPage, Page, Problem
from bookmaker.puzzle.certify import certify
from bookmaker.puzzle.checker import breaches
from bookmaker.puzzle.finding import Unsolvable
from bookmaker.puzzle.page_instance import to_instance


class CertificateFault(Exception):
    """A certificate failed its check: a fault of ours, nothing is to be written."""


def certify_pages(
    pages: Iterable[Page], cache: Cache, seed: int
) -> tuple[dict[str, CertifiedPage], tuple[Problem, ...]]:
    """A checked certificate for each page, by its id, and a problem for each without a solution.

    The code is "unsolvable" where that is proved, "not-solved" where none was found. Raises
    CertificateFault where the solver and the checker do not agree.
    """
    certified: dict[str, CertifiedPage] = {}
    problems = []
    for page in pages:
        try:
            certificate = _certificate(page, cache, seed)
        except Unsolvable as verdict:
            problems.append(_unsolvable(page, verdict))
            continue
        certified[page.id] = CertifiedPage.of(page, certificate)
    return certified, tuple(problems)


def _certificate(page: Page, cache: Cache, seed: int) -> Certificate:
    tree, numbers, given = to_instance(page)
    certificate = certify(tree, numbers, given, cache=cache, seed=seed)
    faults = breaches(page.edges, numbers, given, certificate.solution)
    if faults:
        raise CertificateFault(f"{page.name}: the certificate is wrong: {faults[0]}")
    return certificate


def _unsolvable(page: Page, verdict: Unsolvable) -> Problem:
    where = page.line_of("given", "numbers", "links")
    if verdict.proved:
        code = "unsolvable"
        message = "no arrangement of its numbers is a solution; every one has been ruled out"
    else:
        code = "not-solved"
        message = f"no solution was found in {verdict.steps} steps; there may be one"
    mend = "Take a given number away." if page.given else "Use other numbers, or fewer spots."
    return Problem(page.file, where, page.name, code, message, mend)
