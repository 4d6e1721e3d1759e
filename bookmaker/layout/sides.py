"""Which layout goes with which kind of side: a new kind of side is one entry here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from bookmaker.layout.blank import lay_out_blank
from bookmaker.layout.contents import lay_out_contents
from bookmaker.layout.cover import lay_out_cover
from bookmaker.layout.credits import lay_out_credits
from bookmaker.layout.family import lay_out_family
from bookmaker.layout.howto import lay_out_howto
from bookmaker.layout.key.answers import lay_out_answers
from bookmaker.layout.key.guide import lay_out_guide
from bookmaker.layout.key.notes import lay_out_notes
from bookmaker.layout.key.plan import lay_out_plan
from bookmaker.layout.loose import lay_out_print_test, lay_out_tokens
from bookmaker.layout.opener import lay_out_opener
from bookmaker.layout.own import lay_out_own
from bookmaker.layout.puzzle import lay_out_puzzle
from bookmaker.layout.record import lay_out_handout, lay_out_record
from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.layout.slips import lay_out_slips
from bookmaker.layout.trial import lay_out_trial
from bookmaker.model import (
    Answers,
    Blank,
    ClassNotes,
    Contents,
    Cover,
    Credits,
    Family,
    Guide,
    Handout,
    HowTo,
    Opener,
    Own,
    PlacedPage,
    PrintTest,
    Puzzle,
    Record,
    Side,
    Slips,
    TermPlan,
    Tokens,
    Trial,
)
from bookmaker.typeset import Move, moved

LAYOUTS: Final[Mapping[type, Callable[[Side, Any, Setting], LaidOut]]] = {
    Cover: lay_out_cover,
    HowTo: lay_out_howto,
    Contents: lay_out_contents,
    Handout: lay_out_handout,
    Opener: lay_out_opener,
    Puzzle: lay_out_puzzle,
    Record: lay_out_record,
    Own: lay_out_own,
    Credits: lay_out_credits,
    Guide: lay_out_guide,
    Answers: lay_out_answers,
    ClassNotes: lay_out_notes,
    TermPlan: lay_out_plan,
    Blank: lay_out_blank,
    PrintTest: lay_out_print_test,
    Tokens: lay_out_tokens,
    Slips: lay_out_slips,
    Trial: lay_out_trial,
    Family: lay_out_family,
}


def lay_out(side: Side, setting: Setting) -> PlacedPage:
    """Put everything on ``side`` at its place."""
    sheet, items = LAYOUTS[type(side.content)](side, side.content, setting)
    if sheet.scale != 1:
        items = moved(items, Move(0.0, 0.0, sheet.scale))
    return PlacedPage(side.name, *sheet.real_size, items, side.label, side.bookmark)
