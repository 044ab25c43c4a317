"""The scripted desk's hands: what it hears, and when it types what it makes of it.

A second desk takes every report rightly and at once: beside it one sees what the first shows amiss.
"""

import heapq
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from itertools import count

from core.entries.aired import aired
from core.entries.model import standing
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.habits import Hand
from core.rehearsal.record import Heard, Record
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
        self._desk, self._right = desks
        self._hand = hand
        self._events = {event.id for event in plan.events}
        self._coming: list[tuple[int, int, Report]] = []
        self._inside: list[Report] = []
        self._jobs: list[_Job] = []
        self._number = count()
        self.busy_until_ms = 0
        """Until then something is shown for which the presenter stays on the air."""

    def expect(self, reports: Iterable[Report]) -> None:
        """Reports that will come; those inside an item wait for it to begin."""
        for report in reports:
            if report.inside:
                self._inside.append(report)
            else:
                heapq.heappush(self._coming, (report.at_ms, next(self._number), report))

    def begun(self, item: str, at_ms: int) -> None:
        """An item has begun: what waits for that comes so long after it."""
        for report in [each for each in self._inside if each.inside == item]:
            self._inside.remove(report)
            self.expect([replace(report, at_ms=at_ms + report.at_ms, inside="")])

    def wakes_ms(self) -> list[int]:
        """When something is to be heard or typed next."""
        coming = [self._coming[0][0]] if self._coming else []
        return [*coming, *([self._jobs[0].due_ms] if self._jobs else [])]

    # ------------------------------------------------------------ hearing

    def hear(self, record: Record) -> bool:
        """Let every report reach the desk whose time has come; gives whether any has."""
        heard = False
        while self._coming and self._coming[0][0] <= self._clock.now_ms():
            heard = True
            _, _, report = heapq.heappop(self._coming)
            if report.step_ms:
                self._step(report.step_ms)
            self._take(report, record)
        return heard

    def _step(self, by_ms: int) -> None:
        """The clock is put right by so much at once."""
        self._clock.step(by_ms)
        for desk in (self._desk, self._right):
            desk.clock_stepped(by_ms, False, self._clock.now_ms())  # noqa: FBT003 - its own way

    def _take(self, report: Report, record: Record) -> None:
        now_ms = self._clock.now_ms()
        if report.live_ms:
            self._camera_on(report, record)
        lines = self._lines(report, self._desk)
        before = len(self._right.store.entries)
        for line in self._lines(report, self._right):
            self.enter(self._right, line, record)
        made = self._right.store.entries[before:]
        heard = Heard(report, now_ms, tuple(entry.action for entry in made))
        record.heard.append(heard)
        if not lines and report.id.endswith("(again)"):
            self._again(report, record)
        elif not self._hand.forgets():
            heard.seen = True
            for line in lines:
                self._plan_to_type(line)

    def _camera_on(self, report: Report, record: Record) -> None:
        now_ms = self._clock.now_ms()
        self.busy_until_ms = now_ms + report.live_ms
        record.cameras.append((report.id, now_ms, self.busy_until_ms))
        for airing in record.airings[-1:]:
            airing.news_ms[report.id] = now_ms

    def _again(self, report: Report, record: Record) -> None:
        """A report heard twice: some desks enter it twice."""
        first = next((h for h in record.heard if f"{h.report.id} (again)" == report.id), None)
        if first is not None and self._hand.repeats():
            for line in self._lines(first.report, self._desk):
                self._plan_to_type(line)

    def _lines(self, report: Report, desk: OpenDesk) -> tuple[str, ...]:
        """What a good desk enters: of a line that fails, by how its item stands."""
        if not report.fails:
            return report.lines
        told = aired(standing(desk.store.entries))
        ran = told.ran(report.fails)
        if told.on_air == report.fails:
            return (f"{report.fails} over",)
        planned = next(item.ran for item in self._plan.items if item.id == report.fails)
        if ran.dropped or ran.begun_ms is not None or planned is not None:
            return ()
        return (f"{report.fails} off",)

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
        taken = desk.enter(line, "", now_ms)
        if taken.answer is Answer.ASKS:
            taken = desk.enter(line, "", now_ms, again=True)
        if taken.answer is not Answer.DONE and (desk is self._right or not self._may_fail(line)):
            what = f"'{line}': {taken.words} {taken.hint}".strip()
            record.trouble(now_ms, "a right line was not taken", what)
        return taken

    def _may_fail(self, line: str) -> bool:
        """Whether a desk that is not perfect may have typed what cannot be taken any more."""
        return self._hand.habits.name != "perfect" or line in ("place", "said")
