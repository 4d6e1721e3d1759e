"""Lengths on the press: a PDF is measured in points from its bottom left."""

from __future__ import annotations

MM = 72 / 25.4
"""One millimetre in points (ISO 32000-1, 8.3.2.3: a unit of 1/72 inch)."""
