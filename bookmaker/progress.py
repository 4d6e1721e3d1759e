"""Who hears of progress: a watch is laid around what is gone through, and hands it on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol, TypeVar

T = TypeVar("T")


class Watch(Protocol):
    """Hands on ``things`` one by one while ``stage`` goes through them."""

    def __call__(self, stage: str, things: Sequence[T], /) -> Iterable[T]: ...


def unwatched(stage: str, things: Sequence[T], /) -> Iterable[T]:
    """Nobody looks on."""
    return things
