"""How large marks are and how far apart they stay, in millimetres (design: the page, sizes)."""

from __future__ import annotations

from dataclasses import dataclass

SMALL_PAPERS = frozenset({"a5", "half-letter"})
EASE = 0.06
"""Added to every clearance, mm: drawing rounds to hundredths, and chords cut corners."""
STROKE = 0.6
"""Half the widest stroke, mm: outlines keep this much inside the bounds, so that ink does."""
LARGE = 1.4
"""How much wider spots and tags are in large print."""


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
    def of(
        cls,
        paper_name: str,
        widest_text_chars: int,
        *,
        class_edition: bool = False,
        large: bool = False,
    ) -> Sizes:
        """The sizes for a paper ("a4", "A5", ...) and the longest text that is written on it.

        A class edition moves no spot: the pupil has drawn around it.
        """
        small = paper_name.lower() in SMALL_PAPERS
        spot, tag_width, tag_height = (16.0, 13.0, 11.0) if small else (20.0, 15.0, 12.0)
        if widest_text_chars >= 3:
            spot, tag_width, tag_height = 22.0, 18.0, 12.0
        reach = 0.0 if class_edition else 4.0 if small else 6.0
        factor = LARGE if large else 1.0
        return cls(spot * factor, tag_width * factor, tag_height * factor, reach)

    @property
    def radius(self) -> float:
        return self.spot / 2
