"""What a manifest may choose from, and other words for it: taken where they are plain."""

from __future__ import annotations

from bookmaker.curricula import CURRICULA
from bookmaker.model import BANDS, GRADES, Order
from bookmaker.reading.kinds import Choice

ORDERS: tuple[Order, ...] = ("ramp", "as-written")
PAPERS = ("a4", "letter", "a5", "half-letter", "a3", "board")
LANGUAGES = ("en", "es", "fr")
LANGUAGE_NAMES = {
    **dict.fromkeys(("english", "eng", "en-gb", "en-us", "en_gb", "en_us", "anglais"), "en"),
    **dict.fromkeys(("spanish", "spa", "es-es", "es-mx", "es_es", "español", "espanol"), "es"),
    **dict.fromkeys(("french", "fra", "fre", "fr-fr", "fr-ca", "fr_fr", "français"), "fr"),
    "castellano": "es",
    "francais": "fr",
}
"""Other ways to name a language that there are words for."""
CURRICULUM_NAMES = {
    **dict.fromkeys(("usa", "united states", "common core", "ccss"), "us"),
    **dict.fromkeys(("uk", "gb", "national curriculum"), "england"),
    **dict.fromkeys(("es", "españa", "espana"), "spain"),
    **dict.fromkeys(("de", "deutschland", "bayern"), "germany"),
}
"""Other ways to name a curriculum."""
BANDS_MEANT = {
    **dict.fromkeys(("easy", "simple", "light", "low"), "gentle"),
    **dict.fromkeys(("medium", "middle", "normal", "moderate"), "steady"),
    **dict.fromkeys(("hard", "difficult", "tricky", "high"), "steep"),
    **dict.fromkeys(("very hard", "hardest", "expert", "extreme"), "sheer"),
}
"""Words that teachers have for how hard a page is, and the band that comes next to each."""

BAND = Choice(BANDS, meant=BANDS_MEANT)
BINDING = Choice(("punch", "staple", "none"))
CURRICULUM = Choice(tuple(CURRICULA), also=CURRICULUM_NAMES)


def grade_of(curriculum: str) -> Choice:
    """A grade by its number, or as teachers write it where this curriculum holds."""
    known = CURRICULA[curriculum]
    names = {known.name(n): n for n in known.grades} | dict(known.also)
    return Choice(GRADES, also={name.casefold(): GRADES[n].casefold() for name, n in names.items()})
