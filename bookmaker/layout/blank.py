"""A side with nothing on it."""

from __future__ import annotations

from bookmaker.layout.setting import Setting
from bookmaker.layout.sheet import Sheet
from bookmaker.model import Blank, Item, Side


def lay_out_blank(side: Side, content: Blank, setting: Setting) -> tuple[Sheet, tuple[Item, ...]]:
    return setting.sheet(side), ()
