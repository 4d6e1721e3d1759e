"""The words that the screen needs, out of the table of one language."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bookmaker.model import BANDS
from bookmaker.place.tools import What
from bookmaker.typeset import PAPERS
from bookmaker.words import Words


def screen_words(words: Words, made: Sequence[What]) -> dict[str, Any]:
    """The words of the screen, and what there is to choose from."""
    return {
        "language": words.language,
        "words": {key: list(forms) for key, forms in words.table.items() if _is_for_screen(key)},
        "papers": list(PAPERS),
        "bands": list(BANDS),
        "made": list(made),
    }


def _is_for_screen(key: str) -> bool:
    return key.startswith(("place.", "band."))
