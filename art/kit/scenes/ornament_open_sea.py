"""An old pot on the sea bed, an arm that feels its way out, and a cloud of ink."""

from __future__ import annotations

from random import Random

from art.kit.curves import along, closed, ellipse, knots, line, ribbon
from art.kit.cutouts import slit, stone, wave
from art.kit.palette import BARK, DEEP, INK, OCHRE, RUST, SAND, SHELL, SLATE, STONE, TEAL
from art.kit.rows import beside
from art.kit.sheet import Sheet

NAME = "An old pot"
DESCRIPTION = (
    "An old clay pot lies on the sea bed. The tip of an arm with suckers curls out of it, and a "
    "dark cloud drifts away."
)
ARM = knots("520,262 640,290 740,250 790,170 750,104 680,112 676,164 712,176")


def draw() -> Sheet:
    sheet = Sheet("ornament-open-sea", 1200, 440)
    rng = Random(38)
    cloud = closed(
        *knots(
            "830,190 880,120 960,130 1010,70 1100,90 1110,160 1180,200 1140,270 1060,266 1010,310 "
            "930,280 860,280 810,240"
        )
    )
    sheet.paper(cloud, DEEP, lift=1)
    sheet.paper([ellipse((x, y), r) for x, y, r in knots("800,300,16 770,330,10 1150,90,14")], DEEP)
    swirls = [wave((x, y), r, -14) for x, y, r in knots("920,190,46 1040,150,50 1040,226,44")]
    sheet.paper(swirls, TEAL)
    bed = closed(*knots("20,392! 240,360 560,372 860,356 1180,388! 900,432 500,438 140,430"))
    sheet.paper(bed, SAND, lift=1)
    pot(sheet)
    arm(sheet)
    for x, y, r, colour in ((820, 400, 54, STONE), (910, 412, 36, SLATE), (120, 404, 46, SLATE)):
        sheet.paper(stone((x, y), r, r * 0.6, rng), colour, lift=2)
    return sheet


def pot(sheet: Sheet) -> None:
    """It lies on its side, mouth to the right, cracked, with a painted band."""
    handle = ribbon(knots("290,150 360,80 450,110 470,180"), [17, 17, 17])
    sheet.paper(handle, RUST, lift=2)
    belly = closed(
        *knots(
            "70,270 110,180 220,130 340,140 440,190! 520,180! 530,270 524,346! 444,340! 340,390 "
            "210,396 110,360"
        )
    )
    sheet.paper(belly, RUST, lift=3)
    with sheet.inside(belly):
        band = ribbon(knots("250,100 222,260 262,420"), [22, 22, 22])
        sheet.paper(band, OCHRE)
        course = along(line(*knots("250,100 222,260 262,420")), 9)
        marks = [slit(p, 34, a + 60, 0.3) for p, a in course]
        sheet.paper(marks, BARK)
        sheet.paper(ribbon(knots("110,180 160,230 150,290 190,330"), [0, 4, 4, 0]), BARK)
    sheet.paper(ellipse((522, 264), 34, 88), SHELL, lift=1.5)
    sheet.paper(ellipse((526, 266), 22, 68), INK)


def arm(sheet: Sheet) -> None:
    shape = ribbon(ARM, [40, 38, 33, 27, 21, 15, 10, 4], 41)
    sheet.paper(shape, OCHRE, lift=2.5)
    rim = beside(line(*ARM), -12)
    suckers = [ellipse(place, 12 - 0.55 * i) for i, (place, _) in enumerate(along(rim, 17)[1:-1])]
    sheet.paper(suckers, SAND)
    sheet.paper([ellipse(place, 4) for place, _ in along(rim, 17)[1:-3]], RUST)
    dots = [slit(place, 16, angle, 0.5) for place, angle in along(beside(line(*ARM), 18), 12)[1:-4]]
    sheet.paper(dots, RUST)
