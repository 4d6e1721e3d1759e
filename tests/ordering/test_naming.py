"""Names of files: whatever is made of a book, nothing else of it has that name."""

from __future__ import annotations

from itertools import chain, combinations, product

from bookmaker.model import OrderedBook
from bookmaker.ordering import Names, Part, file_name, take_part
from tests.ordering.test_parts import ordered

PAGES = (
    ("newt", "newt-letter", "letter", "letter-large", "page-letter", "chapter-newt"),
    ("half", "newt-half", "no", "newt-no", "key", "newt-key", "newt-large"),
    ("frog", "newt-frog", "frog-no", "week-1", "newt-and-frog", "3", "heron-frog", "c3"),
    ("c3-large", "con", "frog-clearances", "clearances", "page-con"),
)
PAIRED = ("newt", "letter", "half", "no", "key", "frog", "newt-frog", "frog-no")
VARIANTS = [
    [word for word in words if word]
    for words in product(("", "letter", "half-letter"), ("", "large"), ("", "no-key", "key"))
]


def parts(whole: OrderedBook) -> list[Part]:
    pages = [page.id for page in whole.pages]
    singles = [Part(pages=(page,)) for page in pages]
    pairs = [Part(pages=pair) for pair in combinations(PAIRED, 2)]
    chapters = [Part(chapters=(chapter.id,)) for chapter in whole.chapters]
    mixed = [Part(pages=("newt",), chapters=("c0",)), Part(pages=("newt",), weeks=(1,))]
    return [Part(), *singles, *pairs, *chapters, Part(weeks=(1,)), Part(weeks=(2,)), *mixed]


def test_nothing_of_a_book_has_the_name_of_anything_else() -> None:
    """Pages, pairs of them, chapters and weeks, in variants, for a class and for a pupil."""
    whole = ordered(*PAGES)
    names = Names.of(whole)
    classes = [
        [],
        *([names.other("class", name)] for name in ("Heron", "letter", "newt", "frog-no", "c3")),
        [names.other("class", "Heron"), names.other("sheet", "3")],
    ]
    made: dict[str, object] = {}
    for part in parts(whole):
        kept, words = take_part(whole, part)
        pages = [page.id for page in kept.pages]
        for variants, of in product(VARIANTS, classes):
            content = (pages, part.weeks, variants, of)
            name = names.join([*of, *words, *variants]).casefold()
            assert made.setdefault(name, content) == content, name


def test_what_is_usual_has_the_usual_name() -> None:
    names = Names.of(ordered(("newt", "frog"), ("grey-seal-at-large",)))
    assert names.join(["newt"]) == "newt"
    assert names.join(["newt", "letter", "large"]) == "newt-letter-large"
    assert names.join(["newt", "frog"]) == "newt-frog"
    assert names.join(["week-1", "half-letter", "no-key"]) == "week-1-half-letter-no-key"
    assert names.join([names.page("grey-seal-at-large"), "a5"]) == "grey-seal-at-large-a5"
    assert names.other("class", "heron-class") == "heron-class"
    assert names.join([names.other("class", "heron-class"), "7"]) == "heron-class-7"


def test_no_proof_has_the_name_of_another() -> None:
    pages = [page for chapter in PAGES for page in chapter]
    kinds = [[], ["clearances"], ["grid"], ["letter"], ["large"], ["clearances", "letter"]]
    names = [file_name(page, words, pages) for page in pages for words in kinds]
    assert len(set(names)) == len(pages) * len(kinds)
    assert file_name("newt", (), pages) == "newt"
    assert file_name("newt-letter", (), pages) == "newt-letter"
    assert file_name("newt", ("letter",), pages) == "newt--letter"
    assert file_name("frog", ("letter",), pages) == "frog-letter"


def test_no_file_has_the_name_of_a_device() -> None:
    """Source: "Naming Files, Paths, and Namespaces", learn.microsoft.com (from memory)."""
    for device in ("con", "prn", "aux", "nul", "com1", "com9", "lpt1", "lpt9"):
        assert file_name(device, (), [device]) == f"page-{device}"
    assert file_name("con", (), ["con", "page-con"]) == "page-page-con"


def test_capitals_tell_no_two_files_apart() -> None:
    """Most file systems of Windows and macOS take Newt.pdf and newt.pdf for one (from memory)."""
    whole = ordered(("newt", "frog"))
    names = Names.of(whole)
    assert names.other("class", "Newt") == "class-Newt"
    assert names.other("class", "LETTER") == "class-LETTER"


def test_chains_are_told_apart_however_they_are_cut() -> None:
    whole = ordered(("a", "a-b", "b", "b-c", "c"))
    names = Names.of(whole)
    chosen = chain(*(combinations(("a", "a-b", "b", "b-c", "c"), n) for n in range(1, 6)))
    made = [names.join(words) for words in chosen]
    assert len(set(made)) == len(made)
