"""Command line: words in, calls to the library, and its findings out, with an exit code."""

from bookmaker.cli.exits import main

__all__ = ["main"]
