"""When each ground station reaches a craft, and when a body hides it: contacts out of geometry."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.signal.seen import Hidden, Seen, Sighting
from core.signal.sky.margins import BEHIND, Margins
from core.signal.sky.model import Ephemeris, Observer, Path, Seconds
from core.signal.sky.search import changes
from core.signal.sky.sight import Sky
from core.signal.sky.timescale import tt_s, utc_ms

HIDDEN = frozenset(BEHIND.values())
"""The causes that a body makes."""

STEP_S = 600.0
"""No grid is coarser: the Earth turns, and a station rises."""

END_S = 1.0
"""Looked at this near to both ends of a search, so that a dip beside them has two sides."""


def sightings(
    path: Path,
    ephemeris: Ephemeris,
    sites: Mapping[str, Observer],
    from_ms: int,
    to_ms: int,
    *,
    light_time: bool = True,
) -> Seen:
    """When sites reach a craft between two instants of reception; see `seen`."""
    return seen(Sky(ephemeris, sites, light_time=light_time), path, from_ms, to_ms)


def seen(sky: Sky, path: Path, from_ms: int, to_ms: int) -> Seen:
    """When the sites of a sky reach a craft between two instants of reception.

    Only what is sent within the path's span counts. Edges are good to 1 ms. Raises EphemerisRange
    where the bodies are not known.
    """
    from_s, to_s = tt_s(np.array([from_ms, to_ms], dtype=np.float64))
    grid_s = _grid(path, from_s - sky.way_s(path, from_s), to_s)
    if not len(grid_s) or not sky.sites:
        return Seen((), ())
    margins = Margins(sky, path, grid_s)
    stations = list(_stations(margins, list(sky.sites), from_ms, to_ms))
    return Seen(
        tuple(sorted((s for one in stations for s in one.sightings()), key=lambda s: s.from_ms)),
        tuple(sorted((h for one in stations for h in one.hidden()), key=lambda h: h.from_ms)),
    )


def _grid(path: Path, from_s: float, to_s: float) -> Seconds:
    """Where the margins are looked at first: the path's own instants, and some between."""
    from_s, to_s = max(from_s, path.begin_s), min(to_s, path.end_s)
    if from_s >= to_s:
        return np.empty(0)
    own_s = path.grid_s(from_s, to_s)
    parts = np.ceil(np.diff(own_s) / STEP_S).astype(np.intp)
    first = np.repeat(np.cumsum(parts) - parts, parts)
    share = (np.arange(len(first)) - first) / np.repeat(parts, parts)
    fine_s = np.repeat(own_s[:-1], parts) + share * np.repeat(np.diff(own_s), parts)
    near_s = [from_s, from_s + END_S, to_s - END_S, to_s]
    every_s = np.unique(np.concatenate((fine_s, near_s)))
    return every_s[(every_s >= from_s) & (every_s <= to_s)]


@dataclass(frozen=True, slots=True)
class _Station:
    """One site's margins over time: which are above zero between one bound and the next.

    `above[i]`, a bit for each margin, holds from bound i to bound i + 1. Each bound has the cause
    of the margin that changes there, and its give; those of the search itself have neither.
    """

    ground: str
    bounds_ms: list[int]
    causes: list[str]
    gives_ms: list[int]
    above: NDArray[np.int64]
    kinds: tuple[str, ...]

    def sightings(self) -> Iterator[Sighting]:
        """The stretches in which all are above zero."""
        everything = (1 << len(self.kinds)) - 1
        for begin, end in self._runs(self.above == everything):
            yield Sighting(
                self.ground,
                self.bounds_ms[begin],
                self.bounds_ms[end],
                self.causes[begin],
                self.causes[end],
                self.gives_ms[begin],
                self.gives_ms[end],
            )

    def hidden(self) -> Iterator[Hidden]:
        """The stretches in which one body hides what is high enough and known."""
        bodies = [place for place, cause in enumerate(self.kinds) if cause in HIDDEN]
        needed = (1 << len(self.kinds)) - 1 - sum(1 << place for place in bodies)
        high = (self.above & needed) == needed
        for place in bodies:
            for begin, end in self._runs(high & (self.above & (1 << place) == 0)):
                yield Hidden(
                    self.ground, self.bounds_ms[begin], self.bounds_ms[end], self.kinds[place]
                )

    def _runs(self, flags: NDArray[np.bool_]) -> Iterator[tuple[int, int]]:
        """From which bound to which the flags are up, where that takes any time."""
        steps = np.diff(flags.astype(np.int8), prepend=0, append=0)
        begins, ends = np.nonzero(steps > 0)[0].tolist(), np.nonzero(steps < 0)[0].tolist()
        for begin, end in zip(begins, ends, strict=True):
            if self.bounds_ms[begin] < self.bounds_ms[end]:
                yield begin, end


def _stations(margins: Margins, grounds: list[str], from_ms: int, to_ms: int) -> Iterator[_Station]:
    """The margins of each site, searched together."""
    count = len(margins.kinds)
    found = changes(margins.grid_s, margins.values.reshape(-1, len(margins.grid_s)), margins.ask)
    heard_s, give_s = margins.edges(found.at_s, found.row)
    heard_ms, span_ms = utc_ms(heard_s), utc_ms(margins.span_s)
    give_ms = np.maximum(np.ceil(give_s * 1000), 1.0)
    kinds = tuple(kind.cause for kind in margins.kinds)
    for at, ground in enumerate(grounds):
        mine = np.nonzero(found.row // count == at)[0]
        mine = mine[np.argsort(heard_ms[mine], kind="stable")]
        first = int(((margins.values[at, :, 0] >= 0) << np.arange(count)).sum())
        turns = 1 << (found.row[mine] % count)
        times_ms = [span_ms[at, 0], *heard_ms[mine].tolist(), span_ms[at, 1]]
        inside = [False, *(from_ms < time < to_ms for time in times_ms[1:-1]), False]
        causes = ["", *(kinds[kind] for kind in (found.row[mine] % count).tolist()), ""]
        gives = [0.0, *give_ms[mine].tolist(), 0.0]
        yield _Station(
            ground,
            [round(min(max(time, from_ms), to_ms)) for time in times_ms],
            [cause if within else "" for cause, within in zip(causes, inside, strict=True)],
            [int(give) if within else 0 for give, within in zip(gives, inside, strict=True)],
            np.bitwise_xor.accumulate(np.concatenate(([first], turns))),
            kinds,
        )
