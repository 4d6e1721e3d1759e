"""Certificates and problems as plain data, for ``check --json`` and the certificate file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from bookmaker.model import CertifiedPage, Problem


def page_record(certified: CertifiedPage, folder: Path) -> dict[str, Any]:
    """What the certificate says of one page, in a form that scripts rely on.

    Its file is told as seen from ``folder``, that of the book's manifest.
    """
    page, certificate = certified, certified.certificate
    return {
        "id": page.id,
        "name": page.name,
        "chapter": page.chapter,
        "file": as_seen_from(folder, Path(page.file)),
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
        "work_trying": certificate.trying.mean,
        "work_trying_error": certificate.trying.error,
        "work_building": certificate.building.mean,
        "work_building_error": certificate.building.error,
        "solution": {name: number.text for name, number in certified.solution.items()},
        "differences": {name: number.text for name, number in certified.differences.items()},
    }


def as_seen_from(folder: Path, file: Path) -> str:
    """``file`` relative to ``folder`` where it lies inside, else its name alone: no record says
    where on this machine anything lies."""
    inside, place = folder.resolve(), file.resolve()
    return place.relative_to(inside).as_posix() if place.is_relative_to(inside) else file.name


def problem_record(problem: Problem) -> dict[str, Any]:
    """One problem, in a form that scripts rely on."""
    return {
        "file": problem.file,
        "line": problem.line,
        "page": problem.page,
        "code": problem.code,
        "severity": problem.severity,
        "message": problem.message,
        "mend": problem.mend,
    }
