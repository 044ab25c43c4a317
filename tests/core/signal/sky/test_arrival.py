"""Burns and arrivals, against a numerical integration with tight tolerances (scipy)."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from core.errors import SkyProblem
from core.signal.sky.arrival import Burned, approach
from core.signal.sky.burn import Burn
from core.signal.sky.conic import Conic
from core.signal.sky.elements import Elements
from core.signal.sky.kepler import Numbers
from core.signal.sky.model import SPHERES, Body, Seconds, Vectors
from core.signal.sky.vectors import plus, unit

CENTIMETRE_KM = 1e-5
IGNITION_S = 1_000.0

ALONG = Burn(374.0, along_km_s=-0.854)
FIXED = Burn(374.0, vector_km_s=(0.2, -0.7, 0.5))
burns = st.builds(Burn, st.floats(1, 3_000), st.floats(-0.85, 1.0)) | st.builds(
    Burn, st.floats(1, 3_000), st.none(), st.tuples(*[st.floats(-0.4, 0.4)] * 3)
)


def way_in(body: Body = Body.MOON, low_km: float = 1_848.5, speed_km_s: float = 0.9) -> Conic:
    """A flyby whose low point is 1200 s after the epoch's zero."""
    gm = SPHERES[body].gm_km3_s2
    state = Elements(low_km, 1 + low_km * speed_km_s**2 / gm, 2.9, -1.1, 0.4).state(gm)
    return approach(body, 1_200.0, *state)


def flown(before: Conic, burn: Burn, at_s: Seconds) -> Vectors:
    """Positions while it burns and after, by scipy."""
    gm = before.kepler.gm

    def rates(_: float, state: Numbers, lit: bool) -> Numbers:
        position, velocity = state[:3], state[3:]
        pull = -gm * position / np.linalg.norm(position) ** 3
        if lit and burn.vector_km_s is not None:
            pull = pull + np.array(burn.vector_km_s) / burn.lasts_s
        elif lit:
            push = (burn.along_km_s or 0.0) / burn.lasts_s
            pull = pull + push * velocity / np.linalg.norm(velocity)
        return np.concatenate([velocity, pull])

    cutoff_s = IGNITION_S + burn.lasts_s
    state = np.concatenate(before.state(IGNITION_S))
    found = []
    for lit, from_s, to_s in ((True, IGNITION_S, cutoff_s), (False, cutoff_s, at_s[-1])):
        if to_s <= from_s:
            continue
        here = at_s[(at_s >= from_s) & (at_s < to_s)]
        run = solve_ivp(
            rates,
            (from_s, to_s),
            state,
            method="DOP853",
            t_eval=np.append(here, to_s),
            rtol=1e-13,
            atol=1e-10,
            args=(lit,),
        )
        state = run.y[:, -1]
        found.append(run.y[:3, :-1].T)
    return np.concatenate([*found, [state[:3]]])


def worst_km(before: Conic, burn: Burn, to_s: float) -> float:
    at_s = np.linspace(IGNITION_S, to_s, 200)
    found = Burned(before, IGNITION_S, burn).position_km(at_s)
    return float(np.abs(found - flown(before, burn, at_s)).max())


@pytest.mark.parametrize("burn", [ALONG, FIXED])
def test_a_burn_is_flown_to_the_centimetre(burn: Burn) -> None:
    assert worst_km(way_in(), burn, IGNITION_S + 374) < CENTIMETRE_KM


@pytest.mark.parametrize("burn", [ALONG, FIXED])
def test_the_orbit_after_it_is_true_to_a_decimetre_for_an_hour(burn: Burn) -> None:
    assert worst_km(way_in(), burn, 4_974.0) < 10 * CENTIMETRE_KM


@pytest.mark.parametrize(
    ("body", "low_km", "speed_km_s"), [(Body.MARS, 3_600.0, 2.7), (Body.EARTH, 6_600.0, 5.0)]
)
def test_it_is_as_true_at_mars_and_at_the_earth(
    body: Body, low_km: float, speed_km_s: float
) -> None:
    burn = Burn(1_680.0, along_km_s=-1.0)
    assert worst_km(way_in(body, low_km, speed_km_s), burn, IGNITION_S + 1_680) < CENTIMETRE_KM


@settings(max_examples=25)
@given(burns)
def test_any_burn_is_flown_to_the_centimetre(burn: Burn) -> None:
    assert worst_km(way_in(), burn, IGNITION_S + burn.lasts_s) < CENTIMETRE_KM


def test_before_ignition_it_is_the_way_in() -> None:
    before = way_in()
    at_s = np.linspace(-1e5, IGNITION_S, 100, endpoint=False)
    found = Burned(before, IGNITION_S, ALONG).position_km(at_s)
    assert np.array_equal(found, before.position_km(at_s))


def test_the_path_does_not_jump_at_ignition_or_cutoff() -> None:
    path = Burned(way_in(), IGNITION_S, ALONG)
    for seam_s in (path.ignition_s, path.cutoff_s):
        around = path.position_km(np.array([seam_s - 1e-4, seam_s, seam_s + 1e-4]))
        assert np.abs(np.diff(around, axis=0)).max() < 3e-4


@pytest.mark.parametrize("along_km_s", [-0.854, 0.3])
def test_a_push_without_duration_changes_the_speed_at_once(along_km_s: float) -> None:
    before = way_in()
    path = Burned(before, IGNITION_S, Burn(0.0, along_km_s=along_km_s))
    position, velocity = before.state(IGNITION_S)
    assert path.cutoff_s == IGNITION_S
    here, now = path.after.state(IGNITION_S)
    assert math.dist(here, position) < 1e-9
    assert now == pytest.approx(plus(velocity, unit(velocity), along_km_s), abs=1e-12)


def test_a_very_short_burn_is_the_push_without_duration() -> None:
    pushed = Burned(way_in(), IGNITION_S, Burn(0.0, along_km_s=-0.854))
    burned = Burned(way_in(), IGNITION_S, Burn(0.002, along_km_s=-0.854))
    at_s = np.linspace(IGNITION_S + 1, 9e3, 40)
    assert np.abs(pushed.position_km(at_s) - burned.position_km(at_s)).max() < 0.01


def test_a_burn_before_the_epoch_is_flown_from_the_state_taken_back() -> None:
    before = way_in()
    later = approach(Body.MOON, 9_000.0, *before.state(9_000.0))
    at_s = np.linspace(0, 9_000, 50)
    one, other = (Burned(path, IGNITION_S, ALONG).position_km(at_s) for path in (before, later))
    assert np.abs(one - other).max() < CENTIMETRE_KM


def test_no_push_at_all_leaves_it_on_its_way() -> None:
    at_s = np.linspace(0, 9_000, 50)
    found = Burned(way_in(), IGNITION_S, Burn(374.0, along_km_s=0.0)).position_km(at_s)
    assert np.abs(found - way_in().position_km(at_s)).max() < CENTIMETRE_KM


@pytest.mark.parametrize("lasts_s", [0.0, 374.0])
def test_the_grid_has_ignition_and_cutoff_and_is_close_in_between(lasts_s: float) -> None:
    path = Burned(way_in(), IGNITION_S, Burn(lasts_s, along_km_s=-0.854))
    grid_s = path.grid_s(-5e4, 9e4)
    assert {-5e4, IGNITION_S, IGNITION_S + lasts_s, 9e4} <= set(grid_s)
    assert np.all(np.diff(grid_s) > 0)
    late = grid_s[grid_s >= IGNITION_S]
    assert np.diff(late).max() < path.after.period_s / 10
    assert list(path.grid_s(5e4, 4e4)) == []


def test_a_burn_that_brings_the_craft_to_a_stop_is_told() -> None:
    with pytest.raises(SkyProblem, match="stop"):
        Burned(way_in(), IGNITION_S, Burn(374.0, along_km_s=-9.0))


def test_a_burn_without_end_is_told() -> None:
    with pytest.raises(SkyProblem, match="too many"):
        Burned(way_in(), IGNITION_S, Burn(3e9, along_km_s=0.001))
