"""Reports on their way to a desk, and how they reach it.

A second desk takes every report rightly and at once: beside it one sees what the first shows amiss.
"""

import heapq
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import count

from core.entries.aired import aired
from core.entries.model import Observe, TakeBack, standing
from core.plan.model import Change, Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.record import Heard, Record
from core.rehearsal.reports import Report
from core.session.model import Answer, Taken
from core.times.clocks import SimClock


@dataclass(frozen=True, slots=True)
class Arrived:
    """A report that has reached the desk, and the lines that a good desk enters on it."""

    heard: Heard
    lines: tuple[str, ...]


class Arrivals:
    """Lets reports reach a desk as their time comes, and enters them at the one that is right."""

    def __init__(self, plan: Plan, clock: SimClock, desks: tuple[OpenDesk, OpenDesk]) -> None:
        self._plan = plan
        self._clock = clock
        self._desk, self._right = desks
        self._coming: list[tuple[int, int, Report]] = []
        self._inside: list[Report] = []
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

    def forget(self) -> None:
        """Expect nothing any more."""
        self._coming.clear()
        self._inside.clear()

    def begun(self, item: str, at_ms: int) -> None:
        """An item has begun: what waits for that comes so long after it."""
        for report in [each for each in self._inside if each.inside == item]:
            self._inside.remove(report)
            self.expect([replace(report, at_ms=at_ms + report.at_ms, inside="")])

    @property
    def coming(self) -> tuple[Report, ...]:
        """What is on its way, in order of time."""
        return tuple(report for _, _, report in sorted(self._coming))

    @property
    def inside(self) -> tuple[Report, ...]:
        """What waits for an item to begin."""
        return tuple(self._inside)

    def next_ms(self) -> int | None:
        """When the next report comes, None where none is on its way."""
        return self._coming[0][0] if self._coming else None

    def due(self) -> Report | None:
        """The next report, if its time has come."""
        at_ms = self.next_ms()
        return self._coming[0][2] if at_ms is not None and at_ms <= self._clock.now_ms() else None

    def hear(self, record: Record, now_ms: int) -> Arrived:
        """Let the next report reach the desk now, or once it has put the clock right."""
        _, _, report = heapq.heappop(self._coming)
        if report.step_ms:
            self._step(report.step_ms)
            now_ms += report.step_ms
        if report.live_ms:
            self._camera_on(report, record, now_ms)
        lines = self.lines(report, self._desk)
        before = len(self._right.store.entries)
        for line in self.lines(report, self._right):
            taken = entered(self._right, line, now_ms)
            if taken.answer is not Answer.DONE:
                record.trouble(now_ms, "a right line was not taken", said_of(line, taken))
        made = self._right.store.entries[before:]
        wanted = (entry.action for entry in made if not isinstance(entry.action, TakeBack))
        heard = Heard(report, now_ms, tuple(wanted))
        record.heard.append(heard)
        return Arrived(heard, lines)

    def _step(self, by_ms: int) -> None:
        """The clock is put right by so much at once."""
        self._clock.step(by_ms)
        for desk in (self._desk, self._right):
            desk.clock_stepped(by_ms, False, self._clock.now_ms())  # noqa: FBT003 - its own way

    def _camera_on(self, report: Report, record: Record, now_ms: int) -> None:
        self.busy_until_ms = now_ms + report.live_ms
        record.cameras.append((report.id, now_ms, self.busy_until_ms))
        for airing in record.airings[-1:]:
            airing.news_ms[report.id] = now_ms

    def lines(self, report: Report, desk: OpenDesk) -> tuple[str, ...]:
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


def entered(desk: OpenDesk, line: str, now_ms: int) -> Taken:
    """Enter a line, once more where that is asked.

    Where it gives a time for a loss that the board takes to have happened, though the lane is back,
    what was heard then was a drop: that entry is taken back first.
    """
    taken = desk.enter(line, "", now_ms)
    mistaken = _mistaken(desk, line) if taken.answer is Answer.REFUSED else None
    if mistaken is not None:
        desk.take_back(mistaken, now_ms)
        taken = desk.enter(line, "", now_ms)
    if taken.answer is Answer.ASKS:
        taken = desk.enter(line, "", now_ms, again=True)
    return taken


def _mistaken(desk: OpenDesk, line: str) -> int | None:
    """The number of the entry by which the line's event has happened, if its lane is back since."""
    event = line.split(maxsplit=1)[0]
    edge = desk.schedule.edge(event) if event in desk.schedule.roll else ""
    seen = [e for e in standing(desk.store.entries) if isinstance(e.action, Observe)]
    for at, entry in enumerate(seen):
        lost = entry.action
        if isinstance(lost, Observe) and edge and lost.edge == edge:
            later = [e.action for e in seen[at + 1 :] if isinstance(e.action, Observe)]
            back = any(each.lane == lost.lane and each.change is not lost.change for each in later)
            return entry.number if lost.change is Change.LOST and back else None
    return None


def said_of(line: str, taken: Taken) -> str:
    """A line that was not taken, and why."""
    return f"'{line}': {taken.words} {taken.hint}".strip()
