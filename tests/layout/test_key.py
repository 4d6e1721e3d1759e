"""The teacher's section: it fits, says what it must, and leads where it should."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from itertools import pairwise

import pytest

from bookmaker.cache import MemoryCache
from bookmaker.layout import Setting, lay_out, place_puzzle
from bookmaker.layout.key import measure_key
from bookmaker.layout.key.saying import shown as told_as
from bookmaker.layout.order.book_order import bind_book, bind_key, bind_slides
from bookmaker.layout.shares import measure_shares
from bookmaker.model import (
    Answers,
    ClassNotes,
    Disc,
    Guide,
    InternalLink,
    Line,
    Number,
    OrderedBook,
    Outline,
    PlacedArt,
    PlacedPage,
    PlacedSpot,
    PlacedTag,
    Puzzle,
    Rule,
    Side,
    SpotOf,
    TermPlan,
)
from bookmaker.teaching import teaching
from bookmaker.teaching.example import worked_example
from bookmaker.typeset import LARGE, PAPERS, Sheet
from bookmaker.words import languages, load
from tests.layout.books import PICTURES, Shape, ordered_book
from tests.layout.looking import around, box_of, line_box, outside, overlap
from tests.layout.test_sides import ENDLESS, LONG, area_of
from tests.making import book_of, page_of

KINDS = ("howto", "contents", "record", "own", "credits", "key", "answers", "notes", "plan")
IN_PICTURES = ("solved", "given", "difference", "letter")
ONE, TWO = Number(Fraction(1), "1"), Number(Fraction(2), "2")
SPIDER = [("a", "b"), ("b", "c"), ("a", "d"), ("d", "e"), ("a", "f"), ("f", "g"), ("a", "h")]
PATH = [("a", "b"), ("b", "c"), ("c", "d"), ("d", "e"), ("e", "f")]
TWO_HUBS = [("a", "b"), ("a", "c"), ("a", "d"), ("d", "e"), ("d", "f"), ("f", "g")]
STAR = [("hub", f"leaf_{i}") for i in range(4)]
SHAPES = {
    "term": Shape(chapters=8, pages=3),
    "wide": Shape(chapters=2, pages=3, wide=True),
    "long names": Shape(chapters=2, pages=5, name=LONG, title=LONG.format("")),
    "200 letters": Shape(chapters=2, pages=3, name=ENDLESS, title=ENDLESS.format("")),
    "many": Shape(chapters=4, pages=12),
}


@dataclass(frozen=True)
class Wanted:
    paper: str = "a4"
    language: str = "en"
    scale: float = 1.0
    alone: bool = False


def key_setting(ordered: OrderedBook, wanted: Wanted) -> Setting:
    """A book with its key, bound and ready to be laid out; pages of one tree are placed once."""
    words = load(wanted.language)
    ordered = replace(ordered, paper=wanted.paper, language=wanted.language)
    titles = {kind: words(f"{kind}.title") for kind in KINDS}
    told = teaching(ordered, MemoryCache(), 0)
    key = measure_key(ordered, told, words, wanted.scale)
    if wanted.alone:
        bound = bind_key(ordered, titles, key)
    else:
        shares = replace(measure_shares(ordered, words, wanted.scale), key=key)
        bind = bind_slides if wanted.paper == "board" else bind_book
        bound = bind(ordered, shares, worked_example(ordered), titles, True)
    sheet = Sheet(wanted.paper, recto=True, scale=wanted.scale)
    placed = {}
    for page in ordered.pages:
        key_of = (page.links, page.art)
        if key_of not in placed:
            art = PICTURES[page.art] if page.art else None
            placed[key_of] = place_puzzle(page, art, sheet, words)
    puzzles = {p.id: placed[p.links, p.art] for p in ordered.pages}
    return Setting(wanted.paper, words, bound, PICTURES, puzzles, wanted.scale)


@cache
def knotty() -> OrderedBook:
    """Pages with many solutions, few, given numbers, decimals, fractions, a list, no picture."""
    tenth, quarter = Number(Fraction(3, 10), "0.3"), Number(Fraction(1, 4), "1/4")
    listed = page_of("listed", STAR, ONE, TWO)
    odd = tuple(Number(Fraction(n), str(n)) for n in (2, 3, 5, 7, 11))
    solution = tuple(map(Fraction, (11, 2, 3, 5, 7)))
    certificate = replace(listed.certificate, solution=solution, solutions=24)
    pages = [
        page_of("spider", SPIDER, ONE, TWO),
        page_of("path", PATH, Number(Fraction(8), "8"), Number(Fraction(7), "7")),
        page_of("hubs", TWO_HUBS, ONE, TWO),
        page_of("decimal", PATH, tenth, Number(Fraction(2, 5), "0.4")),
        page_of("fraction", STAR, quarter, Number(Fraction(1, 2), "1/2")),
        page_of("given", PATH, ONE, TWO, {"a": ONE}),
        replace(listed, numbers=odd, certificate=certificate),
    ]
    return book_of(pages)


def key_sides(setting: Setting) -> list[tuple[Side, PlacedPage]]:
    kinds = (Guide, Answers, ClassNotes, TermPlan)
    sides = [side for side in setting.bound.sides if isinstance(side.content, kinds)]
    return [(side, lay_out(side, setting)) for side in sides]


def faults(setting: Setting) -> list[str]:
    """Ink outside the margins, lines on lines, lines on pictures and on rules."""
    found = []
    for side, page in key_sides(setting):
        wrong = outside(page, area_of(side, setting))
        lines = [i for i in page.items if isinstance(i, Line) and i.role not in IN_PICTURES]
        boxes = [line_box(line) for line in lines]
        blocks = [
            box_of(i) for i in page.items if isinstance(i, PlacedArt | PlacedSpot | PlacedTag)
        ]
        for place, box in enumerate(boxes):
            others = (*boxes[place + 1 :], *(block for block in blocks if block))
            clashes = sum(overlap(box, other) > 0.05 for other in others)
            wrong += [lines[place].text] if clashes else []
        rules = [around((i.start, i.end)) for i in page.items if isinstance(i, Rule)]
        wrong += [
            f"{line.text} on a rule"
            for line, box in zip(lines, boxes, strict=True)
            if any(overlap(box, rule) > -0.05 for rule in rules)
        ]
        found += [f"{side.name}: {fault}" for fault in wrong]
    return found


def text_of(page: PlacedPage) -> str:
    return " ".join(item.text.strip(" ") for item in page.items if isinstance(item, Line))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("shape", SHAPES)
def test_nothing_leaves_the_margins_or_collides(shape: str, paper: str) -> None:
    assert faults(key_setting(ordered_book(SHAPES[shape]), Wanted(paper))) == []


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("paper", PAPERS)
def test_pages_of_all_kinds_fit_in_every_language(paper: str, language: str) -> None:
    assert faults(key_setting(knotty(), Wanted(paper, language))) == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_large_print_fits(paper: str) -> None:
    assert faults(key_setting(ordered_book(SHAPES["term"]), Wanted(paper, scale=LARGE))) == []
    assert faults(key_setting(knotty(), Wanted(paper, "es", LARGE))) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_teachers_text_is_eleven_points_at_least(paper: str) -> None:
    for _, page in key_sides(key_setting(knotty(), Wanted(paper))):
        lines = [i for i in page.items if isinstance(i, Line) and i.role not in IN_PICTURES]
        assert min(line.size for line in lines) >= 11


def test_letters_stand_clear_of_spots_tags_and_each_other() -> None:
    setting = key_setting(ordered_book(SHAPES["term"]), Wanted())
    for side, page in key_sides(setting):
        if not isinstance(side.content, Answers):
            continue
        badges = [i for i in page.items if isinstance(i, Disc) and i.role == "letter-disc"]
        tags = [box for i in page.items if isinstance(i, PlacedTag) if (box := box_of(i))]
        for badge in badges:
            box = box_of(badge)
            assert box
            assert not any(overlap(box, tag) > 0.3 for tag in tags)
            near = [o for o in badges if o is not badge]
            assert all(
                (o.x - badge.x) ** 2 + (o.y - badge.y) ** 2 >= (2 * badge.radius) ** 2 - 0.01
                for o in near
            )
        spots = [item for item in page.items if isinstance(item, PlacedSpot)]
        assert len(badges) == len(spots)


def test_an_answer_says_how_many_the_mirror_the_hints_and_how_much_work() -> None:
    setting = key_setting(ordered_book(Shape(1, 1)), Wanted())
    page = next(p for s, p in key_sides(setting) if isinstance(s.content, Answers))
    told = text_of(page)
    for expected in ("12 solutions", "1 really different", "1 in 2", "work 6, gentle"):
        assert expected in told
    assert "Mirror 5 7 3 1" in told  # of 3, 1, 5, 7, taken from 8
    assert "1 and 7 are always joined." in told
    assert "A, C and D may change places freely." in told
    assert "B:\u00a01\u00a0or\u00a07" in told


def test_few_other_solutions_are_all_shown_and_many_are_not() -> None:
    """The path of six spots has 24 labellings (OEIS A006967), six of them essentially different."""
    told = teaching(knotty(), MemoryCache(), 0).pages
    assert told["path"].page.certificate.distinct_solutions == 6
    others = {name: [r for r in n.rows if "others" in r.label.key] for name, n in told.items()}
    assert len(others["path"]) == 5
    assert others["spider"] == []


def test_every_solution_that_is_shown_has_no_two_differences_alike() -> None:
    for notes in teaching(knotty(), MemoryCache(), 0).pages.values():
        edges = notes.page.edges
        for shown in (row.numbers for row in notes.rows):
            gaps = {abs(shown[a].value - shown[b].value) for a, b in edges}
            assert len(gaps) == len(edges)


def test_a_list_without_a_mirror_has_none_and_a_given_number_stays() -> None:
    told = teaching(knotty(), MemoryCache(), 0).pages
    assert told["listed"].mirror is None
    assert told["given"].mirror is None
    assert told["path"].mirror is not None


def test_solutions_beyond_counting_are_said_in_words() -> None:
    page = page_of("spider", SPIDER, ONE, TWO)
    uncounted = replace(page.certificate, solutions=None, distinct_solutions=None, one_in=None)
    setting = key_setting(book_of([replace(page, certificate=uncounted)]), Wanted())
    answers = next(p for s, p in key_sides(setting) if isinstance(s.content, Answers))
    told = text_of(answers)
    assert "solutions not counted" in told
    assert "None" not in told
    assert faults(setting) == []


def test_decimals_are_written_as_the_language_does() -> None:
    setting = key_setting(knotty(), Wanted(language="fr"))
    told = " ".join(text_of(p) for _, p in key_sides(setting))
    assert "0,7" in told
    assert "0.7" not in told


def test_references_lead_both_ways_and_stand_in_print() -> None:
    setting = key_setting(ordered_book(Shape(2, 3)), Wanted())
    pages = {side.name: lay_out(side, setting) for side in setting.bound.sides}
    puzzles, answers = setting.bound.side_of(Puzzle), setting.bound.side_of(Answers)
    for page_id, side in puzzles.items():
        targets = {i.target for i in pages[side.name].items if isinstance(i, InternalLink)}
        assert answers[page_id].name in targets
        back = {i.target for i in pages[answers[page_id].name].items if isinstance(i, InternalLink)}
        assert side.name in back
        assert f"page {side.label}" in text_of(pages[answers[page_id].name])


def test_the_key_alone_names_the_pages_of_the_pupils_book() -> None:
    ordered = ordered_book(Shape(2, 3))
    book = key_setting(ordered, Wanted()).bound
    alone = key_setting(ordered, Wanted(alone=True)).bound
    ids = [page.id for page in ordered.pages]
    assert [alone.label_of(i) for i in ids] == [book.label_of(i) for i in ids]
    assert alone.sides[0].label == "A1"


def test_the_ramp_has_a_mark_for_each_page_and_another_form_for_an_optional_chapter() -> None:
    ordered = ordered_book(Shape(2, 3))
    last = ordered.chapters[1]
    optional = replace(last, optional=True)
    ordered = replace(ordered, chapters=(ordered.chapters[0], optional))
    guide = next(p for s, p in key_sides(key_setting(ordered, Wanted())))
    assert sum(isinstance(i, Disc) and i.role == "dot" for i in guide.items) == 3
    assert sum(isinstance(i, Outline) and i.role == "dot-open" for i in guide.items) == 3


def test_it_is_said_once_that_work_is_no_forecast() -> None:
    setting = key_setting(ordered_book(Shape(2, 3)), Wanted())
    told = " ".join(text_of(p) for _, p in key_sides(setting))
    assert told.count("insight") == 1


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_no_sum_is_torn_at_the_end_of_a_line(paper: str, language: str) -> None:
    for _, page in key_sides(key_setting(ordered_book(Shape(2, 3)), Wanted(paper, language))):
        for line in (item for item in page.items if isinstance(item, Line)):
            assert line.text.strip()[-1:] not in tuple("×÷=+−"), line.text
            assert line.text.strip()[:1] not in tuple("×÷=+"), line.text


@pytest.mark.parametrize(("paper", "lines"), [("a4", 1), ("letter", 1), ("a5", 1)])
def test_the_plans_heads_are_broken_only_where_names_want_the_room(paper: str, lines: int) -> None:
    setting = key_setting(ordered_book(SHAPES["term"]), Wanted(paper))
    page = next(p for s, p in key_sides(setting) if isinstance(s.content, TermPlan))
    heads = [i for i in page.items if isinstance(i, Line) and i.tag in ("TH", "THead")]
    assert len({head.y for head in heads}) == lines


def test_the_plan_lists_every_page_once_with_its_week() -> None:
    setting = key_setting(ordered_book(SHAPES["many"]), Wanted())
    rows = [
        r for s, _ in key_sides(setting) if isinstance(s.content, TermPlan) for r in s.content.rows
    ]
    assert [r.page.id for r in rows] == [p.id for p in setting.bound.ordered.pages]
    assert [r.week for r in rows] == sorted(r.week for r in rows)


def test_a_part_of_a_book_has_answers_alone() -> None:
    ordered, words = ordered_book(Shape(1, 2)), load("en")
    told = teaching(ordered, MemoryCache(), 0, whole=False)
    shares = measure_key(ordered, told, words)
    bound = bind_key(ordered, {"key": "Key"}, shares, {})
    assert [type(side.content) for side in bound.sides] == [Answers]


def test_rows_are_heard_with_spaces_between_their_cells() -> None:
    for _, page in key_sides(key_setting(ordered_book(Shape(2, 3)), Wanted())):
        lines = [item for item in page.items if isinstance(item, Line)]
        for one, other in pairwise(lines):
            if other.joins and abs(one.y - other.y) < 0.01:
                assert other.text.startswith(" ")


def test_titles_and_names_are_tagged_as_headings() -> None:
    for side, page in key_sides(key_setting(ordered_book(Shape(2, 3)), Wanted())):
        tags = [i.tag for i in page.items if isinstance(i, Line)]
        assert tags.count("H1") == 1
        if not isinstance(side.content, TermPlan):
            assert "H2" in tags
        inside = [i for i in page.items if isinstance(i, Line) and i.role in IN_PICTURES]
        assert all(line.tag == "" for line in inside)


def test_notes_of_chapters_are_all_there_in_their_order_wherever_sides_part_them() -> None:
    for paper in PAPERS:
        setting = key_setting(ordered_book(SHAPES["term"]), Wanted(paper))
        ordered = setting.bound.ordered
        told = teaching(ordered, MemoryCache(), 0).chapters
        parts = [
            part
            for side in setting.bound.sides
            if isinstance(side.content, ClassNotes)
            for part in side.content.chapters
        ]
        questions = [q for part in parts for q in (*part.questions, *part.wrong)]
        assert questions == [q for chapter in told for q in (*chapter.questions, *chapter.wrong)]


def test_no_last_side_of_the_plan_is_nearly_empty() -> None:
    """Of eight chapters of three pages there is a third of the rows at least on each side."""
    for paper in ("a5", "half-letter"):
        setting = key_setting(ordered_book(SHAPES["term"]), Wanted(paper))
        plans = [s.content for s in setting.bound.sides if isinstance(s.content, TermPlan)]
        assert sum(len(plan.rows) for plan in plans) == 24
        assert min(len(plan.rows) for plan in plans) >= 8
        weeks = [{row.week for row in plan.rows} for plan in plans]
        assert not set.intersection(*weeks), "a week is parted over two sides"


def test_the_key_speaks_of_spots_by_the_letters_on_its_pictures() -> None:
    """Names in the manifest are not printed on any picture; alone they would mean nothing."""
    setting = key_setting(ordered_book(SHAPES["term"]), Wanted())
    notes = [page for side, page in key_sides(setting) if isinstance(side.content, ClassNotes)]
    told = " ".join(map(text_of, notes))
    assert "back\u00a0(B)" in told
    assert not re.search(r"\b(nose|back|tail|paw)\b(?!\u00a0\([A-D]\))", told)


def test_a_spot_whose_name_can_not_be_printed_is_told_by_its_letter_alone() -> None:
    """Spot names are letters of any script, and the type has not got them all."""
    page = page_of("newt", [("鼻", "b"), ("b", "c")], ONE, TWO)
    assert told_as(SpotOf(page, "b"), load("en")) == "b\u00a0(B)"
    assert told_as(SpotOf(page, "鼻"), load("en")) == "A"


def test_a_spots_name_is_printed_in_words_of_its_own() -> None:
    """A manifest joins them with underscores, which mean nothing to a class."""
    page = page_of("newt", [("left_arm", "b"), ("b", "c")], ONE, TWO)
    assert told_as(SpotOf(page, "left_arm"), load("en")) == "left\u00a0arm\u00a0(A)"


def test_a_row_of_eight_numbers_stays_one_row_on_small_paper() -> None:
    setting = key_setting(knotty(), Wanted("a5"))
    page = next(p for s, p in key_sides(setting) if isinstance(s.content, Answers))
    assert "A B C D E F G H" in text_of(page)
