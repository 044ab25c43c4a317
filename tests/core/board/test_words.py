"""Clock times on cards: rounded as they are said."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.board.words import either_clocks, event_clock_text
from core.saying.clocks import said_minute_ms
from core.times.writing import DAY_MS, HOUR_MS, MINUTE_MS, SECOND_MS, Hours, Style, clock_text
from core.times.zones import typed_to_ms

HALIFAX = Style("America/Halifax", Hours.TWELVE)
HALIFAX_24 = Style("America/Halifax", Hours.TWENTY_FOUR)
NOON = typed_to_ms("2031-05-14T12:00:00", "America/Halifax")


def test_a_give_of_half_a_minute_takes_the_seconds_away() -> None:
    at_ms = NOON + 5 * HOUR_MS + 30 * MINUTE_MS + 30 * SECOND_MS
    assert event_clock_text(at_ms, 29_999, HALIFAX, NOON) == "5:30:30 p.m."
    assert event_clock_text(at_ms, 30_000, HALIFAX, NOON) == "about 5:31 p.m."
    assert event_clock_text(at_ms - 1, 30_000, HALIFAX, NOON) == "about 5:30 p.m."
    assert event_clock_text(at_ms + DAY_MS, MINUTE_MS, HALIFAX_24, NOON) == "about Thu 17:31"


@given(st.integers(0, DAY_MS), st.integers(30_000, 2 * HOUR_MS))
def test_a_card_has_the_minute_that_the_sentence_has(after_ms: int, give_ms: int) -> None:
    at_ms = NOON - 12 * HOUR_MS + after_ms
    said = clock_text(said_minute_ms(at_ms, give_ms), HALIFAX, seconds=False)
    assert event_clock_text(at_ms, give_ms, HALIFAX, at_ms).endswith(said)


@pytest.mark.parametrize(("second", "clock"), [(29, "5:22"), (30, "5:22"), (31, "5:23")])
def test_the_later_of_two_is_rounded_on_the_card_as_it_is_said(second: int, clock: str) -> None:
    first_ms = typed_to_ms("2031-05-14T17:12:34", "America/Halifax")
    later_ms = typed_to_ms(f"2031-05-14T17:22:{second}", "America/Halifax")
    assert either_clocks((first_ms, later_ms), HALIFAX, NOON) == f"5:12 or {clock} p.m."
