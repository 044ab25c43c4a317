"""Epochs by calendar and by day of the year, on every clock."""

import re
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import TimeProblem
from core.plan.orbitdata.epochs import Epochs, utc_ms_of_epoch
from core.times.scales import TimeSystem, tt_s_of_utc_ms

MOMENTS = st.datetimes(datetime(1900, 1, 1), datetime(2199, 12, 31))


@given(MOMENTS)
def test_both_forms_of_an_epoch_are_the_instant_of_the_clock(when: datetime) -> None:
    at_ms = (when.replace(tzinfo=UTC) - datetime(1970, 1, 1, tzinfo=UTC)) / timedelta(
        milliseconds=1
    )
    calendar = when.strftime("%Y-%m-%dT%H:%M:%S.%f")
    numbered = f"{when.year}-{when.timetuple().tm_yday:03}T{when.strftime('%H:%M:%S.%f')}"
    for text in (calendar, numbered, calendar + "Z"):
        assert utc_ms_of_epoch(text) == pytest.approx(at_ms, abs=0.01)
        assert Epochs(TimeSystem.UTC).tt_s(text) == pytest.approx(tt_s_of_utc_ms(at_ms), abs=2e-6)


def test_a_second_that_was_put_in_has_a_place_of_its_own() -> None:
    tt_s = Epochs(TimeSystem.UTC).tt_s
    before, put_in, within, after = (
        tt_s(f"{text}")
        for text in (
            "2016-12-31T23:59:59",
            "2016-12-31T23:59:60",
            "2016-366T23:59:60.5",
            "2017-01-01T00:00:00",
        )
    )
    assert put_in - before == pytest.approx(1)
    assert within - put_in == pytest.approx(0.5)
    assert after - put_in == pytest.approx(1)
    midnight_ms = datetime(2017, 1, 1, tzinfo=UTC).timestamp() * 1000
    assert utc_ms_of_epoch("2016-12-31T23:59:60.5") == midnight_ms


@pytest.mark.parametrize("system", [one for one in TimeSystem if one is not TimeSystem.UTC])
def test_other_clocks_have_no_second_put_in(system: TimeSystem) -> None:
    with pytest.raises(TimeProblem, match="leap second"):
        Epochs(system).tt_s("2016-12-31T23:59:60")


@given(st.text("0123456789-:T.Z ", max_size=30) | st.text(max_size=20))
def test_no_other_text_is_an_epoch(text: str) -> None:
    shape = r"\d{4}-(\d\d-\d\d|\d{3})T\d\d:\d\d:\d\d(\.\d*)?Z?"
    if not re.fullmatch(shape, text, flags=re.ASCII):
        with pytest.raises(TimeProblem):
            utc_ms_of_epoch(text)
