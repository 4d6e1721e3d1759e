"""A manifest read with all the languages there are words for, and every paper there is."""

from __future__ import annotations

from pathlib import Path

from bookmaker.reading.read import Reading, read
from bookmaker.typeset import PAPERS
from bookmaker.words import languages


def open_manifest(manifest: Path) -> Reading:
    """The book or chapter at ``manifest``, and every problem found in it; raises nothing."""
    return read(manifest, languages=languages(), papers=tuple(PAPERS))
