"""A desk for hand-worked cases: plans by clock times, entries by actions, times read as written."""

from collections.abc import Sequence

from core.entries.model import Action, Entry
from core.plan.model import Event, Limit, Outcome, Plan, Tie
from core.schedule.model import Edges, Effect
from core.schedule.schedule import Schedule
from tests.core.schedule.signal_fake import FakeEdges


def at(clock: str) -> int:
    """'10:05' or '10:05:30' as milliseconds."""
    parts = [int(part) for part in clock.split(":")] + [0]
    return ((parts[0] * 60 + parts[1]) * 60 + parts[2]) * 1000


def clock(time_ms: int | None) -> str:
    """Milliseconds as '10:05', with seconds where there are any; '-' for none."""
    if time_ms is None:
        return "-"
    minutes, rest_ms = divmod(time_ms, 60_000)
    seconds = f":{rest_ms // 1000:02}" if rest_ms else ""
    return f"{minutes // 60:02}:{minutes % 60:02}{seconds}"


def m(minutes: float) -> int:
    """Minutes as milliseconds."""
    return int(minutes * 60_000)


def tie(
    event: str, offset: float | None, least: float | None = 0, most: float | None = None
) -> Tie:
    """A tie in minutes."""
    return Tie(
        event,
        None if offset is None else m(offset),
        None if least is None else m(least),
        None if most is None else m(most),
    )


def event(name: str, *ties: Tie, planned: str = "", pin: str = "") -> Event:
    """An event tied to others, planned or pinned at a clock time."""
    written = planned or pin
    at_ms = at(written) if written else None
    return Event(name, name, at_ms=at_ms, pinned=bool(pin), ties=ties)


def plan(*events: Event, limits: Sequence[Limit] = (), outcomes: Sequence[Outcome] = ()) -> Plan:
    """A plan of those events."""
    return Plan("by hand", ("UTC",), events=events, limits=tuple(limits), outcomes=tuple(outcomes))


class Desk:
    """A schedule and what was typed, each entry by its number."""

    def __init__(self, of: Plan, edges: Edges | None = None, now: str = "09:00") -> None:
        self.plan = of
        self.edges = FakeEdges() if edges is None else edges
        self.now_ms = at(now)
        self.entries: list[Entry] = []
        self.board = Schedule(of, self.edges, self.now_ms)

    def type(self, action: Action, *, again: bool = False, now: str = "") -> Effect:
        """Enter it; `again` is the second Enter."""
        if now:
            self.now_ms = at(now)
        number = len(self.entries) + 1
        entry = Entry(number, self.now_ms, "", action, forced=again)
        effect = self.board.take(entry, self.now_ms)
        if effect.clash is None and not effect.asks:
            self.entries.append(entry)
        return effect

    def shown(self, action: Action, *, again: bool = False) -> Effect:
        """What entering it would do."""
        entry = Entry(len(self.entries) + 1, self.now_ms, "", action, forced=again)
        return self.board.preview(entry, self.now_ms)

    def pass_to(self, now: str) -> None:
        """Let time pass."""
        self.now_ms = at(now)
        self.board.tick(self.now_ms)

    def undo(self, number: int) -> None:
        """Take an entry back: the schedule built anew without it."""
        self.entries = [entry for entry in self.entries if entry.number != number]
        self.board = Schedule(self.plan, self.edges, self.now_ms, self.entries)

    def times(self, names: str) -> str:
        """The times of these events, as written."""
        return " ".join(clock(self.board.expected_ms(name)) for name in names.split())

    def moves(self, effect: Effect) -> list[str]:
        """The moves of an effect: 'B 10:10>10:15 follows tie A'."""
        return [
            f"{v.event} {clock(v.old_ms)}>{clock(v.new_ms)} {v.kind}"
            + (f" {v.cause.kind} {v.cause.of}" if v.cause is not None else "")
            for v in effect.moves
        ]

    def stays(self, effect: Effect) -> list[str]:
        """The stays of an effect: 'P pin 5:00'."""
        return [f"{s.event} {s.kind} {length(s.slack_ms)}" for s in effect.stays]

    def broken(self) -> list[str]:
        """The limits that have given way: 'least C P 1:00'."""
        return [
            f"{b.limit.kind} {b.limit.of} {b.limit.to or ''}".strip() + f" {length(b.short_ms)}"
            for b in self.board.broken
        ]


def length(ms: int | None) -> str:
    """A length as '5:00'."""
    return "-" if ms is None else f"{ms // 60_000}:{ms % 60_000 // 1000:02}"


def clash_set(effect: Effect) -> set[str]:
    """The members of an effect's clash: 'least C P'."""
    assert effect.clash is not None
    return {f"{c.kind} {c.of} {c.to or ''}".strip() for c in effect.clash.set}
