"""When each ground station reaches a craft, and when a body hides it: contacts out of geometry."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

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


_Turn = tuple[float, int, int]
"""When a margin changes its sign, as it is heard (ms); which; and its give (ms)."""


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
    above: list[int]
    kinds: tuple[str, ...]

    def sightings(self) -> Iterator[Sighting]:
        """The stretches in which all are above zero."""
        everything = (1 << len(self.kinds)) - 1
        for begin, end in self._runs(everything, everything):
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
        for place in bodies:
            for begin, end in self._runs(needed | 1 << place, needed):
                yield Hidden(
                    self.ground, self.bounds_ms[begin], self.bounds_ms[end], self.kinds[place]
                )

    def _runs(self, bits: int, wanted: int) -> Iterator[tuple[int, int]]:
        """From which bound to which some bits are as wanted, where that takes any time."""
        begin: int | None = None
        for place, above in enumerate((*self.above, ~wanted)):
            if above & bits == wanted:
                begin = place if begin is None else begin
            elif begin is not None:
                if self.bounds_ms[begin] < self.bounds_ms[place]:
                    yield begin, place
                begin = None


def _stations(margins: Margins, grounds: list[str], from_ms: int, to_ms: int) -> Iterator[_Station]:
    """The margins of each site, searched together."""
    count = len(margins.kinds)
    found = changes(margins.grid_s, margins.values.reshape(-1, len(margins.grid_s)), margins.ask)
    heard_s, give_s = margins.edges(found)
    heard_ms, spans_ms = utc_ms(heard_s), utc_ms(margins.span_s).tolist()
    order = np.lexsort((heard_ms, found.row // count))
    gives_ms = np.maximum(np.ceil(give_s * 1000), 1.0)
    turns = zip(*(each[order].tolist() for each in (found.row, heard_ms, gives_ms)), strict=True)
    first = (margins.values[:, :, 0] >= 0).tolist()
    kinds = tuple(kind.cause for kind in margins.kinds)
    mine: list[list[_Turn]] = [[] for _ in grounds]
    for row, time_ms, give_ms in turns:
        mine[row // count].append((time_ms, row % count, int(give_ms)))
    for at, ground in enumerate(grounds):
        yield _station(ground, kinds, first[at], mine[at], (*spans_ms[at], from_ms, to_ms))


def _station(
    ground: str,
    kinds: tuple[str, ...],
    first: list[bool],
    turns: list[_Turn],
    spans_ms: tuple[float, float, int, int],
) -> _Station:
    """A site from its turns in order of time; what lies outside the search has no cause."""
    begin_ms, end_ms, from_ms, to_ms = spans_ms
    above = sum(is_above << kind for kind, is_above in enumerate(first))
    found = _Station(ground, [round(min(max(begin_ms, from_ms), to_ms))], [""], [0], [above], kinds)
    for time_ms, kind, give_ms in turns:
        inside = from_ms < time_ms < to_ms
        above ^= 1 << kind
        found.bounds_ms.append(round(min(max(time_ms, from_ms), to_ms)))
        found.causes.append(kinds[kind] if inside else "")
        found.gives_ms.append(give_ms if inside else 0)
        found.above.append(above)
    found.bounds_ms.append(round(min(max(end_ms, from_ms), to_ms)))
    found.causes.append("")
    found.gives_ms.append(0)
    return found
