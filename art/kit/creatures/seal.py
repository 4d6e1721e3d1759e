"""A common seal lies on its sandbank and looks round at you."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from art.kit.curves import Curve, Knot, closed, ellipse, knots, ribbon, step
from art.kit.cutouts import leaf, ripple, slit, stone
from art.kit.palette import (
    INK,
    MIST,
    MOSS,
    PAPER,
    POOL,
    SAGE,
    SAND,
    SLATE,
    STONE,
    STRAW,
)
from art.kit.sheet import Sheet

NAME = "Seal"
CHAPTER = "estuary"
DESCRIPTION = (
    "A common seal, grey with dark spots, hauled out on a sandbank, head and hind flippers held up "
    "like the ends of a banana. It has turned its round head and looks at you with big dark eyes."
)
SPOTS = {
    "chest": (29.5, 45.5),
    "left_flipper": (13.5, 73),
    "right_flipper": (42, 78.5),
    "belly": (51, 57),
    "rump": (73.5, 65.5),
    "hip": (88, 43.5),
    "hind_flipper": (84.5, 16.5),
}
LINKS = (
    "chest-left_flipper",
    "chest-right_flipper",
    "chest-belly",
    "belly-rump",
    "rump-hip",
    "hip-hind_flipper",
)

SPINE = knots("310,300 290,440 336,600 470,730 640,752 780,668 858,530 884,400")
BODY = ribbon(SPINE, [112, 140, 168, 182, 176, 148, 108, 66, 44], 31)
HEAD = (316, 226)


def draw() -> Sheet:
    sheet = Sheet("seal")
    rng = Random(72)
    sheet.ground(MIST, PAPER, seed=19)
    habitat(sheet, rng)
    sheet.layer("creature")
    flippers(sheet)
    body(sheet)
    head(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Open water, the sandbank with its ripple marks, weed left by the tide."""
    waves = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots("520,90 610,130 40,90 560,220 30,330 500,330 600,420 20,480 120,420")
    ]
    sheet.paper(waves, POOL)
    sea = closed(*knots("-10,560! 260,540 620,566 1010,540! 1010,900! -10,900!"))
    sheet.paper(sea, POOL, lift=1)
    light = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots("20,620 60,720 850,640 880,740 560,600")
    ]
    sheet.paper(light, MIST)
    bank = closed(*knots("-10,850! 200,830 480,800 760,790 1010,830! 1010,1210! -10,1210!"))
    sheet.paper(bank, SAND, lift=2)
    marks = [
        ripple([(x, y), (x + w / 3, y - 9), (x + w * 0.66, y + 8), (x + w, y)], 5)
        for x, y, w in knots(
            "560,1010,150 740,960,170 860,1050,120 620,1090,190 60,1110,150 280,1140,170 "
            "480,1170,120 820,1140,150"
        )
    ]
    sheet.paper(marks, STRAW)
    for x, y, rx, ry, colour in ((930, 1190, 100, 50, STONE), (20, 1200, 90, 50, STONE)):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    blades = [
        leaf((x, 1215), rng.uniform(70, 120), -90 + rng.uniform(-30, 30), 0.16)
        for x in (110, 140, 170, 800, 830)
    ]
    sheet.papers(blades, [SAGE, MOSS], lift=1)


def flippers(sheet: Sheet) -> None:
    """Five toes in each, webbed; the fore flippers end in claws."""
    far = closed(
        *knots("180,640 300,700 270,790 214,870 156,930 96,952 62,926 70,862 104,780 140,700")
    )
    fore(sheet, far, (220, 680), (128, 122, 116, 110, 104))
    for angle, size in ((-122, 0.88), (-88, 0.98)):
        root = (882, 420)
        rim = knots(
            "-20,60 -26,170 -24,236! -15,216 -10,250! -2,224 4,252! 11,220 18,240! 24,180 22,70"
        )
        hind = closed(*((*step(root, angle + a, r * size), *corner) for a, r, *corner in rim))
        sheet.paper(hind, SLATE, lift=2)
        rays = [
            slit(step(root, angle + a, 170 * size), 84, angle + a, 0.12) for a in (-17, -6, 5, 14)
        ]
        sheet.paper(rays, INK)


def fore(sheet: Sheet, edge: Curve, root: Knot, angles: Sequence[float]) -> None:
    """A short broad paddle; a claw where each toe meets its rim."""
    rims = [
        next(step(root, a, r) for r in range(160, 600) if not edge.contains(step(root, a, r)))
        for a in angles
    ]
    claws = [slit(rim, 44, a, 0.3) for rim, a in zip(rims, angles, strict=True)]
    sheet.paper(claws, INK, lift=1)
    sheet.paper(edge, SLATE, lift=3)
    toes = [slit(step(r, a, -80), 92, a, 0.11) for r, a in zip(rims, angles, strict=True)]
    sheet.paper(toes, INK)


def body(sheet: Sheet) -> None:
    sheet.paper(BODY, SLATE, lift=4)
    with sheet.inside(BODY):
        belly = ribbon(
            knots("190,330 170,480 210,640 330,800 500,900 700,900 860,760"),
            [40, 80, 96, 96, 90, 70, 0],
        )
        sheet.paper(belly, STONE)
    coat(sheet)
    near = closed(
        *knots(
            "326,690 392,650 450,690 478,780 492,880 496,960 464,1016 410,1020 364,984 "
            "340,900 324,800"
        )
    )
    fore(sheet, near, (380, 700), (84, 79, 74, 70, 66))


def coat(sheet: Sheet) -> None:
    """Dark spots, some with a pale ring round them, closer on the back."""
    rng = Random(73)
    spots: list[Curve] = []
    while len(spots) < 74:
        at = (rng.uniform(120, 960), rng.uniform(330, 960))
        size = rng.uniform(8, 18)
        spot = ellipse(at, size * 1.3, size, rng.uniform(20, 90))
        room = ellipse(at, size * 1.3 + 16)
        if BODY.holds(room) and not any(
            room.contains(o.polygon[k]) for o in spots for k in range(0, len(o.polygon), 2)
        ):
            spots.append(spot)
    sheet.paper([ring.scaled(1.5, about=middle(ring)) for ring in spots[::4]], STONE)
    sheet.paper(spots, INK)


def middle(shape: Curve) -> tuple[float, float]:
    left, top, right, bottom = shape.box
    return (left + right) / 2, (top + bottom) / 2


def head(sheet: Sheet) -> None:
    """Round, turned to us: eyes set wide, nostrils like a V, whiskers."""
    x, y = HEAD

    def placed(shape: Curve) -> Curve:
        return shape.scaled(1.08).moved(x, y).turned(-6, HEAD)

    skull = closed(
        *knots(
            "0,-132 70,-116 120,-60 136,10 124,76 80,124 0,142 -80,124 -124,76 -136,10 "
            "-120,-60 -70,-116"
        )
    )
    sheet.paper(placed(skull), SLATE, lift=2)
    crown = knots("-30,-100,30 20,-108,-10 60,-84,40 -66,-72,-40 0,-76,10 34,-50,60 -26,-46,-60")
    sheet.paper([placed(slit((a, b), 26, c, 0.5)) for a, b, c in crown], INK)
    for side in (-1, 1):
        sheet.paper(placed(ellipse((side * 64, -6), 36, 38)), INK)
        sheet.paper(placed(ellipse((side * 64 - 12, -20), 9)), PAPER)
        pad = closed(
            *((side * a, b) for a, b in knots("4,58 34,44 70,56 84,88 64,118 28,122 4,104"))
        )
        sheet.paper(placed(pad), STONE, lift=1)
        dots = [
            ellipse((side * a, b), 4) for a, b in knots("36,74 56,72 44,90 64,92 34,104 54,106")
        ]
        sheet.paper([placed(d) for d in dots], SLATE)
        for a, b in ((150, 60), (168, 92), (156, 128)):
            hair = ribbon([(side * 64, 88), (side * 110, b - 12), (side * a, b)], [3, 2.6, 0])
            sheet.paper(placed(hair), PAPER)
    nose = closed(*knots("0,80 -18,66 -34,44! -16,40 0,42 16,40 34,44! 18,66"))
    sheet.paper(placed(nose), INK, lift=1)
