"""How the Earth is turned, held against SPICE (measured turning) and skyfield (UT1 = UTC)."""

import math
from datetime import UTC, datetime

import numpy as np
import pytest
import spiceypy
from hypothesis import given
from hypothesis import strategies as st
from skyfield.api import load
from skyfield.framelib import itrs
from skyfield.sgp4lib import TEME

from core.signal.sky.earth import Turning, teme_to_icrf
from core.signal.sky.model import Seconds
from core.times.scales import tt_s_of_utc_ms

TT_LESS_UTC_S = 69.184
ARCSECOND_RAD = math.pi / 648_000
TURNS_RAD_S = 7.292115e-5
NEAR_S = st.lists(st.floats(min_value=0, max_value=3e6), min_size=1, max_size=20)  # a month
INSTANTS_S = st.builds(  # 1930 to 2069
    lambda at_s, near_s: at_s + np.array(near_s),
    st.floats(min_value=-2.2e9, max_value=2.2e9),
    NEAR_S,
)


def year_s(year: int) -> Seconds:
    """Some 200 instants of a year."""
    begin_s, end_s = (
        tt_s_of_utc_ms(datetime(one, 1, 1, tzinfo=UTC).timestamp() * 1000)
        for one in (year, year + 1)
    )
    return np.linspace(begin_s, end_s - 10, 211)


def angle_rad(one: Seconds, other: Seconds) -> float:
    """How far the axes of two sets of rotations lie apart, at most."""
    return float(np.linalg.norm(one - other, axis=1).max())


@pytest.mark.usefixtures("spice")
@pytest.mark.parametrize("year", range(2021, 2027))
def test_the_turning_is_within_a_fifth_of_a_second_of_what_was_measured(year: int) -> None:
    at_s = year_s(year)
    measured = np.array([spiceypy.pxform("ITRF93", "J2000", float(one)) for one in at_s])
    # Found: 0.188 s in 2021, 0.113 in 2022, 0.049 in 2023, 0.063, 0.096, 0.101 in 2026.
    assert angle_rad(Turning().to_icrf(at_s), measured) / TURNS_RAD_S < 0.2


@pytest.mark.usefixtures("spice")
@pytest.mark.parametrize("year", [2000, 2005, 2008, 2012, 2016])
def test_it_is_always_within_nine_tenths_of_a_second(year: int) -> None:
    at_s = year_s(year)
    measured = np.array([spiceypy.pxform("ITRF93", "J2000", float(one)) for one in at_s])
    # Found: 0.66 s at most (2005).
    assert angle_rad(Turning().to_icrf(at_s), measured) / TURNS_RAD_S < 0.9


@pytest.mark.parametrize("year", [2018, 2021, 2024, 2026, 2031, 2040])
def test_but_for_ut1_it_is_that_of_a_full_model(year: int) -> None:
    at_s = year_s(year)
    scale = load.timescale(delta_t=TT_LESS_UTC_S, builtin=True)  # UT1 = UTC
    full = itrs.rotation_at(scale.tt_jd(2_451_545.0, at_s / 86_400)).transpose(2, 1, 0)
    # Found: 0.038 seconds of arc, 1.2 m on the ground.
    assert angle_rad(Turning().to_icrf(at_s), full) / ARCSECOND_RAD < 0.06


@pytest.mark.parametrize("year", [2021, 2026, 2031])
def test_vectors_of_sgp4_come_out_as_in_a_full_model(year: int) -> None:
    at_s = year_s(year)
    scale = load.timescale(delta_t=TT_LESS_UTC_S, builtin=True)
    full = TEME.rotation_at(scale.tt_jd(2_451_545.0, at_s / 86_400)).transpose(2, 1, 0)
    for axis in range(3):
        vectors = np.tile(7000.0 * np.eye(3)[axis], (len(at_s), 1))
        apart_km = np.linalg.norm(teme_to_icrf(at_s, vectors) - 7000 * full[:, :, axis], axis=1)
        assert apart_km.max() < 0.01  # found: 0.0032


@given(INSTANTS_S)
def test_a_rotation_keeps_lengths_and_handedness(at_s: Seconds) -> None:
    found = Turning().to_icrf(at_s)
    same = np.tile(np.eye(3), (len(at_s), 1, 1))
    assert found @ found.transpose(0, 2, 1) == pytest.approx(same, abs=1e-11)
    assert np.linalg.det(found) == pytest.approx(1, abs=1e-11)


@given(st.lists(INSTANTS_S, min_size=1, max_size=4))
def test_what_was_asked_before_changes_nothing(questions: list[Seconds]) -> None:
    used = Turning()
    for at_s in questions:
        fresh = Turning().to_icrf(at_s)
        assert used.to_icrf(at_s) == pytest.approx(fresh, abs=1e-12)
        assert used.to_icrf(at_s) == pytest.approx(fresh, abs=1e-12)


def test_instants_changed_in_place_are_new_instants() -> None:
    turning = Turning()
    at_s = np.array([8e8, 8e8 + 10])
    turning.to_icrf(at_s)
    at_s += 3600
    assert turning.to_icrf(at_s) == pytest.approx(Turning().to_icrf(at_s), abs=1e-12)


def test_what_is_remembered_cannot_be_spoilt() -> None:
    with pytest.raises(ValueError, match="read-only"):
        Turning().to_icrf(np.array([8e8]))[0, 0, 0] = 2


@given(st.floats(min_value=5.4e8, max_value=2.2e9))  # from 2017 on, without leap seconds
def test_the_earth_turns_by_fifteen_seconds_of_arc_each_second(at_s: float) -> None:
    before, after = Turning().to_icrf(np.array([at_s, at_s + 1]))
    moved = np.linalg.norm(after[:, 0] - before[:, 0])
    assert moved == pytest.approx(TURNS_RAD_S, rel=1e-5)


def test_no_instants_give_no_rotations_and_no_vectors() -> None:
    turning = Turning()
    turning.to_icrf(np.array([8e8]))
    assert turning.to_icrf(np.empty(0)).shape == (0, 3, 3)
    assert teme_to_icrf(np.empty(0), np.empty((0, 3))).shape == (0, 3)
