"""One state of schedule and signal, ready to be looked at at any second."""

from bisect import bisect_right
from collections.abc import Callable, KeysView, Sequence
from functools import cached_property
from operator import itemgetter

from core.board.model import Card, CardState
from core.board.roll import Roll
from core.board.sight import EVER_MS, Sight
from core.board.standing import SETTLED, Standing, stands
from core.plan.driving import drivers
from core.plan.model import CourseKind, Event, Plan
from core.schedule.model import Brief, Broken, Clash, Kind, Line, State
from core.schedule.schedule import Schedule
from core.signal.model import LaneSignal
from core.signal.seen import Light
from core.times.writing import Style, floor_second_ms

LightAt = Callable[[int], Light | None]
"""How far away the craft is at an instant; None where nobody knows."""

DISTANT_MS = 3000
"""From this light time on the board tells what happens from what is heard: beyond the Moon."""


def no_light(_at_ms: int) -> Light | None:
    """Nobody knows how far away the craft is."""
    return None


_OFF_THE_BOARD = frozenset({State.SCRUBBED, State.DROPPED})
_KEPT_IN_SIGHT = frozenset({CardState.OUT_OF_SIGHT, CardState.ON_ITS_WAY, CardState.HELD})


class Scene:
    """All that the cards and panels are made from, until the schedule or the signal changes.

    Lines are asked for once and kept: what is not in sight is never explained.
    """

    def __init__(
        self,
        schedule: Schedule,
        roll: Roll,
        lanes: tuple[LaneSignal, ...],
        style: Style,
        sight: Sight,
        light: LightAt = no_light,
    ) -> None:
        self.schedule = schedule
        self.roll = roll
        self.plan: Plan = schedule.plan
        self.lanes = lanes
        self.sight = sight
        self.style = style
        self._light = light
        self._chosen = schedule.chosen
        self._of = {outcome.id: outcome.of for outcome in self.plan.outcomes}
        self._lines: dict[str, Line] = {}
        self._briefs: dict[str, Brief] = {}
        self._ways_ms: dict[str, int] = {}
        self.cards: dict[str, tuple[object, Card]] = {}
        """Each card as it was written last, here or in the scene before, and what that went by."""
        self._lasting: dict[str, tuple[int, Standing]] = {}
        self._standings: dict[str, Standing] = {}
        self._standing_ms: int | None = None

    @cached_property
    def _told(self) -> dict[str, int | None]:
        """When each event is expected that has a card."""
        stood_for = self._stood_for()
        return {n: at_ms for n, at_ms in self.schedule.expected().items() if n not in stood_for}

    @cached_property
    def _timed(self) -> list[tuple[int, str]]:
        told = self._told.items()
        timed = [(floor_second_ms(at_ms), name) for name, at_ms in told if at_ms is not None]
        timed.sort(key=itemgetter(0))
        return timed

    @cached_property
    def times_ms(self) -> list[int]:
        """The times of the cards in their order, floored to the second."""
        return [at_ms for at_ms, _ in self._timed]

    @cached_property
    def order(self) -> list[str]:
        """The events that have a time, in its order."""
        return [name for _, name in self._timed]

    @cached_property
    def unknown(self) -> list[str]:
        """The events of which the board has to say that it has no time."""
        return [n for n, at_ms in self._told.items() if at_ms is None and self._is_missed(n)]

    def event(self, event_id: str) -> Event:
        """The event of that id, those added at the desk too."""
        return self.roll.events[event_id]

    def brief(self, event_id: str) -> Brief:
        """What the schedule says of it without explaining anything."""
        found = self._briefs.get(event_id)
        if found is None:
            found = self._briefs[event_id] = self.schedule.brief(event_id)
        return found

    def line(self, event_id: str) -> Line:
        """What the schedule says of it."""
        found = self._lines.get(event_id)
        if found is None:
            found = self._lines[event_id] = self.schedule.line(event_id)
        return found

    def standing(self, event_id: str, now_ms: int) -> Standing:
        """How it stands at that moment, kept until one asks for another, or it stands otherwise."""
        lasting = self._lasting.get(event_id)
        if lasting is not None and now_ms < lasting[0]:
            return lasting[1]
        if now_ms != self._standing_ms:
            self._standings.clear()
            self._standing_ms = now_ms
        found = self._standings.get(event_id)
        if found is None:
            found = self._standings[event_id] = self._stands(event_id, now_ms)
            self._keep_lasting(event_id, found)
        return found

    def _keep_lasting(self, event_id: str, found: Standing) -> None:
        """What stands until the scene changes is kept, and so is what is ahead until its time."""
        line = self.brief(event_id)
        if line.state in SETTLED:
            self._lasting[event_id] = (EVER_MS, found)
        elif found.state is CardState.AHEAD and line.expected_ms is not None:
            self._lasting[event_id] = (floor_second_ms(line.expected_ms), found)

    def _stands(self, event_id: str, now_ms: int) -> Standing:
        line = self.brief(event_id)
        return stands(
            self.event(event_id),
            line,
            self.sight,
            now_ms,
            on_ground=self.on_ground(line),
            way_ms=self.way_ms(event_id),
        )

    def is_computed(self, course: str) -> bool:
        """Whether that course is worked out, and not read from a table."""
        kinds = (each.kind for each in self.plan.courses if each.id == course)
        return any(kind is not CourseKind.PASSES for kind in kinds)

    def light(self, at_ms: int) -> Light | None:
        """How far away the craft is at an instant, where that is known and worth saying."""
        light = self._light(at_ms)
        return light if light is not None and light.way_ms >= DISTANT_MS else None

    def way_ms(self, event_id: str) -> int:
        """How long word of an event at a distant craft is under way; 0 if heard at once."""
        if not self.event(event_id).at_craft or not self.plan.light_time:
            return 0
        found = self._ways_ms.get(event_id)
        if found is None:
            found = self._ways_ms[event_id] = self._way_ms(event_id)
        return found

    def _way_ms(self, event_id: str) -> int:
        at_ms = self.brief(event_id).expected_ms
        light = None if at_ms is None else self.light(at_ms)
        return 0 if light is None else light.way_ms

    @cached_property
    def zero_ms(self) -> int | None:
        """The instant mission elapsed time counts from, where the plan says and it has one."""
        zero = self.plan.elapsed_from
        return self.schedule.expected_ms(zero) if zero in self.known else None

    def on_ground(self, line: Brief | Line) -> bool:
        """Whether the craft still stands there at the event: until elapsed time begins."""
        at_ms, zero_ms = line.expected_ms, self.zero_ms
        return at_ms is not None and zero_ms is not None and at_ms <= zero_ms

    def open_outcome(self, event_id: str) -> str:
        """The event whose outcome decides whether this one comes, while no source has named it."""
        outcome = self.brief(event_id).outcome
        of = self._of.get(outcome, "") if outcome is not None else ""
        return "" if of in self._chosen else of

    def outcome_name(self, outcome: str) -> str:
        """What the plan calls it: 'after the burn'."""
        return next((each.name for each in self.plan.outcomes if each.id == outcome), outcome)

    @cached_property
    def pairs(self) -> dict[str, str]:
        """The first event to come of each open outcome, to the event whose outcomes they are.

        Only those that an event has under its own outcome count, not what merely follows them.
        """
        firsts: dict[str, dict[str, str]] = {}
        owns = self.roll.own_outcomes
        for name, own in ((name, owns[name]) for name in self.order if name in owns):
            of = self._of.get(own)
            if of is not None and of not in self._chosen:
                firsts.setdefault(of, {}).setdefault(own, name)
        return {name: of for of, each in firsts.items() if len(each) > 1 for name in each.values()}

    def waits(self, event_id: str) -> bool:
        """Whether the desk waits for word of the event's outcome: it decides one, or tells of one.

        Such a card stays until a source has said: no key confirms it by its time.
        """
        decides = event_id in self._of.values() and event_id not in self._chosen
        return decides or event_id in self.pairs

    @cached_property
    def held(self) -> frozenset[str]:
        """The events whose count stands still."""
        return self.schedule.held

    def slides(self, event_id: str) -> bool:
        """Whether its time moves on each second, because a count that it follows is held."""
        return event_id not in self.held and bool(self.held) and self._leads_to_hold(event_id, 0)

    def _leads_to_hold(self, event_id: str, steps: int) -> bool:
        if event_id in self.held:
            return True
        cause = self.line(event_id).cause if event_id in self.known else None
        if cause is None or steps > len(self.order):
            return False
        if cause.kind is Kind.EDGE:
            edge = self.schedule.edge(event_id)
            courses = (each for each in self.plan.courses if edge.startswith(f"{each.id}."))
            driving = (name for course in courses for name in drivers(course))
            return any(self._leads_to_hold(of, steps + 1) for of in driving)
        tied = cause.kind in (Kind.TIE, Kind.LEAST) and cause.of != event_id
        return tied and self._leads_to_hold(cause.of, steps + 1)

    @cached_property
    def broken(self) -> tuple[Broken, ...]:
        """The limits overruled at the desk."""
        return self.schedule.broken

    @cached_property
    def clashes(self) -> tuple[Clash, ...]:
        """What cannot be met as things stand."""
        return self.schedule.clashes

    @cached_property
    def setting(self) -> tuple[object, ...]:
        """What cards are written from besides what the schedule says of each event.

        Equal in two scenes, it is the same. Under a hold it is this scene's own: what slides, and
        with what, hangs on the others.
        """
        own = self if self.held else None
        return (self.sight, self.roll, self._chosen, self.broken, self.zero_ms, own)

    def arranged(self, now_ms: int) -> "Arranged":
        """The events in the order of the cards at that moment."""
        begun = bisect_right(self.times_ms, now_ms)
        past: list[str] = []
        dark: list[str] = []
        due: list[str] = []
        for name in self.order[:begun]:
            state = self.standing(name, now_ms).state
            stays = state is CardState.DUE and self.waits(name)
            if stays or state in _KEPT_IN_SIGHT:
                dark.append(name)
            else:
                past.append(name)
            if state is CardState.DUE and not stays and not self.open_outcome(name):
                due.append(name)
        ids = [*past, *dark, *self.order[begun:], *self.unknown]
        return Arranged(ids, len(past), tuple(due))

    def _stood_for(self) -> frozenset[str]:
        """Automatic edges for which an event that the plan names stands at present."""
        edges = {self.schedule.edge(name) for name in self.roll.named_edges}
        return frozenset(edges - {""})

    @property
    def known(self) -> KeysView[str]:
        """The ids of all events there are, on the board or not."""
        return self.roll.events.keys()

    def _is_missed(self, event_id: str) -> bool:
        """Whether the board has to say that it has no time: not of an edge that nobody named."""
        automatic = event_id in self.roll.automatic
        return not automatic and self.brief(event_id).state is State.UNKNOWN


class Arranged:
    """The order of the cards: past ones, those out of sight, those to come, those unknown.

    `due` are those that one key confirms: not what hangs on an outcome that nobody has named.
    """

    __slots__ = ("due", "ids", "next_index")

    def __init__(self, ids: Sequence[str], next_index: int, due: tuple[str, ...]) -> None:
        self.ids = ids
        self.next_index = next_index
        self.due = due
