"""Faults of single keys and their values, in a chapter and its pages."""

from __future__ import annotations

from tests.reading.faults.base import (
    BOOK,
    CHAPTER,
    HERON,
    UNKNOWN,
    Fault,
    in_chapter,
    whole_chapter,
)

VALUES = (
    in_chapter("no name", 'name = "Heron"\n', "", 'name = "Heron"\n', (21, "missing-key")),
    in_chapter("no art", 'art = "heron.svg"\n', "", 'art = "heron.svg"\n', (21, "missing-key")),
    in_chapter(
        "no links key",
        'links = ["bill-neck", "neck-leg"]\n',
        "",
        'links = ["bill-neck", "neck-leg"]\n',
        (21, "missing-key"),
    ),
    in_chapter(
        "no spots key",
        "[page.spots]\n" + HERON,
        "",
        "[page.spots]\n" + HERON,
        (21, "missing-key"),
    ),
    in_chapter(
        "no title", 'title = "The spring"\n', "\n", 'title = "The spring"\n', (1, "missing-key")
    ),
    in_chapter("a misspelt key", "artist =", "artits =", "artist =", (6, "unknown-key")),
    in_chapter(
        "a misspelt key that is needed",
        'name = "Heron"',
        'nmae = "Heron"',
        'name = "Heron"',
        (22, "unknown-key"),
    ),
    in_chapter(
        "a key of the book in a page",
        "position = 1",
        'paper = "a4"',
        "position = 1",
        (13, "unknown-key"),
    ),
    in_chapter(
        "the chapter's title in its first page",
        'title = "The spring"\n\n[[page]]\n',
        '\n\n[[page]]\ntitle = "The spring"\n',
        'title = "The spring"\n\n[[page]]\n',
        (4, "unknown-key"),
    ),
    in_chapter(
        "an introduction below the chapter's numbers",
        '\n\n[[page]]\nname = "Newt"',
        '\n[numbers]\nstart = 2\nstep = 2\nintroduction = 5\n[[page]]\nname = "Newt"',
        '\nintroduction = "5"\n[numbers]\nstart = 2\nstep = 2\n[[page]]\nname = "Newt"',
        (5, "unknown-key"),
        (5, "bad-value"),
    ),
    in_chapter(
        "a name that is a number", 'name = "Heron"', "name = 12", 'name = "12"', (22, "bad-value")
    ),
    in_chapter(
        "an empty name", 'name = "Heron"', 'name = " "', 'name = "Heron"', (22, "bad-value")
    ),
    in_chapter(
        "a name without a letter",
        'name = "Heron"',
        'name = "?!"',
        'name = "Heron"',
        (22, "bad-value"),
    ),
    in_chapter(
        "a name twice", 'name = "Heron"', 'name = "Newt"', 'name = "Heron"', (22, "repeated-name")
    ),
    in_chapter(
        "two names with one id",
        'name = "Heron"',
        'name = "  Néwt! "',
        'name = "Heron"',
        (22, "repeated-name"),
    ),
    in_chapter(
        "a licence that is a list",
        'licence = "CC0-1.0"',
        'licence = ["CC0-1.0"]',
        'licence = "CC0-1.0"',
        (7, "bad-value"),
    ),
    in_chapter(
        "links in words",
        'links = ["bill-neck", "neck-leg"]',
        'links = "bill-neck"',
        'links = ["bill-neck", "neck-leg"]',
        (24, "bad-value"),
    ),
    in_chapter("a link that is a number", '"back-tail"', "12", '"back-tail"', (10, "bad-value")),
    in_chapter(
        "a link with three spots",
        '"back-tail"',
        '"nose-back-tail"',
        '"back-tail"',
        (10, "bad-value"),
    ),
    in_chapter(
        "a link with spaces", '"back-tail"', '"back - tail"', '"back-tail"', (10, "bad-value")
    ),
    in_chapter(
        "a link with a long dash", '"back-tail"', '"back–tail"', '"back-tail"', (10, "bad-value")
    ),
    in_chapter(
        "a position of nought", "position = 1", "position = 0", "position = 1", (13, "bad-value")
    ),
    in_chapter(
        "a position that is true",
        "position = 1",
        "position = true",
        "position = 1",
        (13, "bad-value"),
    ),
    in_chapter(
        "a position beyond the chapter",
        "position = 1",
        "position = 3",
        "position = 2",
        (13, "bad-value"),
    ),
    in_chapter(
        "a position twice",
        'name = "Heron"\n',
        'name = "Heron"\nposition = 1\n',
        'name = "Heron"\nposition = 2\n',
        (23, "bad-value"),
    ),
    in_chapter(
        "a truth in words", "position = 1", 'fixed = "yes"', "fixed = true", (13, "bad-value")
    ),
    in_chapter(
        "a band without auto", "position = 1", 'band = "steep"', "position = 1", (13, "bad-value")
    ),
    in_chapter(
        "an unknown band",
        'links = ["bill-neck", "neck-leg"]',
        'links = "auto"\nband = "stepe"',
        'links = "auto"\nband = "steep"',
        (25, "bad-value"),
    ),
    in_chapter(
        "art that is not there",
        'art = "heron.svg"',
        'art = "herno.svg"',
        'art = "heron.svg"',
        (23, "art-missing"),
    ),
    in_chapter(
        "art that is a folder",
        'art = "heron.svg"',
        'art = "a-folder"',
        'art = "heron.svg"',
        (23, "art-missing"),
    ),
    in_chapter(
        "art in a folder that is not there",
        'art = "heron.svg"',
        'art = "none/heron.svg"',
        'art = "heron.svg"',
        (23, "art-missing"),
    ),
    in_chapter(
        "art on the network",
        'art = "heron.svg"',
        'art = "https://example.org/heron.svg"',
        'art = "heron.svg"',
        (23, "art-missing"),
    ),
    in_chapter(
        "art with backslashes",
        'art = "heron.svg"',
        "art = '.\\heron.svg'",
        'art = "./heron.svg"',
        (23, "art-missing"),
    ),
    in_chapter(
        "an ornament that is not there",
        '\n\n[[page]]\nname = "Newt"',
        '\nornament = "reed.svg"\n\n[[page]]\nname = "Newt"',
        '\nornament = "newt.svg"\n\n[[page]]\nname = "Newt"',
        (2, "art-missing"),
    ),
    in_chapter(
        "a mark that is not there",
        'art = "heron.svg"',
        'art = "heron.svg"\nmark = "heron-mark.svg"',
        'art = "heron.svg"\nmark = "heron.svg"',
        (24, "art-missing"),
    ),
    in_chapter(
        "a single page in single brackets",
        CHAPTER[CHAPTER.index('\n[[page]]\nname = "Newt"') :],
        '\n[page]\nname = "Newt"\n',
        CHAPTER[CHAPTER.index('\n[[page]]\nname = "Newt"') :],
        (3, "bad-value"),
    ),
    whole_chapter("no page at all", 'title = "The spring"\n', (1, "missing-key")),
    whole_chapter(
        "pages under a wrong heading", CHAPTER.replace("page", "pages"), (3, "unknown-key")
    ),
    whole_chapter("an empty file", "", (1, "missing-key")),
    whole_chapter("a file of comments", "# the spring\n\n", (1, "missing-key")),
    whole_chapter(
        "a thousand unknown keys",
        UNKNOWN + CHAPTER,
        *((line, "unknown-key") for line in range(1, 1001)),
    ),
    Fault(
        "a book as a chapter",
        "01.toml",
        BOOK.replace("01.toml", "02.toml"),
        CHAPTER,
        ((7, "bad-value"),),
        told_in="book.toml",
    ),
)
