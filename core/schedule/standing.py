"""What the desk has said so far and what still stands of it, event by event.

It is what folding the entries gives; the schedule is computed from it and the plan. Never changed
in place: a step that is undone goes back to the one before.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from core.entries.model import Entry, Way
from core.plan.model import Event, Plan
from core.schedule.model import Found, Kind

V = TypeVar("V")


@dataclass(frozen=True, slots=True)
class Word:
    """A time that was said, by the entry of that number (0: by the plan)."""

    time_ms: int
    number: int
    forced: bool = False


@dataclass(frozen=True, slots=True)
class Held:
    """A count that stopped at `at_ms` with `left_ms` on it; `main` is the event that was named.

    `resumed_ms`: when it goes on, by the entry of number `resumed_by`.
    """

    main: str
    at_ms: int
    left_ms: int
    number: int
    resumed_ms: int | None = None
    resumed_by: int = 0

    def floor_ms(self, now_ms: int) -> int:
        """The earliest that the event can be."""
        if self.resumed_ms is not None:
            return self.resumed_ms + self.left_ms
        return max(now_ms - now_ms % 1000, self.at_ms) + self.left_ms


@dataclass(frozen=True, slots=True)
class Scrubbed:
    """An event called off. `kept`: the times at which those tied to it stay."""

    event: str
    way: Way
    kept: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Standing:
    """All that stands. Dictionaries are by event id; `chosen` is by the event an outcome is of."""

    plan: Plan
    facts: Mapping[str, Word]
    added: tuple[Event, ...] = ()
    figures: Mapping[str, Word] = field(default_factory=dict)
    pins: Mapping[str, Word] = field(default_factory=dict)
    freed: frozenset[str] = frozenset()
    holds: Mapping[str, Held] = field(default_factory=dict)
    gives: Mapping[str, int] = field(default_factory=dict)
    chosen: Mapping[str, str] = field(default_factory=dict)
    scrubs: tuple[Scrubbed, ...] = ()
    back: frozenset[str] = frozenset()
    """Followers that a time brought back though what they are tied to is called off."""
    replanned: Mapping[str, int | None] = field(default_factory=dict)
    spent: frozenset[int] = frozenset()
    entries: tuple[Entry, ...] = ()

    def spend(self, event: str) -> "Standing":
        """The same, with the event's figure given way."""
        number = self.figures[event].number
        return replace(self, figures=without(self.figures, event), spent=self.spent | {number})

    def speaks_of(self, event: str) -> bool:
        """Whether anything that was said gives the event a time or a bound."""
        return (
            event in self.facts
            or event in self.figures
            or event in self.pins
            or event in self.holds
        )

    def unspent(self) -> tuple[Entry, ...]:
        """The entries whose figure has not given way."""
        if not self.spent:
            return self.entries
        return tuple(entry for entry in self.entries if entry.number not in self.spent)


def without(words: Mapping[str, V], *keys: str) -> dict[str, V]:
    """The same mapping without those keys."""
    return {key: value for key, value in words.items() if key not in keys}


@dataclass(frozen=True, slots=True)
class Bound:
    """One own bound of an event: of what kind, at which instant, said by which entry."""

    kind: Kind
    at_ms: int
    number: int = 0
    forced: bool = False


@dataclass(frozen=True, slots=True)
class Bounds:
    """All own bounds of an event, from below and from above."""

    lower: tuple[Bound, ...] = ()
    upper: tuple[Bound, ...] = ()


@dataclass(frozen=True, slots=True)
class Clockwork:
    """What bears on bounds besides words: the time now, and where edges of the signal lie."""

    now_ms: int
    found: Mapping[str, Found]


_NONE = Bounds()


def bounds(event: Event, standing: Standing, kept: Mapping[str, int], clock: Clockwork) -> Bounds:
    """The own bounds of an event, the strongest word first."""
    name = event.id
    plain = event.at_ms is None and event.window is None and event.edge is None
    if plain and name not in kept and not standing.speaks_of(name):
        return _NONE
    fact = standing.facts.get(name)
    if fact is not None:
        return _at(Kind.FACT, fact)
    held = standing.holds.get(name)
    lower: tuple[Bound, ...] = ()
    if held is not None:
        lower = (_count(held, clock.now_ms),)
    upper: tuple[Bound, ...] = ()
    window = event.window
    if window is not None:
        if window.not_before_ms is not None:
            lower += (Bound(Kind.NOT_BEFORE, window.not_before_ms),)
        if window.not_after_ms is not None:
            upper = (Bound(Kind.NOT_AFTER, window.not_after_ms),)
    said = _said(event, standing, clock)
    if said is not None:
        return Bounds(said.lower + lower, said.upper + upper)
    for at_ms in (event.at_ms, kept.get(name)):
        if at_ms is not None:
            lower += (Bound(Kind.PLANNED, at_ms),)
    return Bounds(lower, upper)


def pinned(event: Event, standing: Standing) -> bool:
    """Whether the event is held to a clock time, by the plan or by the desk."""
    return event.id in standing.pins or _plan_pin(event, standing)


def pin_of_plan(event: Event, standing: Standing) -> bool:
    """Whether the plan's own pin holds the event, and nothing the desk has typed."""
    return (
        _plan_pin(event, standing)
        and event.id not in standing.pins
        and event.id not in standing.figures
    )


def stands(event: Event, standing: Standing) -> bool:
    """Whether the event has its time by itself: happened, pinned, revised, or on an edge."""
    return (
        event.id in standing.facts
        or event.id in standing.figures
        or event.edge is not None
        or pinned(event, standing)
    )


def _plan_pin(event: Event, standing: Standing) -> bool:
    return event.pinned and event.at_ms is not None and event.id not in standing.freed


def _said(event: Event, standing: Standing, clock: Clockwork) -> Bounds | None:
    """The equality that a pin, a figure or an edge gives; a figure moves a pin."""
    pin = standing.pins.get(event.id)
    if pin is not None:
        return _at(Kind.PIN, pin)
    figure = standing.figures.get(event.id)
    if _plan_pin(event, standing) and event.at_ms is not None:
        return _at(Kind.PIN, figure if figure is not None else Word(event.at_ms, 0))
    if figure is not None:
        return _at(Kind.FIGURE, figure)
    found = clock.found.get(event.id)
    if found is not None:
        return _at(Kind.EDGE, Word(found.time_ms, 0))
    return None


def _count(held: Held, now_ms: int) -> Bound:
    """What a count that is held, or goes on again, leaves open."""
    if held.resumed_ms is None:
        return Bound(Kind.HOLD, held.floor_ms(now_ms), held.number)
    return Bound(Kind.RESUMED, held.floor_ms(now_ms), held.resumed_by)


def _at(kind: Kind, word: Word) -> Bounds:
    both = (Bound(kind, word.time_ms, word.number, word.forced),)
    return Bounds(both, both)
