"""An eel winds through the eelgrass of the estuary."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, bent, closed, ellipse, knots, length, line, step
from art.kit.cutouts import bubble, crescent, reed, ripple, slit
from art.kit.palette import (
    FERN,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    SAGE,
    SAND,
    STONE,
    STRAW,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Eel"
CHAPTER = "estuary"
DESCRIPTION = (
    "An eel winds in three wide bends between blades of eelgrass: a long green back, a pale gold "
    "belly, one fin that runs all round the tail, and a small round fin behind the head."
)
SPOTS = {
    "nape": (33, 16.5),
    "back": (66, 14),
    "bend": (80, 40),
    "middle": (49, 55.5),
    "turn": (20, 71),
    "tail": (42, 91),
    "tip": (75, 78.5),
}
LINKS = ("nape-back", "back-bend", "bend-middle", "middle-turn", "turn-tail", "tail-tip")

SPINE = line(
    *knots(
        "96,330 150,268 240,222 360,186 500,160 640,176 750,250 810,370 806,500 730,600 "
        "600,646 460,670 320,716 220,800 190,910 240,1020 350,1080 490,1076 620,1020 "
        "740,980 850,1010 930,1080"
    )
)
LONG = length(SPINE)

BODY = closed(
    *(
        (share * LONG, y, *corner)
        for share, y, *corner in knots(
            "0,-6 0.012,-36 0.05,-62 0.12,-76 0.3,-82 0.55,-80 0.75,-66 0.9,-42 0.975,0! "
            "0.9,42 0.75,66 0.55,80 0.3,82 0.12,76 0.05,62 0.014,44"
        )
    )
)


def draw() -> Sheet:
    sheet = Sheet("eel")
    rng = Random(71)
    sheet.ground(MIST, PAPER, seed=17)
    habitat(sheet, rng)
    sheet.layer("creature")
    fins(sheet)
    body(sheet)
    head(sheet)
    return sheet


def swim(shape: Curve) -> Curve:
    return bent(shape, SPINE)


def habitat(sheet: Sheet, rng: Random) -> None:
    """Blades of eelgrass that lean with the tide, and silt with a few cockles."""
    silt = closed(
        *knots("-10,1120! 160,1090 380,1130 600,1104 820,1140 1010,1110! 1010,1210! -10,1210!")
    )
    sheet.paper(silt, SAND, lift=1)
    blades = [
        reed((x, 1180), (x + dx, y), 13, sway)
        for x, y, dx, sway in knots(
            "60,520,50,-30 110,700,70,-20 30,800,30,10 640,560,90,-40 700,380,120,-60 "
            "760,640,90,-30 850,60,60,-50 900,300,60,-40 950,160,20,-50 990,480,0,-30 "
            "400,800,60,-30 460,900,40,-20"
        )
    ]
    sheet.paper(blades, SAGE)
    for x, y, r in knots("74,236,13 104,186,9 66,160,7"):
        sheet.paper(bubble((x, y), r), POOL)
    waves = [
        ripple([(x, y), (x + 44, y - 13), (x + 88, y + 11), (x + 132, y - 2)], 7)
        for x, y in knots("150,70 240,110 330,60 560,50 400,400 460,450 90,560 520,840 600,890")
    ]
    sheet.paper(waves, POOL)
    flecks = [
        slit((rng.uniform(0, 1000), rng.uniform(1150, 1195)), rng.uniform(12, 30), 0, 0.4)
        for _ in range(40)
    ]
    sheet.paper([fleck for fleck in flecks if silt.holds(fleck)], STONE)


def fins(sheet: Sheet) -> None:
    """One fin runs from the back round the tail's tip to the belly."""
    back = [(0.3, -60), (0.34, -96), (0.45, -112), (0.6, -116), (0.75, -108), (0.88, -90)]
    belly = [(0.88, 76), (0.75, 92), (0.6, 104), (0.5, 98), (0.46, 60)]
    tip = [(0.96, -72), (0.995, -26), (0.995, 22), (0.96, 62)]
    edge = closed(*((share * LONG, y) for share, y in [*back, *tip, *belly]))
    sheet.paper(swim(edge), MOSS, lift=3)
    rays = [
        slit(
            (share * LONG, side * (y + (15 if side < 0 else 10))),
            22 if side < 0 else 16,
            side * 60,
            0.2,
        )
        for side, first in ((-1, 36), (1, 48))
        for share, y in ((k / 100, fin_root(k / 100)) for k in range(first, 97))
    ]
    sheet.paper([swim(ray) for ray in rays if edge.holds(ray)], STRAW)


def fin_root(share: float) -> float:
    """Half the body's width at this share of its length."""
    return 82 - 190 * max(0.0, share - 0.5) ** 2 - 30 * max(0.0, share - 0.75)


def body(sheet: Sheet) -> None:
    """A green back and a gold belly; a row of small cuts where they meet, the side line."""
    shape = swim(BODY)
    sheet.paper(shape, FERN, lift=3)
    with sheet.inside(shape):
        belly = closed(
            *(
                (share * LONG, y, *corner)
                for share, y, *corner in knots(
                    "-0.01,60! -0.01,26! 0.03,28 0.1,26 0.3,20 0.55,18 0.75,18 0.9,14 1.02,0! "
                    "1.02,120! 0.5,160! 0.1,140!"
                )
            )
        )
        sheet.paper(swim(belly), STRAW)
    side = [swim(slit((share / 100 * LONG, -8), 24, 0, 0.34)) for share in range(15, 97, 2)]
    sheet.paper(side, SAGE)
    scales = rows(
        BODY,
        line((0.17 * LONG, -46), (0.92 * LONG, -38)),
        (-18, 14),
        44,
        lambda p, a, n, i: crescent(p, 13, 180, 0.36),
    )
    sheet.paper([swim(mark) for mark in scales], MOSS)
    gold = [swim(slit((share / 100 * LONG, 50), 20, 0, 0.3)) for share in range(20, 84, 2)]
    sheet.paper(gold, OCHRE)


def head(sheet: Sheet) -> None:
    """The lower jaw sticks out; a tube of a nostril, a gill slit, a fin like a small fan."""
    jaw = closed(*knots("-14,12! 30,16 90,26 140,30! 110,50 60,58 16,46"))
    sheet.paper(swim(jaw), STRAW, lift=1)
    mouth = closed(*knots("-12,10! 40,10 96,20 132,34! 90,27 40,19"))
    sheet.paper(swim(mouth), INK)
    sheet.paper(swim(slit((26, -14), 16, 20, 0.5)), INK)
    sheet.paper(swim(ellipse((78, -20), 25)), OCHRE)
    sheet.paper(swim(ellipse((78, -20), 16)), INK)
    sheet.paper(swim(crescent((78, -20), 10, -50, 0.55)), PAPER)
    fin = closed(*knots("256,24! 300,0 366,16 424,74 446,136 398,148 330,124 280,78!"))
    sheet.paper(swim(crescent((214, 14), 40, 180, 0.2)), INK)
    sheet.paper(swim(fin), MOSS, lift=2)
    rays = [slit(step((252, 34), a, r), 46, a, 0.16) for a in (12, 24, 36, 48) for r in (84, 140)]
    sheet.paper([swim(ray) for ray in rays if fin.holds(ray)], STRAW)
