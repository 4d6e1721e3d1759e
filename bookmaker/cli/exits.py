"""The one place where a failure becomes words on stderr and an exit code."""

from __future__ import annotations

import errno
import gc
import io
import signal
import sys
from collections.abc import Sequence
from pathlib import Path
from types import FrameType
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
from bookmaker.cli.streams import drop, safe_streams
from bookmaker.output import placed_files

INSTALL_CAIRO = (
    "Install it. Debian and Ubuntu: sudo apt-get install libcairo2. Fedora: sudo dnf install "
    "cairo. macOS: brew install cairo. Windows, as part of the GTK runtime: winget install --id "
    "tschoonj.GTKForWindows."
)
INSTALL_PACKAGES = "In bookmaker's own folder, type: python -m pip install --editable ."
STOPPED = "Interrupted. What was there before is still there."
ENDINGS = ("SIGINT", "SIGTERM", "SIGHUP")
"""Signals by which users and systems end a command, where the system has them."""
NO_WAY = (errno.EACCES, errno.EPERM, errno.ENAMETOOLONG, errno.ELOOP)
"""Faults of the way to a file or a folder, wherever they are met."""
NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EROFS, errno.EIO)


def main() -> NoReturn:
    """Run the command line and leave with one of the stable exit codes."""
    interrupt = _Interrupt()
    endings = [getattr(signal, name) for name in ENDINGS if hasattr(signal, name)]
    for ending in endings:
        signal.signal(ending, interrupt)
    code = run(sys.argv[1:])
    for ending in endings:
        signal.signal(ending, signal.SIG_IGN)
    if interrupt.came:
        said = [line for line in interrupt.silence.getvalue().splitlines() if STOPPED in line]
        if said or code != INTERRUPTED:
            print(said[-1] if said else STOPPED, file=sys.__stderr__)
        code = INTERRUPTED
    sys.exit(code)


class _Interrupt:
    """The first interrupt stops the work, in silence from then on; those after it change nothing.

    It may come while a library calls back into Python: that library prints a trace, goes on and
    fails with words of its own. All the user wants to know is that it stopped.
    """

    def __init__(self) -> None:
        self.came = False
        self.silence = io.StringIO()

    def __call__(self, number: int, frame: FrameType | None) -> None:
        if not self.came:
            self.came = True
            sys.stderr = self.silence
            raise KeyboardInterrupt


def run(arguments: list[str]) -> int:
    """Run the command line with ``arguments``; gives the exit code."""
    with safe_streams(), placed_files() as placed:
        try:
            code = _run(arguments)
        except KeyboardInterrupt:
            code = INTERRUPTED
        except Exception as error:
            code = _failed(error, placed, debug="--debug" in arguments)
        if code == INTERRUPTED:
            _say(f"{STOPPED} {_written(placed)}" if placed else STOPPED)
        return code


def _run(arguments: list[str]) -> int:
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
    except typer.Abort:
        return INTERRUPTED
    return code if isinstance(code, int) else DONE  # typer, too, gives 130 for an interrupt


def _failed(error: Exception, placed: Sequence[Path], debug: bool) -> int:
    if debug:
        import traceback

        traceback.print_exception(error)
    code = _exit_code(error)
    from bookmaker.model import InputProblems

    if isinstance(error, InputProblems):
        from bookmaker.cli.tell import tell_count, tell_problems

        tell_problems(error.problems)
        tell_count(error.problems, placed)
    elif code == OUR_FAULT:
        name = type(error).__name__
        _say(f"A fault of bookmaker itself ({name}): {error}. {_written(placed)}")
        if not debug:
            _say("Add --debug to see where, and send that with your manifest to the makers.")
    elif code == PART_MISSING:
        mend = INSTALL_CAIRO if "cairo" in str(error) else INSTALL_PACKAGES
        _say(f"A part of the system is missing: {error}. {mend}")
    elif isinstance(error, OSError) and code == BAD_COMMAND:
        where = f"{error.filename} can't" if error.filename else "A file can't"
        _say(f"{where} be opened: {error.strerror}. Check the name, and that you may go there.")
    elif isinstance(error, OSError):
        _say(f"The output can't be written: {error.strerror}. Make room, or write it elsewhere.")
        drop(sys.stdout)
    else:
        _say(str(error))
    return code


def _written(placed: Sequence[Path]) -> str:
    """What stands in its place, whatever happened then."""
    if not placed:
        return "Nothing was written."
    return f"Written before that, and whole: {', '.join(map(str, placed))}."


def _exit_code(error: Exception) -> int:
    if isinstance(error, ImportError):  # first: what follows imports the same modules again
        ours = (error.name or "").startswith("bookmaker")
        return OUR_FAULT if ours else PART_MISSING
    from bookmaker.model import InputProblems
    from bookmaker.ordering import NotInBook
    from bookmaker.output import OutputFault
    from bookmaker.pictures import RendererMissing
    from bookmaker.reading import NoSketch
    from bookmaker.teaching import NotAnAnswer

    table: tuple[tuple[type[Exception], int], ...] = (
        (InputProblems, BAD_INPUT),
        (CommandFault, BAD_COMMAND),
        (NotAnAnswer, BAD_COMMAND),
        (NotInBook, BAD_COMMAND),
        (NoSketch, BAD_COMMAND),
        (OutputFault, NOT_WRITTEN),
        (RendererMissing, PART_MISSING),
    )
    if isinstance(error, OSError) and error.errno in NO_ROOM:  # stdout, sent into a file
        return NOT_WRITTEN
    if isinstance(error, OSError) and error.errno in NO_WAY:
        return BAD_COMMAND
    return next((code for kind, code in table if isinstance(error, kind)), OUR_FAULT)


def _say(text: str) -> None:
    print(text, file=sys.stderr)
