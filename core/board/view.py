"""The view: joins plan, schedule and signal into what every screen shows at one moment."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from core.board.biggest import biggest
from core.board.cards import Cards
from core.board.changes import Against, against_plan
from core.board.contact import TOTALS_MS, contact_panel
from core.board.delays import delay_lines
from core.board.facts import SideBySide, as_written, facts
from core.board.following import Following, has_programme
from core.board.headers import header
from core.board.lately import with_said
from core.board.lateness import lateness, offers
from core.board.model import (
    ContactPanel,
    DueRow,
    LastChange,
    RehearsalBadge,
    Said,
    Strip,
    Tone,
    View,
)
from core.board.onair.now import AirNow, OnAir
from core.board.overdue import overdue_words
from core.board.presenting.presenter import presenter
from core.board.programme import AirLane, FactLine, PresenterView
from core.board.reports import NO_REPORTS, Reports, reports
from core.board.roll import Roll
from core.board.scene import Arranged, Scene
from core.board.sight import Sight
from core.board.strips import strip, unheard
from core.board.telling.telling import Telling
from core.board.telling.whileaway import TimesAt
from core.board.words import Names, broken_event, broken_words, listed
from core.entries.model import Entry, Shut
from core.schedule.schedule import Schedule
from core.signal.model import Computed, LaneSignal, Total
from core.signal.tables import Tables
from core.signal.worlds import Outcomes
from core.times.trust import NOT_TOLD, ClockTrust
from core.times.writing import Style, floor_second_ms


@dataclass(frozen=True, slots=True)
class Around:
    """What a view shows besides plan, schedule and signal. `entries` are those that stand."""

    last_change: LastChange | None = None
    rehearsal: RehearsalBadge | None = None
    notices: tuple[Said, ...] = ()
    saved: str = ""
    unsaved: int = 0
    entries: tuple[Entry, ...] = ()
    desk: str = ""
    """The initials of whoever is signed in."""
    clock: ClockTrust = NOT_TOLD
    """What the machine says of its clock."""
    facts_of: str = ""
    """The event of which the presenter is to see a fact, as soon and as long as it may be told."""
    fact: int = 0
    """Which of its facts, in the plan's order."""


class Board:
    """The board of one schedule: looked at each second, looked through anew when times change.

    `shut` are the ground's words on closed lanes, in the order they were typed. `both` puts metric
    and customary side by side in facts.
    """

    def __init__(
        self,
        schedule: Schedule,
        tables: Tables,
        style: Style,
        both: SideBySide = as_written,
        times_at: TimesAt | None = None,
    ) -> None:
        self._schedule = schedule
        self._tables = tables
        self._style = style
        self._both = both
        self._reports: tuple[tuple[Entry, ...], Reports] = ((), NO_REPORTS)
        self._shut: Sequence[Shut] = ()
        self._outcomes = Outcomes(schedule.plan)
        self._every = frozenset(outcome.id for outcome in schedule.plan.outcomes)
        self._first_words = {lane.id: lane.first_words_ms for lane in schedule.plan.lanes}
        self._sight = Sight((), ())
        self._scene: Scene | None = None
        self._revision = -1
        self._key: object = None
        self._strip: Strip | None = None
        self._waiting: tuple[Mapping[str, int], Strip] | None = None
        self._against: tuple[object, Against] | None = None
        self._roll: Roll | None = None
        self._totals: tuple[object, tuple[Total, ...]] | None = None
        self._late: tuple[Scene, tuple[Entry, ...], Mapping[str, str]] | None = None
        self._following = Following(times_at)

    def scene(self, told: Tables, shut: Sequence[Shut] = ()) -> Scene:
        """What stands now, made anew only if a time or the signal has changed."""
        revision = self._schedule.revision
        same = told is self._tables and shut is self._shut and revision == self._revision
        if same and self._scene is not None:
            return self._scene
        lanes = told.signal(self._schedule.expected_ms, shut)
        key = (revision, lanes, id(self._schedule.edges))
        if self._scene is None or key != self._key:
            if self._roll is None or not self._roll.is_of(self._schedule):
                self._roll = Roll(self._schedule)
            self._sight = self._sight_of(lanes)
            before = self._scene
            self._scene = self._scene_of(told, lanes, self._roll, self._sight)
            if before is not None:
                self._scene.cards = before.cards
            self._key = key
            self._strip = None
            self._against = None
        self._tables, self._shut, self._revision = told, shut, revision
        return self._scene

    def supposed(self, told: Tables, shut: Sequence[Shut] = ()) -> Scene:
        """A scene of the schedule as it stands for a moment, while a line is tried: not kept."""
        lanes = told.signal(self._schedule.expected_ms, shut)
        known = self._roll is not None and self._roll.is_of(self._schedule)
        roll = self._roll if known and self._roll is not None else Roll(self._schedule)
        return self._scene_of(told, lanes, roll, self._sight_of(lanes))

    def _sight_of(self, lanes: tuple[LaneSignal, ...]) -> Sight:
        """How one looks at those lanes: the same as before while they are the same."""
        worlds = self._outcomes.worlds(self._every, self._schedule.chosen)
        if lanes is self._scene_lanes and worlds == self._sight.worlds:
            return self._sight
        return Sight(lanes, worlds, self._first_words)

    def _scene_of(
        self, told: Tables, lanes: tuple[LaneSignal, ...], roll: Roll, sight: Sight
    ) -> Scene:
        light = partial(told.light, self._schedule.expected_ms)
        return Scene(self._schedule, roll, lanes, self._style, sight, light)

    @property
    def _scene_lanes(self) -> tuple[LaneSignal, ...] | None:
        return None if self._scene is None else self._scene.lanes

    def view(self, scene: Scene, now_ms: int, around: Around) -> View:
        """Everything at `now_ms`, a whole board second."""
        now_ms = floor_second_ms(now_ms)
        arranged = scene.arranged(now_ms)
        against = self._against_plan(scene, arranged)
        names = self.names(scene)
        told = self._told(around.entries)
        air = self._air(scene, around.entries, now_ms)
        telling = self.telling(scene, around.entries)
        view = View(
            now_ms=now_ms,
            header=header(scene, now_ms, None if air is None else air.panel.status, _clock(around)),
            due=_due_row(scene, arranged, names, now_ms),
            cards=Cards(
                scene, arranged.ids, now_ms, against, names, told, self._both, bare=telling.grave
            ),
            next_index=arranged.next_index,
            big_index=biggest(scene, arranged, now_ms),
            summary=against.words,
            strip=self._strip_of(scene, now_ms),
            contact=self._contact(scene, now_ms, told, around.entries),
            last_change=_with_said(around, scene.style),
            rehearsal=around.rehearsal,
            notices=(*around.notices, *_overruled(scene, names)),
            saved=around.saved,
            desk=around.desk,
            unsaved=around.unsaved,
            air=AirLane() if air is None else air.lane,
            clear=None if air is None else air.panel,
            to_say=telling.at(now_ms),
        )
        return replace(view, presenter=self._presenter(view, scene, around))

    def on_air(self, scene: Scene, entries: Sequence[Entry]) -> OnAir:
        """The programme after the entries that stand, kept until they or the scene change."""
        return self._following.on_air(scene, entries)

    def telling(self, scene: Scene, entries: Sequence[Entry]) -> Telling:
        """What may be said after the entries that stand, kept until they or the scene change."""
        return self._following.telling(scene, entries)

    def late(self, scene: Scene, entries: tuple[Entry, ...]) -> Mapping[str, str]:
        """By lane the offer to take off how late 'now' is typed on it, kept like those."""
        kept = self._late
        if kept is None or kept[0] is not scene or kept[1] is not entries:
            lanes, told = scene.plan.lanes, self._told(entries)
            found = lateness(entries, lanes, self._computed)
            kept = self._late = (scene, entries, offers(found, lanes, told.delays_ms))
        return kept[2]

    def _computed(self, edge: str) -> Computed | None:
        return self._tables.computed(edge, self._schedule.expected_ms)

    def _air(self, scene: Scene, entries: Sequence[Entry], now_ms: int) -> AirNow | None:
        if not has_programme(scene.plan):
            return None
        return self.on_air(scene, entries).at(now_ms)

    def _presenter(self, view: View, scene: Scene, around: Around) -> PresenterView:
        fact = self._fact(scene, around, view.now_ms)
        return presenter(view, scene, fact=fact)

    def _fact(self, scene: Scene, around: Around, now_ms: int) -> FactLine | None:
        if around.facts_of not in scene.known:
            return None
        told = facts(scene, around.facts_of, now_ms, self._both)
        return told[around.fact] if around.fact < len(told) else None

    def names(self, scene: Scene) -> Names:
        """Event and outcome ids to names, events added at the desk too."""
        return scene.roll.names

    def _against_plan(self, scene: Scene, arranged: Arranged) -> Against:
        key = (arranged.next_index, bool(arranged.due))
        if self._against is None or self._against[0] != key:
            ids = list(arranged.ids[arranged.next_index :])
            self._against = (key, against_plan(scene, ids, overdue=bool(arranged.due)))
        return self._against[1]

    def _strip_of(self, scene: Scene, now_ms: int) -> Strip:
        if self._strip is None:
            self._strip = strip(scene.plan, scene.lanes, scene.times_ms, scene.style)
            self._waiting = None
        waiting = scene.sight.unheard(now_ms)
        if self._waiting is None or self._waiting[0] != waiting:
            self._waiting = (waiting, unheard(self._strip, waiting))
        return self._waiting[1]

    def _told(self, entries: tuple[Entry, ...]) -> Reports:
        """What the entries say that changes no time: the same from tick to tick."""
        if self._reports[0] is not entries:
            self._reports = (entries, reports(entries))
        return self._reports[1]

    def _contact(
        self, scene: Scene, now_ms: int, told: Reports, entries: tuple[Entry, ...]
    ) -> ContactPanel:
        said = {shut.lane: shut.shut for shut in self._shut if shut.at_ms <= now_ms}
        closed = [lane for lane, is_shut in said.items() if is_shut]
        shifted = self._tables.shifted(self._schedule.expected_ms)
        totals = self._totals_from(scene, now_ms)
        late = self.late(scene, entries)
        return contact_panel(
            scene, totals, now_ms, closed, shifted, delay_lines(scene, told, late.values(), now_ms)
        )

    def _totals_from(self, scene: Scene, now_ms: int) -> tuple[Total, ...]:
        minute = now_ms - now_ms % 60_000
        key = (minute, scene.lanes)
        if self._totals is None or self._totals[0] != key:
            found = self._tables.totals(scene.lanes, minute, minute + TOTALS_MS)
            self._totals = (key, found)
        return self._totals[1]


def _clock(around: Around) -> ClockTrust:
    """What is to be known of the machine's clock: nothing in a rehearsal."""
    return around.clock if around.rehearsal is None else NOT_TOLD


def _with_said(around: Around, style: Style) -> LastChange | None:
    change = around.last_change
    return None if change is None else with_said(change, around.entries, style)


def _due_row(scene: Scene, arranged: Arranged, names: Names, now_ms: int) -> DueRow | None:
    """What is due, counting up: for how long no one has said that it happened."""
    if not arranged.due:
        return None
    since = ((names(name), overdue_words(scene, name, now_ms)) for name in arranged.due)
    told = [f"{name} ({late})" if late else name for name, late in since]
    return DueRow(arranged.due, f"Overdue: {listed(told, most=3)}")


def _overruled(scene: Scene, names: Names) -> tuple[Said, ...]:
    """Limits the desk has overruled, or that the plan itself cannot meet."""
    told = [
        Said(f"Overruled: {names(broken_event(broken))} {broken_words(broken, names)}", Tone.CLASH)
        for broken in scene.broken
    ]
    return tuple(told)
