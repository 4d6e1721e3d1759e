"""Faults of the spots, the links and the tree that they make."""

from __future__ import annotations

from tests.reading.faults.base import CHAPTER, HERON, LINKS, MANY_PAGE, Fault, in_chapter

TREE = (
    in_chapter(
        "a loop",
        '    "back-paw",\n',
        '    "back-paw",\n    "paw-nose",\n',
        '    "back-paw",\n',
        (12, "loop"),
    ),
    in_chapter(
        "two loops",
        '    "back-paw",\n',
        '    "back-paw",\n    "paw-nose", "paw-tail",\n',
        '    "back-paw",\n',
        (12, "loop"),
        (12, "loop"),
    ),
    in_chapter(
        "a loop and a loose spot",
        '    "back-paw",\n',
        '    "nose-tail",\n',
        '    "back-paw",\n',
        (8, "disconnected"),
        (11, "loop"),
    ),
    in_chapter(
        "a spot left out", '    "back-paw",\n', "", '    "paw-nose",\n', (8, "disconnected")
    ),
    in_chapter(
        "two pieces",
        LINKS,
        'links = ["nose-back", "tail-paw"]\n',
        'links = ["nose-back", "tail-paw", "nose-paw"]\n',
        (8, "disconnected"),
    ),
    in_chapter(
        "no links",
        'links = ["bill-neck", "neck-leg"]',
        "links = []",
        'links = ["bill-neck", "bill-leg"]',
        (24, "disconnected"),
    ),
    in_chapter(
        "a link to nowhere", '"back-tail"', '"back-tial"', '"back-tail"', (10, "unknown-spot")
    ),
    in_chapter(
        "a link from nowhere to nowhere",
        '"back-tail"',
        '"wing-fin"',
        '"back-tail"',
        (10, "unknown-spot"),
        (10, "unknown-spot"),
    ),
    in_chapter(
        "a link to itself",
        '    "back-paw",\n',
        '    "back-paw",\n    "paw-paw",\n',
        '    "back-paw",\n',
        (12, "self-link"),
    ),
    in_chapter(
        "a link to itself in place of another",
        '"back-paw"',
        '"back-back"',
        '"back-paw"',
        (11, "self-link"),
    ),
    in_chapter(
        "a link twice",
        '    "back-paw",\n',
        '    "back-paw",\n    "back-tail",\n',
        '    "back-paw",\n',
        (12, "repeated-link"),
    ),
    in_chapter(
        "a link twice, the second reversed",
        '    "back-paw",\n',
        '    "back-paw",\n\n    "tail-back",\n',
        '    "back-paw",\n',
        (13, "repeated-link"),
    ),
    in_chapter(
        "one spot",
        'links = ["bill-neck", "neck-leg"]\n[page.spots]\n' + HERON,
        "links = []\n[page.spots]\nbill = [10, 20]\n",
        'links = ["bill-leg"]\n[page.spots]\nbill = [10, 20]\nleg = [1, 2]\n',
        (25, "too-few-spots"),
    ),
    in_chapter("no spots", HERON, "", HERON, (25, "too-few-spots")),
    Fault(
        "too many spots",
        "01.toml",
        CHAPTER[: CHAPTER.index('[[page]]\nname = "Heron"')] + MANY_PAGE,
        CHAPTER,
        ((25, "too-many-spots"),),
        "01.toml",
    ),
)

SPOTS = (
    in_chapter(
        "a spot left of the picture",
        "nose = [12, 40]",
        "nose = [-5, 40]",
        "nose = [0, 40]",
        (16, "spot-off-art"),
    ),
    in_chapter(
        "a spot below the picture",
        "paw = [40, 80]",
        "paw = [40, 140]",
        "paw = [40, 100]",
        (19, "spot-off-art"),
    ),
    in_chapter(
        "a spot at infinity",
        "paw = [40, 80]",
        "paw = [40, inf]",
        "paw = [40, 80]",
        (19, "bad-value"),
    ),
    in_chapter(
        "a spot at nan", "paw = [40, 80]", "paw = [nan, 80]", "paw = [40, 80]", (19, "bad-value")
    ),
    in_chapter(
        "a spot beyond all floats",
        "paw = [40, 80]",
        "paw = [40, 1e400]",
        "paw = [40, 80]",
        (19, "bad-value"),
    ),
    in_chapter(
        "a decimal comma",
        "back = [45, 35.5]",
        "back = [45, 35,5]",
        "back = [45, 35.5]",
        (17, "bad-value"),
    ),
    in_chapter(
        "a spot with one number",
        "tail = [88, 52]",
        "tail = [88]",
        "tail = [88, 52]",
        (18, "bad-value"),
    ),
    in_chapter(
        "a spot that is a number",
        "tail = [88, 52]",
        "tail = 88",
        "tail = [88, 52]",
        (18, "bad-value"),
    ),
    in_chapter(
        "a spot in words",
        "tail = [88, 52]",
        'tail = ["88", "52"]',
        "tail = [88, 52]",
        (18, "bad-value"),
    ),
    in_chapter(
        "a spot that is true",
        "tail = [88, 52]",
        "tail = [true, 52]",
        "tail = [88, 52]",
        (18, "bad-value"),
    ),
    in_chapter(
        "two spots on one place",
        "tail = [88, 52]",
        "tail = [12.0, 40]",
        "tail = [88, 52]",
        (18, "spots-too-close"),
    ),
    in_chapter(
        "a spot name with a hyphen",
        'links = ["bill-neck", "neck-leg"]\n[page.spots]\n' + HERON,
        'links = ["bill-neck", "neck-left-leg"]\n[page.spots]\n' + HERON.replace("leg", "left-leg"),
        'links = ["bill-neck", "neck-left_leg"]\n[page.spots]\n' + HERON.replace("leg", "left_leg"),
        (28, "bad-value"),
    ),
    in_chapter(
        "a spot name with a space",
        "leg = [50, 90]",
        'leg = [50, 90]\n"a toe" = [50, 95]',
        "leg = [50, 90]",
        (24, "disconnected"),
        (29, "bad-value"),
    ),
    in_chapter(
        "spots in a list",
        "[page.spots]\n" + HERON,
        "spots = [[10, 20], [30, 40]]\n",
        "[page.spots]\n" + HERON,
        (25, "bad-value"),
    ),
    in_chapter(
        "a page's key after its spots",
        "position = 1\n\n[page.spots]\n",
        "\n[page.spots]\nposition = 1\n",
        "position = 1\n\n[page.spots]\n",
        (15, "unknown-key"),
    ),
    in_chapter(
        "spots that are no page's",
        "[page.spots]\n" + HERON,
        "[spots]\n" + HERON.replace("90", "190"),
        "[page.spots]\n" + HERON,
        (25, "unknown-key"),
        (28, "spot-off-art"),
    ),
    in_chapter(
        "a key above its spots and below them",
        "paw = [40, 80]\n",
        "paw = [40, 80]\nlicence = 3\n",
        "paw = [40, 80]\n",
        (20, "unknown-key"),
    ),
    in_chapter(
        "a key of the page after its given numbers",
        "position = 1\n",
        "[page.given]\nnose = 1\nposition = 9\n",
        "position = 2\n[page.given]\nnose = 1\n",
        (15, "unknown-key"),
        (15, "bad-value"),
    ),
    in_chapter(
        "the links after the spots",
        'links = ["bill-neck", "neck-leg"]\n[page.spots]\n' + HERON,
        "[page.spots]\n" + HERON + 'links = ["bill-neck", "neck-leg"]\n',
        'links = ["bill-neck", "neck-leg"]\n[page.spots]\n' + HERON,
        (28, "unknown-key"),
    ),
)
