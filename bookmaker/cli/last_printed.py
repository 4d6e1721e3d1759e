"""What was printed last against what is printed now: a key fits only the links it was made for."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from bookmaker.model import OrderedBook


def links_changed(certificate: Path, ordered: OrderedBook) -> Iterator[str]:
    """A warning where pages have other links than in the ``certificate`` of the last build, whose
    file is about to be replaced. Nothing where there is none, or it can't be read."""
    before = _links_of(certificate)
    changed = [
        page.name
        for page in ordered.pages
        if page.id in before and before[page.id] != {frozenset(link.ends) for link in page.links}
    ]
    if changed:
        names = ", ".join(changed)
        yield (
            f"Warning: since {certificate.name} was written the links have changed on {names}. "
            "What was printed before, and its key, go with the old links."
        )


def _links_of(certificate: Path) -> dict[str, set[frozenset[str]]]:
    try:
        pages: Any = json.loads(certificate.read_text("utf-8"))["pages"]
        return {page["id"]: {frozenset(link) for link in page["links"]} for page in pages}
    except (OSError, ValueError, KeyError, TypeError):
        return {}
