"""Many instants at once come out as one by one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.signal.sky import timescale
from core.times import scales

NEAR_LEAPS_S = st.builds(
    lambda leap_s, off_s: leap_s + off_s,
    st.sampled_from(scales.LEAPS_TT_S),
    st.floats(min_value=-3, max_value=3),
)
ANY_S = st.floats(min_value=-3e9, max_value=4e9)


@given(st.lists(NEAR_LEAPS_S | ANY_S, max_size=20))
def test_utc_of_many_is_utc_of_each(at_s: list[float]) -> None:
    found = timescale.utc_ms(np.array(at_s))
    assert found == pytest.approx([scales.utc_ms_of_tt_s(one) for one in at_s], abs=2e-3)


@given(st.lists(NEAR_LEAPS_S | ANY_S, max_size=20))
def test_terrestrial_time_of_many_is_that_of_each(at_s: list[float]) -> None:
    at_ms = [scales.utc_ms_of_tt_s(one) for one in at_s]
    found = timescale.tt_s(np.array(at_ms))
    assert found == pytest.approx([scales.tt_s_of_utc_ms(one) for one in at_ms], abs=1e-6)
