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
