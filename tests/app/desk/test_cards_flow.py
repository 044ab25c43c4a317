import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.desk.card_flow import MOST_LINES, Kind, Row, Shape, at_rest, scrolled
from app.theme import DARK, Theme

THEME = Theme(DARK)


def kinds(rows: tuple[Row, ...]) -> list[Kind]:
    return [row.kind for row in rows]


def shape(count: int, next_index: int = 0, big: int | None = 0, *, due: int = 0) -> Shape:
    return Shape(count, next_index, big, due)


def test_the_big_card_comes_first_and_the_rest_follow_in_order() -> None:
    rows = at_rest(shape(10), THEME, 804, summary=0)
    assert kinds(rows)[:2] == [Kind.BIG, Kind.CARD]
    assert [row.index for row in rows] == list(range(len(rows)))
    assert rows[-1].bottom_px <= 804 < rows[-1].bottom_px + rows[-1].height_px


def test_what_comes_before_the_big_card_is_a_thin_line_each() -> None:
    rows = at_rest(shape(10, 2, 4), THEME, 804, summary=0)
    assert kinds(rows)[:4] == [Kind.LINE, Kind.LINE, Kind.BIG, Kind.CARD]
    assert [row.index for row in rows[:4]] == [2, 3, 4, 5]


def test_more_than_three_before_it_are_told_by_their_number() -> None:
    rows = at_rest(shape(20, 0, 8), THEME, 804, summary=0)
    assert kinds(rows)[:5] == [*[Kind.LINE] * MOST_LINES, Kind.MORE, Kind.BIG]
    assert rows[MOST_LINES].count == 5


def test_an_outcome_before_the_big_card_has_a_line_even_where_others_have_none() -> None:
    def pair(index: int) -> int:
        return 5 if index == 3 else index

    rows = at_rest(Shape(9, 0, 5, 0, last_with=pair), THEME, 900, summary=1)
    lines = [row.index for row in rows if row.kind is Kind.LINE]
    assert lines == [0, 1, 3]
    assert [(row.count, row.kind) for row in rows if row.kind is Kind.MORE] == [(2, Kind.MORE)]


def test_what_belongs_together_is_shown_together_or_not_at_all() -> None:
    def pair(index: int) -> int:
        return 5 if index == 4 else index

    for height_px in range(300, 1000, 7):
        rows = at_rest(replace(shape(10), last_with=pair), THEME, height_px, summary=0)
        seen = [row.index for row in rows]
        assert (4 in seen) == (5 in seen)
        assert seen == list(range(len(seen)))
        alike = {row.kind for row in rows if row.index in (4, 5)}
        assert alike in (set(), {Kind.CARD}, {Kind.LINE})
        assert rows[-1].bottom_px <= height_px


def test_what_is_due_stands_above_everything() -> None:
    rows = at_rest(shape(5, due=1), THEME, 804, summary=0)
    assert kinds(rows)[:2] == [Kind.DUE, Kind.BIG]


def test_with_nothing_to_come_only_the_summary_is_left() -> None:
    assert at_rest(shape(5, 5, None), THEME, 804, summary=0) == ()
    assert kinds(at_rest(shape(5, 5, None), THEME, 804, summary=1)) == [Kind.SUMMARY]


@pytest.mark.parametrize(("due", "summary"), [(2, 1), (1, 2)])
def test_the_smallest_window_shows_five_cards_in_the_worst_case(due: int, summary: int) -> None:
    small = Theme.for_window(DARK, 1280, 720)
    worst = Shape(30, 0, 8, due, tall=frozenset({0, 1, 2}))
    rows = at_rest(worst, small, 554, summary=summary)
    assert sum(row.kind in (Kind.LINE, Kind.BIG, Kind.CARD) for row in rows) >= 5
    usual = at_rest(Shape(30, 0, 1, due=1), small, 554, summary=1)
    assert sum(row.kind in (Kind.LINE, Kind.BIG, Kind.CARD) for row in usual) >= 5


def test_scrolled_ahead_the_marker_says_how_far_back_now_is() -> None:
    rows = scrolled(shape(100, 10, 11), 40, THEME, 804, summary=0)
    assert (rows[0].kind, rows[0].count) == (Kind.NOW, -30)
    assert (rows[1].kind, rows[1].index) == (Kind.KEPT, 11)  # the next live moment stays in sight
    assert [row.index for row in rows[2:]] == list(range(40, 40 + len(rows) - 2))


def test_scrolled_a_little_back_the_marker_stands_between_past_and_future() -> None:
    rows = scrolled(shape(100, 10, 11), 8, THEME, 804, summary=0)
    assert kinds(rows)[:4] == [Kind.CARD, Kind.CARD, Kind.NOW, Kind.CARD]
    assert rows[2].count == 0
    assert [row.index for row in rows if row.index >= 0][:3] == [8, 9, 10]


def test_scrolled_far_back_the_marker_stands_at_the_bottom() -> None:
    rows = scrolled(shape(100, 60, 61), 0, THEME, 804, summary=0)
    assert rows[-1].kind is Kind.NOW
    assert rows[-1].count == 60 - (len(rows) - 1)


@given(
    count=st.integers(1, 40),
    place=st.data(),
    height_px=st.integers(80, 2000),
    window=st.sampled_from([(1280, 720), (1600, 1000), (3840, 2160)]),
    summary=st.integers(0, 2),
)
def test_rows_never_overlap_and_never_run_out_of_the_column(
    count: int, place: st.DataObject, height_px: int, window: tuple[int, int], summary: int
) -> None:
    theme = Theme.for_window(DARK, *window)
    next_index = place.draw(st.integers(0, count))
    big = place.draw(st.integers(next_index, count - 1)) if next_index < count else None
    lines = place.draw(st.lists(st.integers(0, 2), min_size=count, max_size=count))
    due = place.draw(st.integers(0, 2))
    built = Shape(count, next_index, big, due=due, more_lines=lines.__getitem__)
    first = place.draw(st.none() | st.integers(0, count - 1))
    if first is None:
        rows = at_rest(built, theme, height_px, summary=summary)
    else:
        rows = scrolled(built, first, theme, height_px, summary=summary)
    assert all(above.bottom_px <= below.top_px for above, below in itertools.pairwise(rows))
    assert all(row.bottom_px <= height_px for row in rows)
    indices = [row.index for row in rows if row.index >= 0 and row.kind is not Kind.MORE]
    assert indices == sorted(set(indices))


@pytest.mark.parametrize("height_px", [0, 10, 60])
def test_a_column_without_room_shows_nothing(height_px: int) -> None:
    rows = at_rest(shape(5), THEME, height_px, summary=0)
    assert rows == ()
