"""Cairo with the book's own faces and no others, whatever the system has installed."""

from __future__ import annotations

import importlib
import os
from html import escape
from pathlib import Path
from types import ModuleType

from bookmaker.typeset import FACES


class PressPartMissing(Exception):
    """A part of the system that printing needs is not there; the message says which."""


def load_cairo(folder: Path) -> ModuleType:
    """Import cairocffi so that it sees only the font packages' faces.

    ``folder`` is where the list of faces and its index may be kept. It has to be called before
    anything else in the process sets type with cairo: fontconfig reads its settings once.
    Raises PressPartMissing where the cairo library is not installed.
    """
    os.environ["FONTCONFIG_FILE"] = str(_write_font_list(folder))
    try:
        return importlib.import_module("cairocffi")
    except OSError as error:
        raise PressPartMissing("the graphics library cairo") from error


def _write_font_list(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    files = sorted({face.path for face in FACES.values()})
    folders = sorted({file.parent for file in files})
    entries = "".join(f"<dir>{escape(str(place))}</dir>" for place in folders)
    # A package holds weights that are not ours, and cairo's normal may be taken for medium.
    entries += "<selectfont><rejectfont><glob>*</glob></rejectfont><acceptfont>"
    entries += "".join(f"<glob>{escape(str(file))}</glob>" for file in files)
    entries += "</acceptfont></selectfont>"
    index = escape(str(folder / "index"))
    text = (
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">'
        f"<fontconfig>{entries}<cachedir>{index}</cachedir></fontconfig>"
    )
    listing = folder / "fonts.conf"
    if not listing.exists() or listing.read_text(encoding="utf-8") != text:
        beside = folder / f"fonts.{os.getpid()}.part"
        beside.write_text(text, encoding="utf-8")
        beside.replace(listing)
    return listing
