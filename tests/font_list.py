"""The book's own faces and no others for whatever sets type with cairo in a test."""

from __future__ import annotations

from html import escape
from pathlib import Path

from bookmaker.typeset import FACES


def write_font_list(folder: Path) -> Path:
    """Fontconfig's settings, to be named in FONTCONFIG_FILE before anything loads cairo."""
    files = sorted({face.path for face in FACES.values()})
    folders = sorted({file.parent for file in files})
    entries = "".join(f"<dir>{escape(str(place))}</dir>" for place in folders)
    # A package holds weights that are not ours, and cairo's normal may be taken for medium.
    entries += "<selectfont><rejectfont><glob>*</glob></rejectfont><acceptfont>"
    entries += "".join(f"<glob>{escape(str(file))}</glob>" for file in files)
    entries += "</acceptfont></selectfont>"
    index = escape(str(folder / "index"))
    listing = folder / "fonts.conf"
    listing.write_text(
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">'
        f"<fontconfig>{entries}<cachedir>{index}</cachedir></fontconfig>",
        encoding="utf-8",
    )
    return listing
