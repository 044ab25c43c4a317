import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.strip.scale import Scale

NOW_MS = 1_776_800_472_000
MINUTE_MS = 60_000

THIN = Scale(NOW_MS, 40.0, 80.0, 780.0)
EVEN = Scale(NOW_MS, 40.0, 80.0, 780.0, even=True)
BOTH = pytest.mark.parametrize("scale", [THIN, EVEN], ids=["thinned", "even"])


def test_the_thinned_scale_ends_with_six_hours() -> None:
    assert THIN.y_of(NOW_MS) == 80.0
    assert THIN.y_of(NOW_MS + 360 * MINUTE_MS) == pytest.approx(780.0)


def test_position_is_asinh_of_the_quarter_hours_ahead() -> None:
    for minutes in (1, 5, 15, 47, 200):
        share = math.asinh(minutes / 15) / math.asinh(24)
        assert THIN.y_of(NOW_MS + minutes * MINUTE_MS) == pytest.approx(80 + 700 * share)


def test_the_even_scale_ends_with_two_hours() -> None:
    assert EVEN.y_of(NOW_MS + 60 * MINUTE_MS) == pytest.approx(430.0)
    assert EVEN.y_of(NOW_MS + 120 * MINUTE_MS) == pytest.approx(780.0)


def test_ticks_are_the_lengths_one_counts_in() -> None:
    assert [text for _, text in THIN.ticks()] == (
        ["5 min", "10 min", "20 min", "30 min", "1 h", "2 h", "4 h", "6 h"]
    )
    assert [text for _, text in EVEN.ticks()][-3:] == ["1 h 40", "1 h 50", "2 h"]


@BOTH
@given(ahead_ms=st.integers(-(10**11), 10**11))
def test_many_instants_are_mapped_as_one_is(scale: Scale, ahead_ms: int) -> None:
    many = scale.y(np.array([NOW_MS + ahead_ms, NOW_MS], dtype=np.int64))
    assert many[0] == pytest.approx(scale.y_of(NOW_MS + ahead_ms))
    assert many[1] == scale.origin_px


@BOTH
@given(y_px=st.floats(0, 900))
def test_a_height_gives_back_its_instant(scale: Scale, y_px: float) -> None:
    assert scale.y_of(scale.instant_ms(y_px)) == pytest.approx(y_px, abs=0.01)


@BOTH
@given(one=st.integers(-(10**9), 10**9), other=st.integers(-(10**9), 10**9))
def test_later_is_never_higher(scale: Scale, one: int, other: int) -> None:
    earlier, later = sorted((one, other))
    assert scale.y_of(NOW_MS + earlier) <= scale.y_of(NOW_MS + later)
