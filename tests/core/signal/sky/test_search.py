"""Changes of sign: none missed, none twice, each where it is."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.signal.sky.knots import Array
from core.signal.sky.model import Seconds
from core.signal.sky.search import BESIDE_S, ROOT_S, Changes, Index, changes

GRID_S = np.linspace(0.0, 6000.0, 21)


class Parabolas:
    """Rows that are parabolas: a place and a depth of the vertex, and how they bend."""

    def __init__(self, *vertices: tuple[float, float, float]) -> None:
        self._place, self._depth, self._bend = np.array(vertices).T
        self.asked = 0

    def ask(self, at_s: Seconds, row: Index) -> Array:
        self.asked += len(at_s)
        found: Array = self._depth[row] + self._bend[row] * (at_s - self._place[row]) ** 2
        return found

    def changes(self, grid_s: Seconds = GRID_S) -> Changes:
        rows = np.arange(len(self._place))
        values = [self.ask(grid_s, np.full(len(grid_s), row)) for row in rows]
        self.asked = 0
        return changes(grid_s, np.array(values), self.ask)


@given(
    st.floats(151.0, 5849.0),
    st.floats(0.5, 2000.0),
    st.sampled_from([1.0, -1.0]),
    st.floats(-6.0, 3.0),
)
def test_a_dip_is_found_however_short_it_is_and_wherever_between_instants(
    place_s: float, half_s: float, side: float, size: float
) -> None:
    assume(min(abs(place_s - half_s), abs(place_s + half_s - 6000)) > 0.01)
    bend = side * 10.0**size
    found = Parabolas((place_s, -bend * half_s**2, bend)).changes()
    there = [at_s for at_s in (place_s - half_s, place_s + half_s) if 0 < at_s < 6000]
    assert len(found.at_s) == len(there)
    assert np.allclose(found.at_s, there, atol=ROOT_S, rtol=0)
    assert found.rising.tolist() == [(at_s > place_s) == (side > 0) for at_s in there]


def test_what_does_not_reach_zero_has_no_change() -> None:
    found = Parabolas((3100.0, 1e-3, 1.0), (3100.0, -1e-3, -1.0), (3100.0, 0.0, 1.0)).changes()
    assert len(found.at_s) == 0


def test_rows_are_told_apart_and_each_is_in_order() -> None:
    found = Parabolas((3000.0, -1.0, 1e-6), (1000.0, 2.0, -1e-4), (5000.0, -3.0, 1e-4)).changes()
    assert found.row.tolist() == [0, 0, 1, 1, 2, 2]
    assert found.rising.tolist() == [False, True, True, False, False, True]
    assert all(np.diff(found.at_s)[::2] > 0)


def test_a_level_stretch_is_not_searched() -> None:
    level = Parabolas((3000.0, 100.0, 1e-12))
    assert len(level.changes().at_s) == 0
    assert level.asked == 0


def test_what_is_far_from_zero_is_given_up_after_a_round() -> None:
    far = Parabolas((3100.0, 1.0, 1e-3))
    far.changes()
    assert far.asked < 150


def test_a_jump_is_a_change_where_it_happens() -> None:
    def ask(at_s: Seconds, _: Index) -> Array:
        return np.where(at_s < 1234.5678, 5.0, -0.01)

    found = changes(GRID_S, ask(GRID_S, np.zeros(21, dtype=np.intp))[None], ask)
    assert found.at_s == pytest.approx([1234.5678], abs=ROOT_S)


def test_zero_at_an_instant_of_the_grid_counts_once() -> None:
    def ask(at_s: Seconds, _: Index) -> Array:
        return at_s - 3000.0

    found = changes(GRID_S, ask(GRID_S, np.zeros(21, dtype=np.intp))[None], ask)
    assert found.at_s == pytest.approx([3000.0], abs=ROOT_S)


@given(
    st.floats(300.0, 5000.0), st.floats(0.0, math.tau), st.floats(-0.9999, 0.9999), st.floats(1, 9)
)
def test_every_change_of_a_wave_is_found(
    period_s: float, phase: float, level: float, scale: float
) -> None:
    def ask(at_s: Seconds, _: Index) -> Array:
        found: Array = scale * (np.sin(math.tau * at_s / period_s + phase) - level)
        return found

    grid_s = np.linspace(0.0, 6000.0, math.ceil(6000 / period_s * 10) + 1)
    found = changes(grid_s, ask(grid_s, np.zeros(len(grid_s), dtype=np.intp))[None], ask)
    rise = math.asin(level)
    turn = np.arange(-2, 25)
    there = np.concatenate((rise + math.tau * turn, math.pi - rise + math.tau * turn)) - phase
    there = np.sort(there * period_s / math.tau)
    assume(np.abs(there[:, None] - (0.0, 6000.0)).min() > 1e-6)  # in or out is not rounding's
    there = there[(there > 0) & (there < 6000)]
    assert np.allclose(found.at_s, there, atol=2 * ROOT_S, rtol=0)


def test_what_runs_smoothly_takes_two_rounds() -> None:
    looks: list[int] = []

    def ask(at_s: Seconds, _: Index) -> Array:
        looks.append(len(at_s))
        found: Array = 300 + 1800 * np.sin(math.tau * at_s / 7200)
        return found

    grid_s = np.linspace(0.0, 72_000.0, 401)
    values = ask(grid_s, np.zeros(401, dtype=np.intp))[None]
    looks.clear()
    found = changes(grid_s, values, ask)
    assert len(found.at_s) == 20
    assert looks == [80, 40]
    assert np.allclose(found.beside_s - found.at_s, [[-BESIDE_S], [BESIDE_S]], atol=1)
