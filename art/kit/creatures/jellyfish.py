"""A compass jellyfish pulses up through the estuary."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin
from random import Random

from art.kit.curves import Curve, Knot, Point, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import ripple, slit
from art.kit.palette import BARK, MIST, OCHRE, PAPER, POOL, RUST, SAND, SHELL, STONE
from art.kit.sheet import Sheet

NAME = "Jellyfish"
CHAPTER = "estuary"
DESCRIPTION = (
    "A compass jellyfish swims upwards, its bell marked with brown rays like the face of a "
    "compass. Four frilled arms and many thin tentacles stream out below it."
)
SPOTS = {
    "bell": (47, 26),
    "left_rim": (14, 29.5),
    "right_rim": (80, 23.5),
    "long_arm": (22.5, 63.5),
    "middle_arm": (49, 82),
    "short_arm": (76, 62),
    "tip": (88, 85),
}
LINKS = (
    "bell-left_rim",
    "bell-right_rim",
    "bell-long_arm",
    "bell-middle_arm",
    "bell-short_arm",
    "short_arm-tip",
)

TOP, WIDE, HIGH = (470, 62), 364, 336


def meridian(lon: float, share: float) -> Point:
    """A place on the bell: ``lon`` degrees round from the middle, from 0 the top to 1 the rim."""
    down = radians(90 * share)
    x = TOP[0] + WIDE * sin(radians(lon)) * sin(down)
    sag = 54 * cos(radians(lon)) * sin(down) ** 2
    return x, TOP[1] + HIGH * (1 - cos(down)) + sag


LOBES = range(90, -91, -15)
BELL = closed(
    *(meridian(-90, t) for t in (0.9, 0.7, 0.5, 0.25)),
    TOP,
    *(meridian(90, t) for t in (0.25, 0.5, 0.7, 0.9)),
    *(
        knot
        for lon in LOBES
        for knot in (
            (*meridian(lon, 1), 0),
            *([step(meridian(lon - 7.5, 1), 90, 30)] if lon > -90 else []),
        )
    ),
)
POSE = (-6, (470, 350))


def draw() -> Sheet:
    sheet = Sheet("jellyfish")
    rng = Random(81)
    sheet.ground(MIST, PAPER, seed=20)
    habitat(sheet, rng)
    sheet.layer("creature")
    tentacles(sheet)
    arms(sheet)
    with sheet.posed(*POSE):
        bell(sheet)
    return sheet


def habitat(sheet: Sheet, rng: Random) -> None:
    """Layers of water, darker below, and smaller jellies far off."""
    silt = closed(*knots("-10,1150! 260,1120 560,1160 800,1130 1010,1150! 1010,1210! -10,1210!"))
    sheet.paper(silt, STONE, lift=1)
    for centre, size in (((905, 800), 44), ((925, 985), 30), ((75, 640), 34)):
        far(sheet, centre, size)
    waves = [
        ripple([(x, y), (x + 44, y - 13), (x + 90, y + 11), (x + 134, y - 2)], 7)
        for x, y in knots(
            "40,90 90,140 800,60 850,110 20,480 60,830 20,900 820,560 860,610 790,1040 90,1050"
        )
    ]
    sheet.paper(waves, POOL)


def far(sheet: Sheet, at: Point, size: float) -> None:
    x, y = at
    dome = [step(at, a, size) for a in (180, 225, 270, 315, 360)]
    threads = [
        ribbon(
            [(x + k * size, y), (x + k * size + 8, y + size), (x + k * size - 6, y + 2 * size)],
            [4, 3, 0],
        )
        for k in (-0.5, 0, 0.5)
    ]
    sheet.paper([closed((*dome[0], 0), *dome[1:4], (*dome[4], 0)), *threads], POOL)


def tentacles(sheet: Sheet) -> None:
    """Thin as thread, from between the lobes of the bell's rim."""
    for lon, dx, end in knots(
        "-68,-50,900 -50,-70,1080 -38,-60,1160 -23,-30,1180 -8,0,1190 8,60,1185 23,90,1180 "
        "38,120,1130 52,130,1010 68,120,860"
    ):
        x, y = meridian(lon, 1)
        sway, fall = (26 if int(lon) % 2 else -26), end - y
        spine = [
            (x, y - 30),
            (x + dx * 0.2 + sway, y + fall * 0.25),
            (x + dx * 0.5 - sway, y + fall * 0.55),
            (x + dx * 0.8 + sway, y + fall * 0.8),
            (x + dx, end),
        ]
        sheet.paper(ribbon(spine, [8, 7, 6, 5, 0], 21), BARK)


ARMS = (
    (knots("560,400 600,540 590,700 650,860 640,1020"), 46, SHELL),
    (knots("410,390 330,500 296,630 206,770 190,930 106,1100"), 60, RUST),
    (knots("550,390 600,520 720,620 768,770 866,880 856,1060"), 60, RUST),
    (knots("480,400 446,560 530,740 476,920 500,1040 450,1170"), 64, RUST),
)


def arms(sheet: Sheet) -> None:
    """Four arms round the mouth: ribbons with frilled hems."""
    for spine, width, colour in ARMS:
        sheet.paper(frill(spine, width, 17), colour, lift=2)
        if colour == SHELL:
            sheet.paper([slit(at, 26, a, 0.34) for at, a in along(line(*spine), 22)[2:-4]], RUST)
            continue
        sheet.paper(frill(spine[:-1], width * 0.66, 14), SHELL, lift=1)
        places = along(line(*spine), 24)[4:-6]
        sheet.paper([slit(at, 30, angle, 0.3) for at, angle in places], PAPER)


def frill(spine: Sequence[Knot], width: float, waves: int) -> Curve:
    """A strip with scalloped sides that ends in a point."""
    places = along(line(*spine), 2 * waves + 1)
    sides: list[list[Knot]] = [[], []]
    for i, (at, angle) in enumerate(places[:-1]):
        part = i / (2 * waves)
        half = width * (0.72 + 0.5 * part) * min(1, 2.4 * (1 - part))
        for side, edge in zip((-1, 1), sides, strict=True):
            if (i + (side > 0)) % 2:
                edge.append((*step(at, angle + side * 90, half * 0.74), 0))
            else:
                edge.append(step(at, angle + side * 90, half * 1.1))
    return closed(*sides[0], (*places[-1][0], 0), *reversed(sides[1]))


def bell(sheet: Sheet) -> None:
    """Sixteen brown rays, forked like arrows, run from the rim towards a brown disc on top."""
    sheet.paper(BELL, SHELL, lift=4)
    with sheet.inside(BELL):
        skirt = [meridian(lon, 0.86) for lon in range(-90, 91, 10)]
        sheet.paper(closed(*skirt, (900, 520, 0), (40, 520, 0)), SAND)
        lappets = [ellipse(step(meridian(lon - 7.5, 1), 90, 14), 17, 26) for lon in LOBES[:-1]]
        sheet.paper(lappets, BARK)
        for lon in (-82, -62, -42, -21, 0, 21, 42, 62, 82):
            tip = meridian(lon, 0.34)
            for side in (-1, 1):
                leg = [tip, meridian(lon + side * 4, 0.62), meridian(lon + side * 8.5, 0.86)]
                sheet.paper(ribbon(leg, [3, 9, 6]), RUST)
            sheet.paper(slit(meridian(lon, 0.7), 52, 90 - lon * 0.6, 0.3), OCHRE)
        sheet.paper(ellipse((470, 82), 74, 26), BARK)
        dots = [meridian(lon, t) for lon in range(-75, 76, 21) for t in (0.42, 0.54)]
        sheet.paper([slit(dot, 17, 80, 0.5) for dot in dots], PAPER)
