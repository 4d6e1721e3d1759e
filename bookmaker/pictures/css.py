"""Style attributes and style sheets of an SVG: what reaches outside, or can't be printed, goes."""

from __future__ import annotations

import re

from bookmaker.pictures.colours import plain_colours
from bookmaker.pictures.values import sound_declarations

_COMMENT = re.compile(r"/\*.*?(?:\*/|\Z)", re.DOTALL)
_IMPORT = re.compile(r"@(?:import|charset|namespace)\b[^;]*(?:;|\Z)", re.IGNORECASE)
_FONT_FACE = re.compile(r"@font-face\s*\{[^}]*(?:\}|\Z)", re.IGNORECASE)
_URL = re.compile(r"url\(\s*(\"[^\"]*\"|'[^']*'|[^)]*)\s*(?:\)|\Z)", re.IGNORECASE)
_STRING = re.compile(r"\"([^\"]*)\"|'([^']*)'")
_EFFECT = re.compile(
    r"(?<![\w-])(?:filter|mix-blend-mode|-inkscape-[\w-]+)\s*:\s*([^;}]*);?", re.IGNORECASE
)
_OPACITY = re.compile(r"((?<![\w])(?:[a-z]+-)?opacity\s*:\s*)([^;}!]+)", re.IGNORECASE)
_NUMBER = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(%?)\s*", re.IGNORECASE)


def clean_sheet(text: str) -> tuple[str, list[str], bool]:
    """A style sheet that stays in its file, what it reached for, whether it asked for effects."""
    text = _COMMENT.sub(" ", text)
    outside: list[str] = []
    for rule in (*_IMPORT.finditer(text), *_FONT_FACE.finditer(text)):
        outside += _targets(rule[0])
    text = _FONT_FACE.sub(" ", _IMPORT.sub(" ", text))
    text, more, effects = clean_style(text)
    return text, outside + more, effects


def clean_style(text: str) -> tuple[str, list[str], bool]:
    """The same for the declarations of one style attribute."""
    text = _COMMENT.sub(" ", text)
    effects = [found[1].strip().lower() for found in _EFFECT.finditer(text)]
    text = sound_declarations(plain_colours(_EFFECT.sub("", text)))
    text, outside = without_outside(text)
    text = _OPACITY.sub(lambda found: found[1] + (percent_to_number(found[2]) or "1"), text)
    visible = any(effect not in ("", "none", "normal") for effect in effects if "," not in effect)
    return text, outside, visible


def without_outside(value: str) -> tuple[str, list[str]]:
    """``value`` with every ``url(...)`` but those of the form ``url(#id)`` made "none"."""
    outside: list[str] = []

    def judge(found: re.Match[str]) -> str:
        target = found[1].strip().strip("'\"").strip()
        if target.startswith("#"):
            return f"url({target})"
        if target and not target.startswith("data:"):
            outside.append(target)
        return "none"

    return _URL.sub(judge, value), outside


def percent_to_number(value: str) -> str | None:
    """An opacity as a plain number from 0 to 1; None for what is none."""
    found = _NUMBER.fullmatch(value)
    if found is None:
        return None
    number = float(found[1]) / (100 if found[2] else 1)
    return f"{min(max(number, 0.0), 1.0):.6g}"


def _targets(rule: str) -> list[str]:
    found = [match[1].strip("'\" ") for match in _URL.finditer(rule)]
    if not found and rule.lower().startswith("@import"):
        found = [match[1] or match[2] or "" for match in _STRING.finditer(rule)]
    return [target for target in found if target and not target.startswith("data:")]
