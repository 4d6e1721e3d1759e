"""Whole processes timed in turn: wall time and peak memory as the system counts them."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Run:
    """One finished process: seconds of wall time and megabytes of peak resident memory."""

    seconds: float
    megabytes: float


def run(command: Sequence[str]) -> Run:
    """Run ``command`` to its end; raises CalledProcessError where it fails."""
    began = time.perf_counter()
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) as process:
        assert process.stderr
        told = process.stderr.read()
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    seconds = time.perf_counter() - began
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, command, stderr=told)
    scale = 1 if sys.platform == "darwin" else 1024
    return Run(seconds, usage.ru_maxrss * scale / 1e6)


def alternate(
    ours: Sequence[str],
    other: Sequence[str],
    times: int,
) -> tuple[Run, Run]:
    """Medians of ``times`` runs of both commands, in turn, after one run of each to warm up."""
    runs: tuple[list[Run], list[Run]] = ([], [])
    for turn in range(times + 1):
        for kept, command in zip(runs, (ours, other), strict=True):
            finished = run(command)
            if turn:
                kept.append(finished)
    first, second = (_median(kept) for kept in runs)
    return first, second


def _median(runs: Sequence[Run]) -> Run:
    return Run(
        statistics.median(run.seconds for run in runs),
        statistics.median(run.megabytes for run in runs),
    )
