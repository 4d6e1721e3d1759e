"""Faults of the writing, and several faults in one file."""

from __future__ import annotations

from tests.reading.faults.base import (
    BOOK,
    CHAPTER,
    HERON,
    HERON_PUZZLE,
    LINKS,
    Fault,
    in_chapter,
    whole_chapter,
)

WRITING = (
    in_chapter(
        "no quotation marks", 'name = "Heron"', "name = Heron", 'name = "Heron"', (22, "bad-toml")
    ),
    in_chapter(
        "no quotation marks, and a loop",
        'name = "Newt"\nart = "newt.svg"',
        "name = Newt\nart = 'newt'",
        'name = "Newt"\nart = "newt.svg"',
        (4, "bad-toml"),
        (5, "art-missing"),
    ),
    in_chapter(
        "no closing mark", 'name = "Heron"', 'name = "Heron', 'name = "Heron"', (22, "bad-toml")
    ),
    in_chapter(
        "curly marks", 'name = "Heron"', "name = “Heron”", 'name = "Heron"', (22, "bad-toml")
    ),
    in_chapter(
        "a list that is not closed",
        'links = ["bill-neck", "neck-leg"]',
        'links = ["bill-neck", "neck-leg"',
        'links = ["bill-neck", "neck-leg"]',
        (24, "bad-toml"),
    ),
    in_chapter(
        "a comma left out",
        '    "back-tail",\n',
        '    "back-tail"\n',
        '    "back-tail",\n',
        (10, "bad-toml"),
    ),
    in_chapter(
        "no equals sign", 'name = "Heron"', 'name: "Heron"', 'name = "Heron"', (22, "bad-toml")
    ),
    in_chapter("no value", "position = 1", "position =", "position = 1", (13, "bad-toml")),
    in_chapter(
        "a key twice",
        'name = "Heron"\n',
        'name = "Heron"\nname = "Crane"\n',
        'name = "Heron"\n',
        (23, "bad-toml"),
    ),
    in_chapter(
        "spots twice",
        "[page.spots]\n" + HERON,
        "[page.spots]\n" + HERON + "[page.spots]\neye = [3, 4]\n",
        "[page.spots]\n" + HERON,
        (29, "bad-toml"),
    ),
    in_chapter(
        "a heading that is not closed",
        '[[page]]\nname = "Heron"',
        '[[page]\nname = "Heron"',
        '[[page]]\nname = "Heron"',
        (21, "bad-toml"),
    ),
    in_chapter(
        "a spot name with an accent",
        HERON_PUZZLE,
        HERON_PUZZLE.replace("leg", "pié"),
        HERON_PUZZLE.replace("leg", "pié").replace("pié =", '"pié" ='),
        (28, "bad-toml"),
    ),
    in_chapter(
        "a leading nought", "position = 1", "position = 01", "position = 1", (13, "bad-toml")
    ),
    in_chapter("a capital truth", "position = 1", "fixed = True", "fixed = true", (13, "bad-toml")),
    in_chapter(
        "a backslash in a path",
        'art = "heron.svg"',
        'art = ".\\heron.svg"',
        'art = "./heron.svg"',
        (23, "bad-toml"),
    ),
    in_chapter(
        "deep nesting",
        "position = 1",
        "position = " + "[" * 5000 + "]" * 5000,
        "position = 1",
        (13, "bad-toml"),
    ),
    in_chapter(
        "a NUL byte", 'name = "Heron"', 'name = "Her\0on"', 'name = "Heron"', (22, "bad-toml")
    ),
    whole_chapter(
        "Windows-1252", CHAPTER.replace("Heron", "Héron").encode("cp1252"), (22, "bad-encoding")
    ),
    whole_chapter("UTF-16", CHAPTER.encode("utf-16"), (1, "bad-encoding")),
    whole_chapter("UTF-16 without its mark", CHAPTER.encode("utf-16-le"), (1, "bad-encoding")),
    whole_chapter(
        "a picture for a manifest", b"\x89PNG\r\n\x1a\n" + bytes(200), (1, "bad-encoding")
    ),
    whole_chapter("a manifest of three million bytes", CHAPTER + "#" * 3_000_000, (1, "bad-toml")),
)

SEVERAL = (
    in_chapter(
        "faults everywhere",
        LINKS + "position = 1\n\n[page.spots]\nnose = [12, 40]",
        'links = [\n    "nose-bakc",\n    "back-tail",\n    "back-paw",\n    "paw-tail",\n]\n'
        "position = 9\nturn = 1\nlicense = 3\n[page.spots]\nnose = [12, 400]",
        LINKS + "position = 1\n\n[page.spots]\nnose = [12, 40]",
        (9, "unknown-spot"),
        (12, "loop"),
        (14, "bad-value"),
        (15, "bad-value"),
        (16, "unknown-key"),
        (18, "spot-off-art"),
    ),
    Fault(
        "two pages at fault",
        "01.toml",
        CHAPTER.replace('"back-paw",', '"paw-paw",')
        .replace('"heron.svg"', "7")
        .replace("leg = [50, 90]", "leg = []"),
        CHAPTER,
        ((11, "self-link"), (23, "bad-value"), (28, "bad-value")),
        "01.toml",
    ),
    Fault(
        "a book at fault all over",
        "book.toml",
        BOOK.replace('"3"', '"9"').replace('"a4"', "4").replace("weeks", "wekes"),
        BOOK,
        ((2, "bad-value"), (4, "bad-value"), (10, "unknown-key")),
        "book.toml",
    ),
)
