"""Reading: TOML and CSV files in, a ``Book`` and every problem found in them out."""

from bookmaker.reading.book import LANGUAGES, PAPERS
from bookmaker.reading.read import Reading, read, readable

__all__ = ["LANGUAGES", "PAPERS", "Reading", "read", "readable"]
