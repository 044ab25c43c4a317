"""Lengths of time: what is read, what is refused and with which words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import TimeProblem
from core.times.durations import LONGEST_MS, parse_duration, write_duration

SECOND = 1_000
MINUTE = 60 * SECOND
HOUR = 60 * MINUTE
DAY = 24 * HOUR


@pytest.mark.parametrize(
    ("text", "length_ms"),
    [
        ("75:27:30", 75 * HOUR + 27 * MINUTE + 30 * SECOND),
        ("3d 03:27:30", 3 * DAY + 3 * HOUR + 27 * MINUTE + 30 * SECOND),
        ("0:00:45", 45 * SECOND),
        ("0:00:45.25", 45_250),
        ("-0:01:12", -72 * SECOND),
        ("-1d 00:00:01", -(DAY + SECOND)),
        ("1h 20m", 80 * MINUTE),
        ("1h20m", 80 * MINUTE),
        ("3d 4h 5m 6s 7ms", 3 * DAY + 4 * HOUR + 5 * MINUTE + 6 * SECOND + 7),
        ("90s", 90 * SECOND),
        ("6m 14s", 6 * MINUTE + 14 * SECOND),
        ("250ms", 250),
        ("4.25s", 4_250),
        ("1.5h", 90 * MINUTE),
        ("-45s", -45 * SECOND),
        ("374s", 374 * SECOND),
        ("0s", 0),
        ("  8m ", 8 * MINUTE),
        ("2 h 5 m", 125 * MINUTE),
    ],
)
def test_a_length_is_read_in_each_form_of_the_plan_file(text: str, length_ms: int) -> None:
    assert parse_duration(text) == length_ms


@pytest.mark.parametrize(
    ("text", "length_ms"),
    [("0.0004s", 0), ("0.0005s", 1), ("1.2344999s", 1_234), ("0:00:00.9996", 1_000)],
)
def test_digits_beyond_the_millisecond_are_rounded(text: str, length_ms: int) -> None:
    assert parse_duration(text) == length_ms


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("45", "has no unit"),
        ("-4.5", "has no unit"),
        ("8:30", "could be hours and minutes, or minutes and seconds"),
        ("1:75:00", "sixty or more"),
        ("1:00:60", "sixty or more"),
        ("", "is no length"),
        ("soon", "is no length"),
        ("5 minutes", "is no length"),
        ("10s 2m", "is no length"),
        ("5m 5m", "is no length"),
        ("1h,20m", "is no length"),
        ("+5m", "is no length"),
        ("--5m", "is no length"),
        ("1e3s", "is no length"),
        ("٣s", "is no length"),
        ("9" * 5_000 + "s", "is no length"),
        ("999999d", "longer than a hundred years"),
        ("1h 20", "is no length"),
    ],
)
def test_what_is_no_length_is_refused_in_words(text: str, words: str) -> None:
    with pytest.raises(TimeProblem) as caught:
        parse_duration(text)
    assert words in caught.value.what
    assert len(str(caught.value)) < 250


def test_a_bare_number_is_told_which_unit_to_add() -> None:
    with pytest.raises(TimeProblem) as caught:
        parse_duration("45")
    assert "45s" in caught.value.hint


def test_two_parts_are_offered_both_ways() -> None:
    with pytest.raises(TimeProblem) as caught:
        parse_duration("8:30")
    assert "8h 30m" in caught.value.hint
    assert "8m 30s" in caught.value.hint


@given(st.integers(-LONGEST_MS, LONGEST_MS))
def test_a_written_length_reads_back_the_same(length_ms: int) -> None:
    assert parse_duration(write_duration(length_ms)) == length_ms


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_but_nothing_else(text: str) -> None:
    try:
        parse_duration(text)
    except TimeProblem:
        return
