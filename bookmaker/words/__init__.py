"""Words: everything that is printed, one table a language, with its plural forms.

A table is a gettext ``.po`` file beside this module, named by its language; a new language is a
new file and no code. Message keys are dotted names, never shown to anybody.
"""

from __future__ import annotations

import gettext
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from bookmaker.model import MINUS
from bookmaker.words.po import read_po

FOLDER = Path(__file__).parent

_PLURAL = re.compile(r"plural=([^;]*);")


@dataclass(frozen=True)
class Words:
    """The printed words of one language."""

    language: str
    table: Mapping[str, tuple[str, ...]]
    plural: Callable[[int], int]

    def __call__(self, key: str, n: int | None = None, /, **values: object) -> str:
        """The words for ``key``, in the form that goes with ``n`` where there are several.

        ``n`` fills ``{n}``; ``values`` fill the other places. Raises KeyError for a key that the
        table lacks.
        """
        forms = self.table[key]
        form = forms[0] if n is None or len(forms) == 1 else forms[self.plural(n)]
        return form.format(**values) if n is None else form.format(n=n, **values)

    def number(self, text: str) -> str:
        """``text``, a number with a hyphen for its minus and a decimal point, as it is printed."""
        return text.replace("-", MINUS).replace(".", self.table["decimal-mark"][0])


def spoken(name: str) -> str:
    """A spot's name as it is read out: an underscore joins what are words of their own."""
    return name.replace("_", " ").strip() or name


def languages() -> tuple[str, ...]:
    """The languages that there are words for, by their BCP 47 tags."""
    return tuple(sorted(file.stem for file in FOLDER.glob("*.po")))


@cache
def load(language: str) -> Words:
    """The words of ``language``; raises KeyError where there is no table for it."""
    if language not in languages():
        raise KeyError(language)
    entries = read_po((FOLDER / f"{language}.po").read_text(encoding="utf-8"))
    rule = _PLURAL.search(entries.pop("")[0])
    return Words(language, entries, gettext.c2py(rule[1] if rule else "n != 1"))
