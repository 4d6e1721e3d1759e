"""``python -m art.kit [NAME ...]``: draws everything, or what is named, into ``art/``.

A name is a creature's (with its mark), a scene's, or ``children`` for the drawings of the demo's
class, which go into its folder.
"""

from __future__ import annotations

import sys
from pathlib import Path

from art.kit import children, gallery

ART = Path(__file__).resolve().parents[1]
DRAWINGS = ART.parent / "chapters" / "heron-class" / "drawings"


def main(wanted: list[str]) -> int:
    known = [*gallery.names(), *gallery.scene_names(), "children"]
    unknown = [name for name in wanted if name not in known]
    if unknown:
        print(
            f"no such picture: {', '.join(unknown)}. There are: {', '.join(known)}",
            file=sys.stderr,
        )
        return 2
    for name in wanted or known:
        written = children.write(DRAWINGS) if name == "children" else gallery.write(name, ART)
        for path in written:
            print(f"{path.relative_to(ART.parent)}: {path.stat().st_size / 1024:.0f} KB")
    return 0


if __name__ == "__main__":
    sys.exit(main([name.replace("-", "_") for name in sys.argv[1:]]))
