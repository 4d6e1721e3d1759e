"""A picture looked at for places: its creature's pixels, and the fine detail to be left alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bookmaker.model import Box

if TYPE_CHECKING:
    import numpy as np


@dataclass(frozen=True, slots=True)
class Scene:
    """What is known of a picture's shown part, ``trim``: two bytes for each pixel, row by row.

    ``figure`` is 1 where the creature is; ``detail`` (0 to 255) is how much a pixel stands out
    from all sides, as an eye does. ``told`` says whether the creature was told from its ground, or
    only taken to be about the middle.
    """

    trim: Box
    width: int
    height: int
    figure: bytes
    detail: bytes
    told: bool = True

    def rows(self, which: bytes) -> np.ndarray:
        """``figure`` or ``detail`` as an array (height, width)."""
        import numpy as np

        return np.frombuffer(which, dtype=np.uint8).reshape(self.height, self.width)
