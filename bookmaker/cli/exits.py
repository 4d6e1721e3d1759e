"""The one place where a failure becomes words on stderr and an exit code."""

from __future__ import annotations

import gc
import os
import sys
import traceback
from typing import NoReturn

from bookmaker.cli.codes import (
    BAD_COMMAND,
    BAD_INPUT,
    DONE,
    INTERRUPTED,
    NOT_WRITTEN,
    OUR_FAULT,
    PART_MISSING,
    CommandFault,
)

INSTALL = (
    "If it is the graphics library cairo, install it. Debian and Ubuntu: sudo apt-get install "
    "libcairo2. Fedora: sudo dnf install cairo. macOS: brew install cairo. Windows: install the "
    "GTK runtime, which holds cairo: winget install --id tschoonj.GTKForWindows. Python's own "
    "libraries come with: pip install --upgrade bookmaker"
)


def main() -> NoReturn:
    """Run the command line and leave with one of the stable exit codes."""
    sys.exit(run(sys.argv[1:]))


def run(arguments: list[str]) -> int:
    """Run the command line with ``arguments``; gives the exit code."""
    gc.set_threshold(200_000, 50, 50)  # pages make many small objects and no loops of them

    import typer
    from typer.exceptions import TyperException

    from bookmaker.cli.app import app

    try:
        code = app(args=arguments, prog_name="bookmaker", standalone_mode=False)
        sys.stdout.flush()
    except TyperException as error:
        show = getattr(error, "show", None)
        _say(str(error)) if show is None else show()
        return BAD_COMMAND
    except (KeyboardInterrupt, typer.Abort):
        code = INTERRUPTED
    except BrokenPipeError:
        _drop_stdout()
        return DONE
    except Exception as error:
        return _failed(error, debug="--debug" in arguments)
    if code == INTERRUPTED:  # typer, too, turns an interrupt into this code, without a word
        _say("Interrupted. What was there before is still there.")
    return code if isinstance(code, int) else DONE


def _failed(error: Exception, debug: bool) -> int:
    if debug:
        traceback.print_exception(error)
    code = _exit_code(error)
    from bookmaker.model import InputProblems

    if isinstance(error, InputProblems):
        from bookmaker.cli.tell import tell_count, tell_problems

        tell_problems(error.problems)
        tell_count(error.problems)
    elif code == OUR_FAULT:
        name = type(error).__name__
        _say(f"A fault of bookmaker itself ({name}): {error}. Nothing was written.")
        if not debug:
            _say("Add --debug to see where, and send that with your manifest to the makers.")
    elif code == PART_MISSING:
        _say(f"A part of the system is missing: {error}. {INSTALL}")
    else:
        _say(str(error))
    return code


def _exit_code(error: Exception) -> int:
    from bookmaker.model import InputProblems
    from bookmaker.ordering import NotInBook
    from bookmaker.output import OutputFault
    from bookmaker.pictures import RendererMissing
    from bookmaker.press import PressPartMissing
    from bookmaker.reading import NoSketch
    from bookmaker.steps.answers import NotAnAnswer

    table: tuple[tuple[type[Exception], int], ...] = (
        (InputProblems, BAD_INPUT),
        (CommandFault, BAD_COMMAND),
        (NotAnAnswer, BAD_COMMAND),
        (NotInBook, BAD_COMMAND),
        (NoSketch, BAD_COMMAND),
        (OutputFault, NOT_WRITTEN),
        (PressPartMissing, PART_MISSING),
        (RendererMissing, PART_MISSING),
        (ModuleNotFoundError, PART_MISSING),
    )
    if isinstance(error, ModuleNotFoundError) and (error.name or "").startswith("bookmaker"):
        return OUR_FAULT
    return next((code for kind, code in table if isinstance(error, kind)), OUR_FAULT)


def _say(text: str) -> None:
    print(text, file=sys.stderr)


def _drop_stdout() -> None:
    """Whoever read our output has gone; Python must not complain about it at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
