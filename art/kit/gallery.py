"""Which creatures and scenes there are, and how each is drawn and written."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from types import ModuleType

from art.kit import creatures, scenes
from art.kit.marks import mark
from art.kit.sheet import Sheet


def names() -> list[str]:
    """The file names of all creatures, sorted."""
    return sorted(module.name for module in iter_modules(creatures.__path__))


def scene_names() -> list[str]:
    """The file names of the cover and of all ornaments, sorted."""
    return sorted(module.name for module in iter_modules(scenes.__path__))


def creature(name: str) -> ModuleType:
    """The module of one creature; raises ModuleNotFoundError where there is none."""
    return import_module(f"art.kit.creatures.{name}")


def scene(name: str) -> ModuleType:
    """The module of one scene; raises ModuleNotFoundError where there is none."""
    return import_module(f"art.kit.scenes.{name}")


@cache
def glued(name: str) -> Sheet:
    """The sheet of one creature, drawn once."""
    sheet: Sheet = creature(name).draw()
    return sheet


def drawn(name: str) -> dict[str, str]:
    """The SVG of a scene, or of a creature and its mark, by their paths in ``art/``."""
    file = f"{name.replace('_', '-')}.svg"
    if name in scene_names():
        module = scene(name)
        return {file: module.draw().svg(module.NAME, module.DESCRIPTION)}
    module = creature(name)
    sheet = glued(name)
    said = f"The shape of the {module.NAME.lower()}, to colour in."
    return {
        file: sheet.svg(module.NAME, module.DESCRIPTION),
        f"marks/{file}": mark(sheet, module.CHAPTER).svg(module.NAME, said),
    }


def write(name: str, folder: Path) -> list[Path]:
    """Draws one scene, or a creature and its mark, into ``folder``."""
    written = []
    for file, svg in drawn(name).items():
        path = folder / file
        path.parent.mkdir(exist_ok=True)
        path.write_text(svg, encoding="utf-8", newline="\n")
        written.append(path)
    return written
