"""Puzzle: a tree and numbers in, a certificate, the work and hints out. Mathematics only.

Spots are vertices 0 ... n - 1 here, links are edges; names and sentences are made elsewhere.
Read in this order: ``tree`` (symmetries), ``instance`` (the normal form), ``board``,
``descending`` and ``spotwise`` (the two searches), ``solutions`` and ``catalogue`` (counting),
``finding`` with ``propagation``, ``trying`` (with ``chain``, ``quasi_stationary`` and
``simulation``) and ``building`` (what two pupils need), ``ladder``, ``facts`` (all of it, cached);
then what others call. The measure of work is defined in README.md.
"""

from bookmaker.puzzle.certificates import certify_pages
from bookmaker.puzzle.certify import certify, rarity
from bookmaker.puzzle.checker import Breach, breaches
from bookmaker.puzzle.domains import domains
from bookmaker.puzzle.finding import Unsolvable
from bookmaker.puzzle.hints import Fact, Ladder, Rung, hint_ladder
from bookmaker.puzzle.listing import every_solution, exchangeable, mirrored
from bookmaker.puzzle.marking import Clash, Marking, Miscalculation, mark
from bookmaker.puzzle.mending import Mend
from bookmaker.puzzle.page_instance import to_instance
from bookmaker.puzzle.practice import (
    Practice,
    Subtraction,
    crosses_ten,
    exchanges,
    practice,
    practice_together,
)
from bookmaker.puzzle.skills import (
    Skill,
    SkillCounts,
    Span,
    count_skills,
    exchanging_columns,
    skills_of,
    skills_together,
)
from bookmaker.puzzle.tree import Tree, find_symmetry, settled

__all__ = [
    "Breach",
    "Clash",
    "Fact",
    "Ladder",
    "Marking",
    "Mend",
    "Miscalculation",
    "Practice",
    "Rung",
    "Skill",
    "SkillCounts",
    "Span",
    "Subtraction",
    "Tree",
    "Unsolvable",
    "breaches",
    "certify",
    "certify_pages",
    "count_skills",
    "crosses_ten",
    "domains",
    "every_solution",
    "exchangeable",
    "exchanges",
    "exchanging_columns",
    "find_symmetry",
    "hint_ladder",
    "mark",
    "mirrored",
    "practice",
    "practice_together",
    "rarity",
    "settled",
    "skills_of",
    "skills_together",
    "to_instance",
]
