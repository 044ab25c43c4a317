from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.times.instants import rfc3339_to_ms
from core.times.writing import (
    Hours,
    Style,
    apart_ms,
    clock_text,
    date_text,
    dated_clock_text,
    difference_words,
    duration_words,
    elapsed_text,
    figure,
    nearest_minute_ms,
    short_duration_words,
    weekday_text,
)

HALIFAX = Style("America/Halifax")
HALIFAX_24 = Style("America/Halifax", Hours.TWENTY_FOUR)
NOON = rfc3339_to_ms("2031-05-14T15:00:00Z")
"""Wednesday noon in Halifax."""

S, MIN, H, D = 1_000, 60_000, 3_600_000, 86_400_000

ZONES = ("America/Halifax", "America/New_York", "Europe/London", "Australia/Lord_Howe", "UTC")
instants = st.integers(rfc3339_to_ms("2030-01-01T00:00:00Z"), rfc3339_to_ms("2033-01-01T00:00:00Z"))


@pytest.mark.parametrize(
    ("utc", "twelve", "twenty_four"),
    [
        ("19:57:20.999", "4:57:20 p.m.", "16:57:20"),
        ("03:00:00", "12:00:00 a.m.", "00:00:00"),
        ("15:00:59", "12:00:59 p.m.", "12:00:59"),
        ("14:59:59", "11:59:59 a.m.", "11:59:59"),
        ("16:05:00", "1:05:00 p.m.", "13:05:00"),
    ],
)
def test_a_clock_time_is_written_in_the_windows_one_style(
    utc: str, twelve: str, twenty_four: str
) -> None:
    at_ms = rfc3339_to_ms(f"2031-05-14T{utc}Z")
    assert clock_text(at_ms, HALIFAX) == twelve
    assert clock_text(at_ms, HALIFAX_24) == twenty_four


def test_seconds_may_be_left_out() -> None:
    assert clock_text(NOON + 59 * S, HALIFAX, seconds=False) == "12:00 p.m."
    assert clock_text(NOON + 59 * S, HALIFAX_24, seconds=False) == "12:00"


@pytest.mark.parametrize(
    ("away_ms", "text"),
    [
        (11 * H, "11:00:00 p.m."),
        (12 * H, "Thu 12:00:00 a.m."),
        (-13 * H, "Tue 11:00:00 p.m."),
        (6 * D, "Tue 12:00:00 p.m."),
        (7 * D, "21 May 12:00:00 p.m."),
        (-7 * D, "7 May 12:00:00 p.m."),
        (366 * D, "14 May 2032 12:00:00 p.m."),
    ],
)
def test_the_day_is_written_where_it_is_not_todays(away_ms: int, text: str) -> None:
    assert dated_clock_text(NOON + away_ms, HALIFAX, NOON) == text


def test_the_day_is_that_of_the_windows_zone() -> None:
    evening_ms = NOON + 10 * H
    assert dated_clock_text(evening_ms, HALIFAX, NOON) == "10:00:00 p.m."
    assert dated_clock_text(evening_ms, Style("UTC", Hours.TWENTY_FOUR), NOON) == "Thu 01:00:00"


def test_the_day_and_the_date_are_written_in_full() -> None:
    assert weekday_text(NOON, "America/Halifax") == "Wednesday"
    assert weekday_text(NOON + 10 * H, "UTC") == "Thursday"
    assert date_text(NOON, "America/Halifax") == "14 May 2031"


@pytest.mark.parametrize(
    ("length_ms", "words"),
    [
        (0, "0 s"),
        (999, "0 s"),
        (8 * S, "8 s"),
        (59 * S, "59 s"),
        (MIN, "1 min 00 s"),
        (16 * MIN + 8 * S, "16 min 08 s"),
        (H + 23 * MIN + 48 * S, "1 h 23 min 48 s"),
        (H + 4 * S, "1 h 00 min 04 s"),
        (3 * D + 3 * H + 12 * MIN + 40 * S, "3 d 03 h 12 min 40 s"),
        (-16 * MIN - 8 * S, "16 min 08 s"),
    ],
)
def test_a_length_carries_its_units(length_ms: int, words: str) -> None:
    assert duration_words(length_ms) == words


def test_a_figure_is_pairs_of_digits_and_unit() -> None:
    assert figure(16 * MIN + 8 * S) == (("16", "min"), ("08", "s"))
    assert figure(50 * MIN + 8 * S, 60 * S) == (("50", "min"),)
    assert figure(2 * H + 31 * S, 30 * S) == (("2", "h"), ("01", "min"))
    assert figure(29 * S, 30 * S) == (("0", "min"),)
    assert figure(59 * MIN + 30 * S, 30 * S) == (("1", "h"), ("00", "min"))
    assert figure(3 * D, 30 * S) == (("3", "d"), ("00", "h"), ("00", "min"))


@pytest.mark.parametrize(
    ("length_ms", "words"),
    [(0, "0 s"), (300 * S, "5 min"), (H, "1 h"), (H + 5 * S, "1 h 00 min 05 s"), (D, "1 d")],
)
def test_units_that_are_nought_at_the_end_may_go(length_ms: int, words: str) -> None:
    assert short_duration_words(length_ms) == words


@pytest.mark.parametrize(
    ("by_ms", "words"),
    [
        (78 * S, "1 min 18 later"),
        (-45 * S, "45 s earlier"),
        (5 * MIN, "5 min later"),
        (H + 5 * MIN, "1 h 05 min later"),
        (-H - 18 * S, "1 h 00 min 18 s earlier"),
        (999, ""),
        (-999, ""),
        (0, ""),
    ],
)
def test_a_change_is_later_or_earlier_or_nothing(by_ms: int, words: str) -> None:
    assert difference_words(by_ms) == words


@pytest.mark.parametrize(
    ("length_ms", "text"),
    [
        (3 * D + 3 * H + 12 * MIN + 40 * S, "3 d 03:12:40"),
        (3 * H + 12 * MIN + 40 * S + 999, "03:12:40"),
        (-5 * MIN, "−00:05:00"),
        (-D - S, "−1 d 00:00:01"),
        (-999, "00:00:00"),
    ],
)
def test_elapsed_time_counts_days_and_a_clock(length_ms: int, text: str) -> None:
    assert elapsed_text(length_ms) == text


def test_an_instant_at_the_end_of_all_calendars_is_a_value_error() -> None:
    last_ms = rfc3339_to_ms("9999-12-31T23:59:59Z")
    with pytest.raises(ValueError, match="calendars"):
        clock_text(last_ms, Style("Asia/Tokyo"))


def _seconds(parts: tuple[tuple[str, str], ...]) -> int:
    units = {"d": 86_400, "h": 3_600, "min": 60, "s": 1}
    return sum(int(digits) * units[unit] for digits, unit in parts)


@given(
    now_ms=instants, event_ms=instants, zone=st.sampled_from(ZONES), hours=st.sampled_from(Hours)
)
def test_the_clock_on_the_wall_plus_the_countdown_is_the_shown_time(
    now_ms: int, event_ms: int, zone: str, hours: Hours
) -> None:
    style = Style(zone, hours)
    countdown_ms = apart_ms(event_ms, now_ms)
    sign = -1 if countdown_ms < 0 else 1
    wall = datetime.fromtimestamp(now_ms // 1_000, UTC)
    there = wall + timedelta(seconds=sign * _seconds(figure(countdown_ms)))
    assert clock_text(int(there.timestamp()) * 1_000, style) == clock_text(event_ms, style)


@given(now_ms=instants, ahead_ms=st.integers(0, 6 * H))
def test_without_a_change_of_clocks_it_adds_up_on_the_dial_itself(
    now_ms: int, ahead_ms: int
) -> None:
    style = Style("UTC", Hours.TWENTY_FOUR)
    wall, event = clock_text(now_ms, style), clock_text(now_ms + ahead_ms, style)
    countdown_s = _seconds(figure(apart_ms(now_ms + ahead_ms, now_ms)))
    assert (_of_day_s(wall) + countdown_s) % 86_400 == _of_day_s(event)


def _of_day_s(clock: str) -> int:
    hours, minutes, seconds = (int(digits) for digits in clock.split(":"))
    return hours * 3_600 + minutes * 60 + seconds


def test_the_nearest_minute_halfway_is_the_earlier() -> None:
    assert [nearest_minute_ms(at) for at in (0, 30_000, 30_001, 59_999, 90_000)] == [
        0,
        0,
        60_000,
        60_000,
        60_000,
    ]
