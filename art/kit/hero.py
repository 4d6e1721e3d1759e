"""The otter that looks out of the cover at whoever opens the book, with a puzzle laid on it."""

from __future__ import annotations

from art.kit.curves import Curve, Knot, Point, closed, ellipse, knots, line, ribbon
from art.kit.cutouts import slit
from art.kit.limbs import toes
from art.kit.palette import BARK, INK, OCHRE, PAPER, RUST, SAND, STONE
from art.kit.rows import clear_of, rows
from art.kit.sheet import Sheet

AXIS = 450
SPOTS: dict[str, Point] = {
    "raised_paw": (733, 742),
    "chest": (456, 858),
    "paw": (212, 968),
    "belly": (540, 1086),
}
LINKS = (("raised_paw", "chest"), ("chest", "paw"), ("chest", "belly"))
SPOT, TAG = 46, (80, 62)
"""Radius of a spot; width and height of a tag: larger against the otter than on a page."""
FOOT: Point = (470, 1230)
SIZE = 0.86

BODY = closed(
    *knots(
        "330,700 306,790 270,860 236,960 222,1080 240,1230! 680,1230! 690,1080 672,960 640,860 "
        "600,790 574,700"
    )
)
SKULL = closed(
    *knots(
        "450,500 540,508 606,546 640,606 636,668 596,722 530,750 450,758 370,750 304,722 264,668 "
        "260,606 294,546 360,508"
    )
)


def hero(sheet: Sheet) -> None:
    """Glues the otter up to its belly; water in front of it is the cover's own."""
    with sheet.posed(0, FOOT, SIZE):
        body(sheet)
        raised_arm(sheet)
        lowered_arm(sheet)
        head(sheet)
        puzzle(sheet)


def body(sheet: Sheet) -> None:
    sheet.paper(BODY, BARK, lift=4)
    bib = closed(
        *knots(
            "370,730! 386,840 360,960 372,1100 400,1230! 560,1230! 580,1100 574,960 540,840 "
            "548,730!"
        )
    )
    with sheet.inside(BODY):
        sheet.paper(bib, SAND)
    for side in (-1, 1):
        flank = line(*knots("610,800 646,920 650,1060 640,1220"))
        hairs = rows(BODY, both(flank, side), (-36, 0, 30), 58, hair)
        sheet.paper(clear_of(hairs, bib), OCHRE)


def hair(at: Point, angle: float, _number: int, _place: int) -> Curve:
    return slit(at, 34, angle, 0.22)


def both(shape: Curve, side: int) -> Curve:
    return shape if side > 0 else shape.flipped(AXIS)


def raised_arm(sheet: Sheet) -> None:
    """It waves: four fingers and a thumb, webbed."""
    arm = knots("590,880 690,890,0 722,800 735,720")
    paw = toes((735, 712), (-150, -118, -90, -62, -30), 96, 17, 0.8)
    sheet.paper([ribbon(arm, [74, 62, 50, 46]), *paw], BARK, lift=3)
    course = line(*arm)
    hairs = rows(ribbon(arm, [74, 62, 50, 46]), course, (-26, 12), 54, hair)
    sheet.paper(hairs, OCHRE)


def lowered_arm(sheet: Sheet) -> None:
    arm = knots("310,850 240,900 210,990")
    paw = toes((206, 1000), (150, 118, 90, 62, 30), 92, 17, 0.8)
    sheet.paper([ribbon(arm, [78, 58, 46]), *paw], BARK, lift=3)
    hairs = rows(ribbon(arm, [78, 58, 46]), line(*arm), (-22, 16), 54, hair)
    sheet.paper(hairs, OCHRE)


def head(sheet: Sheet) -> None:
    """Broad and flat, small round ears, pale from the cheeks down; both eyes on the reader."""
    for side in (-1, 1):
        sheet.paper(both(ellipse((612, 548), 44, 40), side), BARK, lift=2)
        sheet.paper(both(ellipse((618, 552), 22, 20), side), RUST)
    sheet.paper(SKULL, BARK, lift=4)
    with sheet.inside(SKULL):
        cheeks = closed(
            *knots(
                "230,690! 300,664 370,672 410,640 450,632 490,640 530,672 600,664 670,690! "
                "670,780! 230,780!"
            )
        )
        sheet.paper(cheeks, SAND)
    brow = [
        slit((AXIS + x, y), 32, a, 0.22)
        for x, y, a in knots(
            "0,540,90 -50,530,80 50,530,100 -100,540,66 100,540,114 -26,570,84 26,570,96"
        )
    ]
    sheet.paper(brow, OCHRE)
    for side in (-1, 1):
        muzzle(sheet, side)
    nose = closed(*knots("398,622! 420,600 450,594 480,600 502,622! 490,652 450,674 410,652"))
    sheet.paper(nose, INK, lift=1.5)
    sheet.paper(slit((432, 616), 30, -14, 0.4), STONE)


def muzzle(sheet: Sheet, side: int) -> None:
    """Half a face: pad with its dots, whiskers, and an eye."""
    pad = ellipse((AXIS + 40 * side, 690), 50, 42)
    sheet.paper(pad, PAPER, lift=1)
    places = ((34, 690), (54, 682), (50, 704), (68, 698))
    sheet.paper([ellipse((AXIS + x * side, y), 4) for x, y in places], INK)
    whiskers = [
        ribbon(
            [
                (AXIS + 74 * side, 690 + 7 * i),
                (AXIS + 150 * side, 684 + 20 * i),
                (AXIS + (236 - 12 * i) * side, 674 + 36 * i),
            ],
            [3, 2.4, 0],
        )
        for i in range(3)
    ]
    sheet.paper(whiskers, INK)
    x, y = AXIS + 96 * side, 598
    sheet.paper(ellipse((x, y), 32), INK)
    sheet.paper(ellipse((x - 9, y - 11), 10), PAPER)


def puzzle(sheet: Sheet) -> None:
    """Links as dark cords with a pale edge, tags on their middles, spots over their ends."""
    cords = [[SPOTS[a], SPOTS[b]] for a, b in LINKS]
    sheet.paper([ribbon(cord, [15, 15]) for cord in cords], PAPER)
    sheet.paper([ribbon(cord, [6, 6]) for cord in cords], INK)
    for (ax, ay), (bx, by) in cords:
        at = ((ax + bx) / 2, (ay + by) / 2)
        sheet.paper(tag(at, 6), INK, lift=0.6)
        sheet.paper(tag(at, 0), PAPER)
    for at in SPOTS.values():
        sheet.paper(ellipse(at, SPOT + 7), INK, lift=0.6)
        sheet.paper(ellipse(at, SPOT), PAPER)


def tag(at: Point, more: float) -> Curve:
    """A box with rounded corners."""
    x, y = at
    w, h, r = TAG[0] / 2 + more, TAG[1] / 2 + more, 14 + more
    corners = ((w, -h, 1, 0), (w, h, 0, 1), (-w, h, -1, 0), (-w, -h, 0, -1))
    run: list[Knot] = []
    for cx, cy, across, down in corners:
        along_top = bool(across)
        before = (x + cx - across * r, y + cy - down * r, 0)
        sx, sy = (1 if cx > 0 else -1), (1 if cy > 0 else -1)
        bend = (x + cx - sx * 0.29 * r, y + cy - sy * 0.29 * r)
        after = (x + cx, y + cy - sy * r, 0) if along_top else (x + cx - sx * r, y + cy, 0)
        run += [before, bend, after]
    return closed(*run)
