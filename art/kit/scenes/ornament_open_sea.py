"""Waves of the open sea, one before the other."""

from __future__ import annotations

from art.kit.curves import Curve, Knot, closed, ellipse, knots, ribbon
from art.kit.cutouts import drop, leaf, slit, wave
from art.kit.palette import DEEP, INK, MIST, OCHRE, PAPER, POOL, SLATE, STONE, TEAL
from art.kit.sheet import Sheet

NAME = "Waves"
DESCRIPTION = "Rows of waves roll to the right; a gull glides over them."


def draw() -> Sheet:
    sheet = Sheet("ornament-open-sea", 1200, 300)
    for y, height, start, colour, foam in (
        (176, 46, -60, POOL, PAPER),
        (214, 54, -140, TEAL, MIST),
        (254, 50, -30, DEEP, POOL),
    ):
        swell(sheet, (start, y), height, colour, foam)
    sheet.paper(
        [
            drop((x, y), 22, a, 0.6)
            for x, y, a in knots("236,92,-60 256,70,-70 700,78,-70 724,100,-60 1010,92,-64")
        ],
        TEAL,
    )
    gull(sheet)
    return sheet


def swell(sheet: Sheet, at: Knot, height: float, colour: str, foam: str) -> None:
    """A row of waves about to break, foam cut into their backs."""
    left, y = at
    rim: list[Knot] = []
    for i in range(8):
        x = left + i * 190
        rim += [
            (x, y),
            (x + 96, y - height * 0.72),
            (x + 150, y - height),
            (x + 176, y - height * 0.62, 0),
            (x + 158, y - height * 0.4),
        ]
    whole = closed((left, 292, 0), *rim, (left + 8 * 190, 292, 0))
    frame = closed(*knots("14,292! 30,180 200,60 600,10 1000,60 1170,180 1186,292!"))
    with sheet.inside(frame):
        sheet.paper(whole, colour, lift=3)
        backs: list[Curve] = []
        for i in range(8):
            x = left + i * 190
            backs += [
                ribbon(
                    [
                        (x + 40, y - height * 0.2),
                        (x + 92, y - height * 0.5),
                        (x + 140, y - height * 0.66),
                    ],
                    [0, 5, 7, 0],
                    7,
                ),
                ribbon(
                    [
                        (x + 70, y + height * 0.06),
                        (x + 110, y - height * 0.2),
                        (x + 146, y - height * 0.3),
                    ],
                    [0, 4, 6, 0],
                    7,
                ),
                wave((x + 40, y + 24), 34, -6),
            ]
        sheet.paper(backs, foam)


def gull(sheet: Sheet) -> None:
    """A gull gliding towards us, banked to one side."""
    with sheet.posed(-9, (480, 66)):
        sheet.paper(leaf((480, 78), 58, 64, 0.34), SLATE, lift=1)
        for side in (-1, 1):
            places = ((10, 72), (62, 36), (128, 44), (206, 84))
            wing = ribbon([(480 + side * x, y) for x, y in places], [17, 17, 12, 0], 13)
            sheet.paper(wing, STONE, lift=2)
            tip = ribbon(
                [(480 + side * x, y) for x, y in ((150, 54), (178, 68), (206, 84))], [9, 7, 0], 7
            )
            sheet.paper(tip, INK)
            quills = [
                slit((480 + side * x, y), 26, 90 - side * 50, 0.18)
                for x, y in ((44, 52), (70, 46), (96, 48), (120, 52))
            ]
            sheet.paper(quills, SLATE)
        sheet.paper(ellipse((480, 74), 23, 21), STONE, lift=2)
        sheet.paper(ellipse((476, 68), 16, 15), MIST, lift=1)
        sheet.paper(leaf((474, 72), 20, 150, 0.5), OCHRE)
        sheet.paper([ellipse((469, 64), 2.6), ellipse((481, 65), 2.6)], INK)
