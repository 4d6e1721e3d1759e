"""Reading: TOML and CSV files in, a ``Book`` and every problem found in them out."""

from bookmaker.reading.book import LANGUAGES, PAPERS
from bookmaker.reading.read import Reading, read, readable
from bookmaker.reading.sketch import NoSketch, Sketch, sketch

__all__ = [
    "LANGUAGES",
    "PAPERS",
    "NoSketch",
    "Reading",
    "Sketch",
    "read",
    "readable",
    "sketch",
]
