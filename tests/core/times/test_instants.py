"""RFC 3339 in and out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import TimeProblem
from core.times.instants import ms_to_rfc3339, rfc3339_to_ms


def test_the_epoch_and_a_known_second_are_right() -> None:
    assert rfc3339_to_ms("1970-01-01T00:00:00Z") == 0
    assert rfc3339_to_ms("2001-09-09T01:46:40Z") == 1_000_000_000_000  # from memory: 1e9 s


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("2031-05-14T16:58:05.25-03:00", "2031-05-14T19:58:05.250Z"),
        ("2031-05-14 19:58:05z", "2031-05-14T19:58:05.000Z"),
        ("2031-05-14T19:58:05.0004Z", "2031-05-14T19:58:05.000Z"),
        ("2031-05-14T19:58:05.9996Z", "2031-05-14T19:58:06.000Z"),
        ("1969-12-31T23:59:59.999Z", "1969-12-31T23:59:59.999Z"),
    ],
)
def test_offsets_and_fractions_are_honoured(text: str, same: str) -> None:
    assert ms_to_rfc3339(rfc3339_to_ms(text)) == same


@pytest.mark.parametrize(
    "text",
    [
        "2031-05-14T19:58:05",
        "2031-05-14T19:58Z",
        "2031-02-30T19:58:05Z",
        "2031-05-14T25:00:00Z",
        "2031-05-14T23:59:60Z",
        "0001-01-01T00:00:00+14:00",
        "2031-05-14",
        "",
        "2031-05-14T19:58:05." + "9" * 5_000 + "Z",
    ],
)
def test_what_is_no_instant_is_refused(text: str) -> None:
    with pytest.raises(TimeProblem):
        rfc3339_to_ms(text)


@given(st.integers(-2_208_988_800_000, 7_258_118_400_000))
def test_there_and_back_is_the_same_instant(instant_ms: int) -> None:
    assert rfc3339_to_ms(ms_to_rfc3339(instant_ms)) == instant_ms


def test_an_instant_past_the_calendar_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(ValueError, match="outside the years"):
        ms_to_rfc3339(10**18)
