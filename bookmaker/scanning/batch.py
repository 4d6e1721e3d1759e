"""A batch of pictures taken in on several cores: sources in, their outcomes in the same order out.

Threads do: decoding, reading codes and warping all leave the interpreter alone. Never more pictures
are open than are in work.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import replace

from bookmaker.scanning.find import Refused
from bookmaker.scanning.sources import SPOILT, Source
from bookmaker.scanning.take import Class, Taken, take

Outcome = tuple[Source, Taken | Refused]


def take_all(sources: Iterable[Source], known: Class, workers: int = 2) -> Iterator[Outcome]:
    """Each source (without its picture) and what became of it, in order.

    Raises nothing for a bad picture; whoever stops listening stops the work.
    """
    with ThreadPoolExecutor(workers) as pool:
        waiting: deque[Future[Outcome]] = deque()
        try:
            for source in sources:
                waiting.append(pool.submit(take_source, source, known))
                if len(waiting) > workers:
                    yield waiting.popleft().result()
            while waiting:
                yield waiting.popleft().result()
        finally:
            for future in waiting:
                future.cancel()


def take_source(source: Source, known: Class) -> Outcome:
    """One source; a picture that breaks off is refused, never raised."""
    told = replace(source, picture=None)
    if source.picture is None:
        return told, Refused("no-picture", detail=source.trouble)
    try:
        with source.picture as picture:
            picture.load()
            return told, take(picture, known)
    except SPOILT as fault:
        return replace(told, trouble="damaged"), Refused("no-picture", detail=f"damaged ({fault})")
