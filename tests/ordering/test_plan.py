"""The term plan shares pages out over weeks."""

from hypothesis import given
from hypothesis import strategies as st

from bookmaker.ordering import in_order, term_plan
from tests.ordering.pages import book, page


@given(st.integers(1, 40), st.integers(1, 20))
def test_every_page_comes_once_in_its_order_and_weeks_differ_by_one_page_at_most(
    count: int, weeks: int
) -> None:
    pages = [page(f"p{i}", 3.0 + i) for i in range(count)]
    certified = {found.id: found for found in pages}
    plan = term_plan(in_order(book(pages, weeks=weeks), certified))
    assert [week.number for week in plan] == list(range(1, weeks + 1))
    assert [found for week in plan for found in week.pages] == pages
    sizes = [len(week.pages) for week in plan]
    assert max(sizes) - min(sizes) <= 1
    assert sizes[0] >= 1


@given(st.integers(1, 30), st.integers(0, 12), st.integers(1, 16))
def test_the_main_run_takes_all_weeks_and_optional_pages_stand_beside_them(
    count: int, more: int, weeks: int
) -> None:
    main = [page(f"p{i}", 3.0 + i) for i in range(count)]
    extra = [page(f"x{i}", 90.0 + i) for i in range(more)]
    certified = {found.id: found for found in (*main, *extra)}
    made = book(main, extra, optional=(1,), weeks=weeks) if extra else book(main, weeks=weeks)
    plan = term_plan(in_order(made, certified))
    assert [found for week in plan for found in week.pages] == main
    assert [found for week in plan for found in week.beside] == extra
    sizes = [len(week.pages) for week in plan]
    assert max(sizes) - min(sizes) <= 1
    assert all(sizes) or count < weeks
    beside = [len(week.beside) for week in plan]
    assert max(beside) - min(beside) <= 1
    assert not extra or plan[-1].beside, "the hardest stands beside the last week"


def test_a_book_of_optional_chapters_alone_has_them_for_its_main_run() -> None:
    pages = [page(f"p{i}", 3.0 + i) for i in range(4)]
    made = book(pages, optional=(0,), weeks=4)
    plan = term_plan(in_order(made, {found.id: found for found in pages}))
    assert [len(week.pages) for week in plan] == [1, 1, 1, 1]
    assert not any(week.beside for week in plan)
