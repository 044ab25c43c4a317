"""The scripted desk's hands: what it hears, and when it types what it makes of it."""

import heapq
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import count

from core.plan.model import Plan
from core.rehearsal.arriving import Arrivals, Arrived, entered, said_of
from core.rehearsal.desk import OpenDesk
from core.rehearsal.habits import Hand
from core.rehearsal.record import Record
from core.rehearsal.reports import Report
from core.session.model import Answer, Taken
from core.times.clocks import SimClock


@dataclass(order=True, slots=True)
class _Job:
    """Something the scripted desk will type."""

    due_ms: int
    number: int
    line: str = field(compare=False)
    right: str = field(compare=False, default="")
    """The line that corrects it, where it holds a slip; empty where it is right."""


class Typist:
    """Hears reports as they come, and types at two desks: at one like itself, at one rightly."""

    def __init__(
        self, plan: Plan, clock: SimClock, desks: tuple[OpenDesk, OpenDesk], hand: Hand
    ) -> None:
        self._plan = plan
        self._clock = clock
        self._desk = desks[0]
        self._hand = hand
        self._events = {event.id for event in plan.events}
        self._arrivals = Arrivals(plan, clock, desks)
        self._jobs: list[_Job] = []
        self._number = count()

    @property
    def busy_until_ms(self) -> int:
        """Until then something is shown for which the presenter stays on the air."""
        return self._arrivals.busy_until_ms

    def expect(self, reports: Iterable[Report]) -> None:
        """Reports that will come; those inside an item wait for it to begin."""
        self._arrivals.expect(reports)

    def begun(self, item: str, at_ms: int) -> None:
        """An item has begun: what waits for that comes so long after it."""
        self._arrivals.begun(item, at_ms)

    def wakes_ms(self) -> list[int]:
        """When something is to be heard or typed next."""
        next_ms = self._arrivals.next_ms()
        coming = [] if next_ms is None else [next_ms]
        return [*coming, *([self._jobs[0].due_ms] if self._jobs else [])]

    # ------------------------------------------------------------ hearing

    def hear(self, record: Record) -> bool:
        """Let every report reach the desk whose time has come; gives whether any has."""
        heard = False
        while self._arrivals.due() is not None:
            heard = True
            self._make_of(self._arrivals.hear(record, self._clock.now_ms()), record)
        return heard

    def _make_of(self, arrived: Arrived, record: Record) -> None:
        """What this hand makes of a report: it forgets some, and enters others twice."""
        report = arrived.heard.report
        arrived.heard.seen_ms = arrived.heard.at_ms
        if not arrived.lines and report.id.endswith("(again)"):
            self._again(report, record)
        elif not self._hand.forgets():
            for line in arrived.lines:
                self._plan_to_type(line)

    def _again(self, report: Report, record: Record) -> None:
        """A report heard twice: some desks enter it twice."""
        first = next((h for h in record.heard if f"{h.report.id} (again)" == report.id), None)
        if first is not None and self._hand.repeats():
            for line in self._arrivals.lines(first.report, self._desk):
                self._plan_to_type(line)

    # ------------------------------------------------------------ typing

    def _plan_to_type(self, line: str) -> None:
        due_ms = self._clock.now_ms() + self._hand.hears_ms()
        wrong = self._hand.wrong(line) if self._hand.mistypes() else line
        right = line if wrong != line else ""
        heapq.heappush(self._jobs, _Job(due_ms, next(self._number), wrong, right))

    def type(self, record: Record) -> None:
        """Type what is due by now."""
        while self._jobs and self._jobs[0].due_ms <= self._clock.now_ms():
            job, now_ms = heapq.heappop(self._jobs), self._clock.now_ms()
            event = job.line.split()[0]
            known = event in self._events
            expected_ms = self._desk.schedule.expected_ms(event) if known else None
            line = self._hand.typed(job.line, self._plan.zones[0], now_ms, expected_ms)
            self.enter(self._desk, line, record)
            if job.right:
                due_ms = now_ms + self._hand.notices_ms()
                heapq.heappush(self._jobs, _Job(due_ms, next(self._number), job.right))

    def enter(self, desk: OpenDesk, line: str, record: Record) -> Taken:
        """Enter a line, once more where that is asked; what is refused is noted as trouble."""
        now_ms = self._clock.now_ms()
        taken = entered(desk, line, now_ms)
        if taken.answer is not Answer.DONE and not self._may_fail(line):
            record.trouble(now_ms, "a right line was not taken", said_of(line, taken))
        return taken

    def _may_fail(self, line: str) -> bool:
        """Whether a desk that is not perfect may have typed what cannot be taken any more."""
        return self._hand.habits.name != "perfect" or line in ("place", "said")
