"""Live rehearsals on the small flight, and a scripted desk that types into them."""

from dataclasses import dataclass

from core.plan.model import Plan
from core.rehearsal.arriving import Arrived
from core.rehearsal.desk import OpenDesk
from core.rehearsal.habits import DESKS, Hand
from core.rehearsal.judging import is_live
from core.rehearsal.live import LiveRun
from core.rehearsal.model import Surprises
from core.rehearsal.producing import Producing
from core.rehearsal.record import Heard, Record
from core.rehearsal.score import Score
from core.rehearsal.timeline import Truth
from core.rehearsal.typist import Typist
from core.session.ground import SkiesFor, no_skies
from core.session.model import Answer
from core.times.clocks import SimClock
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import small


@dataclass
class Room:
    """A live rehearsal with its desk, on a clock turned by hand."""

    run: LiveRun
    desk: OpenDesk
    clock: SimClock

    def look(self) -> tuple[Heard, ...]:
        return self.run.look(self.desk.view(self.clock.now_ms()))

    def until(self, clock: str, stride_ms: int = 5_000) -> list[str]:
        """Go on till that time, looking now and then; gives the words heard."""
        words = [heard.report.text for heard in self.look()]
        while self.clock.now_ms() < at_ms(clock):
            self.clock.jump(min(at_ms(clock), self.clock.now_ms() + stride_ms))
            words += [heard.report.text for heard in self.look()]
        return words

    def type(self, line: str) -> None:
        """Enter a line that must be taken, and look, as the window does."""
        now_ms = self.clock.now_ms()
        taken = self.desk.enter(line, "", now_ms)
        if taken.answer is Answer.ASKS:
            taken = self.desk.enter(line, "", now_ms, again=True)
        assert taken.answer is Answer.DONE, taken
        self.look()


def room(day: Surprises, plan: Plan | None = None, skies_for: SkiesFor = no_skies) -> Room:
    """A live rehearsal of that day at its beginning."""
    clock = SimClock(day.begin_ms, lambda: 0.0)  # it goes on by jumps only
    desk = OpenDesk(plan or small(), clock, skies_for=skies_for)
    return Room(LiveRun(plan or small(), day, desk, clock, skies_for), desk, clock)


class Fingers:
    """A scripted desk at a live rehearsal, from look to look, as in one without a screen."""

    def __init__(self, room: Room, desk: str, number: int, stride_ms: int = 61_000) -> None:
        self._room = room
        self._hand = Hand(DESKS[desk], number)
        pair = (room.desk, room.desk)
        self._typist = Typist(room.run.plan, room.clock, pair, self._hand)
        acts_ms = self._hand.habits.acts_ms
        self._producing = Producing(room.run.plan, room.desk, self._typist, acts_ms)
        self._scrap = Record(Truth((), (), (), ()), 0, 0)
        self._said_ms = room.run.day.begin_ms
        self._stride_ms = stride_ms

    def go(self) -> Score:
        clock, run = self._room.clock, self._room.run
        while True:
            next_ms = self._moment()
            if next_ms > run.day.end_ms:
                return run.score()
            clock.jump(next_ms)

    def _moment(self) -> int:
        room, typist = self._room, self._typist
        heard = room.look()
        for each in heard:
            lines = typist._arrivals.lines(each.report, room.desk)
            typist._make_of(Arrived(each, lines), room.run.record)
        typist.type(self._scrap)
        now_ms = room.clock.now_ms()
        room.look()
        typist._arrivals.busy_until_ms = room.run._arrivals.busy_until_ms
        air = self._producing.keep(self._scrap, now_ms, news=bool(heard))
        view = room.desk.view(now_ms)
        room.run.look(view)
        if view.to_say is not None and is_live(view.air, now_ms):
            due = now_ms - self._said_ms >= self._hand.habits.says_every_ms
            if view.to_say.owed or (due and view.to_say.sentences):
                self._said_ms = now_ms
                typist.enter(room.desk, "said", self._scrap)
                view = room.desk.view(now_ms)
                room.run.look(view)
        if self._hand.habits.confirms and view.due is not None:
            room.desk.confirm_due(now_ms)
        wakes = [now_ms + self._stride_ms, *self._producing.wakes_ms(air, now_ms)]
        wakes += typist.wakes_ms()
        next_ms = room.run._arrivals.next_ms()
        wakes += [] if next_ms is None else [next_ms]
        busy_ms = typist.busy_until_ms
        wakes += [busy_ms] if busy_ms > now_ms else []
        return max(min(wakes), now_ms + 1)
