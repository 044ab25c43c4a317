"""Edges of the signal as times of events: looked up again whenever what they depend on moved."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from core.plan.model import EdgeRef, Event
from core.schedule.model import Edges, Found, State
from core.schedule.shape import Shape
from core.schedule.standing import Standing, pinned

Key = tuple[int | None, ...]


class Times(Protocol):
    """Where the times are that an edge depends on, and what stands."""

    @property
    def standing(self) -> Standing:
        """What stands."""

    def time_ms(self, name: str) -> int | None:
        """The time of an event, None where it has none."""

    def event(self, name: str) -> Event:
        """The event of that id."""


@dataclass(frozen=True, slots=True)
class Looked:
    """All that was found, to come back to."""

    edges: Edges
    found: Mapping[str, Found]
    keys: Mapping[str, Key]
    missing: frozenset[str]


class _Now(dict[str, int | None]):
    """The times of events while edges are looked up: nothing moves meanwhile, so each is read once.

    Edges with the same inputs share one key.
    """

    def __init__(self, times: Times) -> None:
        super().__init__()
        self._read = times.time_ms
        self._keys: dict[tuple[str, ...], Key] = {}

    def __missing__(self, name: str) -> int | None:
        found = self[name] = self._read(name)
        return found

    def of(self, names: tuple[str, ...]) -> Key:
        """The times of several events."""
        key = self._keys.get(names)
        if key is None:
            key = self._keys[names] = tuple(map(self.__getitem__, names))
        return key


class Lookups:
    """The edges that events hang on, as last found."""

    def __init__(self, edges: Edges) -> None:
        self.edges = edges
        self.asked: dict[str, tuple[EdgeRef, tuple[str, ...]]] = {}
        self.found: dict[str, Found] = {}
        self._absent: dict[str, tuple[EdgeRef, tuple[str, ...]]] = {}
        self._keys: dict[str, Key] = {}
        self._missing: set[str] = set()

    def use(self, edges: Edges) -> None:
        """Ask another signal from now on: everything must be looked up again."""
        if edges is not self.edges:
            self.edges = edges
            self._keys = {}

    def kept(self) -> Looked:
        """All that was found, to come back to."""
        return Looked(
            self.edges,
            dict(self.found),
            dict(self._keys),
            frozenset(self._missing),
        )

    def restore(self, kept: Looked) -> None:
        """Go back to that."""
        self.edges = kept.edges
        self.found = dict(kept.found)
        self._keys = dict(kept.keys)
        self._missing = set(kept.missing)

    def copy(self) -> "Lookups":
        """The same, to be changed apart from these."""
        new = Lookups(self.edges)
        new.asked, new._absent = self.asked, self._absent
        new.restore(self.kept())
        return new

    def differ(self, times: Times) -> bool:
        """Whether an edge is elsewhere now, or one is there that was not."""
        now = _Now(times)
        there = {**dict.fromkeys(self._absent), **self.found}
        return any(
            self._find(name, ref, now.of(inputs), now) != there.get(name)
            for name, (ref, inputs) in (*self.asked.items(), *self._absent.items())
        )

    def lean(self, shape: Shape) -> Mapping[str, tuple[str, ...]]:
        """What each edge depends on, by the event that hangs on it; those are asked from now on.

        An event with a time of its own hangs on no edge.
        """
        self.asked = {}
        self._keys = {}
        self._missing = set()
        self._absent = {}
        for name, event in shape.events.items():
            state = shape.gone.get(name)
            if event.edge is None or state not in (None, State.UNKNOWN):
                continue
            ref = event.edge
            from_events = tuple(e for e in (ref.after, ref.before) if e is not None)
            asked = self.asked if state is None else self._absent
            asked[name] = (ref, from_events + self.edges.needs(ref))
        stale = [name for name in self.found if name not in self.asked]
        for name in stale:
            del self.found[name]
        return {name: inputs for name, (_, inputs) in self.asked.items()}

    def needs(self, ref: EdgeRef) -> tuple[str, ...]:
        """The events whose times decide that edge, besides the one it is counted from."""
        return self.edges.needs(ref)

    def look(self, times: Times) -> list[str]:
        """Look up the edges whose inputs moved; the events whose edge is elsewhere now."""
        moved: list[str] = []
        now = _Now(times)
        for name, (ref, inputs) in self.asked.items():
            key = now.of(inputs)
            if self._keys.get(name) == key:
                continue
            self._keys[name] = key
            found = self._find(name, ref, key, now)
            old = self.found.get(name)
            self._note_missing(name, times, missing=found is None)
            if found == old:
                continue
            if found is None:
                del self.found[name]
            else:
                self.found[name] = found
            moved.append(name)
        return moved

    def finds_again(self, times: Times) -> bool:
        """Whether an edge that was not there is there now."""
        again = False
        now = _Now(times)
        for name, (ref, inputs) in self._absent.items():
            key = now.of(inputs)
            if self._keys.get(name) == key:
                continue
            self._keys[name] = key
            again = again or self._find(name, ref, key, now) is not None
        return again

    def missing(self) -> frozenset[str]:
        """The events whose edge is not there, and which have no time of their own."""
        return frozenset(self._missing)

    def give_up(self, names: Iterable[str]) -> None:
        """These edges move what they depend on, without end: they are not there."""
        self._missing.update(names)

    def _find(self, name: str, ref: EdgeRef, key: Key, now: "_Now") -> Found | None:
        from_ms: int | None = None
        if ref.after is not None or ref.before is not None:
            if key[0] is None:
                return None
            from_ms = key[0] + ref.offset_ms
        return self.edges.find(ref, name, from_ms, now.__getitem__)

    def _note_missing(self, name: str, times: Times, *, missing: bool) -> None:
        standing = times.standing
        event = times.event(name)
        has_own = name in standing.facts or name in standing.figures or pinned(event, standing)
        if missing and not has_own:
            self._missing.add(name)
        else:
            self._missing.discard(name)
