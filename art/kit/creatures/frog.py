"""A common frog leaps from its lily pad."""

from __future__ import annotations

from math import hypot
from random import Random

from art.kit.curves import Curve, Knot, closed, ellipse, heading, knots, line, ribbon, step
from art.kit.cutouts import drop, reed, ripple, slit
from art.kit.palette import (
    BARK,
    FERN,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    SAGE,
    SAND,
    STRAW,
)
from art.kit.rows import rows
from art.kit.sheet import Sheet

NAME = "Frog"
CHAPTER = "mill pond"
DESCRIPTION = (
    "A common frog in the middle of its leap, snout up, long banded hind legs stretched out behind "
    "it, fingers spread to land. Below it lie the pond and its lily pads."
)
SPOTS = {
    "hand": (86.5, 42.5),
    "back": (54, 36),
    "hip": (40.5, 60),
    "foot": (9.5, 72),
    "other_foot": (35, 89.5),
}
LINKS = ["back-hand", "back-hip", "hip-foot", "hip-other_foot"]

BODY = closed(
    *knots(
        "424,-24 410,-60 368,-94 330,-140 280,-152 236,-118 130,-134 0,-130 -110,-92 -206,-30 "
        "-214,40 -120,96 40,122 190,120 310,86 392,28"
    )
)
NEAR_LEG = knots("-120,10 -350,62,0 -548,-20,0 -640,24")
FAR_LEG = knots("-90,70 -296,214,0 -470,226,0 -560,330")


def draw() -> Sheet:
    sheet = Sheet("frog")
    rng = Random(51)
    sheet.ground(MIST, PAPER, seed=17)
    habitat(sheet, rng)
    sheet.layer("creature")
    hind_leg(sheet, FAR_LEG, 146, FERN)
    arm(sheet, knots("276,30 300,150,0 380,196"), 34, FERN)
    body(sheet)
    hind_leg(sheet, NEAR_LEG, 172, MOSS)
    head(sheet)
    arm(sheet, knots("170,70 124,220,0 234,312"), 46, MOSS)
    sheet.layer("front")
    splash(sheet)
    return sheet


def leap(shape: Curve) -> Curve:
    """The frog is drawn level, facing right, its middle at nought; this turns it into the leap."""
    return shape.scaled(0.87).turned(-41).moved(540, 440)


def habitat(sheet: Sheet, rng: Random) -> None:
    """The pond with its pads, duckweed and a stand of reeds on the far side."""
    far = closed(*knots("-10,700! 200,676 480,690 760,664 1010,680! 1010,900! -10,900!"))
    sheet.paper(far, SAGE)
    blades = [
        reed((x, 720), (x + rng.uniform(-40, 40), rng.uniform(420, 600)), 9, rng.uniform(-20, 20))
        for x in (*range(10, 190, 34), *range(850, 1000, 34))
    ]
    sheet.paper(blades, SAGE)
    pond = closed(*knots("-10,790! 250,776 560,796 800,780 1010,792! 1010,1210! -10,1210!"))
    sheet.paper(pond, POOL, lift=1)
    waves = [
        ripple([(x, y), (x + w / 3, y - 10), (x + w * 0.66, y + 9), (x + w, y)], 6)
        for x, y, w in knots(
            "20,830,150 600,850,170 850,920,140 760,1150,170 20,1150,120 300,1180,160"
        )
    ]
    sheet.paper(waves, MIST)
    pad(sheet, (850, 910), 140, -100)
    pad(sheet, (740, 1090), 250, -36)
    pad(sheet, (90, 1110), 130, -60)


def pad(sheet: Sheet, at: Knot, size: float, notch: float) -> None:
    """A lily pad seen aslant, with its notch and rays."""
    rim = [
        (at[0] + x * size, at[1] + y * size * 0.36)
        for x, y in (step((0, 0), notch + a, 1) for a in range(14, 350, 24))
    ]
    sheet.paper(closed((*at[:2], 0), (*rim[0], 0), *rim[1:-1], (*rim[-1], 0)), SAGE, lift=2)
    rays = []
    for a in range(30, 340, 28):
        start, end = step((0, 0), notch + a, 0.22), step((0, 0), notch + a, 0.82)
        one = (at[0] + start[0] * size, at[1] + start[1] * size * 0.36)
        two = (at[0] + end[0] * size, at[1] + end[1] * size * 0.36)
        rays.append(ribbon([one, two], [0, size * 0.016, 0]))
    sheet.paper(rays, MOSS)


def hind_leg(sheet: Sheet, joints: list[Knot], turn: float, colour: str) -> None:
    """Thigh, shin and the long webbed foot, each a paper with its dark bars."""
    hip, knee, ankle, ball = joints
    bars = BARK if colour == MOSS else INK
    reach = ((-40, 116), (-20, 148), (0, 172), (21, 148), (42, 110))
    web = [step(ball, turn + a, r * k) for a, r in reach for k in (0.86, 0.58)]
    web = [p for i, p in enumerate(web) if i % 2 == 0 or i < 9]
    sheet.paper(leap(closed((*ball[:2], 0), *web[:-1], web[-1])), SAGE, lift=1)
    long = [ribbon([ball, step(ball, turn + a, r)], [17, 10, 13]) for a, r in reach]
    sheet.paper([leap(ribbon([ankle, ball], [28, 24, 30])), *map(leap, long)], colour, lift=2)
    for spine, widths in (([knee, ankle], [46, 58, 44, 28]), ([hip, knee], [84, 90, 66, 46])):
        part = leap(ribbon(spine, widths))
        sheet.paper(part, colour, lift=2)
        bent_bars = [
            ribbon(
                [step(p, a - 90, w), step(p, a - 60, w * 0.2), step(p, a + 90, w * 0.5)], [0, 15, 0]
            )
            for p, a, w in (
                (step(spine[0], heading(*spine), far(*spine) * k), heading(*spine), 84)
                for k in (0.36, 0.58, 0.8)
            )
        ]
        with sheet.inside(part):
            sheet.paper(map(leap, bent_bars), bars)


def far(one: Knot, two: Knot) -> float:
    return hypot(two[0] - one[0], two[1] - one[1])


def arm(sheet: Sheet, joints: list[Knot], turn: float, colour: str) -> None:
    hand = joints[-1]
    fingers = [
        ribbon([hand, step(hand, turn + a, 48), step(hand, turn + a * 0.9, 94)], [15, 10, 13])
        for a in (-66, -22, 20, 62)
    ]
    limb = leap(ribbon(joints, [54, 48, 34, 28, 22], 13))
    sheet.paper([limb, *map(leap, fingers)], colour, lift=2)
    upper, elbow = joints[0], joints[1]
    dark = [
        ribbon([step(p, a - 90, 60), step(p, a + 90, 40)], [0, 12, 0])
        for p, a in (
            (step(elbow, heading(elbow, hand), 70), heading(elbow, hand)),
            (step(elbow, heading(elbow, upper), 60), heading(elbow, upper)),
        )
    ]
    with sheet.inside(limb):
        sheet.paper(map(leap, dark), BARK if colour == MOSS else INK)


def body(sheet: Sheet) -> None:
    """A mossy back with its fold and blotches over a pale, freckled belly."""
    shape = leap(BODY)
    sheet.paper(shape, MOSS, lift=4)
    with sheet.inside(shape):
        belly = closed(*knots("440,-2! 350,14 262,44 120,70 -60,64 -240,20! -240,240! 440,240!"))
        sheet.paper(leap(belly), SAND, lift=0.6)
        freckles = rows(
            BODY,
            line((-80, 100), (330, 60)),
            (-10, 22, 46),
            44,
            lambda p, a, n, i: slit(p, 15, a, 0.6),
        )
        sheet.paper([leap(f) for f in freckles if belly.holds(f)], MOSS)
        fold = ribbon(knots("232,-84 120,-80 0,-74 -110,-40 -190,20"), [0, 9, 10, 9, 0])
        sheet.paper(leap(fold), STRAW, lift=0.6)
        blots = [
            ellipse((x, y), r * 1.25, r, a)
            for x, y, r, a in knots(
                "150,-104,15,0 84,-44,19,10 20,-104,17,0 -40,-20,20,20 -84,-72,14,20 40,8,14,0 "
                "130,10,15,0 -150,-10,13,30 -30,40,12,0 200,-46,12,0"
            )
        ]
        sheet.paper(map(leap, blots), BARK)


def head(sheet: Sheet) -> None:
    """Dark mask behind the eye, the ear drum in it, a long mouth that runs under both."""
    mask = closed(*knots("268,-66! 240,-50 196,-20 160,34! 216,44 262,20 296,-40! 286,-60"))
    sheet.paper(leap(mask), BARK)
    sheet.paper(leap(ellipse((226, 0), 21)), OCHRE)
    sheet.paper(leap(ellipse((226, 0), 12)), BARK)
    sheet.paper(leap(ribbon(knots("418,-24 340,2 262,36 190,58"), [0, 5, 6, 0])), BARK)
    sheet.paper(leap(slit((392, -46), 18, 30, 0.5)), BARK)
    sheet.paper(leap(ellipse((284, -100), 46)), MOSS, lift=1)
    sheet.paper(leap(ellipse((288, -98), 37)), OCHRE)
    sheet.paper(leap(ellipse((291, -97), 27, 21)), INK)
    sheet.paper(leap(ellipse((292, -108), 7.5)), PAPER)


def splash(sheet: Sheet) -> None:
    drops = [
        drop((x, y), 36, a, 0.6)
        for x, y, a in knots("70,990,-70 150,1020,-84 214,960,-64 450,1050,-100 400,1160,-84")
    ]
    sheet.paper(drops, PAPER, lift=1)
