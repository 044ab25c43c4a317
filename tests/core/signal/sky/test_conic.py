"""Two-body motion, against SPICE and against the laws it must keep."""

import math
from itertools import pairwise

import numpy as np
import pytest
import spiceypy
from hypothesis import example, given
from hypothesis import strategies as st

from core.errors import SkyProblem
from core.signal.sky.conic import Conic
from core.signal.sky.elements import Elements
from core.signal.sky.kepler import Numbers
from core.signal.sky.model import SPHERES, Body, Vectors
from core.signal.sky.vectors import Triple

GM = SPHERES[Body.MOON].gm_km3_s2
SHAPES = (0.0, 1e-12, 1e-8, 0.001, 0.1, 0.72, 0.97, 0.9999, 1.0, 1.0001, 1.3, 2.5, 40.0)
WHENS_S = np.array([-4e5, -6e4, -7e3, -900.0, -1.0, 0.0, 0.5, 333.0, 2e3, 9e4, 5e5])

shapes = st.floats(0, 8) | st.floats(0.99, 1.01) | st.floats(-12, -3).map(lambda x: 1 - 10**x)
angles = st.floats(-math.pi, math.pi)
elements_ = st.builds(
    Elements, st.floats(1738, 20_000), shapes, st.floats(0, math.pi), angles, angles, angles
).filter(lambda elements: math.hypot(*elements.state(GM)[0]) < 1e8)


def about_the_moon(position: Triple, velocity: Triple, epoch_s: float = 0.0) -> Conic:
    return Conic(Body.MOON, GM, epoch_s, position, velocity)


def apart_km(found: Vectors, expected: Vectors) -> Numbers:
    """How far apart, as a share of the distance where that is beyond 2000 km."""
    gaps = np.linalg.norm(found - expected, axis=1)
    apart: Numbers = gaps / np.maximum(np.linalg.norm(expected, axis=1) / 2_000, 1)
    return apart


def moon_elements(eccentricity: float, mean_anomaly_rad: float = 0.7) -> Elements:
    return Elements(1848.52, eccentricity, 2.9, -1.1, 0.4, mean_anomaly_rad)


@pytest.mark.parametrize("eccentricity", SHAPES)
def test_it_flies_as_spice_flies_it(eccentricity: float) -> None:
    position, velocity = moon_elements(eccentricity).state(GM)
    conic = about_the_moon(position, velocity, 1_000.0)
    states = np.array([spiceypy.prop2b(GM, (*position, *velocity), when) for when in WHENS_S])
    assert apart_km(conic.position_km(1_000 + WHENS_S), states[:, :3]).max() < 1e-6
    assert np.abs(conic.velocity_km_s(1_000 + WHENS_S) - states[:, 3:]).max() < 1e-9


@pytest.mark.parametrize("eccentricity", SHAPES)
def test_elements_give_the_state_that_spice_gives(eccentricity: float) -> None:
    elements = moon_elements(eccentricity)
    state = spiceypy.conics(
        (
            elements.low_km,
            eccentricity,
            elements.inclination_rad,
            elements.node_rad,
            elements.argument_rad,
            elements.mean_anomaly_rad,
            0.0,
            GM,
        ),
        0.0,
    )
    position, velocity = elements.state(GM)
    assert apart_km(np.array([position]), state[None, :3])[0] < 1e-8
    assert np.abs(np.array(velocity) - state[3:]).max() < 1e-11


@given(elements_, st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=8))
def test_energy_and_angular_momentum_are_kept(elements: Elements, whens: list[float]) -> None:
    position, velocity = elements.state(GM)
    conic = about_the_moon(position, velocity)
    r, v = conic.position_km(np.array(whens)), conic.velocity_km_s(np.array(whens))
    energy = np.sum(v * v, axis=1) / 2 - GM / np.linalg.norm(r, axis=1)
    deepest = GM / elements.low_km
    assert np.abs(energy + conic.kepler.alpha / 2).max() < 1e-9 * max(deepest, float(energy.max()))
    spin = np.cross(position, velocity)
    assert np.abs(np.cross(r, v) - spin).max() < 1e-8 * float(np.linalg.norm(spin))


@given(elements_, st.floats(-2e5, 2e5))
def test_there_and_back_is_where_it_began(elements: Elements, away_s: float) -> None:
    begun = elements.state(GM)
    there = about_the_moon(*begun).state(away_s)
    back = about_the_moon(*there, away_s).state(0.0)
    # A millimetre a revolution: what rounding does to the period in a state.
    turns = 1 + abs(away_s) * math.sqrt(GM / elements.low_km**3)
    assert math.dist(begun[0], back[0]) < 1e-6 * turns * (1 + math.hypot(*begun[0]) / 2_000)


@example(Elements(1738.0, 2.0, 0.0, 0.0, 0.0, 0.0), 0.0, 0.0)  # nothing but the low point itself
@given(elements_, st.floats(-1e5, 1e5), st.floats(0, 3e5))
def test_the_grid_is_close_wherever_the_craft_turns(
    elements: Elements, from_s: float, lasts_s: float
) -> None:
    conic = about_the_moon(*elements.state(GM))
    grid_s = conic.grid_s(from_s, from_s + lasts_s)
    assert grid_s[0] == from_s
    assert grid_s[-1] == from_s + lasts_s
    assert np.all(np.diff(grid_s) > 0)
    steps_s = np.diff(grid_s)
    assert not len(steps_s) or steps_s.max() < conic.period_s / 9.99
    for one, other in pairwise(grid_s):
        on_the_way = conic.position_km(np.linspace(one, other, 3))
        assert _turned_rad(on_the_way[0], on_the_way[1]) < math.tau / 10
        assert _turned_rad(on_the_way[1], on_the_way[2]) < math.tau / 10


def _turned_rad(one: Numbers, other: Numbers) -> float:
    return math.atan2(float(np.linalg.norm(np.cross(one, other))), float(one @ other))


def test_the_grid_keeps_to_the_path_s_own_span() -> None:
    position, velocity = moon_elements(0.1).state(GM)
    conic = Conic(Body.MOON, GM, 0.0, position, velocity, -100.0, 900.0)
    assert list(conic.grid_s(-1e6, 1e6)[[0, -1]]) == [-100.0, 900.0]
    assert len(conic.grid_s(901.0, 1e6)) == 0


def test_a_low_pass_of_a_minute_is_not_stepped_over() -> None:
    gm = SPHERES[Body.EARTH].gm_km3_s2
    position, velocity = Elements(6_500.0, 0.97).state(gm)
    conic = Conic(Body.EARTH, gm, 0.0, position, velocity)
    grid_s = conic.grid_s(-3e5, 3e5)
    low = np.linalg.norm(conic.position_km(grid_s), axis=1) < 6_550
    assert np.count_nonzero(low) >= 1
    assert np.diff(grid_s[np.abs(grid_s) < 300]).max() < 200


@pytest.mark.parametrize(
    ("position", "velocity"),
    [
        ((2_000.0, 0.0, 0.0), (-1.0, 0.0, 0.0)),
        ((2_000.0, 0.0, 0.0), (0.0, 0.0, 0.0)),
        ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0)),
        ((math.inf, 0.0, 0.0), (1.0, 0.0, 0.0)),
    ],
)
def test_a_state_without_an_orbit_is_told(position: Triple, velocity: Triple) -> None:
    with pytest.raises(SkyProblem):
        about_the_moon(position, velocity)
