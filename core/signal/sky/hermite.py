"""Between states: the cubic that has their positions and velocities at both ends (Hermite)."""

import math

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.model import Seconds, Vectors

Indices = NDArray[np.int64]

_LEAST_PER_TURN = 20


class Hermite:
    """States in pieces; within a piece cubic, never from one piece to the next.

    `starts` are the indices at which pieces begin; `from_s` says from when on each piece holds.
    Beyond its own states a piece goes on straight ahead.
    """

    def __init__(
        self,
        at_s: Seconds,
        position_km: Vectors,
        velocity_km_s: Vectors,
        starts: tuple[int, ...] = (0,),
        from_s: tuple[float, ...] = (-math.inf,),
    ) -> None:
        self.at_s = at_s
        self._position = position_km
        self._velocity = velocity_km_s
        self._first = np.array(starts)
        self._last = np.array([*starts[1:], len(at_s)]) - 1
        self._from_s = np.array(from_s)

    def position_km(self, at_s: Seconds) -> Vectors:
        """The craft at each instant."""
        if len(self._first) == 1:
            first, last = self._first[0], self._last[0]
            left = np.searchsorted(self.at_s, at_s, "right") - 1
        else:
            piece = np.maximum(np.searchsorted(self._from_s, at_s, "right") - 1, 0)
            first, last = self._first[piece], self._last[piece]
            left = self._left(at_s, piece)
        left = np.clip(left, first, np.maximum(last - 1, first))
        right = np.minimum(left + 1, last)
        within = np.clip(at_s, self.at_s[left], self.at_s[right])
        beyond_s = at_s - within
        found = self._cubic(left, right, within - self.at_s[left])
        if np.any(beyond_s):
            edge = np.where(beyond_s > 0, right, left)
            found = found + self._velocity[edge] * beyond_s[:, None]
        return found

    def _left(self, at_s: Seconds, piece: Indices) -> Indices:
        """The state at or before each instant, looked up in the piece that holds there."""
        left = np.zeros(len(at_s), dtype=np.int64)
        for one in np.unique(piece):
            here = piece == one
            first, last = self._first[one], self._last[one]
            known = self.at_s[first : last + 1]
            left[here] = first + np.searchsorted(known, at_s[here], "right") - 1
        return left

    def _cubic(self, left: Indices, right: Indices, since_s: Seconds) -> Vectors:
        step = self.at_s[right] - self.at_s[left]
        step = np.where(step > 0, step, 1.0)
        u = since_s / step
        back = 1 - u
        on_left = (1 + 2 * u) * back * back
        found: Vectors = (
            on_left[:, None] * self._position[left]
            + (1 - on_left)[:, None] * self._position[right]
            + (since_s * back * back)[:, None] * self._velocity[left]
            - (since_s * u * back)[:, None] * self._velocity[right]
        )
        return found

    def grid_s(self) -> Seconds:
        """The instants of all states; more between them where the craft turns fast."""
        apart_s = np.diff(self.at_s)
        turning = np.linalg.norm(np.cross(self._position, self._velocity), axis=1)
        rate = turning / np.maximum(np.sum(self._position**2, axis=1), 1e-9)
        turns = apart_s * np.maximum(rate[1:], rate[:-1]) / math.tau
        steps = np.clip(np.ceil(turns * _LEAST_PER_TURN), 1, 1000).astype(np.int64)
        left = np.repeat(np.arange(len(steps)), steps)
        share = (np.arange(len(left)) - np.repeat(np.cumsum(steps) - steps, steps)) / steps[left]
        return np.append(self.at_s[left] + share * apart_s[left], self.at_s[-1])
