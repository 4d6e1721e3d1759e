"""An otter stands with its hands on a boulder and looks over the meadow."""

from __future__ import annotations

from random import Random

from art.kit.curves import Curve, Knot, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, leaf, reed, ripple, slit
from art.kit.palette import (
    BARK,
    FERN,
    INK,
    MIST,
    MOSS,
    OCHRE,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    STONE,
    STRAW,
)
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

NAME = "Otter"
CHAPTER = "river meadow"
DESCRIPTION = (
    "An otter has put its hands on a boulder and looks over the river: a long brown body, a "
    "flat head with stiff whiskers, a pale throat, webbed feet and a thick tail that tapers off."
)
SPOTS = {
    "paw": (25.5, 62.5),
    "other_paw": (9, 53.5),
    "chest": (46, 40),
    "hip": (71, 67),
    "tail": (90, 87),
    "foot": (51, 91),
}
LINKS = ("chest-paw", "chest-other_paw", "chest-hip", "hip-tail", "hip-foot")

SPINE = knots("300,236 376,326 440,440 520,560 620,680 700,780 760,880")
GIRTH = [84, 94, 118, 132, 134, 130, 110, 70]
TAIL = knots("690,800 820,880 900,980 890,1076 780,1110 640,1100 500,1120 380,1160")
TAIL_GIRTH = [110, 92, 76, 62, 48, 36, 24, 0]
HEAD = (296, 214)


def draw() -> Sheet:
    sheet = Sheet("otter")
    rng = Random(63)
    sheet.ground(MIST, PAPER, seed=24)
    habitat(sheet, rng)
    sheet.layer("creature")
    arm(sheet, knots("440,470 380,560 290,630 150,668"), 176)
    leg(sheet, knots("700,800 640,930,0 700,1010 590,1040"))
    tail(sheet)
    body(sheet)
    leg(sheet, knots("700,770 560,890,0 640,1000 480,1040"))
    arm(sheet, knots("500,510 520,630,0 420,700 306,744"), 158)
    head(sheet)
    sheet.layer("front")
    front(sheet, rng)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """The river with the meadow beyond, the boulder, and the bank."""
    far = closed(*knots("-10,440! 260,410 560,450 800,420 1010,440! 1010,700! -10,700!"))
    sheet.paper(far, SAGE)
    for root in (560, 610, 690, 760, 830, 900, 960):
        tip = (root + rng.uniform(-40, 40), rng.uniform(120, 330))
        sheet.paper(reed((root, 470), tip, 9, rng.uniform(-16, 16)), SAGE)
    for x, top in knots("650,150 800,90 930,200"):
        sheet.paper(ribbon([(x, 580), (x + 6, top + 120), (x, top)], [4, 3, 2]), STRAW)
        sprays = [
            leaf((x + 2 * i, top + 6 - 13 * i), 62 - 5 * i, 64 - 19 * i, 0.17, -0.14)
            for i in range(8)
        ]
        sheet.paper(sprays, STONE)
    river = closed(*knots("-10,560! 260,540 560,570 800,546 1010,560! 1010,1000! -10,1000!"))
    sheet.paper(river, POOL, lift=1)
    waves = [
        ripple([(x, y), (x + w / 3, y - 10), (x + w * 0.66, y + 9), (x + w, y)], 6)
        for x, y, w in knots("790,640,150 880,760,130 20,600,110 620,600,110 860,880,120")
    ]
    sheet.paper(waves, MIST)
    bank = closed(*knots("-10,960! 300,920 620,960 1010,900! 1010,1210! -10,1210!"))
    sheet.paper(bank, SAND, lift=2)
    flecks = [
        slit((rng.uniform(0, 1000), rng.uniform(980, 1190)), rng.uniform(16, 40), -4, 0.3)
        for _ in range(40)
    ]
    sheet.paper(flecks, STRAW)
    boulder = closed(
        *knots("-10,760! 60,700 160,690 320,720 420,790 470,900 480,1010 420,1060 -10,1080!")
    )
    sheet.paper(boulder, STONE, lift=3)
    chips = [
        slit((rng.uniform(0, 440), rng.uniform(760, 1040)), rng.uniform(16, 44), -14, 0.3)
        for _ in range(46)
    ]
    sheet.paper([chip for chip in chips if boulder.holds(chip)], SAND)


def foot(sheet: Sheet, at: Knot, turn: float, reach: float) -> None:
    """Five toes, webbed."""
    spread = (-40, -20, 0, 20, 40)
    web = [step(at, turn + a, reach * (0.84 if i % 2 else 0.78)) for i, a in enumerate(spread)]
    heel = [step(at, turn + 120, 34), step(at, turn - 120, 34)]
    sheet.paper(closed(heel[1], *web, heel[0]), RUST, lift=1.5)
    toes = [
        ribbon([at, step(at, turn + a, reach * 0.6), step(at, turn + a, reach)], [18, 15, 10])
        for a in spread
    ]
    sheet.paper(toes, BARK, lift=1)


def arm(sheet: Sheet, joints: list[Knot], turn: float) -> None:
    """A short fore leg that rests on the boulder."""
    foot(sheet, joints[-1], turn, 92)
    limb = ribbon(joints, [90, 72, 54, 44, 38], 15)
    sheet.paper(limb, BARK, lift=2)
    fur(sheet, limb, line(*joints), (-24, 12))


def leg(sheet: Sheet, joints: list[Knot]) -> None:
    """Thigh, shin and the long hind foot flat on the bank."""
    hip, knee, heel, sole = joints
    foot(sheet, sole, 176, 124)
    shin = ribbon([knee, heel, sole], [76, 56, 42, 40], 13)
    sheet.paper(shin, BARK, lift=2)
    thigh = ribbon([hip, knee], [128, 124, 84])
    sheet.paper(thigh, BARK, lift=1.5)
    fur(sheet, thigh, line(hip, knee), (-70, -34, 2, 38, 74))


def fur(sheet: Sheet, shape: Curve, course: Curve, offsets: tuple[float, ...]) -> None:
    hairs = rows(shape, course, offsets, 60, lambda p, a, n, i: slit(p, 36, a, 0.18))
    sheet.paper(hairs, OCHRE)


def tail(sheet: Sheet) -> None:
    """As thick as the body at its root, and long."""
    shape = ribbon(TAIL, TAIL_GIRTH, 31)
    sheet.paper(shape, BARK, lift=3)
    fur(sheet, shape, line(*TAIL), (-44, -14, 16, 46))


def body(sheet: Sheet) -> None:
    shape = ribbon(SPINE, GIRTH, 29)
    sheet.paper(shape, BARK, lift=4)
    with sheet.inside(shape):
        throat = ribbon(knots("230,290 320,400 380,500 450,620 540,740"), [40, 56, 60, 50, 0], 17)
        sheet.paper(throat, SAND)
    hairs = rows(
        shape,
        line(*SPINE),
        (-104, -70, -36, -2, 32, 66),
        64,
        lambda p, a, n, i: slit(p, 40, a, 0.18),
    )
    sheet.paper(clear_of(hairs, throat), OCHRE)


def head(sheet: Sheet) -> None:
    """Flat and broad, drawn facing left, then lifted."""

    def placed(shape: Curve) -> Curve:
        return shape.scaled(1.12).turned(6).moved(*HEAD)

    ear = closed(*knots("92,-74 96,-112 124,-124 146,-98 134,-66"))
    sheet.paper(placed(ear), BARK, lift=2)
    skull = closed(
        *knots(
            "-176,14 -168,-28 -130,-48 -84,-62 -40,-90 20,-104 110,-90 170,-20 156,66 70,104 "
            "-40,100 -128,86 -168,54"
        )
    )
    sheet.paper(placed(skull), BARK, lift=3)
    with sheet.inside(placed(skull)):
        cheek = closed(*knots("-200,30! -140,18 -80,26 -10,52 60,64 180,78! 180,140! -200,140!"))
        sheet.paper(placed(cheek), SAND)
    nose = closed(*knots("-182,-4! -174,-32 -150,-38 -134,-26! -144,-2 -164,12"))
    sheet.paper(placed(nose), INK, lift=1)
    sheet.paper(
        [placed(ellipse(p, 4)) for p in knots("-116,32 -94,32 -104,48 -80,48 -72,32")], BARK
    )
    hairs = [
        placed(slit((x, y), 26, 8, 0.22))
        for x, y in knots(
            "24,-76 70,-70 110,-56 44,-44 90,-30 134,-22 60,-6 110,8 20,-18 144,22 80,34 30,18"
        )
    ]
    sheet.paper(hairs, OCHRE)
    sheet.paper(placed(ellipse((-52, -44), 21)), INK)
    sheet.paper(placed(crescent((-52, -44), 26, -90, 0.22)), SAND)
    sheet.paper(placed(ellipse((-58, -50), 6.5)), PAPER)
    whiskers = [
        ribbon([start, middle, tip], [2.4, 2.2, 0])
        for start, middle, tip in (
            ((-112, 38), (-160, 74), (-222, 88)),
            ((-104, 48), (-136, 104), (-190, 142)),
            ((-88, 48), (-100, 116), (-134, 170)),
        )
    ]
    sheet.paper(map(placed, whiskers), INK)


def front(sheet: Sheet, rng: Random) -> None:
    """Grass on the near bank."""
    blades = [
        leaf((x, 1215), rng.uniform(70, 130), -90 + rng.uniform(-26, 26), 0.14)
        for x in (6, 40, 80, 130, 180, 240, 860, 900, 940, 980)
    ]
    sheet.papers(blades, [MOSS, FERN, MOSS], lift=1)
