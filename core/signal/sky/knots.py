"""Smooth vectors at any instant, from knots ten minutes apart that are worked out once and kept.

What the search asks for again and again (the bodies, the ground stations) moves smoothly. A cubic
through knots of 600 s keeps a place on the turning Earth to 0.1 m and a body to less than 1 mm.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.model import Seconds

Array = NDArray[np.float64]

STEP_S = 600.0
BLOCK = 144
"""Knots are made by the day."""

KEPT = 100 * BLOCK
"""More than these are let go."""


class Knots:
    """Several smooth functions of time, called lanes, each of some components.

    `sample` gives them at rising instants, shape (lanes, n, components). Not for several threads
    at once: asking for a new stretch of time adds to what is kept.
    """

    def __init__(self, sample: Callable[[Seconds], Array]) -> None:
        self._sample = sample
        self._first = self._end = 0
        self._cubics = np.empty((0, 0, 0))
        self._terms = [np.empty((0, 0))] * 4

    def reach(self, from_s: float, to_s: float) -> None:
        """See to it that all instants between two can be asked for."""
        first = int(from_s // (STEP_S * BLOCK)) * BLOCK
        end = (int(to_s // (STEP_S * BLOCK)) + 1) * BLOCK
        if self._first <= first and end <= self._end:
            return
        apart = end < self._first or first > self._end
        if apart or max(end, self._end) - min(first, self._first) > KEPT:
            self._first = self._end = first
            self._cubics = np.empty((0, 0, 0))
        if self._first == self._end:
            self._cubics = self._made(first, end)
            self._first, self._end = first, end
        else:
            self._extend(first, end)
        flat = self._cubics.reshape(-1, self._cubics.shape[2])
        self._terms = [np.ascontiguousarray(term) for term in np.hsplit(flat, 4)]

    def at(self, at_s: Seconds, lanes: NDArray[np.intp] | None = None) -> Array:
        """The components at instants within reach, shape (n, components), of a lane each."""
        steps = at_s / STEP_S - self._first
        row = steps.astype(np.intp)
        part = (steps - row)[:, None]
        if lanes is not None:
            row = row + lanes * (self._end - self._first)
        first, *others = self._terms
        found: Array = first.take(row, axis=0)
        for term in others:
            found *= part
            found += term.take(row, axis=0)
        return found

    def _extend(self, first: int, end: int) -> None:
        parts = [self._cubics]
        if first < self._first:
            parts.insert(0, self._made(first, self._first))
            self._first = first
        if end > self._end:
            parts.append(self._made(self._end, end))
            self._end = end
        self._cubics = np.concatenate(parts, axis=1)

    def _made(self, first: int, end: int) -> Array:
        """The cubics from each knot to the next, highest power first: (lanes, n, 4 components)."""
        value = self._sample(np.arange(first - 2, end + 3, dtype=np.float64) * STEP_S)
        # The slope from four neighbours errs by the fifth derivative only.
        slope = (value[:, :-4] - 8 * value[:, 1:-3] + 8 * value[:, 3:-1] - value[:, 4:]) / 12
        here, there = value[:, 2:-3], value[:, 3:-2]
        out, into = slope[:, :-1], slope[:, 1:]
        cubics = (
            2 * (here - there) + out + into,
            3 * (there - here) - 2 * out - into,
            out,
            here,
        )
        return np.concatenate(cubics, axis=2)
