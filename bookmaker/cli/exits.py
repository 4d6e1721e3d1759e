"""The one place where a failure becomes words on stderr and an exit code."""

from __future__ import annotations

import errno
import gc
import io
import os
import signal
import sys
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

INSTALL_CAIRO = (
    "Install it. Debian and Ubuntu: sudo apt-get install libcairo2. Fedora: sudo dnf install "
    "cairo. macOS: brew install cairo. Windows, as part of the GTK runtime: winget install --id "
    "tschoonj.GTKForWindows."
)
INSTALL_PACKAGES = "In bookmaker's own folder, type: python -m pip install --editable ."
STOPPED = "Interrupted. What was there before is still there."
NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EROFS, errno.EIO)


def main() -> NoReturn:
    """Run the command line and leave with one of the stable exit codes."""
    interrupt = _Interrupt()
    signal.signal(signal.SIGINT, interrupt)
    code = run(sys.argv[1:])
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if interrupt.came:
        if code != INTERRUPTED or STOPPED in interrupt.silence.getvalue():
            print(STOPPED, file=sys.__stderr__)
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
    try:
        return _run(arguments)
    except KeyboardInterrupt:
        return _interrupted()
    except BrokenPipeError:
        _drop_stdout()
        return DONE
    except Exception as error:
        return _failed(error, debug="--debug" in arguments)


def _run(arguments: list[str]) -> int:
    gc.set_threshold(200_000, 50, 50)  # pages make many small objects and no loops of them

    import typer
    from typer.exceptions import TyperException

    from bookmaker.cli.app import app

    _keep_streams()
    try:
        code = app(args=arguments, prog_name="bookmaker", standalone_mode=False)
        sys.stdout.flush()
    except TyperException as error:
        show = getattr(error, "show", None)
        _say(str(error)) if show is None else show()
        return BAD_COMMAND
    except typer.Abort:
        return _interrupted()
    if code == INTERRUPTED:  # typer, too, turns an interrupt into this code, without a word
        return _interrupted()
    return code if isinstance(code, int) else DONE


def _interrupted() -> int:
    _say(STOPPED)
    return INTERRUPTED


def _failed(error: Exception, debug: bool) -> int:
    if debug:
        import traceback

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
        mend = INSTALL_CAIRO if "cairo" in str(error) else INSTALL_PACKAGES
        _say(f"A part of the system is missing: {error}. {mend}")
    elif isinstance(error, OSError):
        _say(f"The output can't be written: {error.strerror}. Make room, or write it elsewhere.")
        _drop_stdout()
    else:
        _say(str(error))
    return code


def _exit_code(error: Exception) -> int:
    if isinstance(error, ImportError):  # first: what follows imports the same modules again
        ours = (error.name or "").startswith("bookmaker")
        return OUR_FAULT if ours else PART_MISSING
    from bookmaker.model import InputProblems
    from bookmaker.ordering import NotInBook
    from bookmaker.output import OutputFault
    from bookmaker.pictures import RendererMissing
    from bookmaker.press import PressPartMissing
    from bookmaker.reading import NoSketch
    from bookmaker.teaching import NotAnAnswer

    table: tuple[tuple[type[Exception], int], ...] = (
        (InputProblems, BAD_INPUT),
        (CommandFault, BAD_COMMAND),
        (NotAnAnswer, BAD_COMMAND),
        (NotInBook, BAD_COMMAND),
        (NoSketch, BAD_COMMAND),
        (OutputFault, NOT_WRITTEN),
        (PressPartMissing, PART_MISSING),
        (RendererMissing, PART_MISSING),
    )
    if isinstance(error, OSError) and error.errno in NO_ROOM:  # stdout, sent into a file
        return NOT_WRITTEN
    return next((code for kind, code in table if isinstance(error, kind)), OUR_FAULT)


def _keep_streams() -> None:
    """A stream that the user has closed is there, and holds nothing.

    Without it what is meant for stderr would go to stdout.
    """
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, io.StringIO())


def _say(text: str) -> None:
    print(text, file=sys.stderr)


def _drop_stdout() -> None:
    """Whoever read our output has gone; Python must not complain about it at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
