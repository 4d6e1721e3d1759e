"""Which creatures there are, and how one is drawn and written."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from types import ModuleType

from art.kit import creatures


def names() -> list[str]:
    """The file names of all creatures, sorted."""
    return sorted(module.name for module in iter_modules(creatures.__path__))


def creature(name: str) -> ModuleType:
    """The module of one creature; raises ModuleNotFoundError where there is none."""
    return import_module(f"art.kit.creatures.{name}")


def write(name: str, folder: Path) -> Path:
    """Draws one creature into ``folder``."""
    module = creature(name)
    path = folder / f"{name.replace('_', '-')}.svg"
    svg = module.draw().svg(module.NAME, module.DESCRIPTION)
    path.write_text(svg, encoding="utf-8", newline="\n")
    return path
