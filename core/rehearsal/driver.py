"""A rehearsal without a screen: a scripted desk on a clock turned by hand, from look to look.

As fast as the machine goes. What really happens, happens by the hidden timeline; the desk knows of
it what its reports say, and enters them as lines of the entry bar.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from core.board.model import View
from core.board.onair.now import AirNow
from core.board.programme import ItemState
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.habits import Hand
from core.rehearsal.model import Surprises
from core.rehearsal.producing import Producing
from core.rehearsal.record import Record
from core.rehearsal.truth import truth_of
from core.rehearsal.typist import Typist
from core.session.ground import SkiesFor, no_skies
from core.session.model import Answer
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
        self._right = OpenDesk(plan, self._clock, skies_for=skies_for)
        truth = truth_of(plan, day, skies_for)
        self.record = Record(truth, day.begin_ms, day.end_ms, hand.habits.name)
        self._typist = Typist(plan, self._clock, (self.desk, self._right), hand)
        self._typist.expect(each for each in truth.reports if each.at_ms <= day.end_ms)
        self._producing = Producing(plan, self.desk, self._typist, hand.habits.acts_ms)
        self._known = {event.id for event in plan.events}
        self._said_ms = day.begin_ms
        self._owed: set[str] = set()

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
            self._pass(view, next_ms - self.now_ms)
            self._clock.jump(next_ms)
        self.record.entries = tuple(self.desk.store.entries)
        self.record.still_owed = tuple(sorted(self._owed))
        return self.record

    def note(self, found: Iterable[tuple[str, str]]) -> None:
        """Put what does not hold into the record."""
        for check, what in found:
            self.record.trouble(self.now_ms, check, what)

    def _moment(self) -> tuple[View, AirNow]:
        """Everything that is due now: heard, typed, kept on the air, said, looked at."""
        news = self._typist.hear(self.record)
        self._typist.type(self.record)
        air = self._producing.keep(self.record, self.now_ms, news=news)
        view = self.desk.view(self.now_ms)
        if self._say(view):
            view = self.desk.view(self.now_ms)
        self._note_owed(view)
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

    def _say(self, view: View) -> bool:
        """Say what is owed at once, and now and then the sentence of the moment."""
        if view.to_say is None or not _is_live(view, self.now_ms):
            return False
        self._note_owed(view)
        due = self.now_ms - self._said_ms >= self._hand.habits.says_every_ms
        if not (view.to_say.owed or (due and view.to_say.sentences)):
            return False
        self._said_ms = self.now_ms
        taken = self._typist.enter(self.desk, "said", self.record)
        if taken.answer is not Answer.DONE:
            self.note([("what is shown cannot be marked as said", taken.words)])
        return True

    def _note_owed(self, view: View) -> None:
        told = view.to_say.owed if view.to_say is not None else ()
        owed = {event for each in told for event, _ in each.times}
        for event in owed - self._owed:
            self.record.owed[event] = self.record.owed.get(event, 0) + 1
        self._owed = owed

    def _pass(self, view: View, for_ms: int) -> None:
        """So long the board stands as it was just seen."""
        if not _is_live(view, self.now_ms):
            return
        self.record.on_air_ms += for_ms
        if view.big_index is not None:
            card = view.cards[view.big_index]
            if card.id in self._known and self._is_wrong(card.id, card.at_ms, view.now_ms):
                self.record.wrong_ms += for_ms

    def _is_wrong(self, event: str, shown_ms: int | None, now_ms: int) -> bool:
        """Whether the big countdown is not to what the ground has said by now."""
        self._right.schedule.tick(now_ms)
        right_ms = self._right.schedule.expected_ms(event)
        if right_ms is None or shown_ms is None:
            return (right_ms is None) is not (shown_ms is None)
        return abs(floor_second_ms(right_ms) - floor_second_ms(shown_ms)) >= SECOND_MS


def _is_live(view: View, now_ms: int) -> bool:
    """Whether the presenter is on the air."""
    if any(box.state is ItemState.ON_AIR for box in view.air.boxes):
        return False
    return not any(from_ms <= now_ms < to_ms for from_ms, to_ms in view.air.away)
