"""Press: placed pages, ink and pictures in, the bytes of a checked PDF out."""

from bookmaker.press.check import FinishedFileFault, check_pdf
from bookmaker.press.document import Document, PressShop, press
from bookmaker.press.fonts import PressPartMissing
from bookmaker.press.pressed import Pressed

__all__ = [
    "Document",
    "FinishedFileFault",
    "PressPartMissing",
    "PressShop",
    "Pressed",
    "check_pdf",
    "press",
]
