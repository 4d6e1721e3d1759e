"""A kingfisher plunges after a minnow."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from art.kit.curves import Curve, Knot, along, closed, ellipse, knots, line, ribbon, step
from art.kit.cutouts import crescent, drop, feather, leaf, reed, slit
from art.kit.limbs import toes
from art.kit.palette import (
    BARK,
    DEEP,
    INK,
    MIST,
    OCHRE,
    PAPER,
    POOL,
    RUST,
    SAGE,
    SAND,
    SLATE,
    STRAW,
    TEAL,
)
from art.kit.sheet import Sheet

NAME = "Kingfisher"
CHAPTER = "brook"
DESCRIPTION = (
    "A kingfisher dives head first, its dagger bill almost in the brook, wings swept up: "
    "a green-blue back, an orange breast, a white patch on the neck. A small fish darts away below."
)
SPOTS = {
    "breast": (71.5, 60),
    "wing": (57, 36.5),
    "tail": (87, 24),
    "far_wing": (28, 48),
}
LINKS = ("breast-wing", "breast-tail", "breast-far_wing")

PLACE = (640, 616)


def draw() -> Sheet:
    sheet = Sheet("kingfisher")
    rng = Random(41)
    sheet.ground(MIST, PAPER, seed=14)
    habitat(sheet, rng)
    sheet.layer("creature")
    far_wing(sheet)
    tail(sheet)
    body(sheet)
    feet(sheet)
    near_wing(sheet)
    sheet.layer("front")
    splash(sheet)
    return sheet


def dive(*shapes: Curve) -> list[Curve]:
    """The bird is drawn level, facing left, its middle at nought; this turns it into the dive."""
    return [shape.scaled(1.08).turned(-56).moved(*PLACE) for shape in shapes]


def habitat(sheet: Sheet, rng: Random) -> None:
    """Alder twigs over the brook, rings where the bill goes in, and the minnow."""
    pool = closed(*knots("-10,1010! 250,990 520,1014 800,992 1010,1010! 1010,1210! -10,1210!"))
    sheet.paper(pool, POOL, lift=1)
    rings = [
        ribbon(
            [
                (380 - w, 1052),
                (380 - w * 0.5, 1052 + w * 0.13),
                (380 + w * 0.5, 1052 + w * 0.13),
                (380 + w, 1052),
            ],
            [0, 6, 6, 0],
        )
        for w in (110, 200, 300)
    ]
    sheet.paper(rings, PAPER)
    twig(sheet, [(1010, 60), (930, 80), (820, 60), (720, 30)])
    twig(sheet, [(-10, 90), (70, 110), (150, 190), (170, 300)])
    for root, tip, sway in (
        ((930, 1210), (960, 560), -30),
        ((970, 1210), (900, 700), 30),
        ((890, 1210), (850, 840), -20),
        ((1000, 1210), (1000, 640), -10),
    ):
        sheet.paper(reed(root, tip, 15, sway), SAGE)
    fish(sheet)


def twig(sheet: Sheet, spine: Sequence[Knot]) -> None:
    places = along(line(*spine), 6)[1:]
    leaves = [
        leaf(at, 92 - 6 * i, angle + side * 48, 0.5, side * 0.1)
        for i, (at, angle) in enumerate(places)
        for side in (-1, 1)
    ]
    sheet.paper([*leaves, ribbon(spine, [7, 6, 0])], SAGE)


def fish(sheet: Sheet) -> None:
    shape = closed(
        *knots(
            "150,1130! 200,1104 270,1108 330,1130! 372,1104! 364,1136 376,1166! 330,1140! "
            "270,1158 196,1158"
        )
    )
    sheet.paper(shape, SAND, lift=2)
    sheet.paper(
        [ellipse((186, 1126), 7), *(slit((x, 1130), 26, 4, 0.3) for x in (230, 264, 298))], SLATE
    )


def wing_of(
    sheet: Sheet, root: Knot, lead: float, size: float, colours: tuple[str, str, str]
) -> None:
    """Flight feathers as a fan of overlapping papers, coverts over them, a spotted shoulder."""
    far, near, marks = colours
    flight = [
        feather(step(root, lead + 100, 8 * i), size * (1 - 0.05 * i), lead + 6.5 * i, 0.17, 0.84)
        for i in range(9)
    ]
    sheet.papers(dive(*reversed(flight)), [far], lift=1)
    coverts = [
        feather(
            step(root, lead + 100, 9 * i), size * (0.62 - 0.03 * i), lead + 2 + 7.2 * i, 0.24, 0.84
        )
        for i in range(8)
    ]
    sheet.papers(dive(*reversed(coverts)), [near], lift=1)
    drops = [
        drop(step(root, lead + 5 + 7.4 * i, size * r * (1 - 0.04 * i)), 26, lead + 5 + 7.4 * i, 0.6)
        for r, n in ((0.5, 7), (0.38, 6), (0.26, 4))
        for i in range(n)
    ]
    sheet.paper(dive(*drops), marks)


def far_wing(sheet: Sheet) -> None:
    """Seen from below: its lining is orange like the breast."""
    wing_of(sheet, (-80, -64), -122, 470, (SLATE, RUST, STRAW))


def near_wing(sheet: Sheet) -> None:
    wing_of(sheet, (-30, -50), -76, 500, (DEEP, TEAL, POOL))


def tail(sheet: Sheet) -> None:
    sheet.papers(
        dive(*(feather((210, -10), 260, a, 0.24, 0.88) for a in (12, 6, 0, -6))), [DEEP], lift=1
    )


def body(sheet: Sheet) -> None:
    """An orange bird with a green-blue cape, white on the neck and the throat."""
    bill = closed(*knots("-486,16! -370,-22 -240,-52! -226,34! -370,26"))
    sheet.paper(dive(bill)[0], INK, lift=2)
    shape = dive(
        closed(
            *knots(
                "-268,-4 -256,-74 -196,-136 -120,-146 -40,-118 60,-112 200,-74 330,-20! 250,76 "
                "120,134 0,142 -130,128 -236,66"
            )
        )
    )[0]
    sheet.paper(shape, RUST, lift=3)
    with sheet.inside(shape):
        cape = closed(*knots("-140,-90! -60,-40 60,-20 200,-10 360,0! 360,-220! -140,-220!"))
        sheet.paper(dive(cape)[0], TEAL, lift=1)
        back = closed(*knots("-40,-150! 0,-70 160,-44 360,-14! 360,-220!"))
        sheet.paper(dive(back)[0], POOL)
        crown = closed(*knots("-300,-40! -220,-70 -150,-74 -90,-48 -40,-64! -60,-220! -300,-220!"))
        sheet.paper(dive(crown)[0], DEEP, lift=1)
        bars = [
            crescent((x, y), 13, 180, 0.36)
            for x, y in knots(
                "-222,-88 -186,-90 -150,-92 -114,-84 -78,-74 -198,-114 -162,-118 -124,-114 -88,-104"
            )
        ]
        sheet.paper(dive(*bars), POOL)
        sheet.paper(
            dive(closed(*knots("-300,26! -210,46 -130,54 -70,92 -150,130 -300,120!")))[0], PAPER
        )
        patch = closed(*knots("-104,-40! -50,-34 -4,4 -14,44! -70,26 -100,-4"))
        sheet.paper(dive(patch)[0], PAPER, lift=1)
        sheet.paper(dive(slit((-246, -24), 70, 6, 0.3))[0], INK)
        belly = [
            slit((x, y), 26, 10, 0.26)
            for x, y in knots("-20,90 10,60 30,110 70,76 90,40 120,90 150,50 190,70 60,20 230,40")
        ]
        sheet.paper(dive(*belly), OCHRE)
    sheet.paper(dive(ellipse((-178, -26), 25)), INK)
    sheet.paper(dive(ellipse((-182, -35), 8)), PAPER)


def feet(sheet: Sheet) -> None:
    """Tucked into the belly feathers."""
    sheet.paper(dive(*toes((150, 124), (10, 34, 58), 62, 11, 0.4)), BARK, lift=1)


def splash(sheet: Sheet) -> None:
    drops = [
        drop((x, y), 34, a, 0.6)
        for x, y, a in knots("250,990,-120 290,940,-110 470,990,-60 530,950,-60 210,930,-120")
    ]
    sheet.paper(drops, PAPER, lift=1)
