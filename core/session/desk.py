"""The desk: takes what is typed, keeps it, and gives the view. The windows' only door."""

from dataclasses import replace

from core.board.facts import SideBySide, as_written
from core.board.handing.model import HandPage
from core.board.model import EntryRow, Preview, RehearsalBadge, Said, View
from core.board.onair.now import AirNow
from core.board.onair.places import Proposed
from core.board.view import Around
from core.board.words import listed
from core.entries.aired import aired
from core.entries.at_desk import relieves, who_typed
from core.entries.counting_line import counting_line
from core.entries.item_line import placing_line
from core.entries.model import (
    Action,
    Add,
    BringBack,
    Entry,
    Happened,
    Observe,
    TakeBack,
    TakePlan,
)
from core.entries.readings import ClockCommand, Reading
from core.errors import EntryProblem, EntryRefused, PlanProblems
from core.plan.model import Plan
from core.schedule.model import Clash, Effect
from core.schedule.schedule import Schedule
from core.session.considering import Considering
from core.session.ground import Ground, SkiesFor, no_skies
from core.session.last_taken import LastTaken
from core.session.machine import Machine
from core.session.model import READS_ONLY, Answer, FirstEnter, Taken
from core.session.offering import Offer, offer
from core.session.previews import Considered, asked_at, asked_for
from core.session.quietly import Quietly, reason_of, state_of
from core.session.session import Session
from core.session.steering import steer
from core.session.store import MemoryStore, Store
from core.session.turning import rows
from core.session.undoing import Undoing
from core.signal.computing import Spell
from core.signal.hurried import Question
from core.signal.model import LaneSignal, Shifted, Total
from core.times.clocks import RealClock, SimClock
from core.times.trust import ClockTrust
from core.times.writing import Hours, clock_text, floor_second_ms

_TOLD_FOR_MS = 15_000
"""So long what a line was said to do is in one's mind."""


class Desk:
    """One session at the desk: a plan, a clock, and the entries in their order.

    Everything shown is computed from these three. `hours` is the window's one style of clock times;
    `both` puts metric and customary side by side in facts. `ground` is the plan made ready, where
    another desk on the same plan has it already.
    """

    def __init__(
        self,
        plan: Plan,
        clock: RealClock | SimClock,
        store: Store | None = None,
        hours: Hours = Hours.TWELVE,
        skies_for: SkiesFor = no_skies,
        both: SideBySide = as_written,
        ground: Ground | None = None,
    ) -> None:
        self.clock = clock
        kept: Store = MemoryStore() if store is None else store
        self._session = Session(plan, clock.now_ms(), kept, hours, skies_for, both, ground)
        self._asked: FirstEnter | None = None
        self._last = LastTaken(self._session)
        self._undoing = Undoing(self._session, self._last, self._numbered)
        self._quietly = Quietly()
        self._machine = Machine(self._session, self._quietly, self._numbered)
        self._considering = Considering(self._session, clock, self._numbered)
        self._facts_of, self._fact = "", 0

    # ------------------------------------------------------------ looking

    def view(self, now_ms: int) -> View:
        """Everything any screen shows at that moment."""
        second_ms = floor_second_ms(now_ms)
        self._session.schedule.tick(second_ms)
        around = Around(
            last_change=self._last.change,
            rehearsal=self._badge(),
            notices=self._notices(second_ms),
            saved=state_of(self._session.store.trouble),
            unsaved=self._session.store.unsaved,
            desk=self._session.desk,
            clock=self._machine.trust,
            entries=self._session.standing,
            facts_of=self._facts_of,
            fact=self._fact,
        )
        return self._session.board.view(self._session.scene, second_ms, around)

    def on_air(self, now_ms: int) -> AirNow:
        """The programme at that moment, as data."""
        return self._session.on_air.at(now_ms)

    def proposed(self, now_ms: int) -> Proposed:
        """The best places for all that is owed, as data."""
        return self._session.on_air.proposed(now_ms)

    def no_place_words(self, now_ms: int) -> tuple[str, ...]:
        """Of each owed item that has no place there: why, in words."""
        return self._session.on_air.no_place_words(now_ms)

    @property
    def session(self) -> Session:
        """What stands, for what is written out of it at one moment; nobody keeps it."""
        return self._session

    def show_facts(self, event_id: str, fact: int = 0) -> None:
        """Let the presenter see that fact of the event, none where the event is empty."""
        self._facts_of, self._fact = event_id, fact

    def place_words(self, item: str, at_ms: int) -> str:
        """The line that gives an item its start, to the nearest ten seconds."""
        return placing_line(item, at_ms, self._session.style.zone)

    def count_words(self, selected: str) -> str:
        """The line that counts one more on the event's check-off; '' where it has none."""
        counts = aired(self._session.standing).counts
        return counting_line(self._session.plan.checkoffs, counts, selected)

    def hand_page(self, now_ms: int) -> HandPage:
        """What whoever takes the desk over has to know, at that moment."""
        self._session.schedule.tick(floor_second_ms(now_ms))
        return self._session.hand_page(now_ms)

    def entries(self) -> tuple[EntryRow, ...]:
        """The day's entries, oldest first; undoing itself is not listed, only what it took back."""
        return rows(self._session.store.entries, self._session.names, self._session.style)

    @property
    def schedule(self) -> Schedule:
        """The schedule as it stands; read it, change it only by entering something."""
        return self._session.schedule

    @property
    def clashes(self) -> tuple[Clash, ...]:
        """What contradicts itself as things stand."""
        return self._session.schedule.clashes

    def signal(self) -> tuple[LaneSignal, ...]:
        """All lanes of the signal as things stand."""
        return self._session.scene.lanes

    def totals(self, from_ms: int, to_ms: int) -> tuple[Total, ...]:
        """How often and how long each lane is out of contact between two instants."""
        return self._session.tables.totals(self.signal(), from_ms, to_ms)

    def shifted(self) -> tuple[Shifted, ...]:
        """The courses that were moved as a whole with their events, not computed anew."""
        return self._session.tables.shifted(self._session.schedule.expected_ms)

    @property
    def plan(self) -> Plan:
        """The plan in force."""
        return self._session.plan

    def working(self, *, on: bool) -> None:
        """Say, or no longer say, that contacts far ahead are being worked out."""
        self._quietly.working = on

    def unsettled(self) -> tuple[Question, ...]:
        """What is to be worked out of contacts far ahead, away from the screen's thread."""
        return self._session.tables.unsettled(self._session.schedule.expected_ms)

    def settle(self, question: Question, spell: Spell | None, now_ms: int) -> None:
        """Take what was worked out of contacts far ahead."""
        self._session.tables.settle(question, spell)
        self._session.rebuild(now_ms)

    def _badge(self) -> RehearsalBadge | None:
        if not isinstance(self.clock, SimClock):
            return None
        return RehearsalBadge(f"{self.clock.rate:g}", self.clock.paused)

    def _notices(self, now_ms: int) -> tuple[Said, ...]:
        why = reason_of(self._session.store.trouble)
        return (*why, *self._quietly.lines(now_ms), *self._considering.offer.said)

    # ------------------------------------------------------------ entering

    def consider(
        self, text: str, selected: str, now_ms: int, pick: int = 0, *, on_air: bool = True
    ) -> Considered:
        """How the line is read, and what it would do, `on_air` too; changes nothing.

        What we do on the air ourselves is always looked at there: it may ask for a second Enter.
        Raises EntryProblem for a line that cannot be read, EntryRefused for one that cannot be
        taken at all.
        """
        return self._considering.of(text, selected, now_ms, pick, on_air=on_air)

    def preview(self, text: str, selected: str, now_ms: int, pick: int = 0) -> Preview:
        """What Enter would do with the line as it stands; changes nothing."""
        return self._considering.preview(text, selected, now_ms, pick)

    def enter(
        self, text: str, selected: str, now_ms: int, pick: int = 0, *, again: bool = False
    ) -> Taken:
        """Take the line. What clashes, or is out of the common, asks for Enter once more.

        The instant that counts is that of the first Enter. Where by now the line would do another
        thing, and it was told some while ago what it does, it is told once more before it counts.
        """
        if not text.strip():
            return Taken(Answer.NOTHING)
        if self._session.store.reads_only:
            return READS_ONLY
        asked, self._asked = self._asked, None
        first = asked if again and asked is not None and asked.is_of(text, selected, pick) else None
        at_ms = now_ms if first is None else first.at_ms
        try:
            considered = self.consider(text, selected, at_ms, pick, on_air=False)
            question = asked_for(considered)
            if question and first is None:
                self._asked = FirstEnter(text, selected, pick, at_ms, now_ms)
                return self._asks(question, now_ms)
            if first is not None and self._is_stale(first, considered, now_ms):
                self._asked = replace(first, told_ms=now_ms)
                return self._asks(asked_for(considered, now_ms - at_ms), now_ms)
            return self.take(considered, now_ms)
        except (EntryProblem, EntryRefused) as problem:
            return Taken(Answer.REFUSED, problem.what, problem.hint)

    def _asks(self, question: str, now_ms: int) -> Taken:
        clock = clock_text(now_ms, self._session.style)
        return Taken(Answer.ASKS, question, later=asked_at(question, clock))

    def _is_stale(self, first: FirstEnter, considered: Considered, now_ms: int) -> bool:
        """Whether a line asked about a while ago would by now be another entry."""
        if now_ms - first.told_ms <= _TOLD_FOR_MS:
            return False
        try:
            now = self.consider(first.text, first.selected, now_ms, first.pick, on_air=False)
        except (EntryProblem, EntryRefused):
            return True
        was = considered.entry
        return was is not None and (now.entry is None or now.entry.action != was.action)

    def take(self, considered: Considered, now_ms: int) -> Taken:
        """Take what was considered, against a clash if there is one. Raises EntryRefused."""
        entry, reading = considered.entry, considered.reading
        if entry is None:
            return self._steer(reading)
        effect = considered.effect
        entry = replace(entry, forced=effect.clash is not None or bool(effect.asks))
        hands_over = relieves(entry.action, self._session.standing)
        effect = self._session.schedule.take(entry, now_ms)
        self._keep(entry, effect)
        if isinstance(entry.action, TakePlan):
            self._taken_over()
        if isinstance(entry.action, Observe) and entry.action.drop is not None:
            self._session.rebuild(now_ms)
        added = entry.action.event.id if isinstance(entry.action, Add) else ""
        return Taken(
            Answer.DONE,
            reading.how,
            number=entry.number,
            shows=added,
            effect=effect,
            hands_over=hands_over,
        )

    def confirm_due(self, now_ms: int) -> Taken:
        """Everything that is due has happened when it was expected."""
        if self._session.store.reads_only:
            return READS_ONLY
        scene = self._session.scene
        lines = [scene.line(name) for name in scene.arranged(floor_second_ms(now_ms)).due]
        if not lines:
            return Taken(Answer.NOTHING, "Nothing is due")
        for line in lines:  # at the times that were shown, whatever the first ones move
            if line.expected_ms is None:
                continue
            action = Happened(line.event, line.expected_ms, line.edge)
            entry = self._numbered(f"{line.event} happened", action, now_ms)
            self._keep(entry, self._session.schedule.take(entry, now_ms))
        said = f"Confirmed: {listed([scene.event(line.event).name for line in lines])}"
        if len(lines) > 1:
            self._last.several(said)
        return Taken(Answer.DONE, said)

    def _keep(self, entry: Entry, effect: Effect) -> None:
        self._session.keep(entry)
        self._undoing.forget()
        self._last.taken(entry, effect)

    def _numbered(self, text: str, action: Action, at_ms: int, source: str = "") -> Entry:
        kept = self._session.store.entries
        number = kept[-1].number + 1 if kept else 1
        simulated = isinstance(self.clock, SimClock)
        by = who_typed(action, self._session.desk)
        return Entry(number, at_ms, text, action, source, rehearsal=simulated, by=by)

    # ------------------------------------------------------------ taking back

    def undo(self, now_ms: int) -> Taken:
        """Take back the last entry that stands."""
        return self._undoing.undo(now_ms)

    def redo(self, now_ms: int) -> Taken:
        """Bring back what was taken back last, as long as nothing was typed since."""
        return self._undoing.redo(now_ms)

    def take_back(self, number: int, now_ms: int) -> Taken:
        """The entry of that number is as if never typed."""
        return self._undoing.turn(TakeBack(number), now_ms)

    def bring_back(self, number: int, now_ms: int) -> Taken:
        """An entry taken back stands again."""
        return self._undoing.turn(BringBack(number), now_ms)

    def back_to(self, number: int, now_ms: int, then_ms: int) -> None:
        """The board stands as it did after that entry, at an earlier instant of a rehearsal.

        What was entered since is kept as taken back at `now_ms`.
        """
        self._undoing.back_to(number, now_ms)
        self._session.rebuild(then_ms)
        self._last.recall_standing()

    # ------------------------------------------------------------ opened again

    def tell(self, words: str, now_ms: int) -> None:
        """Say quietly, for a while, how the session was opened."""
        self._quietly.opened(words, now_ms)

    def caught_up(self, now_ms: int) -> None:
        """The store has read what another window entered: the board stands as it does there."""
        self._session.rebuild(now_ms)
        self._last.recall()

    # ------------------------------------------------------------ clock and plan

    def clock_stepped(self, by_ms: int, slept: bool, now_ms: int) -> None:  # noqa: FBT001
        """The machine's clock jumped, or the machine slept: into the record, and one line."""
        self._machine.stepped(by_ms, now_ms, slept=slept)

    def clock_told(self, trust: ClockTrust, now_ms: int) -> None:
        """The machine said how far its clock is to be trusted: kept where that has changed."""
        self._machine.told(trust, now_ms)

    def plan_on_disk(self, plan: Plan | PlanProblems, now_ms: int) -> None:
        """The plan's file has changed: it is offered, never taken silently."""
        session = self._session
        self._considering.offer = offer(plan, session.scene, now_ms, session.skies_for)

    def _taken_over(self) -> None:
        """Another plan is in force: it is offered no more."""
        self._considering.offer = Offer()
        self._session.plan_taken_over()

    def _steer(self, reading: Reading) -> Taken:
        if not isinstance(self.clock, SimClock) or not isinstance(reading.action, ClockCommand):
            return Taken(Answer.REFUSED, "The clock is the real one")
        steer(self.clock, reading.action)
        self._session.schedule.tick(floor_second_ms(self.clock.now_ms()))
        return Taken(Answer.DONE, reading.how)
