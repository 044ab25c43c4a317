"""What the flight really does in a rehearsal: the plan with its surprises, folded beforehand.

It is a desk of its own, which nobody sees, that was told everything. So it is consistent: what
hangs on an event that comes late comes late with it, by the same rules as on the board.
"""

from collections.abc import Iterator, Sequence

from core.entries.model import (
    Action,
    Choose,
    Observe,
    Revise,
    Scrub,
    Shift,
    Way,
)
from core.errors import EntryRefused
from core.plan.model import Change, Event, Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.hearing import Ears
from core.rehearsal.model import CalledOff, Edges, Moves, Surprise, Surprises, Turns, When
from core.rehearsal.natural import heard
from core.rehearsal.reports import Report, told, turned_words
from core.rehearsal.timeline import Happening, Truth
from core.session.ground import Ground, SkiesFor, no_skies
from core.times.clocks import SimClock


def truth_of(
    plan: Plan, day: Surprises, skies_for: SkiesFor = no_skies, ground: Ground | None = None
) -> Truth:
    """The flight as it goes under those surprises; `ground` is the plan made ready, if it is."""
    return _Folding(plan, day, skies_for, ground).truth()


class _Folding:
    """The surprises brought one after another into a desk that nobody sees."""

    def __init__(
        self, plan: Plan, day: Surprises, skies_for: SkiesFor, ground: Ground | None
    ) -> None:
        self._plan = plan
        self._day = day
        clock = SimClock(day.begin_ms, paused=True)
        self._desk = OpenDesk(plan, clock, skies_for=skies_for, ground=ground)
        self._reports: list[Report] = []
        self._ears = Ears(self._desk, plan)
        self._ignored: list[str] = []
        self._sprung: list[tuple[str, int]] = []
        self._without: set[str] = set()

    def truth(self) -> Truth:
        """All of it, once everything is told."""
        turned = self._turned()
        for surprise in sorted(self._day.surprises, key=self._first_ms):
            self._fold(surprise)
        natural = [found for each in turned if (found := self._turn_heard(each))]
        happenings = tuple(sorted(self._happenings(), key=lambda each: each.at_ms))
        natural += [heard(each, self._plan) for each in happenings]
        reports = [*self._still_said(happenings), *natural]
        known = {each.event for each in happenings} | self._without
        live = self._desk.view(self._day.begin_ms).air.live
        return Truth(
            happenings,
            tuple(sorted(reports, key=lambda each: each.at_ms)),
            tuple(span for span in live if span.event in known),
            tuple(sorted(self._desk.schedule.chosen.values())),
            tuple(self._ignored),
            tuple(self._sprung),
        )

    def _still_said(self, happenings: Sequence[Happening]) -> Iterator[Report]:
        """The reports of surprises, but for times of what everybody knows has happened by then."""
        known_ms = {each.event: each.heard_ms for each in happenings if each.event}
        for report in self._reports:
            if known_ms.get(report.moves, report.at_ms + 1) > report.at_ms:
                yield report

    # ------------------------------------------------------------ surprises

    def _first_ms(self, surprise: Surprise) -> int:
        """When it is sprung by the plan alone: the order in which surprises are folded."""
        return self._when_ms(surprise.when) or self._day.begin_ms

    def _when_ms(self, when: When) -> int | None:
        """When it is sprung as the flight stands; for one inside an item, from its beginning."""
        if when.at_ms is not None:
            return when.at_ms
        if when.item:
            return when.by_ms
        expected = self._desk.schedule.expected_ms
        if when.elapsed_ms is not None:
            zero = self._plan.elapsed_from
            zero_ms = None if zero is None else expected(zero)
            return None if zero_ms is None else zero_ms + when.elapsed_ms
        at_ms = expected(when.event) if when.event else None
        return None if at_ms is None else at_ms + when.by_ms

    def _fold(self, surprise: Surprise) -> None:
        at_ms = self._when_ms(surprise.when)
        if at_ms is None:
            self._ignored.append(surprise.id)
            return
        try:
            new_ms = self._happen(surprise, at_ms)
        except EntryRefused:
            self._ignored.append(surprise.id)
            return
        if not surprise.when.item:
            self._sprung.append((surprise.id, at_ms))
        self._reports += told(surprise, at_ms, self._plan, new_ms)

    def _happen(self, surprise: Surprise, at_ms: int) -> int | None:
        """Let the flight do it; gives the event's new time where there is one."""
        match surprise.what:
            case Moves(event, by_ms, to_ms):
                old_ms = self._desk.schedule.expected_ms(event)
                if old_ms is None:
                    raise EntryRefused(f"{event} does not happen")
                new_ms = old_ms + by_ms if to_ms is None else to_ms
                edge = self._desk.schedule.edge(event)
                self._must_have_room(edge, new_ms)
                self._set(Revise(event, new_ms, edge=edge), at_ms)
                return new_ms
            case Edges():
                self._edge(surprise.what, at_ms)
            case CalledOff(event, way):
                self._set(Scrub(event, way), at_ms)
            case _:
                pass
        return None

    def _edge(self, what: Edges, at_ms: int) -> None:
        """One of the signal's edges comes at another time, or never; or the signal drops."""
        if what.for_ms is not None:
            if not self._ears.hears(what.lane, at_ms, at_ms + what.for_ms):
                raise EntryRefused(f"{what.lane} is not in contact then")
            self._set(Observe(what.lane, Change.LOST, at_ms, Shift.ALONE), at_ms)
            self._set(Observe(what.lane, Change.BACK, at_ms + what.for_ms, Shift.ALONE), at_ms)
            return
        edge = self._ears.next_edge(what.lane, what.change, at_ms)
        if edge is None:
            raise EntryRefused(f"{what.lane} has no such edge any more")
        if what.never:
            self._ears.never(edge)
            for event in self._ears.standing_for(edge):
                self._set(Scrub(event, Way.WITH), at_ms)
            return
        new_ms = edge.time_ms + what.by_ms if what.to_ms is None else what.to_ms
        self._must_have_room(edge.id, new_ms)
        self._set(Observe(what.lane, what.change, new_ms, Shift.ALONE, edge.id), at_ms)

    def _must_have_room(self, edge: str, new_ms: int) -> None:
        """No return comes after the loss that ends it, no loss before the return it ends."""
        if edge and not self._ears.has_room(edge, new_ms):
            raise EntryRefused(f"{edge} would pass the one before it, or after it")

    def _set(self, action: Action, at_ms: int) -> None:
        """Bring one thing into the hidden timeline, whatever it is against."""
        self._desk.force(action, at_ms)

    # ------------------------------------------------------------ outcomes

    def _turned(self) -> list[str]:
        """Let every event turn out, before all else: as surprises say, else as the plan has first.

        Gives the outcomes that no surprise tells of.
        """
        natural = []
        surprised = [s.what for s in self._day.surprises if isinstance(s.what, Turns)]
        for of in dict.fromkeys(outcome.of for outcome in self._plan.outcomes):
            ways = [outcome.id for outcome in self._plan.outcomes if outcome.of == of]
            told = [what for what in surprised if what.outcome in ways]
            if self._desk.schedule.expected_ms(of) is None:
                continue
            self._set(Choose(told[-1].outcome if told else ways[0]), self._day.begin_ms)
            self._without |= {event for what in told for event in what.without}
            if not told:
                natural.append(ways[0])
        return natural

    def _turn_heard(self, outcome: str) -> Report | None:
        """Word of how an event turned out, once anybody on the ground can have it."""
        of = next(each.of for each in self._plan.outcomes if each.id == outcome)
        at_ms = self._desk.schedule.expected_ms(of)
        if at_ms is None or at_ms <= self._day.begin_ms:
            return None
        heard_ms = self._ears.heard_ms(at_ms, at_craft=True)
        if heard_ms is None:
            return None
        words = turned_words(self._plan, outcome)
        return Report(outcome, heard_ms, words, (outcome,), outcome=outcome, then_ms=at_ms)

    # ------------------------------------------------------------ what happens

    def _happenings(self) -> Iterator[Happening]:
        begin_ms, end_ms = self._day.begin_ms, self._day.end_ms
        edges: dict[str, str] = {}
        for event in self._plan.events:
            at_ms = self._desk.schedule.expected_ms(event.id)
            edge = self._desk.schedule.edge(event.id)
            if at_ms is None or event.happened_ms is not None or not begin_ms < at_ms <= end_ms:
                continue
            if event.id in self._without or (edge and self._ears.silenced(edge)):
                continue
            lane = event.edge.lane if event.edge is not None else ""
            edges.setdefault(edge, event.id)
            heard_ms = self._event_heard_ms(event, at_ms, lane)
            if heard_ms is not None:
                yield Happening(at_ms, heard_ms, event.id, lane)
        for found in self._ears.edges():
            if found.id not in edges and begin_ms < found.time_ms <= end_ms:
                heard_ms = found.time_ms + self._ears.delay_ms(found.lane)
                yield Happening(found.time_ms, heard_ms, "", found.lane, found.change)

    def _event_heard_ms(self, event: Event, at_ms: int, lane: str) -> int | None:
        if lane:
            return at_ms + self._ears.delay_ms(lane)
        return self._ears.heard_ms(at_ms, at_craft=event.at_craft)
