"""`limbwatch signal`: contacts, gaps with their causes, hand-overs and totals."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from app.commands.times import clash_json, outcome_lines
from app.commands.writing import as_json, clock_out, columns, counted, seconds_out, time_out
from core.board.words import Names, shifted_words
from core.plan.model import Plan
from core.session.batch import Run
from core.session.desk import Desk
from core.signal.model import Contact, Edge, Gap, HandOver, LaneSignal, Total
from core.times.spoken import spoken_zone
from core.times.writing import Style, apart_ms, duration_words, short_duration_words

Json = dict[str, object]


@dataclass(frozen=True, slots=True)
class Part:
    """Which part of the signal is wanted: one lane or all, from an instant to an instant."""

    lane: str | None = None
    from_ms: int | None = None
    to_ms: int | None = None

    def lanes(self, lanes: Iterable[LaneSignal]) -> list[LaneSignal]:
        """The lanes of it."""
        return [lane for lane in lanes if self.lane in (None, lane.lane)]

    def holds(self, begin_ms: int | None, end_ms: int | None) -> bool:
        """Whether a stretch lies in it, if only in part; open ends are None."""
        early = self.to_ms is None or begin_ms is None or begin_ms < self.to_ms
        late = self.from_ms is None or end_ms is None or end_ms > self.from_ms
        return early and late

    def at(self, instant_ms: int) -> bool:
        """Whether an instant lies in it."""
        return (self.from_ms is None or instant_ms >= self.from_ms) and (
            self.to_ms is None or instant_ms < self.to_ms
        )

    def extent(self, lanes: Sequence[LaneSignal]) -> tuple[int, int] | None:
        """From when till when totals are made: as asked, else from the first edge to the last."""
        known = [edge.time_ms for lane in lanes for edge in lane.edges]
        first = self.from_ms if self.from_ms is not None else min(known, default=None)
        last = self.to_ms if self.to_ms is not None else max(known, default=None)
        return None if first is None or last is None or last < first else (first, last)


def signal_json(desk: Desk, run: Run, part: Part) -> str:
    """The signal as JSON."""
    lanes = part.lanes(desk.signal())
    totals, extent = _totals(desk, lanes, part), part.extent(lanes)
    return as_json(
        {
            "edges": [_edge(e) for lane in lanes for e in lane.edges if part.at(e.time_ms)],
            "gaps": [_gap(g) for lane in lanes for g in _gaps(lane, part)],
            "contacts": [_contact(c) for lane in lanes for c in _contacts(lane, part)],
            "hand_overs": [
                _hand_over(h) for lane in lanes for h in lane.hand_overs if part.at(h.time_ms)
            ],
            "totals": {
                lane.lane: [_total(each, extent) for each in totals if each.lane == lane.lane]
                for lane in lanes
            },
            "clash": clash_json(run),
            "notes": [*run.notes, *_shifted(desk)],
        }
    )


def _shifted(desk: Desk) -> list[str]:
    names = Names({event.id: event.name for event in desk.schedule.plan.events})
    return [shifted_words(each, names) for each in desk.shifted()]


def _gaps(lane: LaneSignal, part: Part) -> list[Gap]:
    return [gap for gap in lane.gaps if part.holds(gap.from_ms, gap.to_ms)]


def _contacts(lane: LaneSignal, part: Part) -> list[Contact]:
    return [each for each in lane.contacts if part.holds(each.from_ms, each.to_ms)]


def _totals(desk: Desk, lanes: Sequence[LaneSignal], part: Part) -> list[Total]:
    extent = part.extent(lanes)
    wanted = {lane.lane for lane in lanes}
    found = desk.totals(*extent) if extent is not None else ()
    return [total for total in found if total.lane in wanted]


def _edge(edge: Edge) -> Json:
    return {
        "id": edge.id,
        "time": time_out(edge.time_ms),
        "lane": edge.lane,
        "change": edge.change.value,
        "ground": edge.ground,
        "cause": edge.cause,
        "give_s": seconds_out(edge.give_ms),
        "course": edge.course,
        "outcome": edge.outcome,
        "observed": edge.observed,
    }


def _gap(gap: Gap) -> Json:
    return {
        "lane": gap.lane,
        "from": time_out(gap.from_ms),
        "to": time_out(gap.to_ms),
        "cause": gap.cause,
        "outcome": gap.outcome,
    }


def _contact(contact: Contact) -> Json:
    return {
        "lane": contact.lane,
        "ground": contact.ground,
        "from": time_out(contact.from_ms),
        "to": time_out(contact.to_ms),
        "course": contact.course,
        "outcome": contact.outcome,
    }


def _hand_over(hand_over: HandOver) -> Json:
    return {
        "lane": hand_over.lane,
        "time": time_out(hand_over.time_ms),
        "from": hand_over.from_ground,
        "to": hand_over.to_ground,
        "outcome": hand_over.outcome,
    }


def _total(total: Total, extent: tuple[int, int] | None) -> Json:
    begin_ms, end_ms = extent if extent is not None else (None, None)
    return {
        "outcome": total.outcome,
        "from": time_out(begin_ms),
        "to": time_out(end_ms),
        "gaps": total.gaps,
        "longest_s": seconds_out(total.longest_ms),
        "out_s": seconds_out(total.out_ms),
        "unknown_s": seconds_out(total.unknown_ms),
    }


_Row = tuple[str, ...]


def signal_text(desk: Desk, run: Run, part: Part, style: Style, now_ms: int) -> str:
    """The signal as a table in order of time, then the totals, then what must be said."""
    plan = desk.schedule.plan
    lanes = part.lanes(desk.signal())
    words = _Words(plan, style, now_ms, lanes)
    rows = sorted(words.rows(lanes, part), key=lambda row: row[0])
    head = ("FROM", "TO", "LENGTH", "LANE", "WHAT", "IF")
    told = [f"Clock times: {spoken_zone(style.zone)}"]
    told.append(columns([head, *(row for _, row in rows)]) if rows else "No signal is known then")
    told += _shifted(desk)
    if (extent := part.extent(lanes)) is not None:
        begin, end = (clock_out(at, style, now_ms) for at in extent)
        told.append(f"From {begin} to {end}:")
        told += [words.total(total) for total in _totals(desk, lanes, part)]
    names = Names({event.id: event.name for event in plan.events})
    return "\n".join([*told, *outcome_lines(run, names, style, now_ms)])


class _Words:
    """The rows of the table in words; times with the give of their edge."""

    def __init__(self, plan: Plan, style: Style, now_ms: int, lanes: Sequence[LaneSignal]) -> None:
        self._grounds = {ground.id: ground.name for ground in plan.grounds}
        self._outcomes = {outcome.id: outcome.name for outcome in plan.outcomes}
        self._style, self._now_ms = style, now_ms
        self._gives = {(e.lane, e.time_ms): e.give_ms for lane in lanes for e in lane.edges}

    def rows(self, lanes: Sequence[LaneSignal], part: Part) -> Iterator[tuple[int, _Row]]:
        """Each row, with the instant that it is sorted by."""
        for lane in lanes:
            for each in _contacts(lane, part):
                station = self._station(each.ground or "") or "a ground station"
                yield self._row(each, f"through {station}")
            for gap in _gaps(lane, part):
                yield self._row(gap, f"no signal: {gap.cause}" if gap.cause else "no signal")
            for hand in lane.hand_overs:
                if part.at(hand.time_ms):
                    yield self._hand_over(hand)

    def total(self, total: Total) -> str:
        """How often and how long a lane is out, in a sentence."""
        when = f", {self._outcome(total.outcome)}" if total.outcome else ""
        unknown = short_duration_words(total.unknown_ms) if total.unknown_ms >= 1000 else ""
        left_out = f"; {unknown} not computed" if unknown else ""
        if not total.gaps:
            return f"{total.lane}{when}: no gap{left_out}"
        out = short_duration_words(total.out_ms)
        longest = short_duration_words(total.longest_ms)
        long = f"{out} in all, the longest {longest}" if total.gaps > 1 else out
        return f"{total.lane}{when}: {counted(total.gaps, 'gap')}, {long}{left_out}"

    def _row(self, each: Contact | Gap, what: str) -> tuple[int, _Row]:
        begin_ms, end_ms = each.from_ms, each.to_ms
        known = begin_ms is not None and end_ms is not None
        long = duration_words(apart_ms(end_ms or 0, begin_ms or 0)) if known else ""
        begin = self._at(each.lane, begin_ms, "(before)")
        end = self._at(each.lane, end_ms, "(after)")
        order = -(2**62) if begin_ms is None else begin_ms
        return order, (begin, end, long, each.lane, what, self._outcome(each.outcome))

    def _hand_over(self, hand: HandOver) -> tuple[int, _Row]:
        what = f"hand-over to {self._station(hand.to_ground)}"
        at = self._at(hand.lane, hand.time_ms, "")
        return hand.time_ms, (at, "", "", hand.lane, what, self._outcome(hand.outcome))

    def _at(self, lane: str, instant_ms: int | None, otherwise: str) -> str:
        give_ms = 0 if instant_ms is None else self._gives.get((lane, instant_ms), 0)
        give = f" ± {short_duration_words(give_ms)}" if give_ms else ""
        return clock_out(instant_ms, self._style, self._now_ms, otherwise) + give

    def _station(self, ground: str) -> str:
        return self._grounds.get(ground, ground)

    def _outcome(self, outcome: str | None) -> str:
        return self._outcomes.get(outcome or "", outcome or "")
