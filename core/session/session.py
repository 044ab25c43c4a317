"""One session: a plan, the entries in their order, and all that follows from them."""

from collections.abc import Mapping, Sequence

from core.board.facts import SideBySide, as_written
from core.board.following import has_programme
from core.board.handing.model import HandPage
from core.board.handing.page import hand_page
from core.board.onair.now import OnAir
from core.board.scene import Scene
from core.board.staying import staying
from core.board.telling.telling import Telling
from core.board.view import Board
from core.board.words import Names
from core.entries.airing import Begin
from core.entries.at_desk import at_desk
from core.entries.context import Spoken
from core.entries.model import BringBack, Entry, Shut, TakeBack, standing
from core.errors import EntryRefused
from core.plan.model import Plan
from core.schedule.model import Effect
from core.schedule.schedule import Schedule
from core.session.context import Asked
from core.session.ground import Ground, SkiesFor, make_ready
from core.session.store import Store
from core.session.supposing import Supposed
from core.session.turning import is_of_times
from core.signal.tables import Tables
from core.times.writing import Hours, Style


class Session:
    """What stands: the schedule, the signal and the board that the kept entries make of a plan.

    Nothing here is truth but the plan and the entries in the store; the rest is made from them.
    """

    def __init__(
        self,
        plan: Plan,
        now_ms: int,
        store: Store,
        hours: Hours,
        skies_for: SkiesFor,
        both: SideBySide = as_written,
        ground: Ground | None = None,
    ) -> None:
        self.store = store
        self.skies_for = skies_for
        self._hours = hours
        self.both = both
        self.ground: Ground = make_ready(plan, skies_for) if ground is None else ground
        self.rebuild(now_ms)

    def rebuild(self, now_ms: int) -> None:
        """The schedule from scratch, out of the entries that stand."""
        self._hear()
        self.schedule: Schedule = self.ground.schedule(now_ms, self.standing)
        self._look(self.ground.tables)

    def keep(self, entry: Entry) -> None:
        """Keep an entry that the schedule has taken, or that changes no time."""
        self.store.append(entry)
        self._hear()

    def plan_taken_over(self) -> None:
        """Another plan is in force: the board is made anew on its signal."""
        self._look(self.tables)

    @property
    def plan(self) -> Plan:
        """The plan in force."""
        return self.schedule.plan

    @property
    def tables(self) -> Tables:
        """The signal as the entries tell it."""
        edges = self.schedule.edges
        if not isinstance(edges, Tables):
            raise TypeError("the schedule was built on another signal")
        return edges

    @property
    def scene(self) -> Scene:
        """What stands now, ready to be looked at at any second."""
        return self.board.scene(self.tables, self._shut)

    @property
    def names(self) -> Names:
        """Every id to its name."""
        return self.board.names(self.scene)

    @property
    def telling(self) -> Telling:
        """What may be said as things stand."""
        return self.board.telling(self.scene, self.standing)

    @property
    def on_air(self) -> OnAir:
        """The programme as it stands."""
        return self.board.on_air(self.scene, self.standing)

    @property
    def late(self) -> Mapping[str, str]:
        """By lane the offer to take off how late 'now' is typed on it."""
        return self.board.late(self.scene, self.standing)

    def hand_page(self, now_ms: int) -> HandPage:
        """What whoever takes the desk over has to know."""
        on_air = self.on_air if has_programme(self.plan) else None
        return hand_page(self.scene, self.standing, self.telling, on_air, now_ms)

    def asked(self, now_ms: int) -> Asked:
        """What lines about the programme want to know at that moment, worked out when they ask."""
        return Asked(
            proposal=lambda: self.on_air.proposal(now_ms),
            to_say=lambda: self._to_say(now_ms),
            owed=lambda: self._owed(now_ms),
        )

    def _to_say(self, now_ms: int) -> Spoken | None:
        """The sentence that is shown first, with the times it tells: a correction before others."""
        shown = self.telling.at(now_ms)
        first = next((each for each in (*shown.owed, *shown.sentences)), None)
        return None if first is None else (first.line, first.times)

    def _owed(self, now_ms: int) -> tuple[str, ...]:
        told = self.telling.at(now_ms).owed
        return tuple(dict.fromkeys(event for each in told for event, _ in each.times))

    def preview(
        self, entry: Entry, now_ms: int, *, on_air: bool = True
    ) -> tuple[Effect, Supposed | None]:
        """What an entry would do, and to the programme, where the plan has one and it is asked for.

        Raises EntryRefused for what cannot be taken at all.
        """
        if not on_air or not has_programme(self.plan):
            return self.schedule.preview(entry, now_ms), None
        before, programme = self.scene, self.on_air
        now = programme.at(now_ms)
        then: list[Supposed] = []

        def look() -> None:
            made, action = self._supposed(entry, programme), entry.action
            begun = made.begun_against(action.item, now_ms) if isinstance(action, Begin) else ()
            stays = staying(before, made.state.scene, action, now_ms)
            then.append(Supposed(now, made.at(now_ms), begun, stays))

        effect = self.schedule.preview(entry, now_ms, look)
        kept = not effect.asks and (effect.clash is None or entry.forced)
        return effect, then[0] if then and kept else None

    def last_taken(self, entries: Sequence[Entry]) -> tuple[Entry, Effect] | None:
        """The last of these that LAST CHANGE tells of, and what it did when it was taken."""
        for at in range(len(entries) - 1, -1, -1):
            entry = entries[at]
            if not is_of_times(entry, entries):
                continue
            if isinstance(entry.action, TakeBack | BringBack):
                return entry, Effect()
            return entry, self._effect(entry, standing(entries[:at]))
        return None

    def _effect(self, entry: Entry, before: tuple[Entry, ...]) -> Effect:
        """What an entry did to the times; nothing, where those before it are not all there."""
        try:
            return self.ground.schedule(entry.at_ms, before).preview(entry, entry.at_ms)
        except EntryRefused:
            return Effect()

    def _supposed(self, entry: Entry, before: OnAir) -> OnAir:
        """The programme while the schedule stands as the entry would leave it."""
        entries = (*self.standing, entry)
        shut = (*self._shut, entry.action) if isinstance(entry.action, Shut) else self._shut
        scene = self.board.supposed(self.tables, shut)
        return OnAir(scene, entries, before)

    def _hear(self) -> None:
        """What is kept beside the schedule until the next entry."""
        self.standing: tuple[Entry, ...] = standing(self.store.entries)
        self._shut = tuple(e.action for e in self.standing if isinstance(e.action, Shut))
        self.desk = at_desk(self.standing)

    def _look(self, tables: Tables) -> None:
        self.style = Style(self.plan.zones[0], self._hours)
        self.board = Board(self.schedule, tables, self.style, self.both, self._times_at)

    def _times_at(self, at_ms: int) -> Mapping[str, int | None]:
        """When each event was expected at an earlier instant, by what had been entered then."""
        then = tuple(entry for entry in self.standing if entry.at_ms <= at_ms)
        return self.ground.schedule(at_ms, then).expected()
