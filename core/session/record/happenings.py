"""The events of the day: planned, expected, said, happened, and how each of them moved."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from core.board.standing import is_automatic
from core.entries.airing import MarkSaid
from core.entries.model import BringBack, Entry, Happened, Observe, TakeBack, TakePlan
from core.plan.model import Event
from core.saying.model import NO_TIME_MS
from core.schedule.model import State
from core.session.record.model import Credit, EventRow, How, Move, Stood, Telling
from core.session.record.replay import Replay, Step, Times, is_named
from core.times.writing import SECOND_MS

_OFF = {
    State.HAPPENED: Stood.HAPPENED,
    State.HELD: Stood.HELD,
    State.SCRUBBED: Stood.CALLED_OFF,
    State.DROPPED: Stood.OTHER_OUTCOME,
    State.UNKNOWN: Stood.UNKNOWN,
}


def credit_of(entry: Entry) -> Credit:
    """Where what an entry did comes from."""
    return Credit(entry.number, entry.at_ms, entry.source, entry.by)


class Happenings:
    """Follows the steps of a day, and has the events in the end."""

    def __init__(self) -> None:
        self._moves: dict[str, list[Move]] = defaultdict(list)
        self._expected_ms: dict[str, int | None] = {}
        self._credits: dict[str, list[Credit]] = defaultdict(list)
        self._told: dict[str, list[Telling]] = defaultdict(list)
        self._named: set[str] = set()

    def follow(self, step: Step) -> None:
        """Take one more step."""
        entry = step.entry
        credit = credit_of(entry)
        self._slide(step.slid, step.before, replace(credit, number=0, source="", by=""))
        typed = _typed(entry, step.came | step.about)
        how = _how(entry)
        self._named.update(typed - step.came)
        for name, to_ms in step.after.items():
            from_ms = step.before.get(name)
            if name in step.came:
                self._expected_ms[name] = from_ms
            if name in typed or name in step.came:
                self._credits[name].append(credit)
            if _is_news(from_ms, to_ms) and name in step.before:
                of = How.TYPED if how is How.FOLLOWS and name in typed else how
                self._moves[name].append(Move(name, from_ms, to_ms, of, credit))
        for name in step.went:
            self._expected_ms.pop(name, None)
        if isinstance(entry.action, MarkSaid):
            self._note_said(entry.action, credit)

    def end(self, slid: Times, at_end: Times, at_ms: int) -> None:
        """Let held counts slide to the end."""
        self._slide(slid, at_end, Credit(at_ms=at_ms))

    def rows(self, replay: Replay, standing: Iterable[Entry], end_ms: int) -> tuple[EventRow, ...]:
        """The events in the order of their times, those without one last.

        Of edges that are events by themselves, those that were told or typed by name: the others
        stand among the edges.
        """
        stand = {entry.number for entry in standing}
        rows = [
            self._row(event, replay, stand, end_ms)
            for name, event in replay.events.items()
            if is_named(event) or name in self._told or name in self._named
        ]
        rows.sort(key=_in_time)
        return tuple(rows)

    def _credit(self, name: str, stand: AbstractSet[int]) -> Credit:
        """Whose word an event rests on: of those not taken back, the last."""
        standing = [each for each in self._credits[name] if each.number in stand]
        return standing[-1] if standing else Credit()

    def _slide(self, slid: Times, before: Times, credit: Credit) -> None:
        for name, to_ms in before.items():
            if name in slid and _is_news(slid[name], to_ms):
                self._moves[name].append(Move(name, slid[name], to_ms, How.HELD, credit))

    def _note_said(self, said: MarkSaid, credit: Credit) -> None:
        for event, at_ms in said.times:
            told_ms = None if at_ms == NO_TIME_MS else at_ms
            self._told[event].append(Telling(event, told_ms, said.text, credit))

    def _row(self, event: Event, replay: Replay, stand: AbstractSet[int], end_ms: int) -> EventRow:
        schedule, name = replay.session.schedule, event.id
        told = tuple(replace(t, stands=t.credit.number in stand) for t in self._told[name])
        row = EventRow(
            name,
            event.name,
            replay.planned_ms[name],
            None,
            None,
            Stood.GONE,
            self._credit(name, stand),
            live=event.live,
            told=told,
            moves=tuple(self._moves[name]),
        )
        if name not in schedule.roll:
            return row
        line = schedule.line(name)
        planned_ms = schedule.planned_ms(name)
        happened = line.state is State.HAPPENED
        return replace(
            row,
            expected_ms=self._expected_ms.get(name) if happened else line.expected_ms,
            happened_ms=line.happened_ms if happened else None,
            stood=_stood(
                line.state, line.expected_ms, end_ms, computed=_is_computed(event, replay)
            ),
            replanned_ms=None if planned_ms == row.planned_ms else planned_ms,
            give_ms=line.give_ms,
            outcome=_outcome(replay, line.outcome),
            added=all(each.id != name for each in replay.session.plan.events),
        )


def _outcome(replay: Replay, outcome: str | None) -> str:
    """What the plan calls an outcome, '' for none."""
    named = (each.name for each in replay.session.plan.outcomes if each.id == outcome)
    return next(named, "")


def _is_computed(event: Event, replay: Replay) -> bool:
    """Whether it needs no word of anyone: the board never asks for one of such an edge.

    One that hangs on an outcome does, as long as no source has named it.
    """
    return is_automatic(event) and not replay.session.scene.open_outcome(event.id)


def _stood(state: State, expected_ms: int | None, end_ms: int, *, computed: bool) -> Stood:
    if state in _OFF:
        return _OFF[state]
    if expected_ms is None or expected_ms > end_ms:
        return Stood.AHEAD
    return Stood.COMPUTED if computed else Stood.UNCONFIRMED


def _is_news(from_ms: int | None, to_ms: int | None) -> bool:
    """Whether a time moved by a second or more, or came or went."""
    if from_ms is None or to_ms is None:
        return from_ms is not to_ms
    return abs(to_ms - from_ms) >= SECOND_MS


def _how(entry: Entry) -> How:
    if isinstance(entry.action, TakeBack):
        return How.TAKEN_BACK
    if isinstance(entry.action, BringBack):
        return How.BROUGHT_BACK
    return How.PLAN if isinstance(entry.action, TakePlan) else How.FOLLOWS


def _typed(entry: Entry, came: AbstractSet[str]) -> frozenset[str]:
    """The events an entry is about itself."""
    action = entry.action
    if isinstance(action, Observe):
        return frozenset(came)
    about = getattr(action, "event", None)
    named = {about} if isinstance(about, str) else set()
    return frozenset(named | came if isinstance(action, Happened) else named)


def _in_time(row: EventRow) -> tuple[bool, int]:
    at_ms = row.last_ms if row.last_ms is not None else row.planned_ms
    return at_ms is None, at_ms or 0


def tellings(rows: Sequence[EventRow]) -> tuple[Telling, ...]:
    """All that was told of times, in the order in which it was said."""
    found = [telling for row in rows for telling in row.told]
    return tuple(sorted(found, key=lambda each: (each.credit.at_ms or 0, each.credit.number)))
