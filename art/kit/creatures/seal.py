"""A common seal turns under water and looks at you."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from art.kit.curves import Curve, Knot, closed, ellipse, knots, ribbon, step
from art.kit.cutouts import crescent, reed, ripple, slit, stone
from art.kit.palette import INK, MIST, PAPER, POOL, SAGE, SAND, SLATE, STONE
from art.kit.sheet import Sheet

NAME = "Seal"
CHAPTER = "estuary"
DESCRIPTION = (
    "A common seal under water, grey with dark spots. It has turned on its way down and looks at "
    "you with big dark eyes; its flippers are spread and a string of bubbles rises."
)
SPOTS = {
    "chest": (42, 37),
    "leftflipper": (12, 50),
    "rightflipper": (77, 31),
    "belly": (60, 59),
    "hip": (54, 85),
    "hindflipper": (22, 91),
}
LINKS = ["chest-leftflipper", "chest-rightflipper", "chest-belly", "belly-hip", "hip-hindflipper"]

SPINE = knots("300,230 370,350 470,490 566,640 590,800 510,950 380,1040 270,1076")
BODY = ribbon(SPINE, [104, 140, 172, 178, 150, 108, 70, 46], 25)
HEAD = (282, 196)


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
    """Deeper water towards the bottom, weed, silt, and small ripples of light."""
    deep = closed(*knots("-10,800! 160,830 400,800 640,700 860,640 1010,650! 1010,1210! -10,1210!"))
    sheet.paper(deep, POOL)
    silt = closed(
        *knots("-10,1150! 200,1170 460,1150 700,1090 900,1060 1010,1070! 1010,1210! -10,1210!")
    )
    sheet.paper(silt, STONE, lift=2)
    for x, y, rx, ry, colour in ((900, 1180, 110, 60, SAND), (740, 1200, 90, 44, SLATE)):
        sheet.paper(stone((x, y), rx, ry, rng), colour, lift=2)
    blades = [
        reed((x, 1130), (x + dx, y), 17, sway)
        for x, y, dx, sway in knots(
            "800,640,60,-50 850,520,60,-40 900,740,60,-30 940,560,30,-40 980,660,20,-30"
        )
    ]
    sheet.paper(blades, SAGE)
    waves = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots(
            "520,70 600,120 760,80 820,140 60,40 480,190 30,400 60,740 140,780 560,100 880,420"
        )
    ]
    sheet.paper(waves, POOL)
    light = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots("60,900 250,880 720,800 700,900 120,870 640,1010")
    ]
    sheet.paper(light, MIST)


def flippers(sheet: Sheet) -> None:
    """Five toes in each, webbed; the fore flippers end in claws."""
    far = closed(
        *knots("470,430 600,350 700,286 780,260 836,280 850,330 820,380 760,420 640,470 540,510")
    )
    fore(sheet, far, (540, 460), (-32, -26, -20, -14, -8))
    for angle, size in ((192, 1.0), (160, 0.98)):
        root = (306, 1066)
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
            knots("150,330 280,470 390,590 470,740 440,860 340,960"), [60, 90, 96, 84, 60, 0]
        )
        sheet.paper(belly, STONE)
    coat(sheet)
    near = closed(
        *knots(
            "440,470 390,440 320,462 220,500 126,556 72,616 62,664 96,692 160,684 280,646 "
            "390,602 440,550"
        )
    )
    fore(sheet, near, (390, 500), (164, 159, 154, 149, 143))


def coat(sheet: Sheet) -> None:
    """Dark spots, some with a pale ring round them, closer on the back."""
    rng = Random(73)
    spots: list[Curve] = []
    while len(spots) < 66:
        at = (rng.uniform(250, 760), rng.uniform(330, 1060))
        size = rng.uniform(9, 20)
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
        return shape.moved(x, y).turned(10, HEAD)

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
        sheet.paper(placed(ellipse((side * 66, -6), 38, 36)), STONE)
        sheet.paper(placed(ellipse((side * 66, -4), 30)), INK)
        sheet.paper(crescent(step((x, y), 10, side * 66), 19, -50, 0.5), PAPER)
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
