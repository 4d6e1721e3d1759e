"""The stable exit codes, and the fault that is the command line's own."""

from __future__ import annotations

DONE, BAD_INPUT, BAD_COMMAND, NOT_WRITTEN, PART_MISSING, OUR_FAULT = range(6)
INTERRUPTED = 130


class CommandFault(Exception):
    """The command line asks for something that is not there or does not go together."""
