"""A rehearsal without a screen: a scripted desk on a clock turned by hand, from look to look.

As fast as the machine goes. What really happens, happens by the hidden timeline; the desk knows of
it what its reports say, and enters them as lines of the entry bar. A second desk takes every report
rightly and at once: beside it one sees what the first one shows wrongly.
"""

import heapq
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from itertools import count

from core.board.model import View
from core.board.onair.now import AirNow
from core.board.programme import ItemState
from core.entries.airing import Begin
from core.entries.model import Entry
from core.errors import EntryProblem, EntryRefused
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.habits import Hand
from core.rehearsal.keeping import Keeper
from core.rehearsal.model import Surprises
from core.rehearsal.record import Heard, OnAir, Record, Trouble
from core.rehearsal.reports import Report
from core.rehearsal.truth import truth_of
from core.session.desk import Desk
from core.session.ground import SkiesFor, no_skies
from core.session.model import Answer, Taken
from core.times.clocks import SimClock
from core.times.writing import SECOND_MS, floor_second_ms

STRIDE_MS = 61_000
"""Without anything happening the board is looked at so often; never at the same second twice."""


@dataclass(frozen=True, slots=True)
class Look:
    """One look at the board, for those who check it. `now_ms` is a whole second."""

    desk: OpenDesk
    view: View
    now_ms: int


Check = Callable[[Look], Iterable[tuple[str, str]]]
"""What does not hold on a look: the name of the check and what was seen."""


@dataclass(order=True, slots=True)
class _Job:
    """Something the scripted desk will type."""

    due_ms: int
    number: int
    line: str = field(compare=False)
    right: str = field(compare=False, default="")
    """The line that corrects it, where it holds a slip; empty where it is right."""


class Run:
    """One rehearsal, begun and not yet over; `go` carries it to its end."""

    def __init__(
        self,
        plan: Plan,
        day: Surprises,
        hand: Hand,
        skies_for: SkiesFor = no_skies,
        checks: Iterable[Check] = (),
        stride_ms: int = STRIDE_MS,
    ) -> None:
        self._plan = plan
        self._hand = hand
        self._checks = tuple(checks)
        self._stride_ms = stride_ms
        self.clock = SimClock(day.begin_ms, paused=True)
        self.desk = OpenDesk(plan, self.clock, skies_for=skies_for)
        self._right = OpenDesk(plan, self.clock, skies_for=skies_for)
        truth = truth_of(plan, day, skies_for)
        self.record = Record(truth, day.begin_ms, day.end_ms, hand.habits.name)
        self._inside = [report for report in truth.reports if report.inside]
        self._coming = [
            (report.at_ms, number, report)
            for number, report in enumerate(truth.reports)
            if not report.inside and report.at_ms <= day.end_ms
        ]
        heapq.heapify(self._coming)
        self._jobs: list[_Job] = []
        self._number = count(len(truth.reports))
        self._keeper = Keeper(hand.habits.acts_ms)
        self._said_ms = day.begin_ms
        self._busy_until_ms = 0
        self._owed: set[str] = set()

    @property
    def now_ms(self) -> int:
        """The rehearsal's time."""
        return self.clock.now_ms()

    def go(self) -> Record:
        """Carry it to its end, from one interesting instant to the next."""
        self.desk.confirm_due(self.now_ms)
        self._right.confirm_due(self.now_ms)
        while True:
            view = self._moment()
            next_ms = self._next_ms(view[1])
            if next_ms > self.record.end_ms:
                break
            self._pass(view[0], next_ms - self.now_ms)
            self.clock.jump(next_ms)
        self.record.entries = tuple(self.desk.store.entries)
        self.record.still_owed = tuple(sorted(self._owed))
        return self.record

    def note(self, found: Iterable[tuple[str, str]]) -> None:
        """Put what does not hold into the record."""
        for name, what in found:
            self._trouble(name, what)

    # ------------------------------------------------------------ one moment

    def _moment(self) -> tuple[View, AirNow]:
        """Everything that is due now: heard, typed, kept on the air, said, looked at."""
        news = self._hear()
        self._type()
        air = self._keep(news=news)
        view = self.desk.view(self.now_ms)
        if self._say(view):
            view = self.desk.view(self.now_ms)
        self._look(view)
        return view, air

    def _hear(self) -> bool:
        """Let every report reach the desk whose time has come."""
        heard = False
        while self._coming and self._coming[0][0] <= self.now_ms:
            heard = True
            _, _, report = heapq.heappop(self._coming)
            if report.step_ms:
                self._step(report.step_ms)
            self._take(report)
        return heard

    def _step(self, by_ms: int) -> None:
        """The clock is put right by so much at once."""
        self.clock.step(by_ms)
        for desk in (self.desk, self._right):
            desk.clock_stepped(by_ms, False, self.now_ms)  # noqa: FBT003 - the desk's own way

    def _take(self, report: Report) -> None:
        now_ms = self.now_ms
        if report.live_ms:
            self.record.cameras.append((report.id, now_ms, now_ms + report.live_ms))
            self._busy_until_ms = now_ms + report.live_ms
            for airing in self.record.airings[-1:]:
                airing.news_ms[report.id] = now_ms
        lines = self._lines(report)
        before = len(self._right.store.entries)
        for line in lines:
            self._enter(self._right, line, "the good desk's line")
        made = self._right.store.entries[before:]
        heard = Heard(report, now_ms, tuple(entry.action for entry in made))
        self.record.heard.append(heard)
        if not lines and report.id.endswith("(again)"):
            self._again(report)
        elif not self._hand.forgets():
            heard.seen = True
            for line in lines:
                self._plan_to_type(line)

    def _again(self, report: Report) -> None:
        """A report heard twice: some desks enter it twice."""
        first = next((h for h in self.record.heard if f"{h.report.id} (again)" == report.id), None)
        if first is not None and self._hand.repeats():
            for line in self._lines(first.report):
                self._plan_to_type(line)

    def _lines(self, report: Report) -> tuple[str, ...]:
        """What a good desk enters: of a line that fails, by how its item stands."""
        if not report.fails:
            return report.lines
        boxes = self.desk.view(self.now_ms).air.boxes
        states = {box.item: box.state for box in boxes}
        match states.get(report.fails, ItemState.FLOATING):
            case ItemState.ON_AIR:
                return (f"{report.fails} over",)
            case ItemState.RUN | ItemState.DROPPED:
                return ()
            case _:
                return (f"{report.fails} off",)

    def _plan_to_type(self, line: str) -> None:
        due_ms = self.now_ms + self._hand.hears_ms()
        wrong = self._hand.wrong(line) if self._hand.mistypes() else line
        right = line if wrong != line else ""
        heapq.heappush(self._jobs, _Job(due_ms, next(self._number), wrong, right))

    def _type(self) -> None:
        while self._jobs and self._jobs[0].due_ms <= self.now_ms:
            job = heapq.heappop(self._jobs)
            event = job.line.split()[0]
            expected_ms = self.desk.schedule.expected_ms(event) if self._is_event(event) else None
            zone = self._plan.zones[0]
            line = self._hand.typed(job.line, zone, self.now_ms, expected_ms)
            self._enter(self.desk, line, "a line")
            if job.right:
                due_ms = self.now_ms + self._hand.notices_ms()
                heapq.heappush(self._jobs, _Job(due_ms, next(self._number), job.right))

    def _is_event(self, word: str) -> bool:
        return any(event.id == word for event in self._plan.events)

    def _enter(self, desk: Desk, line: str, what: str) -> Taken:
        """Enter a line, once more where that is asked; what is refused is noted as trouble."""
        taken = desk.enter(line, "", self.now_ms)
        if taken.answer is Answer.ASKS:
            taken = desk.enter(line, "", self.now_ms, again=True)
        if taken.answer is not Answer.DONE and (desk is self._right or not self._may_fail(line)):
            self._trouble(f"{what} was not taken", f"'{line}': {taken.words} {taken.hint}".strip())
        return taken

    def _may_fail(self, line: str) -> bool:
        """Whether a desk that is not perfect may have typed what cannot be taken any more."""
        return self._hand.habits.name != "perfect" or line in ("place", "said")

    def _trouble(self, check: str, what: str) -> None:
        self.record.troubles.append(Trouble(self.now_ms, check, what))

    # ------------------------------------------------------------ the programme

    def _keep(self, *, news: bool) -> AirNow:
        """Begin, end and place items until nothing is to be done at this second."""
        air = self.desk.on_air(self.now_ms)
        if not self._plan.items:
            return air
        for _ in self._plan.items:
            lines = self._programme(air, news=news)
            for line in lines:
                self._enter(self.desk, line, "a line of the programme")
            if not lines:
                break
            air = self.desk.on_air(self.now_ms)
            news = False
        self._airings(air)
        self._left(air)
        return air

    def _programme(self, air: AirNow, *, news: bool) -> tuple[str, ...]:
        if self.now_ms < self._busy_until_ms:
            on = [box for box in air.lane.boxes if box.state is ItemState.ON_AIR]
            cut = [item.id for item in self._plan.items if item.can_cut]
            return tuple(f"{box.item} over" for box in on if box.item in cut)
        try:
            return self._keeper.lines(self.desk, air, self.now_ms, news=news)
        except (EntryProblem, EntryRefused) as problem:
            self._trouble("the programme could not be kept", str(problem))
            return ()

    def _left(self, air: AirNow) -> None:
        """What is owed and has no place, as the board says."""
        for said in air.panel.owed:
            for item in self._plan.items:
                if item.owed and item.name.lower() in said.text.lower():
                    self.record.places_left[item.id] = said.text

    def _airings(self, air: AirNow) -> None:
        """Note what is on the air, and the first word of anything that it loses."""
        on = next((box for box in air.lane.boxes if box.state is ItemState.ON_AIR), None)
        if on is None:
            return
        known = self.record.airings
        if not known or known[-1].item != on.item:
            clean = not any(lost.item == on.item for lost in air.broken)
            can_cut = next(item.can_cut for item in self._plan.items if item.id == on.item)
            known.append(OnAir(on.item, on.from_ms, clean, can_cut))
            self._spring_inside(on.item)
        for lost in air.broken:
            if lost.item == on.item and lost.of:
                known[-1].news_ms.setdefault(lost.of, self.now_ms)

    def _spring_inside(self, item: str) -> None:
        """What waits for the item to begin comes so long after it."""
        begun = [e.at_ms for e in self.desk.store.entries if _begins(e, item)]
        for report in [each for each in self._inside if each.inside == item]:
            self._inside.remove(report)
            at_ms = (begun[-1] if begun else self.now_ms) + report.at_ms
            heapq.heappush(self._coming, (at_ms, next(self._number), replace(report, at_ms=at_ms)))

    # ------------------------------------------------------------ said and looked at

    def _say(self, view: View) -> bool:
        """Say what is owed at once, and now and then the sentence of the moment."""
        if view.to_say is None or not self._is_live(view):
            return False
        self._note_owed(view)
        due = self.now_ms - self._said_ms >= self._hand.habits.says_every_ms
        if not (view.to_say.owed or (due and view.to_say.sentences)):
            return False
        self._said_ms = self.now_ms
        taken = self._enter(self.desk, "said", "a line")
        if taken.answer is not Answer.DONE:
            self._trouble("what is shown cannot be marked as said", taken.words)
        return True

    def _note_owed(self, view: View) -> None:
        told = view.to_say.owed if view.to_say is not None else ()
        owed = {event for each in told for event, _ in each.times}
        for event in owed - self._owed:
            self.record.owed[event] = self.record.owed.get(event, 0) + 1
        self._owed = owed

    def _is_live(self, view: View) -> bool:
        """Whether the presenter is on the air."""
        lane, now_ms = view.air, self.now_ms
        if any(box.state is ItemState.ON_AIR for box in lane.boxes):
            return False
        return not any(from_ms <= now_ms < to_ms for from_ms, to_ms in lane.away)

    def _look(self, view: View) -> None:
        self.record.looks += 1
        self._note_owed(view)
        look = Look(self.desk, view, floor_second_ms(self.now_ms))
        for check in self._checks:
            self.note(check(look))
        if self._hand.habits.confirms and view.due is not None:
            self.desk.confirm_due(self.now_ms)

    def _pass(self, view: View, for_ms: int) -> None:
        """So long the board stands as it was just seen."""
        if for_ms <= 0 or not self._is_live(view):
            return
        self.record.on_air_ms += for_ms
        if view.big_index is None:
            return
        card = view.cards[view.big_index]
        self._right.schedule.tick(view.now_ms)
        if not self._is_event(card.id):
            return
        right_ms, shown_ms = self._right.schedule.expected_ms(card.id), card.at_ms
        if (right_ms is None) is not (shown_ms is None) or (
            right_ms is not None
            and shown_ms is not None
            and abs(floor_second_ms(right_ms) - floor_second_ms(shown_ms)) >= SECOND_MS
        ):
            self.record.wrong_ms += for_ms

    def _next_ms(self, air: AirNow) -> int:
        """The next instant at which anything is due, or merely to be looked at."""
        now_ms = self.now_ms
        found = [now_ms + self._stride_ms, *self._keeper.wakes_ms(self.desk, air, now_ms)]
        found += [self._coming[0][0]] if self._coming else []
        found += [self._jobs[0].due_ms] if self._jobs else []
        if self._busy_until_ms > now_ms:
            found.append(self._busy_until_ms)
        return max(min(found), now_ms + 1)


def _begins(entry: Entry, item: str) -> bool:
    return isinstance(entry.action, Begin) and entry.action.item == item
