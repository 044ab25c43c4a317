"""Clock times typed into a table, and shown there."""

from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plan.drafting.clocks import as_clock, clock_words, read_clock

DAY = date(2031, 5, 14)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("17:50", datetime(2031, 5, 14, 17, 50)),
        ("5:50 pm", datetime(2031, 5, 14, 17, 50)),
        ("12:10 a.m.", datetime(2031, 5, 14, 0, 10)),
        ("7 pm", datetime(2031, 5, 14, 19, 0)),
        ("17:50:30.25", datetime(2031, 5, 14, 17, 50, 30, 250_000)),
        ("15 May 7:00", datetime(2031, 5, 15, 7, 0)),
        ("May 15, 2032 7:00", datetime(2032, 5, 15, 7, 0)),
        ("Wed 14 May 17:50:00", datetime(2031, 5, 14, 17, 50)),
        ("2031-05-15T07:00:01", datetime(2031, 5, 15, 7, 0, 1)),
        ("2031-05-15 07:00Z", datetime(2031, 5, 15, 7, 0, tzinfo=UTC)),
        ("17:50 -03:00", datetime(2031, 5, 14, 17, 50, tzinfo=timezone(timedelta(hours=-3)))),
    ],
)
def test_a_time_is_read_as_one_types_it(typed: str, expected: datetime) -> None:
    assert read_clock(typed, DAY) == expected


@pytest.mark.parametrize(
    "typed",
    ["", "17", "17:5", "25:00", "13:00 pm", "31 Feb 10:00", "Thu 14 May 17:50", "liftoff", "1:2:3"],
)
def test_what_is_no_time_yet_is_none(typed: str) -> None:
    assert read_clock(typed, DAY) is None


def test_a_time_without_a_day_needs_one_near() -> None:
    assert read_clock("17:50", None) is None
    assert read_clock("14 May 17:50", None) is None


@given(st.datetimes(datetime(1900, 1, 1), datetime(2199, 12, 31)), st.booleans())
def test_what_is_shown_is_read_again_as_the_same(when: datetime, weekday: bool) -> None:
    assert read_clock(clock_words(when, 2031, weekday=weekday), DAY) == when


def test_text_in_a_plan_may_be_a_time() -> None:
    assert as_clock("2031-05-14T17:50:00") == datetime(2031, 5, 14, 17, 50)
    assert as_clock("2031-05-14T99:50:00") is None
    assert as_clock("liftoff") is None


@pytest.mark.parametrize(
    ("typed", "shown"),
    [("17:50Z", "UTC 14 May 17:50:00"), ("17:50 -03:00", "-0300 14 May 17:50:00")],
)
def test_a_zone_of_its_own_stands_in_front_where_nothing_cuts_it_off(
    typed: str, shown: str
) -> None:
    when = read_clock(typed, DAY)
    assert when is not None
    assert clock_words(when, 2031) == shown
    assert read_clock(shown, DAY) == when


@given(
    st.datetimes(datetime(1900, 1, 1), datetime(2199, 12, 31)),
    st.integers(-14 * 60, 14 * 60),
    st.booleans(),
)
def test_a_time_in_another_zone_is_read_again_as_the_same(
    when: datetime, minutes: int, weekday: bool
) -> None:
    there = when.replace(tzinfo=timezone(timedelta(minutes=minutes)))
    again = read_clock(clock_words(there, 2031, weekday=weekday), DAY)
    assert again == there
    assert again is not None
    assert again.utcoffset() == there.utcoffset()


def test_two_zones_are_no_time() -> None:
    assert read_clock("UTC 14 May 17:50 -03:00", DAY) is None
