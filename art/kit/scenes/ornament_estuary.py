"""Bubbles rise in the grey water; somebody has just dived."""

from __future__ import annotations

from art.kit.curves import closed, knots, ribbon, step
from art.kit.cutouts import bubble, drop, feather, slit, wave
from art.kit.palette import DEEP, INK, MIST, PAPER, POOL, SLATE, TEAL
from art.kit.sheet import Sheet

NAME = "Bubbles"
DESCRIPTION = (
    "Two grey hind flippers vanish below the water on the right. A string of bubbles rises from "
    "the depth on the left, bigger and bigger."
)


def draw() -> Sheet:
    sheet = Sheet("ornament-estuary", 1200, 440)
    flippers(sheet)
    water = closed(
        *knots(
            "10,190! 140,172 320,190 520,168 700,188 860,166 1040,188 1190,170! 1130,290 1010,330 "
            "880,400 700,384 540,434 360,396 200,420 110,330"
        )
    )
    sheet.paper(water, TEAL, lift=2)
    with sheet.inside(water):
        below = "-10,330! 200,290 460,330 700,290 980,326 1210,280! 1210,450! -10,450!"
        sheet.paper(closed(*knots(below)), DEEP)
    light = [
        wave((x, y), r)
        for x, y, r in knots("140,222,60 360,236,50 640,216,60 760,300,50 1060,260,50 470,290,40")
    ]
    sheet.paper(light, POOL)
    for i, (x, y) in enumerate(
        knots("230,408 262,380 226,352 270,318 236,276 290,236 250,180 330,140 270,96 350,60")
    ):
        sheet.paper(bubble((x, y), 8 + 3.4 * i), PAPER if y > 190 else TEAL)
    rings = [
        ribbon([(x - w, y), (x - w / 2, y + w * 0.12), (x + w / 2, y + w * 0.12), (x + w, y)], hoop)
        for x, y, w in knots("900,186,150 900,186,230")
        for hoop in ([0, 6, 6, 0],)
    ]
    sheet.paper(rings, MIST)
    splash = [
        drop((x, y), 40, a, 0.6)
        for x, y, a in knots("640,120,-130 690,60,-112 1150,120,-56 1100,60,-70")
    ]
    sheet.paper(splash, TEAL, lift=1)
    return sheet


def flippers(sheet: Sheet) -> None:
    """Held up like two paddles, webbed between five toes, a claw on each."""
    for turn in (-122, -58):
        paddle = feather((900, 250), 240, turn, 0.62, 0.76)
        ends = [step((900, 250), turn + a, 232 - 0.8 * abs(a)) for a in (-17, -8.5, 0, 8.5, 17)]
        sheet.paper([slit(end, 40, turn, 0.34) for end in ends], INK)
        sheet.paper(paddle, SLATE, lift=2)
        bones = [
            slit(step((900, 250), turn + a, 150), 116, turn + a, 0.07) for a in (-13, -4.5, 4.5, 13)
        ]
        sheet.paper(bones, INK)
