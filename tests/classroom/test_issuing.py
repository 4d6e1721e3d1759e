"""Issuing and dealing: everybody gets a sheet, and what is out stays as it is."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookmaker.classroom.dealing import deal
from bookmaker.classroom.issuing import Issue, NoSuchSheet, Wish, issue
from bookmaker.model import Classroom, Drawn, PlacedSpot, Problem, Pupil, SheetEntry
from bookmaker.scanning.pale import PaleMarks, write_pale
from tests.ordering.pages import page

PAGES = [page("newt", 3, spots=3), page("frog", 5, spots=4), page("eel", 9, spots=4)]
TREE = Drawn(180, 210, (PlacedSpot("s0", 20, 30, 10),), (), ())


def classroom(*pupils: Pupil) -> Classroom:
    return Classroom("heron", "Heron", "class.toml", Path(), Path("b.toml"), "roster.csv", pupils)


def issued(
    room: Classroom,
    register: tuple[SheetEntry, ...] = (),
    wish: Wish | None = None,
    highest: int = 0,
) -> Issue:
    numbered = ("12345678", max([highest, *(row.sheet for row in register)]))
    return issue(room, PAGES, register, wish or Wish("a4"), numbered, lambda page: TREE)


def test_pages_are_dealt_in_the_order_of_the_ramp_and_shared_when_they_run_out() -> None:
    room = classroom(*(Pupil(name) for name in "ABCDE"))
    given, problems = deal(room, PAGES, ())
    assert given == {"A": "newt", "B": "frog", "C": "eel", "D": "newt", "E": "frog"}
    assert not problems


@given(st.integers(0, 40), st.lists(st.sampled_from(["newt", "frog", "eel"]), max_size=9))
def test_dealing_shares_pages_as_evenly_as_can_be(count: int, out: list[str]) -> None:
    given, _ = deal(classroom(*(Pupil(f"p{i}") for i in range(count))), PAGES, out)
    loads = [list(given.values()).count(p) + out.count(p) for p in ("newt", "frog", "eel")]
    before = [out.count(p) for p in ("newt", "frog", "eel")]
    assert len(given) == count
    assert max(loads) <= max(max(before), min(loads) + 1)


def test_a_row_gets_its_own_page_or_one_with_its_spots() -> None:
    room = classroom(Pupil("A"), Pupil("B", page="newt"), Pupil("C", spots=4), Pupil("D", spots=4))
    given, problems = deal(room, PAGES, ())
    assert given == {"B": "newt", "A": "frog", "C": "eel", "D": "frog"}
    assert not problems


def test_a_page_or_a_size_that_the_book_has_not_got_is_told_with_its_row() -> None:
    room = classroom(Pupil("A", page="nwet", line=2), Pupil("B", spots=9, line=3), Pupil("C"))
    given, problems = deal(room, PAGES, ())
    assert given == {"C": "newt"}
    assert [(p.line, p.page, p.code) for p in problems] == [
        (2, "A", "unknown-page"),
        (3, "B", "unknown-page"),
    ]
    assert "'newt'" in problems[0].mend
    assert "3, 4" in problems[1].mend


def test_a_second_run_adds_newcomers_and_changes_no_row() -> None:
    first = issued(classroom(Pupil("A"), Pupil("B")))
    again = issued(classroom(Pupil("Z"), Pupil("B"), Pupil("A")), first.register)
    assert again.register[:2] == first.register
    assert again.new == (3,)
    assert (again.register[2].pupil, again.register[2].page) == ("Z", "eel")
    assert issued(classroom(Pupil("B"), Pupil("A")), again.register).new == ()


def test_a_pupil_who_left_the_roster_keeps_the_row() -> None:
    first = issued(classroom(Pupil("A"), Pupil("B")))
    assert issued(classroom(Pupil("B")), first.register).register == first.register


def test_a_number_that_was_ever_printed_is_not_given_out_again() -> None:
    assert issued(classroom(Pupil("A")), highest=7).new == (8,)


def test_spare_sheets_are_made_up_to_the_number_that_is_asked_for() -> None:
    first = issued(classroom(Pupil("A")), wish=Wish("a4", spare=2))
    assert [row.pupil for row in first.register] == ["A", "", ""]
    assert [row.page for row in first.register] == ["newt", "frog", "eel"]
    assert issued(classroom(Pupil("A")), first.register, Wish("a4", spare=2)).new == ()
    assert issued(classroom(Pupil("A")), first.register, Wish("a4", spare=3)).new == (4,)


def test_a_free_sheet_has_no_marks() -> None:
    made = issued(classroom(Pupil("A")), wish=Wish("a4", spare=1, free=6))
    assert (made.register[1].page, made.register[1].marks) == ("free:6", write_pale(PaleMarks()))


def test_a_spare_sheet_can_be_given_to_a_newcomer_once() -> None:
    first = issued(classroom(Pupil("A")), wish=Wish("a4", spare=1))
    room = classroom(Pupil("A"), Pupil("Kofi"))
    second = issued(room, first.register, Wish("a4", assign=((2, "Kofi"),)))
    assert [row.pupil for row in second.register] == ["A", "Kofi"]
    assert second.new == ()
    with pytest.raises(NoSuchSheet, match="given to a pupil already"):
        issued(room, second.register, Wish("a4", assign=((2, "Mina"),)))
    with pytest.raises(NoSuchSheet, match="no sheet 9"):
        issued(room, second.register, Wish("a4", assign=((9, "Mina"),)))


def test_a_roster_that_asks_for_another_page_afterwards_is_told_that_the_sheet_holds() -> None:
    first = issued(classroom(Pupil("A", page="newt")))
    again = issued(classroom(Pupil("A", page="eel", line=2)), first.register)
    assert again.register == first.register
    assert [(p.code, p.severity, p.line) for p in again.problems] == [("sheet-holds", "warning", 2)]


def test_no_more_sheets_are_numbered_than_their_codes_have_room_for() -> None:
    room = classroom(Pupil("A"), Pupil("B"))
    assert issued(room, highest=9997).new == (9998, 9999)
    with pytest.raises(NoSuchSheet, match="2 new ones are wanted and 1 are left"):
        issued(room, highest=9998)
    with pytest.raises(NoSuchSheet, match="Ask for fewer spare ones"):
        issued(room, wish=Wish("a4", spare=9998))


def test_free_sheets_are_made_beside_spare_ones_that_have_a_page() -> None:
    room = classroom(Pupil("A"))
    first = issued(room, wish=Wish("a4", spare=2))
    free = issued(room, first.register, Wish("a4", spare=1, free=6))
    assert [row.page for row in free.register if row.sheet in free.new] == ["free:6"]
    assert issued(room, free.register, Wish("a4", spare=1, free=6)).new == ()
    assert issued(room, free.register, Wish("a4", spare=2)).new == ()


def test_a_sheet_whose_pupil_is_not_in_the_roster_is_told_of() -> None:
    first = issued(classroom(Pupil("Zoe"), Pupil("B")))
    again = issued(classroom(Pupil("Zoe K"), Pupil("B")), first.register)
    assert [(p.code, p.page) for p in again.problems] == [("not-in-roster", "Zoe")]
    assert again.new == (3,)


def test_a_name_in_other_capitals_or_another_coding_of_its_accent_is_the_same_pupil() -> None:
    first = issued(classroom(Pupil("Zo\u00eb  B")))
    again = issued(classroom(Pupil("zoe\u0308 b")), first.register)
    assert (again.new, again.problems) == ((), ())
    spare = issued(classroom(Pupil("A")), wish=Wish("a4", spare=1))
    once = issued(classroom(Pupil("A")), spare.register, Wish("a4", assign=((2, "Kofi"),)))
    again = issued(classroom(Pupil("A")), once.register, Wish("a4", assign=((2, "kofi"),)))
    assert again.register == once.register


def test_a_page_that_can_not_be_laid_out_is_told_once() -> None:
    fault = Problem("b.toml", 3, "newt", "no-clean-layout", "two links cross", "Move one.")
    room = classroom(Pupil("A", page="newt"), Pupil("B", page="newt"), Pupil("C", page="eel"))
    trees = {"newt": fault, "eel": TREE}
    made = issue(room, PAGES, (), Wish("a4"), ("12345678", 0), lambda page: trees[page])
    assert made.problems == (fault,)
    assert [row.pupil for row in made.register] == ["C"]
