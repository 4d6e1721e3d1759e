"""Certificates and problems as plain data, for ``check --json`` and the certificate file."""

from __future__ import annotations

from typing import Any

from bookmaker.model import CertifiedPage, Problem


def page_record(certified: CertifiedPage) -> dict[str, Any]:
    """What the certificate says of one page, in the form of the interface."""
    page, certificate = certified.page, certified.certificate
    return {
        "id": page.id,
        "name": page.name,
        "chapter": page.chapter,
        "file": page.file,
        "spots": list(page.spot_names),
        "letters": certified.letters,
        "links": [list(link.ends) for link in page.links],
        "numbers": [number.text for number in page.numbers],
        "given": {name: number.text for name, number in page.given},
        "solutions": certificate.solutions,
        "distinct_solutions": certificate.distinct_solutions,
        "one_in": certificate.one_in,
        "work": certificate.work,
        "work_error": certificate.work_error,
        "band": certificate.band,
        "solution": {name: number.text for name, number in certified.solution.items()},
        "differences": {name: number.text for name, number in certified.differences.items()},
    }


def problem_record(problem: Problem) -> dict[str, Any]:
    """One problem, in the form of the interface."""
    return {
        "file": problem.file,
        "line": problem.line,
        "page": problem.page,
        "code": problem.code,
        "severity": problem.severity,
        "message": problem.message,
        "mend": problem.mend,
    }
