"""The child process that screens and draws SVG: ``python -m bookmaker.pictures.worker LIMITS``.

On stdin come pictures, each as its length in eight bytes and its bytes. On stdout goes a line
of JSON for each, with the length of what follows: a packed picture, or nothing after a refusal.
"""

from __future__ import annotations

import json
import sys
from contextlib import suppress
from typing import BinaryIO

from bookmaker.pictures.limits import SAVE_AGAIN, Limits, Unfit
from bookmaker.pictures.packing import pack


def main() -> None:
    limits = Limits(**json.loads(sys.argv[1]))
    source, answers = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr  # nothing that a library prints may come between
    sys.setrecursionlimit(20 * limits.depth)
    try:
        from bookmaker.pictures.svg import draw
    except ImportError as error:
        _answer(answers, {"missing": f"Python's package {error.name}"})
        return
    except OSError:  # what cffi raises where there is no such library
        _answer(answers, {"missing": "the graphics library cairo"})
        return
    _limit_memory(limits)
    _answer(answers, {"ready": "yes"})
    while size := source.read(8):
        data = source.read(int.from_bytes(size, "big"))
        _limit_time(limits)
        try:
            _answer(answers, {}, pack(draw(data, limits)))
        except Unfit as unfit:
            _refuse(answers, unfit)
        except RecursionError:
            _refuse(answers, Unfit("is nested too deeply to be drawn", "Ungroup the drawing."))
        except MemoryError:
            return
        except Exception as error:  # the renderer raises anything at all on strangers' files
            reason = f"can't be drawn ({type(error).__name__}: {str(error)[:100]})"
            _refuse(answers, Unfit(reason, SAVE_AGAIN))


def _refuse(answers: BinaryIO, unfit: Unfit) -> None:
    _answer(answers, {"reason": unfit.reason, "mend": unfit.mend, "code": unfit.code})


def _answer(answers: BinaryIO, head: dict[str, str], body: bytes = b"") -> None:
    answers.write(json.dumps({**head, "length": len(body)}).encode() + b"\n" + body)
    answers.flush()


def _limit_memory(limits: Limits) -> None:
    with suppress(ImportError, OSError, ValueError):  # not on every platform
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (limits.memory, limits.memory))


def _limit_time(limits: Limits) -> None:
    """Let the system end this process when one picture takes too much of the processor."""
    with suppress(ImportError, OSError, ValueError):
        import resource

        usage = resource.getrusage(resource.RUSAGE_SELF)
        spent = usage.ru_utime + usage.ru_stime
        _, hard = resource.getrlimit(resource.RLIMIT_CPU)
        resource.setrlimit(resource.RLIMIT_CPU, (int(spent + limits.seconds) + 1, hard))


if __name__ == "__main__":
    main()
