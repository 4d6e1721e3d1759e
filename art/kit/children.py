"""Six drawings as an eight-year-old would make them with crayons, for a class edition's demo.

Each is drawn around the spots that one page of the demo book has on a drawing sheet, and is what
a child made of them. Places are in tenths of a millimetre on the sheet's frame, 180 x 210 mm.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from art.kit.crayon import Drawing
from art.kit.curves import Curve, Knot, closed, ellipse, knots, line, ribbon, step


def write(folder: Path) -> list[Path]:
    """Draws all six into ``folder``, as intake would have written them there."""
    written = []
    for number in range(1, len(DRAWINGS) + 1):
        path = folder / f"{number}.png"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(drawn(number))
        written.append(path)
    return written


def drawn(number: int) -> bytes:
    """One drawing as a PNG; numbers begin with 1."""
    drawing = Drawing(seed=number)
    DRAWINGS[number - 1](drawing)
    return drawing.png()


def shape(text: str) -> Curve:
    return closed(*knots(text))


def stroke(text: str) -> Curve:
    return line(*knots(text))


def dragon(drawing: Drawing) -> None:
    """The salamander's three spots: shoulder 640,730, hip 1000,1360, tail 580,1830."""
    drawing.draw(
        shape("760,830 900,420 1250,250 1200,520 1500,560 1240,800 1400,980 1000,1010"),
        "violet",
        "pink",
        70,
    )
    for ray in (
        "790,840 1000,560 1230,270",
        "830,880 1100,700 1470,570",
        "880,940 1160,860 1380,970",
    ):
        drawing.line(stroke(ray), "violet", 18)
    drawing.draw(
        shape(
            "420,560 640,500 800,620 900,900 1130,1120 1210,1400 1090,1640 820,1850 560,1990 "
            "300,1960 160,1800! 420,1800 640,1660 780,1480 760,1260 600,1050 480,900 330,820"
        ),
        "green",
        "green",
        20,
    )
    for x, y in knots("905,800 1010,930 1130,1040 1215,1190 1240,1380 1170,1560"):
        drawing.draw(
            shape(f"{x - 50},{y + 30}! {x + 70},{y - 60}! {x + 60},{y + 90}!"),
            "orange",
            "yellow",
            80,
        )
    for leg in (
        "700,1450 640,1570 560,1600 640,1640 740,1640 800,1500",
        "1120,1560 1230,1690 1180,1760 1300,1760 1350,1700 1210,1500",
    ):
        drawing.draw(shape(leg), "green", "green", 100)
    drawing.draw(shape("450,560 520,380 610,520"), "green", "yellow", 60)
    drawing.draw(shape("650,510 760,360 790,570"), "green", "yellow", 60)
    drawing.face((560, 640), 120, 0.2)
    for tongue, colour in (
        ("330,760 200,700 60,800 180,800 40,930 200,880 160,1010 350,850", "red"),
        ("320,790 220,770 150,840 240,840 330,830", "yellow"),
    ):
        drawing.draw(shape(tongue), colour, colour, 5)
    sun(drawing, (1560, 220))
    drawing.line(stroke("60,2040 500,2030 1000,2050 1740,2030"), "green", 34)


def hen(drawing: Drawing) -> None:
    """The dipper's four: breast 460,1190, wing 1020,1020, tail 1570,840, belly 920,1530."""
    for i, colour in enumerate(("red", "orange", "blue", "green")):
        end = step((1240, 1020), -58 + 24 * i, 450)
        drawing.draw(
            ribbon([(1180, 1080), step((1240, 1020), -50 + 22 * i, 260), end], [60, 90, 60]),
            colour,
            colour,
            40 * i,
        )
    drawing.draw(
        shape(
            "300,760 420,560 640,540 760,720 900,880 1200,900 1360,1080 1300,1400 1080,1660 "
            "760,1720 460,1580 300,1300 270,1000"
        ),
        "brown",
        "orange",
        30,
    )
    drawing.draw(
        shape("800,980 1000,900 1240,940 1300,1060 1140,1180 900,1160"), "brown", "yellow", 120
    )
    drawing.draw(shape("390,590 380,420 460,500 500,380 560,490 650,420 640,560"), "red", "red", 80)
    drawing.draw(shape("290,760 90,840! 300,900"), "orange", "yellow", 0)
    drawing.draw(shape("300,920 250,1060 330,1090 370,960"), "red", "red", 90)
    drawing.line(ellipse((470, 730), 46), "black", 18)
    drawing.line(ellipse((462, 736), 10), "black", 26, 1)
    for x in (720, 1010):
        drawing.line(stroke(f"{x},1690 {x + 8},1830 {x},1960"), "orange", 34)
        for dx in (-120, -20, 100):
            drawing.line(stroke(f"{x},1955 {x + dx / 2:.0f},1990 {x + dx},2020"), "orange", 30)
    drawing.draw(shape("1420,1820 1500,1700 1580,1820 1500,1920"), "grey", "white", 0)
    grass(drawing, 2060)
    sun(drawing, (1540, 210))


def butterfly(drawing: Drawing) -> None:
    """The kingfisher's five: 510,320, 860,760, 1290,1230, 1540,480, 350,1070."""
    for wing, colour, spots in (
        ("840,720 700,300 480,120 270,250 300,560 560,740", "blue", "500,330,150"),
        ("960,760 1200,300 1540,200 1720,420 1640,700 1300,860", "blue", "1540,480,150"),
        ("820,820 520,800 200,920 140,1180 340,1330 640,1220 840,1000", "violet", "350,1070,140"),
        (
            "940,880 1200,920 1480,1120 1460,1380 1240,1460 1020,1300 900,1040",
            "violet",
            "1290,1230,150",
        ),
    ):
        drawing.draw(shape(wing), colour, "pink" if colour == "violet" else "blue", 50)
        ((x, y, r),) = knots(spots)
        drawing.draw(ellipse((x, y), r), "yellow", "yellow", 110)
        drawing.line(ellipse((x, y), r * 1.3), "red", 20)
    drawing.draw(
        shape("800,600 900,560 980,640 1000,900 960,1300 900,1480 850,1300 790,900"),
        "black",
        "brown",
        0,
    )
    for y in (960, 1080, 1200, 1320):
        drawing.line(stroke(f"800,{y} 880,{y + 20} 980,{y}"), "black", 18)
    drawing.draw(ellipse((880, 500), 130, 120), "black", "yellow", 20)
    drawing.face((880, 480), 100)
    for tip in ("800,400 740,260 690,200", "950,400 1010,260 1070,190"):
        drawing.line(stroke(tip), "black", 20)
        drawing.line(ellipse(knots(tip.split()[-1])[0], 18), "black", 24)
    for x, colour in ((260, "red"), (640, "orange"), (1240, "pink"), (1590, "red")):
        flower(drawing, (x, 1720), colour)
    grass(drawing, 2040)


def monster(drawing: Drawing) -> None:
    """The frog's five: hand 1540,900, back 970,760, hip 730,1260, feet 190,1500 and 640,1860."""
    drawing.draw(
        shape("640,1180 460,1260 250,1330 60,1420 60,1600 300,1610 560,1480 800,1380"),
        "blue",
        "blue",
        10,
    )
    drawing.draw(
        shape("620,1340 560,1560 480,1800 420,1960 800,1990 780,1780 800,1560 900,1380"),
        "blue",
        "blue",
        100,
    )
    drawing.draw(
        shape("1060,680 1280,760 1400,700 1560,720 1690,860 1600,1010 1440,1030 1250,960 1060,900"),
        "blue",
        "blue",
        160,
    )
    for x, y in knots("1690,800 1740,900 1650,1010"):
        drawing.draw(
            shape(f"{x - 40},{y - 30} {x + 50},{y} {x - 30},{y + 40}"), "black", "white", 0
        )
    drawing.draw(
        shape(
            "760,240 1000,160 1230,260 1290,480 1210,640 1160,900 1060,1240 860,1480 600,1460 "
            "500,1240 620,960 720,700 680,460"
        ),
        "blue",
        "blue",
        55,
    )
    for x, y in knots("690,1120 860,1040 620,1330 900,1240 1010,1010 790,900"):
        drawing.draw(ellipse((x, y), 40, 34), "green", "green", 0)
    drawing.draw(ellipse((980, 400), 130, 140), "black", "white", 0)
    drawing.line(ellipse((1010, 410), 34), "black", 44, 1)
    drawing.draw(shape("780,600 980,570 1200,600 1120,690 900,700"), "red", "red", 0)
    for x in (840, 920, 1000, 1080):
        drawing.draw(shape(f"{x},592! {x + 50},590! {x + 24},650!"), "black", "white", 0)
    for horn in ("800,240 740,90 900,190", "1120,190 1210,40 1220,250"):
        drawing.draw(shape(horn), "orange", "yellow", 70)
    for x, y in knots("90,1420 60,1490 70,1560 440,1980 560,2010 700,2010"):
        drawing.line(stroke(f"{x},{y} {x - 30},{y + 30}"), "black", 30)
    drawing.line(stroke("40,2050 600,2060 1200,2040 1760,2055"), "brown", 34)


def caterpillar(drawing: Drawing) -> None:
    """The otter's five: 470,1310, 810,820, 1190,1310, 1600,1790, 1020,1910."""
    joints = knots(
        "470,1310 640,1060 810,820 1000,1050 1190,1310 1400,1550 1590,1790 1310,1860 1020,1890"
    )
    colours = ("red", "orange", "yellow", "green", "blue", "violet", "pink", "orange", "green")
    for i, ((x, y), colour) in reversed([*enumerate(zip(joints, colours, strict=True))]):
        if i:
            for side in (-1, 1):
                knee = (x + side * 150, y + 150)
                drawing.line(line((x + side * 90, y + 90), knee), "black", 26)
                drawing.line(line(knee, (knee[0] + side * 50, knee[1] - 4)), "black", 26)
        radius = 190 if i else 230
        drawing.draw(
            ellipse((x, y), radius, radius * 0.94), "black" if not i else colour, colour, 25 * i
        )
    for tip in ("400,1100 320,960 240,950", "550,1100 590,960 680,930"):
        drawing.line(stroke(tip), "black", 22)
    for side in (-1, 1):
        drawing.line(ellipse((470 + side * 150, 1230), 40), "black", 18)
        drawing.line(ellipse((476 + side * 150, 1238), 9), "black", 26, 1)
    drawing.line(stroke("330,1470 470,1520 610,1460"), "black", 22)
    leaf = shape("120,1790 300,1610 560,1670 660,1860 420,1950 220,1920")
    drawing.draw(leaf, "green", "green", 150)
    drawing.line(stroke("130,1800 380,1790 640,1860"), "brown", 20)
    sun(drawing, (240, 240))
    grass(drawing, 2050)


def squid(drawing: Drawing) -> None:
    """The octopus's seven: 760,370, 860,1200, 270,950, 550,1730, 1230,1700, 1440,1050, 1510,460."""
    for arm, colour in (
        ("760,1080 560,1080 400,900 250,960 130,1120", "red"),
        ("800,1240 700,1440 560,1560 540,1740 400,1900", "orange"),
        ("920,1240 1020,1400 1180,1520 1230,1720 1400,1880", "red"),
        ("980,1120 1200,1180 1400,1120 1480,860 1400,640 1520,440 1640,330", "orange"),
        ("860,1260 880,1500 820,1720 880,1900", "pink"),
        ("740,1180 500,1300 330,1300 200,1450", "pink"),
    ):
        tube = ribbon(knots(arm), [110, 105, 100, 96, 60])
        drawing.draw(tube, "violet", colour, 60)
    drawing.draw(
        shape(
            "760,120 1010,230 1080,520 1010,800 1080,1100 1020,1320 840,1380 660,1300 "
            "640,1050 560,800 460,520 520,240"
        ),
        "violet",
        "violet",
        30,
    )
    drawing.face((800, 760), 220, 0.8)
    for x, y in knots("330,1180 460,1110 640,1600 660,1480 1130,1590 1080,1480 1560,1010 1500,720"):
        drawing.line(ellipse((x, y), 26), "black", 14)
    for x, y, r in knots("1560,1500,60 1640,1360,40 180,520,60 280,380,44 130,340,30 1250,260,44"):
        drawing.line(ellipse((x, y), r), "blue", 18)
    for y in (80, 2020):
        water = [(x, y - 30 * (i % 2)) for i, x in enumerate(range(60, 1761, 200))]
        drawing.line(line(*water), "blue", 30)


def sun(drawing: Drawing, at: Knot) -> None:
    drawing.draw(ellipse(at, 120), "orange", "yellow", 15)
    for angle in range(0, 360, 40):
        drawing.line(line(step(at, angle, 155), step(at, angle, 230)), "orange", 22)


def grass(drawing: Drawing, foot: float) -> None:
    run: list[Knot] = []
    for i, x in enumerate(range(30, 1790, 34)):
        run.append((x, foot - (70 if i % 2 else 0) - 17 * (i % 3), 0))
    drawing.line(line(*run), "green", 24)


def flower(drawing: Drawing, at: Knot, colour: str) -> None:
    x, y = at[:2]
    drawing.line(line((x, y + 40), (x + 14, y + 180), (x, y + 330)), "green", 24)
    for angle in range(-90, 270, 60):
        drawing.draw(ellipse(step(at, angle, 66), 44), colour, colour, angle)
    drawing.draw(ellipse(at, 36), "orange", "yellow", 0)


DRAWINGS: tuple[Callable[[Drawing], None], ...] = (
    dragon,
    hen,
    butterfly,
    monster,
    caterpillar,
    squid,
)
"""In the order salamander, dipper, kingfisher, frog, otter, octopus."""
