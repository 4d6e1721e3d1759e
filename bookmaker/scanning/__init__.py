"""Intake: pictures of drawing sheets in, drawings on white with their verdicts out.

``open_pictures`` reads files, ``take`` takes one picture in, ``take_all`` a batch on several
cores, ``same_drawing`` and ``better`` settle what a second picture of a sheet is, ``find_rings``
where the spots of a free sheet are. Sentences are made elsewhere, from ``Refused.reason`` and
``Taken.faults``.
"""

from bookmaker.scanning.batch import Outcome, take_all, take_source
from bookmaker.scanning.compare import better, has_lost_colour, likeness, same_drawing
from bookmaker.scanning.drawing_png import write_png
from bookmaker.scanning.find import Reason, Refused
from bookmaker.scanning.rings import Ring, find_rings
from bookmaker.scanning.sources import Source, Trouble, open_pictures
from bookmaker.scanning.take import Class, Fault, KnownSheet, Taken, take

__all__ = [
    "Class",
    "Fault",
    "KnownSheet",
    "Outcome",
    "Reason",
    "Refused",
    "Ring",
    "Source",
    "Taken",
    "Trouble",
    "better",
    "find_rings",
    "has_lost_colour",
    "likeness",
    "open_pictures",
    "same_drawing",
    "take",
    "take_all",
    "take_source",
    "write_png",
]
