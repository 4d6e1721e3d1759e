"""Typeset: words in, lines of glyphs with widths out; the papers they stand on.

Faces come as packages, so a page measures and prints the same on a machine without any fonts.
Widths are sums of advances, without kerning, which is how pages are set.
"""

from bookmaker.typeset.faces import FACES, POINT, FaceFile, ascent, missing_letters, width
from bookmaker.typeset.lettering import (
    is_printable,
    missing_in,
    missing_in_names,
    missing_in_titles,
)
from bookmaker.typeset.moving import Move, moved
from bookmaker.typeset.paper import LARGE, PAPERS, Sheet, sheet_of, sheets_to_try
from bookmaker.typeset.paragraphs import LEADING, heading, paragraph
from bookmaker.typeset.wrapping import fit_size, wrap

__all__ = [
    "FACES",
    "LARGE",
    "LEADING",
    "PAPERS",
    "POINT",
    "FaceFile",
    "Move",
    "Sheet",
    "ascent",
    "fit_size",
    "heading",
    "is_printable",
    "missing_in",
    "missing_in_names",
    "missing_in_titles",
    "missing_letters",
    "moved",
    "paragraph",
    "sheet_of",
    "sheets_to_try",
    "width",
    "wrap",
]
