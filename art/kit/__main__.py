"""``python -m art.kit [NAME ...]``: draws all creatures, or those named, into ``art/``."""

from __future__ import annotations

import sys
from pathlib import Path

from art.kit import gallery


def main(wanted: list[str]) -> int:
    known = gallery.names()
    unknown = [name for name in wanted if name not in known]
    if unknown:
        print(
            f"no such creature: {', '.join(unknown)}. There are: {', '.join(known)}",
            file=sys.stderr,
        )
        return 2
    for name in wanted or known:
        path = gallery.write(name, Path(__file__).resolve().parents[1])
        print(f"{path.name}: {path.stat().st_size / 1024:.0f} KB")
    return 0


if __name__ == "__main__":
    sys.exit(main([name.replace("-", "_") for name in sys.argv[1:]]))
