"""Ordering: a book and its certified pages in, the same pages in the order of the ramp out."""

from bookmaker.ordering.naming import Names, file_name
from bookmaker.ordering.parts import NotInBook, Part, nearest, take_part, title_of_part
from bookmaker.ordering.plan import Week, term_plan
from bookmaker.ordering.ramp import in_order
from bookmaker.ordering.warnings import warnings_of
from bookmaker.ordering.week_numbers import numbers_by_week, run_of_week, with_numbers

__all__ = [
    "Names",
    "NotInBook",
    "Part",
    "Week",
    "file_name",
    "in_order",
    "nearest",
    "numbers_by_week",
    "run_of_week",
    "take_part",
    "term_plan",
    "title_of_part",
    "warnings_of",
    "with_numbers",
]
