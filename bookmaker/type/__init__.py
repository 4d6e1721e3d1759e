"""Type: the book's faces, their widths and which letters they have.

Faces come as packages, so a page measures and prints the same on a machine without any fonts.
Widths are sums of advances, without kerning, which is how the press sets them.
"""

from bookmaker.type.faces import FACES, POINT, FaceFile, ascent, missing_letters, width
from bookmaker.type.setting import fit_size, wrap

__all__ = [
    "FACES",
    "POINT",
    "FaceFile",
    "ascent",
    "fit_size",
    "missing_letters",
    "width",
    "wrap",
]
