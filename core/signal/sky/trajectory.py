"""A trajectory file as paths: one for each run of segments that join about the same body."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from core.plan.orbitdata.model import Segment, Trajectory
from core.signal.sky.hermite import Hermite
from core.signal.sky.model import Body, Seconds, Vectors

_JUST_BEFORE_S = 1e-3

Piece = tuple[Segment, float, float]
"""A segment, and from when to when it is flown."""


class States:
    """A run of segments about one body. At a seam the later segment holds, and it may jump."""

    def __init__(self, pieces: tuple[Piece, ...]) -> None:
        segments = [segment for segment, _, _ in pieces]
        self.centre = Body(segments[0].centre)
        self.begin_s, self.end_s = pieces[0][1], pieces[-1][2]
        self._seams = np.array([begin_s for _, begin_s, _ in pieces[1:]])
        ends = np.cumsum([len(segment.at_s) for segment in segments])
        self._states = Hermite(
            np.concatenate([np.array(segment.at_s) for segment in segments]),
            np.concatenate([np.array(segment.position_km) for segment in segments]),
            np.concatenate([np.array(segment.velocity_km_s) for segment in segments]),
            starts=(0, *(int(end) for end in ends[:-1])),
            from_s=tuple(begin_s for _, begin_s, _ in pieces),
        )

    def position_km(self, at_s: Seconds) -> Vectors:
        """The craft about the centre; beyond its states straight ahead."""
        return self._states.position_km(at_s)

    def grid_s(self, from_s: float, to_s: float) -> Seconds:
        """The file's own instants, both sides of every seam, and both ends."""
        from_s, to_s = max(from_s, self.begin_s), min(to_s, self.end_s)
        if from_s > to_s:
            return np.empty(0)
        all_s = np.concatenate([self._states.grid_s(), self._seams, self._seams - _JUST_BEFORE_S])
        inner = all_s[(all_s > from_s) & (all_s < to_s)]
        return np.unique(np.concatenate([[from_s], inner, [to_s]]))


def paths_of(trajectory: Trajectory) -> tuple[States, ...]:
    """The paths of a trajectory, in order of time; they do not overlap.

    A segment ends where the next begins. A new path begins where the body changes, and after a
    stretch that no segment covers.
    """
    runs: list[list[Piece]] = []
    for piece in _pieces(trajectory.segments):
        segment, begin_s, _ = piece
        if runs and runs[-1][-1][2] == begin_s and runs[-1][-1][0].centre == segment.centre:
            runs[-1].append(piece)
        else:
            runs.append([piece])
    return tuple(States(tuple(run)) for run in runs)


def _pieces(segments: tuple[Segment, ...]) -> Iterator[Piece]:
    """Each segment with the span it is flown for; one that is wholly overtaken is left out."""
    ordered = sorted(segments, key=lambda segment: segment.begin_s)
    for segment, later in pairwise(ordered):
        end_s = min(segment.end_s, later.begin_s)
        if end_s > segment.begin_s:
            yield segment, segment.begin_s, end_s
    if ordered:
        yield ordered[-1], ordered[-1].begin_s, ordered[-1].end_s
