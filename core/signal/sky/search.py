"""Where functions of time change their sign, many functions at once.

Each row is a function that is continuous, and known at the instants of a grid. Every local extremum
that might reach over to the other side of zero is refined, for a graze shows only there; then every
change of sign is solved for. All rows and brackets go through each round together: a round costs
little more than one call.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.knots import Array
from core.signal.sky.model import Seconds

Index = NDArray[np.intp]
Ask = Callable[[Seconds, Index], Array]
"""The values of rows at instants; both of shape (n,)."""

ROOT_S = 5e-4
"""How far a change of sign may be from where it is said to be."""

CLOSE_S = 0.45 * ROOT_S
"""It is looked no closer than this to both sides of a guess,"""

NEAR = 0.001
"""and at first so near, as a share of the last step: that far a step may err."""

DIP_S = 0.05
"""Contacts and losses that are shorter are not looked for."""

HOPE = 4.0
"""A dip is given up once zero is this many times farther than what the last round gained."""

ROUNDS = 60


BESIDE_S = 10.0
"""So far to both sides of a change it is looked how fast it comes and goes."""


@dataclass(frozen=True, slots=True)
class Changes:
    """Instants at which rows change their sign, by row and time; `rising`: it is positive after.

    `beside_s` are instants before and after, some `BESIDE_S` away but on the grid, and `beside` the
    values there: both of shape (2, n).
    """

    at_s: Seconds
    row: Index
    rising: NDArray[np.bool_]
    beside_s: Seconds
    beside: Array


def changes(grid_s: Seconds, values: Array, ask: Ask) -> Changes:
    """All changes of sign of rows, whose values on a rising grid are given, shape (rows, n)."""
    above = values >= 0
    row, left = np.nonzero(above[:, 1:] != above[:, :-1])
    crossing = _Brackets(
        grid_s[left],
        grid_s[left + 1],
        values[row, left],
        values[row, left + 1],
        row,
        _through_four(grid_s, values, row, left),
    )
    dips = _dips(grid_s, values, above, ask)
    brackets = crossing if dips is None else _joined(crossing, dips)
    sides = _Sides(ask, brackets, grid_s)
    at_s = solved(brackets, sides.ask)
    sides.look_again(at_s)
    order = np.lexsort((at_s, brackets.row))
    return Changes(
        at_s[order],
        brackets.row[order],
        (brackets.after >= 0)[order],
        sides.at_s[:, order],
        sides.values[:, order],
    )


@dataclass(frozen=True, slots=True)
class _Brackets:
    """Stretches with a change of sign within: instants and values before and after it, a guess."""

    from_s: Seconds
    to_s: Seconds
    before: Array
    after: Array
    row: Index
    guess_s: Seconds


class _Sides:
    """The values to both sides of every guess, asked for with the first round: that costs least."""

    def __init__(self, ask: Ask, brackets: _Brackets, grid_s: Seconds) -> None:
        self._ask = ask
        self._row = brackets.row
        self._ends_s = grid_s[0], grid_s[-1]
        guess_s = np.clip(brackets.guess_s, brackets.from_s, brackets.to_s)
        self._guess_s = np.where(np.isnan(guess_s), brackets.from_s, guess_s)
        self.at_s = self._beside(self._guess_s)
        self.values = np.empty((2, 0))

    def _beside(self, at_s: Seconds) -> Seconds:
        first_s, last_s = self._ends_s
        return np.stack((np.maximum(at_s - BESIDE_S, first_s), np.minimum(at_s + BESIDE_S, last_s)))

    def ask(self, at_s: Seconds, row: Index) -> Array:
        """The values of rows at instants."""
        if self.values.size:
            return self._ask(at_s, row)
        beside = np.concatenate((self._row, self._row))
        found = self._ask(np.concatenate((at_s, self.at_s.ravel())), np.concatenate((row, beside)))
        self.values = found[len(at_s) :].reshape(2, -1)
        return found[: len(at_s)]

    def look_again(self, at_s: Seconds) -> None:
        """Look anew beside those whose guess was poor."""
        poor = np.nonzero(np.abs(at_s - self._guess_s) > BESIDE_S / 2)[0]
        if len(poor):
            self.at_s[:, poor] = self._beside(at_s[poor])
            found = self._ask(self.at_s[:, poor].ravel(), np.tile(self._row[poor], 2))
            self.values[:, poor] = found.reshape(2, -1)


def _joined(one: _Brackets, two: _Brackets) -> _Brackets:
    return _Brackets(
        np.concatenate((one.from_s, two.from_s)),
        np.concatenate((one.to_s, two.to_s)),
        np.concatenate((one.before, two.before)),
        np.concatenate((one.after, two.after)),
        np.concatenate((one.row, two.row)),
        np.concatenate((one.guess_s, two.guess_s)),
    )


def between(grid_s: Seconds, values: Array, row: Index, at_s: Seconds) -> Array:
    """The values of smooth rows at instants, by cubics through four instants of the grid."""
    left = np.clip(np.searchsorted(grid_s, at_s) - 1, 0, max(0, len(grid_s) - 2))
    from_s, terms = _cubics(grid_s, values, row, left)
    past_s = at_s - grid_s[left]
    found: Array = terms[-1]
    for term, node_s in zip(terms[-2::-1], from_s[-2::-1], strict=True):
        found = found * (past_s - node_s) + term
    return found


def _cubics(grid_s: Seconds, values: Array, row: Index, left: Index) -> tuple[Seconds, Array]:
    """The cubics through four instants around each place: instants since it, Newton's terms."""
    count = min(len(grid_s), 4)
    around = np.clip(left - 1, 0, len(grid_s) - count)[:, None] + np.arange(count)
    at_s, terms = (grid_s[around] - grid_s[left][:, None]).T, values[row[:, None], around].T
    for order in range(1, count):  # divided differences
        terms[order:] = (terms[order:] - terms[order - 1 : -1]) / (at_s[order:] - at_s[:-order])
    return at_s, terms


def _through_four(grid_s: Seconds, values: Array, row: Index, left: Index) -> Seconds:
    """Where the cubic through four instants of the grid is zero, to the right of `left`.

    A few rounds of Newton from the chord; no more than a guess, and perhaps outside.
    """
    begin_s, end_s = grid_s[left], grid_s[left + 1]
    at_s, terms = _cubics(grid_s, values, row, left)
    share = values[row, left] / (values[row, left] - values[row, left + 1])
    guess_s = share * (end_s - begin_s)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        for _ in range(3):
            value, slope = terms[-1], np.zeros(len(left))
            for term, from_s in zip(terms[-2::-1], at_s[-2::-1], strict=True):
                past_s = guess_s - from_s
                slope = slope * past_s + value
                value = value * past_s + term
            guess_s = guess_s - value / slope
    return begin_s + guess_s


def _dips(grid_s: Seconds, values: Array, above: NDArray[np.bool_], ask: Ask) -> _Brackets | None:
    """Brackets to both sides of every extremum that reaches over between the grid's instants."""
    alike = above[:, 1:] == above[:, :-1]
    row, middle = np.nonzero(_promising(grid_s, np.abs(values)) & alike[:, 1:] & alike[:, :-1])
    if not len(row):
        return None
    around = middle[:, None] + np.arange(3)
    at_s, value = grid_s[around], values[row[:, None], around]
    side = np.where(above[row, middle + 1], 1.0, -1.0)
    found, found_s, found_value = _deepest(at_s, value * side[:, None], row, side, ask)
    at_s, value, row = at_s[found], value[found], row[found]
    found_value = found_value * side[found]
    rise = value[:, [0, 2]] / found_value[:, None]
    # Zeros of parabolas with their vertex there, one to each side.
    guess_s = found_s[:, None] + (at_s[:, [0, 2]] - found_s[:, None]) / np.sqrt(1 - rise)
    return _Brackets(
        np.concatenate((at_s[:, 0], found_s)),
        np.concatenate((found_s, at_s[:, 2])),
        np.concatenate((value[:, 0], found_value)),
        np.concatenate((found_value, value[:, 2])),
        np.concatenate((row, row)),
        guess_s.T.ravel(),
    )


def _promising(grid_s: Seconds, far: Array) -> NDArray[np.bool_]:
    """Which inner instants are nearer to zero than both neighbours, and near enough.

    A parabola goes below the least of three values by no more than the greater rise to the others
    times w^2 / 4 n (n + w), where n and w are the narrow and the wide side; eight times that is
    allowed for. So a level stretch is not searched. Of equals only the last counts, lest a dip be
    found twice.
    """
    here = far[:, 1:-1]
    rise = np.maximum(far[:, :-2], far[:, 2:]) - here
    steps = np.diff(grid_s)
    narrow, wide = np.minimum(steps[1:], steps[:-1]), np.maximum(steps[1:], steps[:-1])
    reach = rise * (2 * wide * wide / (narrow * (narrow + wide)))
    near: NDArray[np.bool_] = (here <= far[:, :-2]) & (here < far[:, 2:]) & (here < reach)
    return near


def _deepest(
    at_s: Seconds, value: Array, row: Index, side: Array, ask: Ask
) -> tuple[Index, Seconds, Array]:
    """Which triples around a least value reach below zero: their places, an instant, its value.

    A round looks around the vertex of the parabola through the triple, and half way to both sides,
    so a triple shrinks to a half at worst, and mostly to a tenth.
    """
    alive = np.arange(len(row))
    done: list[tuple[Index, Seconds, Array]] = [(alive[:0], at_s[:0, 0], value[:0, 0])]
    for _ in range(ROUNDS):
        if not len(alive):
            break
        before = value[:, 1]
        fresh_s = _looked_at(at_s, value)
        count = fresh_s.shape[1]
        fresh = ask(fresh_s.ravel(), np.repeat(row, count)).reshape(-1, count) * side[:, None]
        at_s, value = _least_triple(np.hstack((at_s, fresh_s)), np.hstack((value, fresh)))
        least = value[:, 1]
        below = least < 0
        if below.any():
            done.append((alive[below], at_s[below, 1], least[below]))
        gain = before - least + _vertex(at_s, value)[1]
        go_on = ~below & (least < HOPE * gain) & (at_s[:, 2] - at_s[:, 0] > DIP_S)
        alive, at_s, value = alive[go_on], at_s[go_on], value[go_on]
        row, side = row[go_on], side[go_on]
    found, found_s, found_value = (np.concatenate(part) for part in zip(*done, strict=True))
    return found, found_s, found_value


def _looked_at(at_s: Seconds, value: Array) -> Seconds:
    """Five instants within each triple at which to look next."""
    left, middle, right = at_s.T
    near = (right - left) / 20
    guess = np.clip(_vertex(at_s, value)[0], left + 1.5 * near, right - 1.5 * near)
    # An instant that is known already would teach nothing.
    guess = np.where(np.abs(guess - middle) < near / 2, middle + near / 2, guess)
    return np.stack(
        ((left + middle) / 2, guess - near, guess, guess + near, (middle + right) / 2), axis=1
    )


def _least_triple(at_s: Seconds, value: Array) -> tuple[Seconds, Array]:
    """The instant of the least value, with its neighbours."""
    order = np.argsort(at_s, axis=1)
    at_s = np.take_along_axis(at_s, order, axis=1)
    value = np.take_along_axis(value, order, axis=1)
    least = np.clip(np.argmin(value, axis=1), 1, at_s.shape[1] - 2)
    around = least[:, None] + np.arange(-1, 2)
    # Where the same instant was looked at twice, its neighbour is the one after.
    each = np.arange(len(least))
    around[:, 2] += at_s[each, around[:, 2]] == at_s[each, least]
    return np.take_along_axis(at_s, around, axis=1), np.take_along_axis(value, around, axis=1)


def _vertex(at_s: Seconds, value: Array) -> tuple[Seconds, Array]:
    """The vertex of the parabola through each triple, and how far it is below the middle."""
    left, right = at_s[:, 0] - at_s[:, 1], at_s[:, 2] - at_s[:, 1]
    fall, rise = (value[:, 0] - value[:, 1]) / left, (value[:, 2] - value[:, 1]) / right
    curve = (rise - fall) / (right - left)
    slope = rise - curve * right
    bent = curve > 0
    off = np.where(bent, -slope / np.where(bent, 2 * curve, 1.0), 0.0)
    return at_s[:, 1] + off, -off * slope / 2


def solved(brackets: _Brackets, ask: Ask) -> Seconds:
    """Where the sign changes within each bracket, all brackets a round.

    A round looks near to both sides of a guess, so that a good one ends the search; the two also
    give the slope for the next guess (Newton). Where steps do not shrink, it looks at the thirds.
    """
    answer = np.empty(len(brackets.row))
    alive, row = np.arange(len(answer)), brackets.row
    a, b, above = brackets.from_s, brackets.to_s, brackets.before >= 0
    guess, step = brackets.guess_s, (b - a) / 4
    for _ in range(ROUNDS):
        if not len(alive):
            break
        near = np.clip(step * NEAR, CLOSE_S, (b - a) / 3)
        guessed = (a - near < guess) & (guess < b + near)
        guess = np.clip(guess, a + near, b - near)
        p = np.where(guessed, guess - near, a + (b - a) / 3)
        q = np.where(guessed, guess + near, b - (b - a) / 3)
        value = ask(np.concatenate((p, q)), np.concatenate((row, row)))
        at_p, at_q = value[: len(p)], value[len(p) :]
        after_p, after_q = (at_p >= 0) == above, (at_q >= 0) == above
        a = np.where(after_p, np.where(after_q, q, p), a)
        b = np.where(after_p & after_q, b, np.where(after_p, q, p))
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            new = p - at_p * (q - p) / (at_q - at_p)
            before, step = step, np.where(guessed, np.abs(new - guess), (b - a) / 2)
            new = np.where(guessed & ~(step <= before / 2), np.nan, new)
        done = b - a < ROOT_S
        if done.any():
            answer[alive[done]] = np.where((a < new) & (new < b), new, a)[done]
            left = ~done
            alive, row, above = alive[left], row[left], above[left]
            a, b, new, step = a[left], b[left], new[left], step[left]
        guess = new
    answer[alive] = a
    return answer
