"""Trajectory files as paths: between their states, and at their seams."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plan.orbitdata.model import Segment, Trajectory
from core.signal.sky.conic import Conic
from core.signal.sky.elements import Elements
from core.signal.sky.model import SPHERES, Body
from core.signal.sky.trajectory import States, paths_of

GM = SPHERES[Body.MOON].gm_km3_s2


def low_orbit(node_rad: float = 0.0, low_km: float = 1_840.0, eccentricity: float = 0.02) -> Conic:
    state = Elements(low_km, eccentricity, 2.8, node_rad).state(GM)
    return Conic(Body.MOON, GM, 0.0, *state)


def segment(
    conic: Conic, from_s: float, to_s: float, step_s: float = 60.0, centre: str = "moon"
) -> Segment:
    at_s = np.arange(from_s, to_s + step_s / 2, step_s)
    return Segment(
        centre,
        from_s,
        to_s,
        tuple(at_s.tolist()),
        tuple((x, y, z) for x, y, z in conic.position_km(at_s).tolist()),
        tuple((x, y, z) for x, y, z in conic.velocity_km_s(at_s).tolist()),
    )


def paths(*segments: Segment) -> tuple[States, ...]:
    return paths_of(Trajectory("Petrel 4", segments))


def test_at_its_own_states_it_is_where_the_file_says() -> None:
    (path,) = paths(segment(low_orbit(), 0, 7_200))
    at_s = np.arange(0, 7_201, 60.0)
    assert np.abs(path.position_km(at_s) - low_orbit().position_km(at_s)).max() < 1e-9


@given(st.floats(0, 7_200))
def test_between_states_a_minute_apart_a_low_orbit_is_true_to_a_metre(when_s: float) -> None:
    (path,) = paths(segment(low_orbit(), 0, 7_200))
    at_s = np.array([when_s])
    assert np.abs(path.position_km(at_s) - low_orbit().position_km(at_s)).max() < 1e-3


def test_the_grid_has_every_state_and_both_ends() -> None:
    (path,) = paths(segment(low_orbit(), 0, 7_200))
    assert set(np.arange(120, 3_001, 60.0)) | {100.0, 3_030.0} == set(path.grid_s(100, 3_030))
    assert list(path.grid_s(-50, -1)) == []
    assert list(path.grid_s(-50, 1e9)[[0, -1]]) == [0, 7_200]


def test_where_states_lie_too_far_apart_the_grid_lies_closer() -> None:
    (path,) = paths(segment(low_orbit(), 0, 7_200, step_s=900))
    grid_s = path.grid_s(0, 7_200)
    assert np.diff(grid_s).max() < low_orbit().period_s / 10
    assert set(np.arange(0, 7_201, 900.0)) <= set(grid_s)


def test_at_a_seam_it_jumps_and_never_blends() -> None:
    before, after = low_orbit(), low_orbit(node_rad=0.02)
    (path,) = paths(segment(before, 0, 1_200), segment(after, 1_200, 2_400))
    for at_s, flown in ((1_199.999, before), (1_200.0, after), (1_230.0, after)):
        at = np.array([at_s])
        assert np.abs(path.position_km(at) - flown.position_km(at)).max() < 1e-3
    assert {1_199.999, 1_200.0} <= set(path.grid_s(0, 2_400))


def test_where_segments_overlap_the_later_one_holds_from_its_beginning() -> None:
    before, after = low_orbit(), low_orbit(node_rad=0.02)
    (path,) = paths(segment(before, 0, 1_800), segment(after, 1_000, 2_400, 70))
    at_s = np.array([500.0, 999.0, 1_000.0, 1_500.0, 2_300.0])
    expected = np.concatenate([before.position_km(at_s[:2]), after.position_km(at_s[2:])])
    assert np.abs(path.position_km(at_s) - expected).max() < 2e-3
    assert (path.begin_s, path.end_s) == (0, 2_400)
    grid_s = path.grid_s(0, 2_400)
    assert np.all(np.diff(grid_s) > 0)
    assert 1_000.0 in grid_s


def test_only_the_span_that_a_segment_is_good_for_is_flown() -> None:
    early = replace(segment(low_orbit(), 0, 1_800), begin_s=130.0, end_s=1_000.0)
    (path,) = paths(early)
    assert list(path.grid_s(-9e9, 9e9)[[0, -1]]) == [130, 1_000]


def test_a_gap_and_another_body_begin_a_new_path() -> None:
    orbit = low_orbit()
    found = paths(
        segment(orbit, 0, 600, centre="earth"),
        segment(orbit, 600, 1_200),
        segment(orbit, 1_200, 1_800),
        segment(orbit, 1_801, 2_400),
    )
    assert [path.centre for path in found] == [Body.EARTH, Body.MOON, Body.MOON]
    spans = [(path.begin_s, path.end_s) for path in found]
    assert spans == [(0, 600), (600, 1_800), (1_801, 2_400)]


def test_a_segment_that_is_wholly_overtaken_is_left_out() -> None:
    one, other = low_orbit(), low_orbit(node_rad=0.02)
    (path,) = paths(segment(one, 0, 600), segment(other, 0, 1_200))
    at_s = np.array([300.0])
    assert np.abs(path.position_km(at_s) - other.position_km(at_s)).max() < 1e-3


def test_just_beyond_its_states_it_goes_straight_on() -> None:
    (path,) = paths(segment(low_orbit(), 0, 600))
    at_s = np.array([-1.3, 601.3])
    assert np.abs(path.position_km(at_s) - low_orbit().position_km(at_s)).max() < 2e-3


def test_a_segment_of_one_state_goes_straight_on_from_it() -> None:
    single = Segment("moon", 0.0, 10.0, (5.0,), ((2_000.0, 0.0, 0.0),), ((0.0, 1.5, 0.0),))
    (path,) = paths(single)
    found = path.position_km(np.array([0.0, 5.0, 10.0]))
    assert found.tolist() == [[2_000, -7.5, 0], [2_000, 0, 0], [2_000, 7.5, 0]]
    assert list(path.grid_s(0, 10)) == [0, 5, 10]


def test_no_segments_are_no_paths() -> None:
    assert paths() == ()


@pytest.mark.parametrize("step_s", [60.0, 240.0])
def test_far_from_a_body_real_steps_are_close_enough(step_s: float) -> None:
    # A flyby of the Moon at 6500 km, as crewed ones have flown: metres between states.
    flyby = low_orbit(low_km=8_200.0, eccentricity=1.9)
    (path,) = paths(segment(flyby, -24_000, 24_000, step_s))
    at_s = np.linspace(-24_000, 24_000, 4_001)
    apart = np.abs(path.position_km(at_s) - flyby.position_km(at_s)).max()
    assert apart < 3e-3 * (step_s / 240) ** 4 + 1e-9
