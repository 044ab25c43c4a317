"""`limbwatch signal`: contacts, gaps with their causes, hand-overs and totals."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.commands.writing import as_json, columns, seconds_out, time_out
from core.plan.model import Plan
from core.session.desk import Desk
from core.signal.model import Contact, Edge, Gap, HandOver, LaneSignal, Total
from core.times.spoken import spoken_zone
from core.times.writing import Style, dated_clock_text, duration_words, short_duration_words

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


def signal_json(desk: Desk, part: Part) -> str:
    """The signal as JSON."""
    lanes = part.lanes(desk.signal())
    return as_json(
        {
            "edges": [_edge(e) for lane in lanes for e in lane.edges if part.at(e.time_ms)],
            "gaps": [_gap(g) for lane in lanes for g in _gaps(lane, part)],
            "contacts": [_contact(c) for lane in lanes for c in _contacts(lane, part)],
            "hand_overs": [
                _hand_over(h) for lane in lanes for h in lane.hand_overs if part.at(h.time_ms)
            ],
            "totals": [_total(total) for total in _totals(desk, lanes, part)],
        }
    )


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


def _total(total: Total) -> Json:
    return {
        "lane": total.lane,
        "outcome": total.outcome,
        "gaps": total.gaps,
        "longest_s": seconds_out(total.longest_ms),
        "out_s": seconds_out(total.out_ms),
    }


def signal_text(desk: Desk, part: Part, plan: Plan, style: Style, now_ms: int) -> str:
    """The signal as a table in order of time, then the totals."""
    lanes = part.lanes(desk.signal())
    grounds = {ground.id: ground.name for ground in plan.grounds}
    outcomes = {outcome.id: outcome.name for outcome in plan.outcomes}
    rows: list[tuple[int, tuple[str, ...]]] = []

    def at(instant_ms: int | None, word: str) -> str:
        return word if instant_ms is None else dated_clock_text(instant_ms, style, now_ms)

    def row(begin_ms: int | None, end_ms: int | None, *texts: str) -> None:
        long = "" if begin_ms is None or end_ms is None else duration_words(end_ms - begin_ms)
        order = begin_ms if begin_ms is not None else -(2**62)
        rows.append((order, (at(begin_ms, "(before)"), at(end_ms, "(after)"), long, *texts)))

    for lane in lanes:
        for each in _contacts(lane, part):
            station = grounds.get(each.ground or "", each.ground or "contact")
            when = outcomes.get(each.outcome or "", "")
            row(each.from_ms, each.to_ms, lane.lane, f"through {station}", when)
        for gap in _gaps(lane, part):
            when = outcomes.get(gap.outcome or "", "")
            row(gap.from_ms, gap.to_ms, lane.lane, f"no signal: {gap.cause}", when)
        for hand in lane.hand_overs:
            if part.at(hand.time_ms):
                to = grounds.get(hand.to_ground, hand.to_ground)
                row(hand.time_ms, hand.time_ms, lane.lane, f"hand-over to {to}", "")
    rows.sort(key=lambda each: each[0])
    head = ("FROM", "TO", "LENGTH", "LANE", "WHAT", "IF")
    told = [f"Clock times: {spoken_zone(style.zone)}", columns([head, *(r for _, r in rows)])]
    told += [_total_text(total, outcomes) for total in _totals(desk, lanes, part)]
    return "\n".join(told)


def _total_text(total: Total, outcomes: dict[str, str]) -> str:
    when = f", {outcomes.get(total.outcome, total.outcome)}" if total.outcome else ""
    out = short_duration_words(total.out_ms)
    longest = short_duration_words(total.longest_ms)
    return f"{total.lane}{when}: {total.gaps} gaps, {out} in all, the longest {longest}"
