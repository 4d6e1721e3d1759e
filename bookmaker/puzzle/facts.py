"""What is known of an instance, worked out once and kept in a cache."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import suppress
from dataclasses import asdict, dataclass
from typing import Any, TypeVar

from bookmaker.cache import Cache
from bookmaker.model import Estimate
from bookmaker.puzzle.building import expected_building
from bookmaker.puzzle.finding import Unsolvable, find
from bookmaker.puzzle.instance import Arrangement, Instance
from bookmaker.puzzle.ladder import FreeHint, Step, free_hint, steps_to_one, walk
from bookmaker.puzzle.solutions import Counts, count, is_countable
from bookmaker.puzzle.survey import Survey, survey
from bookmaker.puzzle.trying import expected_trying, is_exact

F = TypeVar("F", "Facts", Estimate)
VERSION = 6
"""To be raised with every change to what is kept, or to how it is worked out."""


@dataclass(frozen=True)
class Facts:
    """``counts`` and ``survey`` are None where solutions are beyond counting.

    ``solution`` is the one to which the ``ladder`` leads.
    """

    solution: Arrangement
    counts: Counts | None
    ladder: tuple[Step, ...]
    free_hint: FreeHint
    survey: Survey | None


def facts_of(instance: Instance, cache: Cache, seed: int) -> Facts:
    """The facts, from the cache where it has them. Raises Unsolvable."""
    key = f"facts/{VERSION}/{'' if is_countable(instance) else seed}"
    return _kept(key, instance, cache, lambda: _work_out(instance, cache, seed), _read)


def trying_of(instance: Instance, cache: Cache, seed: int) -> Estimate:
    """What a pupil who tries needs for an instance that has a solution, cached."""
    key = f"trying/{VERSION}/{'' if is_exact(instance) else seed}"
    return _kept(key, instance, cache, lambda: expected_trying(instance, seed), _read_estimate)


def building_of(instance: Instance, cache: Cache, seed: int) -> Estimate:
    """What a pupil who builds needs for an instance that has a solution, cached."""
    key = f"building/{VERSION}/{seed}"
    return _kept(key, instance, cache, lambda: expected_building(instance, seed), _read_estimate)


def _kept(
    key: str,
    instance: Instance,
    cache: Cache,
    work_out: Callable[[], F],
    read: Callable[[dict[str, Any]], F],
) -> F:
    """What ``work_out`` gives: from the cache, or worked out and put there.

    What can't be read, because it was kept in another shape, is worked out again.
    """
    key = f"puzzle/{key}/{instance.key}"
    kept = cache.get(key)
    if kept is not None:
        with suppress(ValueError, KeyError, TypeError):
            return read(json.loads(kept))
    kept = json.dumps(asdict(work_out())).encode()
    cache.put(key, kept)
    return read(json.loads(kept))


def _work_out(instance: Instance, cache: Cache, seed: int) -> Facts:
    known = None
    if is_countable(instance):
        known = survey(instance)
        if not known.solutions:
            raise Unsolvable(proved=True, steps=len(instance.free))
        ladder, solution = steps_to_one(instance, known)
    else:
        solution = find(instance, seed)
        ladder = walk(instance, solution)
    return Facts(
        solution=solution,
        counts=count(instance, cache),
        ladder=ladder,
        free_hint=free_hint(instance, known, solution),
        survey=known,
    )


def _read_estimate(kept: dict[str, Any]) -> Estimate:
    return Estimate(**kept)


def _read(kept: dict[str, Any]) -> Facts:
    return Facts(
        solution=tuple(kept["solution"]),
        counts=kept["counts"] and Counts(**kept["counts"]),
        ladder=tuple(Step(**step) for step in kept["ladder"]),
        free_hint=FreeHint(**{**kept["free_hint"], "places": tuple(kept["free_hint"]["places"])}),
        survey=kept["survey"] and Survey(**kept["survey"]),
    )
