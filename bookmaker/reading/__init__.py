"""Reading: TOML and CSV files in, a ``Book`` and every problem found in them out."""

from bookmaker.reading.read import Reading, read
from bookmaker.reading.sketch import NoSketch, Sketch, sketch

__all__ = [
    "NoSketch",
    "Reading",
    "Sketch",
    "read",
    "sketch",
]
