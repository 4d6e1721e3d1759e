"""A little book, written where a test wants it: two chapters, three pages, art of plain shapes."""

from __future__ import annotations

from pathlib import Path

ART = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 1200"><title>{0}</title>
<rect width="1000" height="1200" fill="#e9dfc8"/><ellipse cx="500" cy="600" rx="380" ry="460"
fill="{1}"/></svg>"""

PAGE = """
[[page]]
name    = "{name}"
art     = "{art}"
artist  = "a founder"
licence = "CC0-1.0"
links   = [{links}]
[page.spots]
{spots}
"""

PLACES = {
    "head": (50, 12),
    "wing": (18, 38),
    "heart": (50, 42),
    "back": (82, 50),
    "foot": (28, 82),
    "tail": (74, 86),
}


def page(name: str, links: list[str], art: str = "newt.svg") -> str:
    """A page's table: its spots are those that its links name."""
    names = sorted({spot for link in links for spot in link.split("-")})
    spots = "\n".join(f"{spot} = [{PLACES[spot][0]}, {PLACES[spot][1]}]" for spot in names)
    told = ", ".join(f'"{link}"' for link in links)
    return PAGE.format(name=name, art=art, links=told, spots=spots)


STAR = ["heart-head", "heart-wing", "heart-back"]
FORK = ["head-heart", "heart-wing", "heart-foot", "back-tail", "heart-back"]
PATH = ["head-heart", "heart-foot"]


def write_book(folder: Path) -> Path:
    """Write the book into ``folder``; gives its manifest."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "newt.svg").write_text(ART.format("Newt", "#5b6b3a"), encoding="utf-8")
    (folder / "heron.svg").write_text(ART.format("Heron", "#8c5a3c"), encoding="utf-8")
    (folder / "one.toml").write_text(
        'title = "The pool"\n' + page("Fork", FORK) + page("Path", PATH, "heron.svg"),
        encoding="utf-8",
    )
    (folder / "two.toml").write_text('title = "The reeds"\n' + page("Star", STAR), encoding="utf-8")
    (folder / "book.toml").write_text(
        'title = "A little book"\nchapters = ["one.toml", "two.toml"]\n', encoding="utf-8"
    )
    return folder / "book.toml"
