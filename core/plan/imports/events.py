"""Rows as events of a plan: ids made of their names, ties from elapsed times, nothing doubled."""

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from core.plan.checks import BAR_WORDS
from core.plan.circles import in_order
from core.plan.imports.model import NotRead, Row
from core.plan.model import Event, Fact, Plan, Tie
from core.plan.planned import planned_times
from core.plan.values import EARLIEST_MS, LATEST_MS
from core.times.durations import LONGEST_MS, write_duration
from core.times.writing import SECOND_MS

_LONGEST_ID = 40
OTHER_TIME = "at another time"
"""Why a row stands already: the event of its name has another time."""
_ZERO_NAMES = ("liftoff", "lift off", "launch")


@dataclass(frozen=True, slots=True)
class Same:
    """A row that stands already: as which event, how it differs, and what it would be added as."""

    row: Row
    stands: str
    why: str
    event: Event


@dataclass(frozen=True, slots=True)
class Made:
    """The events that rows make: new ones, those that stand already, and rows that make none.

    `zero` is the event that elapsed times were tied to; empty where none were.
    """

    events: tuple[Event, ...]
    same: tuple[Same, ...] = ()
    not_taken: tuple[NotRead, ...] = ()
    zero: str = ""
    rows: tuple[Row, ...] = ()
    """For each of `events` the row that made it."""


def events_of(
    rows: Sequence[Row], plan: Plan, zero: str | None = None, *, ends: bool = False
) -> Made:
    """The events that rows make of a plan. Nothing is added to it here.

    `zero` is what elapsed times count from: else the plan's own, or a liftoff in the plan or in
    the rows. With `ends` a row that lasts makes a second event for its end.
    """
    maker = _Maker(plan, ends)
    clocked = [row for row in rows if row.at_ms is not None]
    counted = [row for row in rows if row.at_ms is None]
    for row in clocked:
        maker.on_the_clock(row)
    maker.zero = zero or zero_of(plan, maker.events)
    for row in counted:
        maker.counted(row)
    order = {id(row): at for at, row in enumerate(rows)}
    events = sorted(maker.made, key=lambda one: order[id(one[0])])
    return Made(
        tuple(event for _, event in events),
        tuple(sorted(maker.same, key=lambda one: order[id(one.row)])),
        tuple(maker.not_taken),
        maker.zero if any(row.at_ms is None for row in rows) else "",
        tuple(row for row, _ in events),
    )


def zero_of(plan: Plan, made: Sequence[Event] = ()) -> str:
    """The event that elapsed times count from: the plan's, or a liftoff; empty where none is."""
    if plan.elapsed_from is not None:
        return plan.elapsed_from
    for event in (*plan.events, *made):
        if _key(event.name) in _ZERO_NAMES or _key(event.id) in _ZERO_NAMES:
            return event.id
    return ""


@dataclass(slots=True)
class _Maker:
    """Makes event by event; what has been made counts as standing for those after it."""

    plan: Plan
    ends: bool
    zero: str = ""
    made: list[tuple[Row, Event]] = field(default_factory=list)
    same: list[Same] = field(default_factory=list)
    not_taken: list[NotRead] = field(default_factory=list)
    times: dict[str, int] = field(init=False)
    names: dict[str, str] = field(default_factory=dict)
    """The plan's events by their names."""
    seen: dict[tuple[str, int], tuple[str, int]] = field(default_factory=dict)
    """All events by name and second."""
    tied: dict[tuple[str, int | None], str] = field(default_factory=dict)
    """New events whose time is not known yet, by name and elapsed time."""
    counts: dict[str, int] = field(default_factory=dict)
    ids: set[str] = field(init=False)
    lanes: frozenset[str] = field(init=False)

    def __post_init__(self) -> None:
        self.times = dict(planned_times(self.plan, in_order(self.plan)))
        self.ids = {event.id.casefold() for event in self.plan.events}
        self.ids |= {name.casefold() for name in _other_ids(self.plan)}
        self.lanes = frozenset(lane.id for lane in self.plan.lanes)
        for event in self.plan.events:
            self.names.setdefault(_key(event.name), event.id)
            if event.id in self.times:
                self._see(event, self.times[event.id])

    @property
    def events(self) -> list[Event]:
        """The new events so far."""
        return [event for _, event in self.made]

    def on_the_clock(self, row: Row) -> None:
        """An event with a clock time."""
        at_ms = row.at_ms or 0
        if not EARLIEST_MS <= at_ms < LATEST_MS:
            self._refuse(row, "this is outside the years 1900 to 2199", "Check the year")
            return
        self._add(row, Event("", row.name, at_ms=at_ms), at_ms)

    def counted(self, row: Row) -> None:
        """An event tied to the one that elapsed time counts from."""
        offset_ms = row.elapsed_ms or 0
        if not self.zero:
            hint = "Name the event that elapsed time counts from (elapsed_from), and try again"
            self._refuse(row, "nothing says what this time counts from", hint)
            return
        if abs(offset_ms) > LONGEST_MS:
            self._refuse(row, "this is longer than a hundred years", "Check the figures")
            return
        least_ms, most_ms = (0, None) if offset_ms >= 0 else (None, 0)
        base_ms = self.times.get(self.zero)
        at_ms = None if base_ms is None else base_ms + offset_ms
        if offset_ms == 0 and self._is_zero(row):
            event = self._dressed(row, Event("", row.name))
            self.same.append(Same(row, self.zero, "elapsed times count from it", event))
            return
        tie = Tie(self.zero, offset_ms, least_ms, most_ms)
        self._add(row, Event("", row.name, ties=(tie,)), at_ms)

    def _is_zero(self, row: Row) -> bool:
        return self.names.get(_key(row.name)) == self.zero or _key(row.name) in _ZERO_NAMES

    def _add(self, row: Row, bare: Event, at_ms: int | None) -> None:
        event = self._dressed(row, bare)
        stands = self._standing(row, at_ms)
        if stands is not None:
            self.same.append(Same(row, *stands, event))
            return
        self._keep(row, event, at_ms)
        if self.ends and row.length_ms:
            tie = Tie(event.id, row.length_ms, row.length_ms, row.length_ms)
            name = f"{row.name}, end"
            end = Event(self._id(name), name, ties=(tie,))
            self._keep(row, end, None if at_ms is None else at_ms + row.length_ms)

    def _keep(self, row: Row, event: Event, at_ms: int | None) -> None:
        self.made.append((row, event))
        self.ids.add(event.id.casefold())
        if at_ms is not None:
            self._see(event, at_ms)
        elif event.name == row.name:
            self.tied[_key(row.name), row.elapsed_ms] = event.id

    def _see(self, event: Event, at_ms: int) -> None:
        self.times[event.id] = at_ms
        self.seen.setdefault((_key(event.name), at_ms // SECOND_MS), (event.id, at_ms))

    def _dressed(self, row: Row, event: Event) -> Event:
        """The event with all else that its row says."""
        notes = [row.note] if row.note else []
        if row.length_ms and not self.ends:
            notes.append(f"It lasts {write_duration(row.length_ms)}.")
        known = row.lane if row.lane in self.lanes else None
        if row.lane and (known is None or not row.live):
            notes.append(f"Signal: {row.lane}.")
        return replace(
            event,
            id=self._id(row.name),
            give_ms=row.give_ms,
            live=row.live,
            live_with=known if row.live else None,
            facts=tuple(Fact(note) for note in notes),
        )

    def _standing(self, row: Row, at_ms: int | None) -> tuple[str, str] | None:
        """The event of that name that stands: at that time, or in the plan at another."""
        key = _key(row.name)
        if at_ms is not None:
            second = at_ms // SECOND_MS
            for near in (second, second - 1, second + 1):
                name, there_ms = self.seen.get((key, near), ("", 0))
                if name and abs(there_ms - at_ms) < SECOND_MS:
                    return name, "at the same time"
        elif tied := self.tied.get((key, row.elapsed_ms)):
            return tied, "at the same elapsed time"
        in_plan: str | None = self.names.get(key)
        return (in_plan, OTHER_TIME) if in_plan is not None else None

    def _id(self, name: str) -> str:
        """An id from a name, by which nothing else goes."""
        plain = slug(name)
        if plain in BAR_WORDS or plain in self.lanes:
            plain = f"{plain}-event"
        count, chosen = self.counts.get(plain, 2), plain
        while chosen.casefold() in self.ids:
            chosen, count = f"{plain}-{count}", count + 1
        self.counts[plain] = max(2, count - 1)
        return chosen

    def _refuse(self, row: Row, why: str, hint: str) -> None:
        self.not_taken.append(NotRead(row.line, row.text, why, hint, row.more_lines))


def _other_ids(plan: Plan) -> list[str]:
    """What else one types by its id."""
    return [
        *(item.id for item in plan.items),
        *(checkoff.id for checkoff in plan.checkoffs),
        *(outcome.id for outcome in plan.outcomes),
        *(lane.id for lane in plan.lanes),
    ]


def _key(name: str) -> str:
    """A name for comparing: case and punctuation do not count."""
    return " ".join(re.findall(r"[^\W_]+", name.casefold()))


def slug(name: str) -> str:
    """An id as one would type it: 'Insertion burn, ignition' is insertion-burn-ignition."""
    plain = "".join(
        sign
        for sign in unicodedata.normalize("NFKD", name.casefold())
        if not unicodedata.combining(sign)
    )
    words = re.findall(r"[^\W_]+", plain)
    kept = ""
    for word in words:
        longer = f"{kept}-{word}" if kept else word[:_LONGEST_ID]
        if len(longer) > _LONGEST_ID:
            break
        kept = longer
    return kept or "event"
