"""The order of pages."""

from dataclasses import replace
from itertools import pairwise, permutations

from hypothesis import given
from hypothesis import strategies as st

from bookmaker.model import CertifiedPage, OrderedBook, Wish
from bookmaker.ordering import in_order, warnings_of
from bookmaker.ordering.ramp import DIP
from tests.ordering.pages import book, page


def names(ordered: OrderedBook) -> list[str]:
    return [found.id for found in ordered.pages]


def ordered(*chapters: list[CertifiedPage], **said: object) -> OrderedBook:
    certified = {found.id: found for chapter in chapters for found in chapter}
    return in_order(book(*chapters, **said), certified)


def test_pages_climb_by_work_then_by_spots_then_as_written() -> None:
    pages = [page("d", 30, spots=6), page("b", 12, spots=5), page("a", 12), page("c", 30, spots=6)]
    assert names(ordered(pages)) == ["a", "b", "d", "c"]


def test_a_page_with_a_position_stays_there() -> None:
    pages = [page("hard", 90, position=1), page("a", 12), page("b", 6), page("c", 9, position=3)]
    assert names(ordered(pages)) == ["hard", "b", "c", "a"]


def test_a_book_as_written_keeps_its_order() -> None:
    pages = [page("b", 30), page("a", 3)]
    assert names(ordered(pages, order="as-written")) == ["b", "a"]


def test_each_chapter_climbs_for_itself() -> None:
    assert names(ordered([page("b", 30), page("a", 3)], [page("d", 40), page("c", 10)])) == list(
        "abcd"
    )


def test_twins_of_like_work_are_parted() -> None:
    pages = [page("a", 29, "fork"), page("b", 29, "fork"), page("c", 31, "path")]
    assert names(ordered(pages)) == ["a", "c", "b"]


def test_twins_stay_together_where_parting_them_would_be_felt() -> None:
    pages = [page("a", 20, "fork"), page("b", 20, "fork"), page("c", 60, "path")]
    found = ordered(pages)
    assert names(found) == ["a", "b", "c"]
    assert [problem.code for problem in warnings_of(found)] == ["twins"]


@given(
    st.lists(
        st.tuples(st.integers(18, 26), st.sampled_from("xyz"), st.none() | st.integers(1, 5)),
        min_size=1,
        max_size=5,
    )
)
def test_no_order_of_a_chapter_has_fewer_twins(told: list[tuple[int, str, int | None]]) -> None:
    """Reference: every permutation that keeps positions and never falls back too far."""
    taken: set[int] = set()
    pages = []
    for i, (work, shape, position) in enumerate(told):
        place = position if position and position <= len(told) and position not in taken else None
        taken |= {place} if place else set()
        pages.append(page(f"p{i}", work, shape, position=place))

    def twins(run: tuple[CertifiedPage, ...]) -> int:
        return sum(a.certificate.shape == b.certificate.shape for a, b in pairwise(run))

    def allowed(run: tuple[CertifiedPage, ...]) -> bool:
        kept = all(p.position in (None, i) for i, p in enumerate(run, 1))
        works = [p.certificate.work for p in run if p.position is None]
        return kept and all(work >= max(works[:i]) * (1 - DIP) for i, work in enumerate(works) if i)

    found = ordered(pages).pages
    assert allowed(found)
    assert twins(found) == min(twins(run) for run in permutations(pages) if allowed(run))


def test_a_leap_of_more_than_three_times_the_hardest_so_far_is_told() -> None:
    found = ordered([page("a", 5), page("b", 15), page("c", 46)])
    (problem,) = warnings_of(found)
    assert (problem.code, problem.page, problem.severity) == ("leap", "c", "warning")


def test_a_page_above_the_climb_belongs_into_an_optional_chapter() -> None:
    chapters = [page("a", 60)], [page("b", 90)]
    told = [problem.code for problem in warnings_of(ordered(*chapters))]
    assert told == ["no-breath", "above-climb"]
    assert warnings_of(ordered(*chapters, optional=(1,))) == ()
    higher = warnings_of(ordered(*chapters, climb_to="sheer"))
    assert [problem.code for problem in higher] == ["no-breath"]


def test_twins_whose_links_are_ours_are_no_fault_of_the_teacher() -> None:
    pages = [replace(page(name, 20, "fork"), wish=Wish()) for name in "ab"]
    assert "twins" not in [found.code for found in warnings_of(ordered(pages))]


def test_a_puzzle_that_comes_back_is_told_unless_its_spots_have_no_other_tree() -> None:
    again = ordered(
        [page("a", 10, "x", spots=6), page("b", 20, "y", spots=6)], [page("c", 10, "x", spots=6)]
    )
    (problem,) = [found for found in warnings_of(again) if found.code == "repeat"]
    assert "a" in problem.message and problem.page == "c"
    few = ordered([page("a", 10, "x"), page("b", 12, "y")], [page("c", 10, "x")])
    assert "repeat" not in [found.code for found in warnings_of(few)]


def test_a_page_that_leaves_nothing_to_find_is_told() -> None:
    solved = page("a", 10)
    given = tuple(zip(solved.spot_names, solved.numbers, strict=True))
    every = replace(solved.certificate, one_in=1.0)
    for made in (replace(solved, given=given), replace(solved, certificate=every)):
        assert "no-puzzle" in [found.code for found in warnings_of(ordered([made]))]
    assert "no-puzzle" not in [found.code for found in warnings_of(ordered([solved]))]


def test_a_chapter_of_the_main_run_that_begins_above_the_last_is_told() -> None:
    chapters = ([page("a", 10, "x")], [page("b", 20, "y")])
    assert "no-breath" in [found.code for found in warnings_of(ordered(*chapters))]
    assert "no-breath" not in [
        found.code for found in warnings_of(ordered(*chapters, optional=(1,)))
    ]
    level = ordered([page("a", 10, "x")], [page("b", 10.9, "y")])
    assert "no-breath" not in [found.code for found in warnings_of(level)]
