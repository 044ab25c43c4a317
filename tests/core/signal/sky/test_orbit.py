"""Orbits from elements: their size, their plane, and the count of their revolutions."""

import math

import numpy as np
import pytest
import spiceypy
from hypothesis import given
from hypothesis import strategies as st

from core.signal.sky.elements import Elements
from core.signal.sky.model import SPHERES, Body
from core.signal.sky.orbit import Orbit
from core.signal.sky.poles import equator

GM = SPHERES[Body.MOON].gm_km3_s2
RADIUS_KM = SPHERES[Body.MOON].radius_km
NAUTICAL_MILE_KM = 1.852

turns = st.floats(0.01, math.tau - 0.01)


@given(
    st.floats(1738, 20_000),
    st.floats(0.001, 0.95) | st.floats(1.05, 5),
    st.floats(0.01, 3.1),
    turns,
    turns,
    turns,
)
def test_spice_finds_the_elements_in_the_state(
    low_km: float,
    eccentricity: float,
    tilt_rad: float,
    node_rad: float,
    argument_rad: float,
    anomaly_rad: float,
) -> None:
    elements = Elements(low_km, eccentricity, tilt_rad, node_rad, argument_rad, anomaly_rad)
    orbit = Orbit(Body.MOON, elements, 5e8)
    position, velocity = orbit.state(5e8)
    found = spiceypy.oscelt([*position, *velocity], 5e8, GM)
    expected = [low_km, eccentricity, tilt_rad, node_rad, argument_rad, anomaly_rad]
    assert found[:6] == pytest.approx(expected, rel=1e-6, abs=1e-6)


def test_the_period_of_the_round_orbit_at_60_nautical_miles() -> None:
    # 118.86 min: the closed form of Kepler's third law.
    orbit = Orbit(Body.MOON, Elements(RADIUS_KM + 60 * NAUTICAL_MILE_KM), 0.0)
    assert orbit.period_s / 60 == pytest.approx(118.86, abs=0.005)


@pytest.mark.parametrize("body", Body)
def test_an_orbit_in_the_equator_stands_square_to_the_pole(body: Body) -> None:
    axes = equator(body, 9e8)
    orbit = Orbit(body, Elements(20_000.0, 0.3), 9e8, axes)
    at_s = 9e8 + np.linspace(0, orbit.period_s, 50)
    assert np.abs(orbit.position_km(at_s) @ np.array(axes[2])).max() < 1e-8
    at_node = orbit.position_km(np.array([9e8]))[0]
    assert at_node == pytest.approx(20_000 * np.array(axes[0]), abs=1e-6)


def test_revolutions_of_a_long_orbit_are_counted_at_the_low_point() -> None:
    orbit = Orbit(Body.MOON, Elements(1_840.0, 0.5, 1.0, 2.0, 3.0, math.pi), 100.0)
    half_s = orbit.period_s / 2
    at_s = 100.0 + half_s * np.array([-2.5, -1.1, -0.9, 0.0, 0.9, 1.1, 2.9, 3.1])
    assert list(orbit.revolution(at_s)) == [0, 0, 1, 1, 1, 2, 2, 3]


def test_revolutions_of_a_round_orbit_are_counted_at_the_ascending_node() -> None:
    orbit = Orbit(Body.MOON, Elements(1_840.0, 0.0, 1.0, 2.0, math.radians(300)), 0.0)
    at_s = np.linspace(0, 5 * orbit.period_s, 5_000)
    rises = np.flatnonzero(np.diff(np.sign(orbit.position_km(at_s)[:, 2])) > 0)
    steps = np.flatnonzero(np.diff(orbit.revolution(at_s)))
    assert np.abs(rises - steps).max() <= 1
    assert orbit.revolution(at_s[[0, -1]]).tolist() == [1, 6]


def test_a_revolution_that_begins_at_the_epoch_is_the_first() -> None:
    orbit = Orbit(Body.MOON, Elements(1_840.0, 0.1, 1.0), 0.0)
    assert orbit.revolution(np.array([-1.0, 0.0, orbit.period_s + 1])).tolist() == [0, 1, 2]


def test_a_flyby_has_one_revolution() -> None:
    flyby = Orbit(Body.MOON, Elements(1_840.0, 1.4), 0.0)
    assert flyby.revolution(np.array([-1e6, 0.0, 1e6])).tolist() == [1, 1, 1]
