"""Curricula: what schools in eight places expect of subtraction; a table each, in a module each.

Beside the stages, as ``words`` are: whoever needs it asks. A new curriculum is a new module and an
entry here.
"""

from __future__ import annotations

from collections.abc import Mapping

from bookmaker.curricula.australia import AUSTRALIA
from bookmaker.curricula.england import ENGLAND
from bookmaker.curricula.expected import NO_LIMIT, Curriculum, Expected, kind_of
from bookmaker.curricula.france import FRANCE
from bookmaker.curricula.germany import GERMANY
from bookmaker.curricula.judging import Level, Run, level, practised_by, runs_of, suggest
from bookmaker.curricula.ontario import ONTARIO
from bookmaker.curricula.singapore import SINGAPORE
from bookmaker.curricula.spain import SPAIN
from bookmaker.curricula.us import US

CURRICULA: Mapping[str, Curriculum] = {
    "us": US,
    "england": ENGLAND,
    "france": FRANCE,
    "spain": SPAIN,
    "germany": GERMANY,
    "ontario": ONTARIO,
    "australia": AUSTRALIA,
    "singapore": SINGAPORE,
}
BY_LANGUAGE: Mapping[str, str] = {"en": "us", "fr": "france", "es": "spain", "de": "germany"}
"""The curriculum of a book that names none."""

__all__ = [
    "BY_LANGUAGE",
    "CURRICULA",
    "NO_LIMIT",
    "Curriculum",
    "Expected",
    "Level",
    "Run",
    "kind_of",
    "level",
    "practised_by",
    "runs_of",
    "suggest",
]
