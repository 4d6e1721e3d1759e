"""Verdicts: what intake found of a picture, in a teacher's words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bookmaker.classroom.keeping import Fate, Finding
from bookmaker.scanning.find import Reason, Refused
from bookmaker.scanning.sources import Source, Trouble
from bookmaker.words import Words

FILMS = (".mov", ".mp4", ".m4v", ".avi", ".mkv", ".webm", ".3gp")

FATES: Final[Mapping[Fate, str]] = {
    "better": "replaces the picture from before, which was no better",
    "no-better": "the same drawing as before, which is kept: this picture is no better",
    "another": "ANOTHER drawing on this sheet: was it photocopied? Both are kept; say yes to one, "
    "or give this one to its pupil: sheets --assign {drawing}=NAME",
    "spare": "not kept: nobody has this sheet yet; give it away with sheets --assign {sheet}=NAME, "
    "then take it in again",
    "not-in-roster": "not kept: its pupil is not in the roster; add a row of that name",
    "no": "not kept: the roster says no",
}

SAID_BEFORE: Final[Mapping[str, str]] = {
    "yes": "your yes is taken back, since the picture is another: look again",
    "no": "your no stays",
}

MENDS: Final[Mapping[str, str]] = {
    "blurred": "hold the telephone still, or scan it",
    "dark": "take it by a window",
    "coarse": "go nearer, or scan at 200 dpi or more",
    "corner-covered": "look whether something lies on the drawing",
    "edge-covered": "look whether something lies on the drawing",
    "rings": "write where they are in the column rings of review.csv",
}

REASONS: Final[Mapping[Reason, str]] = {
    "blank": "an empty page",
    "no-marks": "no marks of a drawing sheet can be read in it. If it is one, take it again: "
    "sharp, and the whole sheet with its corners",
    "too-few-marks": "too few corners can be seen. Take the sheet again with all four free",
    "two-sheets": "two sheets in one picture ({sheets}). Take each alone",
    "other-class": "a sheet of another class. Nothing was taken from it",
    "older-format": "a sheet printed by an older version. Print a new one and copy the drawing",
    "newer-format": "a sheet printed by a newer version. Update bookmaker",
    "unknown-sheet": "sheet {sheets} is not in the register. If its pupil was forgotten, destroy "
    "it; else bring back the register it was printed with",
    "not-flat": "the sheet is too bent, or cut off. Lay it flat and take it again",
    "too-coarse": "too few dots an inch ({detail}). Go nearer, or scan at 200 dpi",
    "too-blurred": "too blurred. Hold still, with more light, or scan it",
    "nothing-drawn": "nothing is drawn on it",
}

TROUBLES: Final[Mapping[Trouble, str]] = {
    "": "no picture",
    "missing": "the file has gone",
    "not-a-picture": "no picture in it",
    "damaged": "the file is damaged. Copy it again",
    "too-large": "too many pixels. Save it smaller",
    "forbidden": "the file may not be opened. See that you may read it",
    "locked": "the PDF asks for a password. Save it without one",
}


def verdict(finding: Finding, words: Words) -> str:
    """One line on a picture of a sheet: how good it is, what is wrong, what became of it."""
    if finding.refused is not None:
        return f"not usable: {reason(finding.source, finding.refused)}"
    fate = FATES.get(finding.fate, "").format(sheet=finding.sheet, drawing=finding.drawing)
    good = quality(finding.faults, words)
    mends = list(dict.fromkeys(MENDS[fault] for fault in finding.faults))
    usable = f"usable ({good}): {'; '.join(mends)}" if finding.faults else good
    if finding.fate in ("new", "better", "another"):
        return "; ".join(filter(None, (usable, fate, SAID_BEFORE.get(finding.use, ""))))
    return fate


def quality(faults: tuple[str, ...], words: Words) -> str:
    """``good``, or what is wrong."""
    return words("list.mark").join(words(f"verdict.{fault}") for fault in faults or ("good",))


def reason(source: Source, refused: Refused) -> str:
    """Why a picture was not taken in, and what to do."""
    if refused.reason == "no-picture":
        if source.file.lower().endswith(FILMS):
            return "a film. Take photographs instead"
        return TROUBLES.get(source.trouble or "not-a-picture", "no picture in it")
    sheets = ", ".join(map(str, refused.sheets))
    return REASONS[refused.reason].format(sheets=sheets, detail=refused.detail)
