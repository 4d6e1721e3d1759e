"""Intake: pictures of drawing sheets in, drawings on white with their verdicts out.

``open_pictures`` reads files, ``take`` takes one picture in, ``take_all`` a batch on several
cores, ``same_drawing`` and ``better`` settle what a second picture of a sheet is. Sentences are
made elsewhere, from ``Refused.reason`` and ``Taken.faults``.
"""

from bookmaker.edition.intake.compare import better, likeness, same_drawing
from bookmaker.edition.intake.find import Reason, Refused
from bookmaker.edition.intake.take import (
    CORNERS,
    Class,
    Fault,
    KnownSheet,
    Taken,
    take,
    write_png,
)

__all__ = [
    "CORNERS",
    "Class",
    "Fault",
    "KnownSheet",
    "Reason",
    "Refused",
    "Taken",
    "better",
    "likeness",
    "same_drawing",
    "take",
    "write_png",
]
