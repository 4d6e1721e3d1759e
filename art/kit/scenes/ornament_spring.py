"""Moss cushions and ferns on both sides of a spring."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, closed, knots, ribbon
from art.kit.cutouts import frond, leaf, stone, wave
from art.kit.palette import FERN, MIST, MOSS, POOL, SAGE, SLATE, STONE
from art.kit.sheet import Sheet

NAME = "Moss and spring"
DESCRIPTION = "Water wells up between cushions of moss, ferns and wet stones."


def draw() -> Sheet:
    sheet = Sheet("ornament-spring", 1200, 300)
    rng = Random(31)
    for spine in (
        knots("190,220 150,130 80,70"),
        knots("236,210 240,120 290,50"),
        knots("940,220 920,130 860,70"),
        knots("1010,214 1060,130 1140,84"),
    ):
        sheet.paper(frond(spine, 62, 9), FERN, lift=1)
    sheet.paper(ribbon(knots("598,96 604,150 590,210 640,262"), [10, 30, 54, 80], 15), POOL, lift=1)
    sheet.paper(
        closed(*knots("300,276! 420,250 600,238 800,250 920,276! 760,288 600,292 420,288")),
        POOL,
        lift=1,
    )
    for x, y, rx, ry, colour in (
        (528, 150, 74, 52, STONE),
        (676, 140, 66, 44, SLATE),
        (566, 92, 60, 34, STONE),
        (500, 218, 60, 38, SLATE),
        (716, 210, 78, 44, STONE),
    ):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    for edge, paper, cut in (
        ("20,268 44,214 120,176 210,188 270,232 284,270 150,284", MOSS, SAGE),
        ("204,274 226,232 300,198 390,206 450,244 464,278 330,290", SAGE, MOSS),
        ("786,278 806,232 880,198 960,210 1010,246 1020,276 900,290", SAGE, MOSS),
        ("936,270 960,214 1040,176 1130,196 1176,264 1060,284", MOSS, SAGE),
    ):
        cushion(sheet, closed(*knots(edge)), paper, cut, rng)
    ripples = [wave((x, y), r, 0, 0.1) for x, y, r in knots("610,270,46 520,282,36 720,278,40")]
    sheet.paper(ripples, MIST)
    return sheet


def cushion(sheet: Sheet, shape: Curve, paper: str, cut: str, rng: Random) -> None:
    sheet.paper(shape, paper, lift=2)
    left, top, right, bottom = shape.box
    cuts = [
        leaf((x + (y // 22 % 2) * 14, y), 20, rng.uniform(20, 70), 0.38)
        for y in range(round(top) + 12, round(bottom), 22)
        for x in range(round(left), round(right), 28)
    ]
    sheet.paper([c for c in cuts if shape.holds(c)], cut)
