"""Where the blank border of a raster ends."""

from __future__ import annotations

from PIL import Image, ImageChops, ImageFilter

from bookmaker.model import Box

WHOLE = Box(0.0, 0.0, 1.0, 1.0)

_WHITE = 200
_BLANK = 250
"""Levels of 255 from which on all of a picture is paper."""
_FAINTEST = 18
_LARGEST_CUT = 0.45
_LEAST_CUT = 0.01
_NEIGHBOURS = 3
_LONG_SIDE = 400
_LARGEST_REDUCTION = 8


def trim_box(image: Image.Image) -> Box:
    """The part of an upright picture (mode "L" or "RGB") that is not white border.

    In fractions of its size. The border is what is no darker, in any colour, than the paper
    around the picture's edge, with some room for a scanner's noise; a speck of fewer than
    three neighbouring pixels does not count as ink. At most 45 per cent is cut from a side. A
    picture whose edge is not white is kept whole, and so is one that is all white.
    """
    darkest = _darkest_channel(_reduced(image))
    paper = _paper(darkest)
    if paper < _WHITE:
        return WHOLE
    ink = darkest.point([255 if value < paper - _FAINTEST else 0 for value in range(256)])
    found = _without_specks(ink).getbbox()
    return WHOLE if found is None else _kept(found, darkest.size)


def blank_notes(image: Image.Image) -> tuple[str, ...]:
    """A note where nothing can be seen in a picture (mode "L" or "RGB") on white paper."""
    faintest, _ = _darkest_channel(image).getextrema()
    assert isinstance(faintest, int)
    return () if faintest < _BLANK else ("is blank: nothing but white is to be seen in it",)


def _reduced(image: Image.Image) -> Image.Image:
    factor = min(_LARGEST_REDUCTION, max(image.size) // _LONG_SIDE)
    return image.reduce(factor) if factor > 1 else image


def _darkest_channel(image: Image.Image) -> Image.Image:
    """The least of red, green and blue: pale yellow is ink, though it is as light as paper."""
    darkest, *others = image.split()
    for other in others:
        darkest = ImageChops.darker(darkest, other)
    return darkest


def _paper(darkest: Image.Image) -> int:
    """The median along the picture's edge."""
    width, height = darkest.size
    edges = [
        darkest.crop(box).tobytes()
        for box in (
            (0, 0, width, 1),
            (0, height - 1, width, height),
            (0, 0, 1, height),
            (width - 1, 0, width, height),
        )
    ]
    values = sorted(b"".join(edges))
    return values[len(values) // 2]


def _without_specks(ink: Image.Image) -> Image.Image:
    """Ink that has ink around it: at least three of the nine pixels there, itself among them."""
    crowd = ink.filter(ImageFilter.BoxBlur(1))
    least = _NEIGHBOURS * 255 // 9 - 1
    return ImageChops.multiply(ink, crowd.point([255 * (value >= least) for value in range(256)]))


def _kept(found: tuple[int, int, int, int], size: tuple[int, int]) -> Box:
    """The box around the ink and one more pixel, in fractions."""
    left, right = _ends(found[0], found[2], size[0])
    top, bottom = _ends(found[1], found[3], size[1])
    return Box(left, top, right - left, bottom - top)


def _ends(start: int, end: int, length: int) -> tuple[float, float]:
    first = min(max(start - 1, 0) / length, _LARGEST_CUT)
    last = max(min(end + 1, length) / length, 1 - _LARGEST_CUT)
    return (first if first >= _LEAST_CUT else 0.0, last if last <= 1 - _LEAST_CUT else 1.0)
