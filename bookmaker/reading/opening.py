"""A manifest read with all the languages there are words for, and every paper there is."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from bookmaker.reading.read import Reading, read
from bookmaker.typeset import PAPERS
from bookmaker.words import languages


def open_manifest(manifest: Path, unsaved: Mapping[Path, bytes] | None = None) -> Reading:
    """The book or chapter at ``manifest``, and every problem found in it; raises nothing.

    ``unsaved`` is what is to stand in some of its files and is not written there yet.
    """
    return read(manifest, languages=languages(), papers=tuple(PAPERS), unsaved=unsaved)
