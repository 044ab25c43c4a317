"""Clock times in a zone: the plain ones, the skipped and the repeated."""

from datetime import datetime

import pytest

from core.errors import TimeProblem
from core.times.instants import rfc3339_to_ms
from core.times.zones import find_zone, instant_to_ms, local_to_utc_ms, typed_to_ms, zone_names


def test_typed_times_may_leave_out_their_seconds() -> None:
    whole = instant_to_ms("2031-05-14T16:58:00", "America/Halifax")
    for typed in (
        "2031-05-14T16:58",
        "2031-05-14 16:58",
        " 2031-05-14T19:58Z",
        "2031-05-14T16:58-03:00",
    ):
        assert typed_to_ms(typed, "America/Halifax") == whole
    for typed in ("2031-05-14T16", "2031-05-14T16:58:", "2031-05-14T16:99"):
        with pytest.raises(TimeProblem):
            typed_to_ms(typed, "America/Halifax")


def test_a_summer_time_in_halifax_is_three_hours_behind_utc() -> None:
    there = local_to_utc_ms(datetime.fromisoformat("2031-05-14T16:58:05"), "America/Halifax")
    assert there == rfc3339_to_ms("2031-05-14T19:58:05Z")


# Clocks go forward on the second Sunday of March and back on the first of November, at 2:00
# local time: common practice in North America since 2007.
def test_a_skipped_time_is_refused_with_a_way_out() -> None:
    with pytest.raises(TimeProblem) as caught:
        local_to_utc_ms(datetime.fromisoformat("2026-03-08T02:30"), "America/Halifax")
    assert "skip" in caught.value.what
    assert "offset" in caught.value.hint


def test_a_repeated_time_is_refused_and_both_readings_offered() -> None:
    with pytest.raises(TimeProblem) as caught:
        local_to_utc_ms(datetime.fromisoformat("2026-11-01T01:30"), "America/Halifax")
    assert "twice" in caught.value.what
    assert caught.value.hint.endswith("2026-11-01T01:30:00-03:00 or 2026-11-01T01:30:00-04:00")


def test_the_minute_before_a_skip_and_the_hour_after_are_fine() -> None:
    before = local_to_utc_ms(datetime.fromisoformat("2026-03-08T01:59"), "America/Halifax")
    after = local_to_utc_ms(datetime.fromisoformat("2026-03-08T03:00"), "America/Halifax")
    assert after - before == 60_000


def test_an_offset_in_the_text_wins_over_the_zone() -> None:
    assert instant_to_ms("2026-11-01T01:30:00-04:00", "America/Halifax") == rfc3339_to_ms(
        "2026-11-01T05:30:00Z"
    )
    assert instant_to_ms("2031-05-14T12:00:00", "UTC") == rfc3339_to_ms("2031-05-14T12:00:00Z")


@pytest.mark.parametrize("name", ["America/Halifx", "", "America", "../etc/passwd", "a\0b", "/x"])
def test_what_is_no_zone_is_refused(name: str) -> None:
    with pytest.raises(TimeProblem):
        find_zone(name)


def test_the_first_and_last_days_of_the_calendar_are_refused_not_a_crash() -> None:
    for text in ("0001-01-01T00:00:00", "9999-12-31T23:59:59"):
        for zone in ("America/Halifax", "Pacific/Auckland"):
            try:
                local_to_utc_ms(datetime.fromisoformat(text), zone)
            except TimeProblem:
                continue


def test_the_desks_zone_is_among_the_names() -> None:
    assert "America/Halifax" in zone_names()
