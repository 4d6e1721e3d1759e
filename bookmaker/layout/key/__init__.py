"""The teacher's section: how to mark, the ramp, answers, notes for each chapter, the term plan."""

from bookmaker.layout.key.answers import lay_out_answers
from bookmaker.layout.key.guide import lay_out_guide
from bookmaker.layout.key.notes import lay_out_notes
from bookmaker.layout.key.plan import lay_out_plan
from bookmaker.layout.key.shares import measure_key

__all__ = ["lay_out_answers", "lay_out_guide", "lay_out_notes", "lay_out_plan", "measure_key"]
