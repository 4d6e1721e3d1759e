"""What the cache holds never changes a result, whatever shape it was kept in."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.puzzle import Tree, certify, hint_ladder

TREE = Tree(5, ((0, 1), (1, 2), (2, 3), (1, 4)))
NUMBERS = tuple(Fraction(n) for n in (1, 3, 5, 7, 9))


class Spoilt(MemoryCache):
    """Keeps what it is given, and gives something else back the first time it is asked."""

    def __init__(self, instead: bytes) -> None:
        super().__init__()
        self._instead = instead
        self.keys: set[str] = set()

    def get(self, key: str) -> bytes | None:
        if key in self.keys:
            return super().get(key)
        self.keys.add(key)
        return self._instead if "facts" in key or "work" in key else None


@pytest.mark.parametrize("instead", [b"{}", b"[]", b"no json", b'{"solution": 3}', b"null"])
def test_what_the_cache_kept_in_another_shape_is_worked_out_again(instead: bytes) -> None:
    spoilt = Spoilt(instead)
    assert certify(TREE, NUMBERS, {}, cache=spoilt) == certify(
        TREE, NUMBERS, {}, cache=MemoryCache()
    )
    assert hint_ladder(TREE, NUMBERS, {}, cache=Spoilt(instead)) == hint_ladder(
        TREE, NUMBERS, {}, cache=MemoryCache()
    )
    assert spoilt.keys
