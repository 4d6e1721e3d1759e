"""bookmaker: a compiler for printable puzzle books."""

__version__ = "0.1.0"
