"""Cairo with the book's own faces and no others, whatever the system has installed."""

from __future__ import annotations

import atexit
import importlib
import os
import shutil
import tempfile
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
    os.environ["FONTCONFIG_FILE"] = str(font_list(folder))
    try:
        return importlib.import_module("cairocffi")
    except OSError as error:
        raise PressPartMissing("the graphics library cairo") from error


def font_list(folder: Path) -> Path:
    """The list of faces in ``folder``, else, where none can be kept there, in one that goes away
    with the process."""
    folder = folder.absolute()  # fontconfig takes what is relative from elsewhere
    try:
        return _written(folder)
    except OSError:
        beside = Path(tempfile.mkdtemp(prefix="bookmaker-"))
        atexit.register(shutil.rmtree, beside, ignore_errors=True)
        return _written(beside)


def _written(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    text = _listing(folder / "index").encode()
    listing = folder / "fonts.conf"
    if not listing.exists() or listing.read_bytes() != text:
        handle, beside = tempfile.mkstemp(dir=folder)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(text)
            Path(beside).replace(listing)
        except BaseException:
            Path(beside).unlink(missing_ok=True)
            raise
    return listing


def _listing(index: Path) -> str:
    files = sorted({face.path for face in FACES.values()})
    folders = sorted({file.parent for file in files})
    entries = "".join(f"<dir>{escape(str(place))}</dir>" for place in folders)
    # A package holds weights that are not ours, and cairo's normal may be taken for medium.
    entries += "<selectfont><rejectfont><glob>*</glob></rejectfont><acceptfont>"
    entries += "".join(f"<glob>{escape(str(file))}</glob>" for file in files)
    entries += "</acceptfont></selectfont>"
    return (
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">'
        f"<fontconfig>{entries}<cachedir>{escape(str(index))}</cachedir></fontconfig>"
    )
