"""A rehearsal without a screen: a scripted desk on a clock turned by hand, from look to look.

As fast as the machine goes. What really happens, happens by the hidden timeline; the desk knows of
it what its reports say, and enters them as lines of the entry bar.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from core.board.model import View
from core.board.onair.now import AirNow
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.habits import Hand
from core.rehearsal.judging import Judge, is_live
from core.rehearsal.model import Surprises
from core.rehearsal.producing import Producing
from core.rehearsal.record import Record
from core.rehearsal.truth import truth_of
from core.rehearsal.typist import Typist
from core.session.ground import SkiesFor, no_skies
from core.session.model import Answer
from core.times.clocks import SimClock
from core.times.writing import floor_second_ms

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


class Run:
    """One rehearsal, begun and not yet over; `go` carries it to its end.

    `stride_ms` of a second looks at every second there is.
    """

    def __init__(
        self,
        plan: Plan,
        day: Surprises,
        hand: Hand,
        skies_for: SkiesFor = no_skies,
        checks: Iterable[Check] = (),
        stride_ms: int = STRIDE_MS,
    ) -> None:
        self._checks = tuple(checks)
        self._stride_ms = stride_ms
        self._hand = hand
        self._clock = SimClock(day.begin_ms, paused=True)
        self.desk = OpenDesk(plan, self._clock, skies_for=skies_for)
        ground = self.desk.ground
        self._right = OpenDesk(plan, self._clock, skies_for=skies_for, ground=ground)
        truth = truth_of(plan, day, skies_for, ground)
        self.record = Record(truth, day.begin_ms, day.end_ms, hand.habits.name)
        self._typist = Typist(plan, self._clock, (self.desk, self._right), hand)
        self._typist.expect(each for each in truth.reports if each.at_ms <= day.end_ms)
        self._producing = Producing(plan, self.desk, self._typist, hand.habits.acts_ms)
        self._judge = Judge(plan, self._right)
        self._said_ms = day.begin_ms

    @property
    def now_ms(self) -> int:
        """The rehearsal's time."""
        return self._clock.now_ms()

    def look(self) -> Look:
        """The board as it stands."""
        return Look(self.desk, self.desk.view(self.now_ms), floor_second_ms(self.now_ms))

    def go(self) -> Record:
        """Carry it to its end, from one interesting instant to the next."""
        self.desk.confirm_due(self.now_ms)
        self._right.confirm_due(self.now_ms)
        while True:
            view, air = self._moment()
            next_ms = self._next_ms(air)
            if next_ms > self.record.end_ms:
                break
            self._judge.passed(view, self.record, self.now_ms, next_ms - self.now_ms)
            self._clock.jump(next_ms)
        self.record.entries = tuple(self.desk.store.entries)
        self.record.still_owed = tuple(sorted(self._judge.owed))
        return self.record

    def note(self, found: Iterable[tuple[str, str]]) -> None:
        """Put what does not hold into the record."""
        for check, what in found:
            self.record.trouble(self.now_ms, check, what)

    def _moment(self) -> tuple[View, AirNow]:
        """Everything that is due now: heard, typed, kept on the air, said, looked at."""
        news = self._typist.hear(self.record)
        self._typist.type(self.record)
        self.desk.schedule.tick(self.now_ms)
        air = self._producing.keep(self.record, self.now_ms, news=news)
        self._say(air)
        view = self.desk.view(self.now_ms)
        self._judge.note_owed(view.to_say, self.record, self.now_ms)
        self.record.looks += 1
        for check in self._checks:
            self.note(check(Look(self.desk, view, floor_second_ms(self.now_ms))))
        if self._hand.habits.confirms and view.due is not None:
            self.desk.confirm_due(self.now_ms)
        return view, air

    def _next_ms(self, air: AirNow) -> int:
        """The next instant at which anything is due, or merely to be looked at."""
        now_ms = self.now_ms
        found = [now_ms + self._stride_ms, *self._producing.wakes_ms(air, now_ms)]
        found += self._typist.wakes_ms()
        if self._typist.busy_until_ms > now_ms:
            found.append(self._typist.busy_until_ms)
        return max(min(found), now_ms + 1)

    # ------------------------------------------------------------ said and shown

    def _say(self, air: AirNow) -> None:
        """Say what is owed at once, and now and then the sentence of the moment."""
        if not is_live(air.lane, self.now_ms):
            return
        to_say = self.desk.to_say(self.now_ms)
        self._judge.note_owed(to_say, self.record, self.now_ms)
        due = self.now_ms - self._said_ms >= self._hand.habits.says_every_ms
        if not (to_say.owed or (due and to_say.sentences)):
            return
        self._said_ms = self.now_ms
        taken = self._typist.enter(self.desk, "said", self.record)
        if taken.answer is not Answer.DONE:
            self.note([("what is shown cannot be marked as said", taken.words)])
