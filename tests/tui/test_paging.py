"""Pages are kept as long as they are looked at."""

import pytest

from fleet.tui.paging import PAGE_ROWS, PageCache, TupleSource, page_span, position_text


def test_a_row_is_found_by_its_place_in_the_whole_list() -> None:
    cache: PageCache[int] = PageCache()
    cache.put(2, range(400, 450))
    assert cache.row(400) == 400
    assert cache.row(449) == 449
    assert cache.row(450) is None
    assert cache.row(0) is None


def test_the_page_not_looked_at_for_longest_is_forgotten() -> None:
    cache: PageCache[int] = PageCache(kept=2)
    cache.put(0, [0])
    cache.put(1, [1])
    assert cache.row(0) == 0
    cache.put(2, [2])
    assert 0 in cache
    assert 1 not in cache
    assert len(cache) == 2


@pytest.mark.parametrize(
    ("first", "count", "pages"),
    [(0, 0, []), (0, 200, [0]), (0, 201, [0, 1]), (199, 2, [0, 1]), (400, 1, [2])],
)
def test_page_span(first: int, count: int, pages: list[int]) -> None:
    assert list(page_span(first, count)) == pages


@pytest.mark.parametrize(
    ("first", "shown", "total", "text"),
    [
        (0, 16, 27, "1–16 of 27"),
        (99_983, 17, 100_000, "99,984–100,000 of 100,000"),
        (0, 16, None, "1–16 of …"),
        (0, 0, 0, "0"),
        (0, 0, None, "… of …"),
    ],
)
def test_position(first: int, shown: int, total: int | None, text: str) -> None:
    assert position_text(first, shown, total) == text


@pytest.mark.parametrize("count", [0, 1, PAGE_ROWS, PAGE_ROWS + 1, 3 * PAGE_ROWS])
def test_pages_of_rows_at_hand_join_to_the_whole(count: int) -> None:
    rows = list(range(count))
    source = TupleSource(rows)
    first = source.first(PAGE_ROWS)
    anchors = source.anchors()
    joined = [row for index in range(len(anchors.keys)) for row in source.page(index, anchors)]
    assert joined == rows
    assert anchors.total == count
    assert first.rows == tuple(rows[:PAGE_ROWS])
    assert first.more is (count > PAGE_ROWS)
