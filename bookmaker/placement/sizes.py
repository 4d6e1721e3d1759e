"""How large marks are and how far apart they stay, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass, replace

from bookmaker.model import Page, difference

SMALL_PAPERS = frozenset({"a5", "half-letter"})
EASE = 0.06
"""Added to every clearance, mm: drawing rounds to hundredths, chords cut corners and spots rest
where all but a fiftieth of their gaps is reached."""
STROKE = 0.6
"""Half the widest stroke, mm: outlines keep this much inside the bounds, so that ink does."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """What a page's marks measure at least, in millimetres (``angle`` in degrees).

    ``spot`` is a diameter; gaps are between outlines. ``visible`` is what shows of a link on each
    side of its tag, ``cord_gap`` how near the middles of two links come, ``reach`` how far
    a spot may be moved from where the teacher put it.
    """

    spot: float
    tag_width: float
    tag_height: float
    reach: float
    spot_gap: float = 5.0
    link_gap: float = 3.0
    tag_gap: float = 2.0
    visible: float = 3.0
    cord_gap: float = 3.0
    angle: float = 25.0

    @classmethod
    def of(cls, paper_name: str, widest_text_chars: int) -> Sizes:
        """The sizes for a paper ("a4", "A5", ...) and the longest text that is written on it."""
        small = paper_name.lower() in SMALL_PAPERS
        spot, tag_width, tag_height = (16.0, 13.0, 11.0) if small else (20.0, 15.0, 12.0)
        if widest_text_chars >= 3:
            spot, tag_width, tag_height = 22.0, 18.0, 12.0
        return cls(spot, tag_width, tag_height, reach=4.0 if small else 6.0)

    def roomier(self, by: float = EASE) -> Sizes:
        """With a little more room everywhere, so that what just fits is clean beyond doubt.

        Tags grow, too, so that a link that grazes a corner of its own tag counts as hidden there.
        """
        return replace(
            self,
            tag_width=self.tag_width + 2 * by,
            tag_height=self.tag_height + 2 * by,
            spot_gap=self.spot_gap + by,
            link_gap=self.link_gap + by,
            cord_gap=self.cord_gap + by,
            angle=self.angle + by,
        )

    @property
    def radius(self) -> float:
        return self.spot / 2


def widest_text(page: Page) -> int:
    """Characters of the longest number or difference that is written on the page."""
    texts = [number.text for number in page.numbers]
    texts += [difference(one, page.numbers[0]).text for one in page.numbers]
    return max((len(text) for text in texts), default=1)


def page_sizes(page: Page, paper: str) -> Sizes:
    """How large the marks of ``page`` are on ``paper``; on a board as on small paper."""
    return Sizes.of("a5" if paper == "board" else paper, widest_text(page))
