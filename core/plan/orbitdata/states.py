"""The states of one segment of a CCSDS OEM, taken one by one, and the segment they make."""

import math
import re
from collections.abc import Sequence
from typing import Protocol

from core.errors import TimeProblem
from core.plan.orbitdata.metadata import SLACK_S, Metadata
from core.plan.orbitdata.model import Segment
from core.plan.orbitdata.telling import AGAIN, Spot, Telling, quoted

PARTS = ("EPOCH", "X", "Y", "Z", "X_DOT", "Y_DOT", "Z_DOT")
ACCELERATION = ("X_DDOT", "Y_DDOT", "Z_DDOT")
_COUNTS = (len(PARTS), len(PARTS) + len(ACCELERATION))

_NO_NUMBER = re.compile(r"[^0-9.eE+ -]")
_FARTHEST_KM = 1e10
_FASTEST_KM_S = 1e3

_Triple = tuple[float, float, float]


class Spots(Protocol):
    """Where the parts of one state stand."""

    def of(self, part: int) -> Spot:
        """Where the part of that number begins; of one that is missing, where it would."""


_Epoch = tuple[float, str, Spots]
"""An instant, as it was written, and where."""


class States:
    """Collects the states of a segment. What is wrong with one is told, and it is left out."""

    def __init__(self, telling: Telling, metadata: Metadata, spot: Spot) -> None:
        self._telling = telling
        self._metadata = metadata
        self._spot = spot
        self._tt_s = metadata.epochs.tt_s
        self._least_s = metadata.start[0] - SLACK_S
        self._most_s = metadata.stop[0] + SLACK_S
        self._outside = self._spoilt = False
        self._first: _Epoch | None = None
        self._last: _Epoch | None = None
        self._at_s: list[float] = []
        self._position_km: list[_Triple] = []
        self._velocity_km_s: list[_Triple] = []

    def add(self, parts: Sequence[str], spots: Spots) -> None:
        """Take a state: its epoch, position and velocity, and maybe its acceleration."""
        at_s = self._epoch_s(parts[0], spots)
        if len(parts) not in _COUNTS:
            self._tell_count(len(parts), spots)
            return
        numbers = self._numbers(parts, spots)
        if at_s is None or numbers is None:
            return
        x, y, z, x_dot, y_dot, z_dot, *_ = numbers
        self._at_s.append(at_s)
        self._position_km.append((x, y, z))
        self._velocity_km_s.append((x_dot, y_dot, z_dot))

    def _epoch_s(self, text: str, spots: Spots) -> float | None:
        """The instant of an epoch; None where it is none, or is not after the one before."""
        try:
            at_s = self._tt_s(text)
        except TimeProblem as problem:
            self._telling.problem(spots.of(0), problem.what, problem.hint)
            self.spoil()
            return None
        if self._last is not None and at_s <= self._last[0]:
            what = "stands twice" if at_s == self._last[0] else "is before the one above it"
            hint = "Epochs rise; after a jump a new segment begins"
            self._telling.problem(spots.of(0), f"the epoch {text} {what}", hint)
            return None
        if not self._least_s <= at_s <= self._most_s:
            self._tell_outside(at_s, text, spots)
        self._last = (at_s, text, spots)
        if self._first is None:
            self._first = self._last
        return at_s

    def _tell_outside(self, at_s: float, text: str, spots: Spots) -> None:
        """Tell the first epoch outside the written span; the others would say no more."""
        if self._outside:
            return
        self._outside = True
        early = at_s < self._least_s
        what = "before START_TIME" if early else "after STOP_TIME"
        written = self._metadata.start[1] if early else self._metadata.stop[1]
        self._telling.problem(
            spots.of(0), f"the epoch {text} is {what} ({written})", "Mend the time in the metadata"
        )

    def _tell_count(self, count: int, spots: Spots) -> None:
        if count == 4:
            what, hint = "this state has no velocity", "Ask for states with velocity"
        else:
            what = f"this state has {count} parts"
            hint = "An epoch, three of position, three of velocity, and maybe three more"
        self._telling.problem(spots.of(count), what, hint)

    def _numbers(self, parts: Sequence[str], spots: Spots) -> list[float] | None:
        if _NO_NUMBER.search(" ".join(parts[1:])) is None:
            try:
                numbers = [float(part) for part in parts[1:]]
            except ValueError:
                pass
            else:
                return numbers if self._likely(numbers, spots) else None
        for at, part in enumerate(parts[1:], start=1):
            if not _is_number(part):
                hint = "Digits, a decimal point, and maybe E with an exponent"
                self._telling.problem(spots.of(at), f"{quoted(part)} is no number", hint)
        return None

    def _likely(self, numbers: list[float], spots: Spots) -> bool:
        farthest_km, fastest_km_s = max(map(abs, numbers[:3])), max(map(abs, numbers[3:6]))
        if farthest_km <= _FARTHEST_KM and fastest_km_s <= _FASTEST_KM_S:
            return True
        for at, number in enumerate(numbers[:6], start=1):
            if abs(number) > (_FARTHEST_KM if at < 4 else _FASTEST_KM_S):
                what = "this is too far" if at < 4 else "this is too fast"
                self._telling.problem(spots.of(at), what, "States are in km and km/s")
                break
        return False

    def spoil(self) -> None:
        """A state was left out whose epoch is not known: how much is covered cannot be judged."""
        self._spoilt = True

    def finish(self) -> Segment | None:
        """The segment; None where it has too few states to fly along, which is told."""
        if self._first is None or self._last is None:
            if self._spoilt:
                return None
            self._telling.problem(self._spot, "this segment has no states", AGAIN)
            return None
        if not self._spoilt:
            self._check_covered(self._first, self._last)
        if len(self._at_s) < 2:
            if not self._telling.any:
                what = "one state alone tells no path"
                self._telling.problem(
                    self._last[2].of(0), what, "A segment needs two states or more"
                )
            return None
        begin_s, end_s = self._metadata.useable_s
        begin_s, end_s = max(begin_s, self._at_s[0]), min(end_s, self._at_s[-1])
        if begin_s >= end_s:
            what = "no states lie in the useable span of this segment"
            self._telling.problem(self._spot, what, "Mend USEABLE_START_TIME and USEABLE_STOP_TIME")
            return None
        return Segment(
            centre=self._metadata.centre,
            begin_s=begin_s,
            end_s=end_s,
            at_s=tuple(self._at_s),
            position_km=tuple(self._position_km),
            velocity_km_s=tuple(self._velocity_km_s),
        )

    def _check_covered(self, first: _Epoch, last: _Epoch) -> None:
        """Tell where the states begin late or end early: the file may have been cut off."""
        start_s, stop_s = self._metadata.start[0], self._metadata.stop[0]
        at_s, text, spots = first
        if math.isfinite(start_s) and at_s > start_s + SLACK_S:
            what = f"the states begin at {text}, after START_TIME ({self._metadata.start[1]})"
            self._telling.problem(spots.of(0), what, AGAIN)
        at_s, text, spots = last
        if math.isfinite(stop_s) and at_s < stop_s - SLACK_S:
            what = f"the states end at {text}, before STOP_TIME ({self._metadata.stop[1]})"
            self._telling.problem(spots.of(0), what, AGAIN)


def _is_number(part: str) -> bool:
    if _NO_NUMBER.search(part) or " " in part:
        return False
    try:
        float(part)
    except ValueError:
        return False
    return True
