"""The signal of the day: edges computed and observed, and what each lane was."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from core.entries.model import Entry, Free, Happened, Observe, Revise
from core.session.record.happenings import credit_of
from core.session.record.model import EdgeRow, LaneDay
from core.session.record.replay import Step
from core.session.session import Session
from core.signal.model import Edge, Stretch


class Observed:
    """Follows the steps of a day: what each edge was computed to be before anyone observed it."""

    def __init__(self) -> None:
        self._computed_ms: dict[str, int] = {}

    def follow(self, step: Step) -> None:
        """Take one more step."""
        if step.edge is not None:
            edge, computed_ms = step.edge
            self._computed_ms[edge] = computed_ms

    def rows(self, session: Session, begin_ms: int, end_ms: int) -> tuple[EdgeRow, ...]:
        """The edges of the day in their order, those of lanes that a source has ruled out too."""
        seen = _seen(session.standing)
        grounds = {ground.id: ground.name for ground in session.plan.grounds}
        outcomes = {outcome.id: outcome.name for outcome in session.plan.outcomes}
        rows: list[EdgeRow | None] = []
        for lane in session.scene.lanes:
            for edge in _once(lane.edges):
                entry = seen.pop(edge.id, None)
                before = session.standing if entry is None else _before(session.standing, entry)
                row = _row(edge, grounds, outcomes, _given_ms(before, edge.id))
                if entry is not None:
                    rows.append(self._as_observed(row, edge, entry))
                elif not edge.observed and begin_ms <= edge.time_ms <= end_ms:
                    rows.append(row)
        rows += [self._alone(name, entry) for name, entry in seen.items()]
        told = (row for row in rows if row is not None)
        return tuple(sorted(told, key=lambda row: (row.at_ms, row.lane, row.id)))

    def _as_observed(self, row: EdgeRow, edge: Edge, entry: Entry) -> EdgeRow:
        action = entry.action
        plain_ms = self._computed_ms.get(edge.id, edge.table_ms)
        return replace(
            row,
            computed_ms=plain_ms if row.given_ms is None else row.computed_ms,
            observed_ms=edge.time_ms,
            heard_ms=action.heard_ms if isinstance(action, Observe | Happened) else None,
            credit=credit_of(entry),
        )

    def _alone(self, name: str, entry: Entry) -> EdgeRow | None:
        """An observation of an edge that the signal no longer has; of an event, its row tells."""
        seen = entry.action
        if not isinstance(seen, Observe):
            return None
        row = EdgeRow(name, seen.lane, seen.change, "", "", self._computed_ms.get(name))
        return replace(
            row, observed_ms=seen.time_ms, heard_ms=seen.heard_ms, credit=credit_of(entry)
        )


def _once(edges: Iterable[Edge]) -> Iterable[Edge]:
    """Each edge once: where outcomes differ, as it is in the one whose course has it."""
    found: dict[str, Edge] = {}
    for edge in edges:
        if edge.id not in found or found[edge.id].table_ms is None:
            found[edge.id] = edge
    return found.values()


def _seen(entries: Sequence[Entry]) -> dict[str, Entry]:
    """The last entry that observed each edge. One that was not in the plan has a name of its own.

    The names are those that `core.signal.told` gives them.
    """
    seen: dict[str, Entry] = {}
    for entry in entries:
        match entry.action:
            case Observe(lane, change, edge=edge):
                seen[edge or f"desk.{lane}.{entry.number}.{change}"] = entry
            case Happened(edge=edge) if edge:
                seen[edge] = entry
            case _:
                pass
    return seen


def _before(entries: Sequence[Entry], entry: Entry) -> Sequence[Entry]:
    """The entries that stand and came before one."""
    return [each for each in entries if each.number < entry.number]


def _given_ms(entries: Iterable[Entry], edge: str) -> int | None:
    """The figure for an edge that stands after those entries; None where there is none."""
    given_ms: dict[str, int] = {}
    for entry in entries:
        match entry.action:
            case Revise(event, time_ms, edge=of) if of == edge:
                given_ms[event] = time_ms
            case Revise(event) | Free(event):
                given_ms.pop(event, None)
            case _:
                pass
    return next(reversed(given_ms.values()), None)


def _row(
    edge: Edge, grounds: Mapping[str, str], outcomes: Mapping[str, str], given_ms: int | None
) -> EdgeRow:
    """An edge's row as long as nobody has observed it. Beside a figure for it stands its course."""
    ground = grounds.get(edge.ground or "", edge.ground or "")
    computed_ms = None if edge.observed else edge.time_ms
    if given_ms is not None:
        computed_ms = edge.table_ms
    return EdgeRow(
        edge.id,
        edge.lane,
        edge.change,
        ground,
        edge.cause,
        computed_ms,
        outcome=outcomes.get(edge.outcome or "", ""),
        given_ms=given_ms,
    )


def lane_days(session: Session, begin_ms: int, end_ms: int) -> tuple[LaneDay, ...]:
    """What each lane was over the day, by the signal as it stood at the end."""
    names = {lane.id: lane.name for lane in session.plan.lanes}
    grounds = {ground.id: ground.name for ground in session.plan.grounds}
    return tuple(
        LaneDay(
            lane.lane,
            names.get(lane.lane, lane.lane),
            tuple(_within(lane.stretches, grounds, begin_ms, end_ms)),
        )
        for lane in session.scene.lanes
    )


def _within(
    stretches: Iterable[Stretch], grounds: Mapping[str, str], begin_ms: int, end_ms: int
) -> Iterable[Stretch]:
    for each in stretches:
        from_ms = begin_ms if each.from_ms is None else max(begin_ms, each.from_ms)
        to_ms = end_ms if each.to_ms is None else min(end_ms, each.to_ms)
        if from_ms < to_ms:
            ground = grounds.get(each.ground or "", each.ground)
            yield replace(each, from_ms=from_ms, to_ms=to_ms, ground=ground)
