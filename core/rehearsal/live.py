"""A rehearsal with people at the desk: what reaches them, and what the trainer does to the day.

The desk is any open desk on a simulated clock; whoever turns that clock calls `look` with what the
board shows. What is noted for the score is what is noted of a scripted desk.
"""

from dataclasses import replace

from core.board.model import View
from core.entries.model import standing
from core.errors import EntryRefused
from core.plan.model import Plan
from core.rehearsal.arriving import Arrivals
from core.rehearsal.desk import OpenDesk
from core.rehearsal.judging import Judge, note_on_air
from core.rehearsal.marks import Attempt, Key, Mark, Standing, copied, keyed
from core.rehearsal.model import Surprise, Surprises, When
from core.rehearsal.record import Heard, Record
from core.rehearsal.reports import Report
from core.rehearsal.score import Score, score_of
from core.rehearsal.timeline import Truth
from core.rehearsal.truth import truth_of
from core.session.ground import SkiesFor, no_skies
from core.times.clocks import SimClock
from core.times.writing import Hours, Style, clock_text

_Before = tuple[int, Standing]

AHEAD_MS = 5_000
"""So long before the next report one comes who goes on to it."""


class LiveRun:
    """One rehearsal as it goes on. The clock is its own to jump, not to turn."""

    def __init__(
        self,
        plan: Plan,
        day: Surprises,
        desk: OpenDesk,
        clock: SimClock,
        skies_for: SkiesFor = no_skies,
        hours: Hours = Hours.TWELVE,
    ) -> None:
        self.plan = plan
        self.day = day
        self._planned = {each.id: each.when for each in day.surprises}
        self.style = Style(plan.zones[0], hours)
        self._desk = desk
        self._clock = clock
        self._skies_for = skies_for
        self._right = OpenDesk(plan, clock, skies_for=skies_for)
        truth = truth_of(plan, day, skies_for)
        self.record = Record(truth, day.begin_ms, day.end_ms, "the desk")
        self._judge = Judge(plan, self._right)
        self._arrivals = Arrivals(plan, clock, (desk, self._right))
        self._view: View | None = None
        self._seen_ms = day.begin_ms
        self._kept: dict[int, Standing] = {}
        self.marks: tuple[Mark, ...] = ()
        self.attempts: tuple[Attempt, ...] = ()
        self._expect()
        for each in (desk, self._right):
            each.confirm_due(self.now_ms)
        self.mark("The beginning")

    @property
    def now_ms(self) -> int:
        """The rehearsal's time."""
        return self._clock.now_ms()

    @property
    def truth(self) -> Truth:
        """What really happens."""
        return self.record.truth

    @property
    def over(self) -> bool:
        """Whether its end has come."""
        return self.now_ms >= self.day.end_ms

    # ------------------------------------------------------------ going on

    def look(self, view: View) -> tuple[Heard, ...]:
        """Take note of what the board shows now; gives what has just reached the desk.

        A report may put the clock right: the board is then to be shown anew.
        """
        now_ms = self.now_ms  # one instant for all of it: a fast clock goes on meanwhile
        before = self._before()
        self._pass(now_ms)
        heard = self._hear(now_ms, before)
        begun = note_on_air(self._desk.on_air(now_ms), self.plan, self.record, now_ms)
        if begun is not None:
            self._arrivals.begun(begun.item, begun.from_ms)
            heard = (*heard, *self._hear(now_ms, before or (now_ms, self._standing())))
        self._judge.note_owed(view.to_say, self.record, now_ms)
        self._view = view
        self._seen_ms = now_ms + sum(each.report.step_ms for each in heard)
        return heard

    def _pass(self, now_ms: int) -> None:
        """So long the board has stood as it was seen last; nothing counts after the end."""
        for_ms = min(now_ms, self.day.end_ms) - self._seen_ms
        if self._view is not None and for_ms > 0:
            self._judge.passed(self._view, self.record, self._seen_ms, for_ms)
            self._seen_ms += for_ms

    def _before(self) -> _Before | None:
        """What stands just before the first report whose time has come."""
        report = self._arrivals.due()
        if report is None:
            return None
        at_ms = max(report.at_ms, self._seen_ms) - 1
        self._pass(at_ms)
        return at_ms, self._standing()

    def _hear(self, now_ms: int, before: _Before | None) -> tuple[Heard, ...]:
        """Let every report reach the desk whose time has come.

        Each is a mark: one goes back to before the first of those that come at one look.
        """
        found: list[Heard] = []
        while (report := self._arrivals.due()) is not None and report.at_ms <= self.day.end_ms:
            now_ms = max(now_ms, report.at_ms)
            if before is not None:
                self._set_mark(report.text, *before, self.next_key(report))
            found.append(self._arrivals.hear(self.record, now_ms).heard)
            now_ms += report.step_ms
        return tuple(found)

    def saw(self) -> None:
        """Whoever sits at the desk has looked at what was reported."""
        for heard in self.record.heard:
            if heard.seen_ms is None:
                heard.seen_ms = self.now_ms

    def score(self) -> Score:
        """The score of what was rehearsed so far."""
        self.record.entries = tuple(self._desk.store.entries)
        self.record.still_owed = tuple(sorted(self._judge.owed))
        return self._with_the_trainer(score_of(self.record, self.plan))

    def _with_the_trainer(self, score: Score) -> Score:
        """With what the trainer did to the day."""
        known, now = self._planned, self.day.surprises
        sprung = (each.id for each in now if known.get(each.id, each.when) != each.when)
        added = (each.id for each in now if each.id not in known)
        attempt = len(self.attempts) + 1
        return replace(score, attempt=attempt, sprung=tuple(sprung), added=tuple(added))

    def ended(self) -> tuple[Surprises, Score]:
        """The day as far as it was rehearsed, and its score."""
        end_ms = max(self.day.begin_ms + 1, min(self.now_ms, self.day.end_ms))
        self.score()
        record = replace(self.record, end_ms=end_ms)
        score = self._with_the_trainer(score_of(record, self.plan))
        return replace(self.day, end_ms=end_ms), score

    def entered_since(self, mark: Mark) -> int:
        """How many entries would become an earlier attempt, were one to go back there."""
        kept = standing(self._desk.store.entries)
        before = standing(self._desk.store.entries[: self._kept[mark.number].entries])
        return len({each.number for each in kept} - {each.number for each in before})

    # ------------------------------------------------------------ what is coming

    @property
    def coming(self) -> tuple[Report, ...]:
        """Reports on their way, in order of time, as far as the rehearsal goes."""
        return tuple(each for each in self._arrivals.coming if each.at_ms <= self.day.end_ms)

    @property
    def inside(self) -> tuple[Report, ...]:
        """Reports that wait for an item to begin."""
        return self._arrivals.inside

    def next_key(self, report: Report) -> Key:
        """The key that a report on its way will have, were it the next of its name."""
        name = report.surprise, report.id
        before = sum((h.report.surprise, h.report.id) == name for h in self.record.heard)
        return (*name, before + 1)

    def can_spring(self, surprise: str) -> bool:
        """Whether a surprise is still to come."""
        if any(heard.report.surprise == surprise for heard in self.record.heard):
            return False
        sprung = dict(self.truth.sprung).get(surprise)
        return sprung is None or sprung > self.now_ms or self._is_coming(surprise)

    def _is_coming(self, surprise: str) -> bool:
        return any(each.surprise == surprise for each in self.coming)

    # ------------------------------------------------------------ the trainer's hand

    def spring(self, surprise: str) -> None:
        """Let a surprise come now. Raises EntryRefused where it cannot any more."""
        if not self.can_spring(surprise):
            raise EntryRefused("That one has been sprung already")
        now = When(at_ms=self.now_ms)
        changed = (replace(s, when=now) if s.id == surprise else s for s in self.day.surprises)
        self._fly(replace(self.day, surprises=tuple(changed)), surprise)

    def add(self, surprise: Surprise) -> None:
        """Let one more come. Raises EntryRefused where it cannot."""
        if any(each.id == surprise.id for each in self.day.surprises):
            raise EntryRefused(f"There is a surprise '{surprise.id}' already")
        self._fly(replace(self.day, surprises=(*self.day.surprises, surprise)), surprise.id)

    def _fly(self, day: Surprises, surprise: str) -> None:
        """Let the flight go another way from now on; what has happened stays."""
        truth = truth_of(self.plan, day, self._skies_for)
        if surprise in truth.ignored:
            raise EntryRefused("That cannot happen any more")
        if self._past(truth) != self._past(self.truth):
            raise EntryRefused("That would change what has really happened already")
        self.day, self.record.truth = day, truth
        self._expect()

    def _past(self, truth: Truth) -> list[tuple[object, ...]]:
        """What has really happened by now, whether anybody has heard of it or not."""
        return [
            (each.at_ms, each.event, each.lane, each.change)
            for each in truth.happenings
            if each.at_ms <= self.now_ms
        ]

    def _expect(self) -> None:
        """Expect what the truth still has for the desk."""
        self._arrivals.forget()
        heard = {key for key, _ in keyed(each.report for each in self.record.heard)}
        reports = keyed(self.truth.reports)
        self._arrivals.expect(report for key, report in reports if key not in heard)
        for airing in self.record.airings:
            self._arrivals.begun(airing.item, airing.from_ms)
        cameras = (until_ms for _, _, until_ms in self.record.cameras)
        self._arrivals.busy_until_ms = max(cameras, default=0)

    def on_to_next(self) -> int | None:
        """Jump to shortly before the next report, or to it where it is nearer than that.

        Gives where to, None where none will come.
        """
        next_ms = next((each.at_ms for each in self.coming if each.at_ms > self.now_ms), None)
        if next_ms is None:
            return None
        to_ms = next_ms - AHEAD_MS
        to_ms = to_ms if to_ms > self.now_ms else next_ms
        self._clock.jump(to_ms)
        return to_ms

    # ------------------------------------------------------------ marks

    def mark(self, name: str) -> Mark:
        """Set a mark here."""
        return self._set_mark(name, self.now_ms, self._standing(), None)

    def _set_mark(self, name: str, at_ms: int, then: Standing, report: Key | None) -> Mark:
        number = self.marks[-1].number + 1 if self.marks else 1
        mark = Mark(number, name, at_ms, report)
        self.marks = (*self.marks, mark)
        self._kept[number] = then
        return mark

    def _standing(self) -> Standing:
        return Standing(
            self.day,
            copied(self.record),
            self._judge.owed,
            len(self._desk.store.entries),
            len(self._right.store.entries),
        )

    def back_to(self, mark: Mark) -> None:
        """Go back: all is as it was then, and the clock stands.

        What was entered since is kept as taken back: an earlier attempt.
        """
        then, now_ms = self._kept[mark.number], self.now_ms
        self._pass(now_ms)
        self.score()
        self.attempts = (*self.attempts, Attempt(mark, now_ms, self.record))
        self.marks = tuple(each for each in self.marks if each.number <= mark.number)
        self._clock.pause()
        self._clock.jump(mark.at_ms)
        self._desk.back_to(_number(self._desk, then.entries), now_ms, mark.at_ms)
        self._right.back_to(_number(self._right, then.right_entries), now_ms, mark.at_ms)
        self.day, self.record = then.day, copied(then.record)
        self._judge.owed = then.owed
        self._expect()
        self._view, self._seen_ms = None, mark.at_ms
        words = (
            f"{self._clock_text(mark.at_ms)}; until {self._clock_text(now_ms)} an earlier attempt"
        )
        self._desk.enter(f"note rehearsal: back to {words}", "", mark.at_ms)

    def _clock_text(self, at_ms: int) -> str:
        return clock_text(at_ms, self.style)


def _number(desk: OpenDesk, count: int) -> int:
    """The number of the last of the first so many entries."""
    return desk.store.entries[count - 1].number if count else 0
