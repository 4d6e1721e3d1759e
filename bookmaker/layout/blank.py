"""A side with nothing on it."""

from __future__ import annotations

from bookmaker.layout.setting import LaidOut, Setting
from bookmaker.model import Blank, Side


def lay_out_blank(side: Side, content: Blank, setting: Setting) -> LaidOut:
    return setting.sheet(side), ()
