"""The programme of one scene as data: items as they stand, the day, and what was reckoned of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from core.air.clear import Clear, clear_time
from core.air.crowded import Crowd, Crowded
from core.air.cutting import BREAK, Placed, demand, own_starts
from core.air.fitting import Fitting
from core.air.losing import Losing, Move
from core.air.model import Against, Day, Fits, Fixed, Loss, Since
from core.air.running import Programme, Running, Stands
from core.air.spans import EVER_MS
from core.air.subsets import bits
from core.board.onair.day import day_of, waiting
from core.board.scene import Scene
from core.entries.aired import aired
from core.entries.model import Entry
from core.times.writing import MINUTE_MS, SECOND_MS, dated_clock_text

_DAY_PART_MS = 15 * MINUTE_MS

_LIGHT = frozenset({BREAK, "tape"})


def day_part(now_ms: int) -> int:
    """The quarter of an hour: the day and its half, in any zone, only change with it."""
    return now_ms // _DAY_PART_MS


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What holds as long as the same items keep their places: those, and how the others fit."""

    fitting: Fitting
    placed: tuple[Placed, ...]
    crowded: Crowded


@dataclass(frozen=True, slots=True)
class Figures:
    """What fits at one second, as data.

    `fits` has every item still to run that has no place, in the plan's order. `most` are the owed
    ones among them that have place, `all_fit` whether those are all; `owed_first_ms` is the latest
    start of whichever comes first, None where nothing is owed or not all have place. `waiting` are
    the live moments whose time has come and that nobody has confirmed.
    """

    clear: Clear
    fits: tuple[Fits, ...]
    most: tuple[str, ...]
    all_fit: bool
    owed_first_ms: int | None
    waiting: tuple[str, ...] = ()
    unproven: tuple[str, ...] = ()
    """Owed items that were left out of all this: too many share their time."""
    crowd: Crowd = field(default_factory=Crowd)
    """What is known of all that is owed, those included."""


class AirState:
    """Made anew when the scene or the entries change; `before` is the one it replaces."""

    def __init__(
        self, scene: Scene, entries: Sequence[Entry], before: "AirState | None" = None
    ) -> None:
        self.scene = scene
        told = aired(entries)
        self.withheld: frozenset[str] = _LIGHT if told.grave else frozenset()
        """Kinds of items that are not proposed: on a grave board, breaks and tapes.

        They keep a place they have, and the desk may still place one by hand.
        """
        self.programme = Programme(scene.plan.items, told)
        ended = tuple(span for span in self.programme.away if span[1] < EVER_MS)
        self.day: Day = day_of(scene, ended)
        self._with_away = replace(self.day, away=self.programme.away)
        self._losing = Losing(self.programme.items, self._with_away)
        self._kept: dict[tuple[str, ...], Reckoned] = {}
        self._last_starts: dict[str, int | None] = {}
        self._clocks: tuple[int, dict[tuple[int, bool], str]] = (0, {})
        if before is not None and self.reckons_as(before):
            self._kept = before.kept

    @property
    def kept(self) -> dict[tuple[str, ...], Reckoned]:
        """What was worked out, by the items that keep their places."""
        return self._kept

    def reckons_as(self, other: "AirState") -> bool:
        """Whether all that was worked out for the other holds for this one."""
        alike = other.day == self.day and other.withheld == self.withheld
        return alike and other.programme.items == self.programme.items

    def clock(self, at_ms: int, now_ms: int, *, seconds: bool = True) -> str:
        """A clock time as it is written, with the day where it is another.

        Kept for a quarter of an hour.
        """
        part = day_part(now_ms)
        if self._clocks[0] != part:
            self._clocks = (part, {})
        known = self._clocks[1]
        text = known.get((at_ms, seconds))
        if text is None:
            text = dated_clock_text(at_ms, self.scene.style, now_ms, seconds=seconds)
            known[at_ms, seconds] = text
        return text

    # ------------------------------------------------------------ at a second

    def figures(self, now_ms: int) -> Figures:
        """What fits at a whole second."""
        held = waiting(self.scene, self.day, now_ms)
        since = self.since(now_ms, held)
        reckoned = self.reckoned(now_ms)
        fitting = reckoned.fitting
        first_ms = fitting.latest_first(fitting.owed, since)
        most = fitting.owed if first_ms is not None else fitting.most(since)
        return Figures(
            clear=clear_time(self._with_away, self.programme.on_air, now_ms, held),
            fits=tuple(fitting.fits(each.id, now_ms, since, most) for each in fitting.demands),
            most=tuple(fitting.demands[n].id for n in bits(most)),
            all_fit=first_ms is not None and not fitting.unproven,
            owed_first_ms=fitting.latest_of_any(fitting.owed, since) if fitting.owed else None,
            waiting=held,
            unproven=fitting.unproven,
            crowd=reckoned.crowded.at(now_ms, since) if fitting.unproven else Crowd(),
        )

    def since(self, now_ms: int, held: Sequence[str] = ()) -> Since:
        """From when on things may start: not while a live moment waits for word (`held`).

        Nor while the network has the air and nobody has said until when.
        """
        gap_ms, break_gap_ms = self.day.item_gap_ms, self.day.break_gap_ms
        item_ms = now_ms + (SECOND_MS if held or self.is_taken(now_ms) else 0)
        last, last_break = self.programme.last(now_ms), self.programme.last_break(now_ms)
        if last is not None:
            item_ms = max(item_ms, last.end_ms(now_ms) + gap_ms)
        if last_break is None:
            return Since(item_ms)
        break_ms = last_break.end_ms(now_ms) + max(gap_ms, break_gap_ms)
        return Since(item_ms, break_ms, last_break.item.sponsor)

    def is_taken(self, now_ms: int) -> bool:
        """Whether the network has the air, and nobody has said until when."""
        return any(from_ms <= now_ms and to_ms >= EVER_MS for from_ms, to_ms in self.away)

    @property
    def away(self) -> tuple[tuple[int, int], ...]:
        """The stretches in which the network has the air, open ones too."""
        return self.programme.away

    def last_own_start_ms(self, item: str) -> int | None:
        """The last start that its own limits allow, whatever else there is; None if there is none.

        The network's absence is none of its limits.
        """
        if item not in self._last_starts:
            but = frozenset({Against.AWAY})
            starts = own_starts(self.programme.item(item).item, self.day, but=but)
            self._last_starts[item] = starts[-1][1] if starts else None
        return self._last_starts[item]

    def has_room_alone(self, item: str, now_ms: int) -> bool:
        """Whether it would have a place from now on were nothing placed."""
        here = demand(self.programme.item(item).item, self.day)
        since = self.since(now_ms)
        from_ms = max(since.item_ms, since.break_ms) if here.is_break else since.item_ms
        return bool(here.starts) and here.starts[-1][1] >= from_ms

    def keep_place(self, now_ms: int) -> tuple[Running, ...]:
        """The placed items that nothing on the air has overtaken, in order of time."""
        on_air = self.programme.on_air
        from_ms = now_ms if on_air is None else max(now_ms, on_air.end_ms(now_ms))
        return tuple(one for one in self.programme.placed() if one.from_ms >= from_ms)

    def reckoned(self, now_ms: int, free: frozenset[str] = frozenset()) -> Reckoned:
        """How the items fit that have no place; those in `free` give up the place they have."""
        facts = tuple(one for one in self.keep_place(now_ms) if one.item.id not in free)
        key = tuple(one.item.id for one in facts)
        found = self._kept.get(key)
        if found is None:
            found = self._kept[key] = self._reckon(facts)
        return found

    def _reckon(self, facts: Sequence[Running]) -> Reckoned:
        held = {one.item.id for one in facts}
        placed = tuple((one.item, one.from_ms) for one in facts)
        floating = (
            one.item
            for one in self.programme.items
            if one.stands in (Stands.FLOATING, Stands.PLACED)
            and one.item.id not in held
            and one.item.kind not in self.withheld
        )
        breaks = [
            Fixed(one.item.id, one.from_ms, one.due_ms, one.item.sponsor)
            for one in facts
            if one.item.kind == BREAK
        ]
        demands = [demand(item, self.day, placed) for item in floating]
        fitting = Fitting(demands, self.day.item_gap_ms, self.day.break_gap_ms, breaks)
        return Reckoned(fitting, placed, Crowded(fitting))

    # ------------------------------------------------------------ what is lost

    def losses(self, now_ms: int, move: Move = lambda _: None) -> tuple[Loss, ...]:
        """What items on the air or placed lose as things stand; `move` says where they could go."""
        return self._losing.at(now_ms, move)

    def move(self, item: str, now_ms: int) -> int | None:
        """Where a placed item could go instead, with all that is owed after it if that can be.

        Nowhere for what is withheld.
        """
        if self.programme.item(item).item.kind in self.withheld:
            return None
        reckoned = self.reckoned(now_ms, free=frozenset({item}))
        fits = reckoned.fitting.fits(item, now_ms, self.since(now_ms))
        first_ms, by_ms = fits.first_start_ms, fits.owed_by_ms
        if first_ms is None or (by_ms is not None and first_ms <= by_ms):
            return first_ms
        return first_ms if fits.latest_start_ms is None else fits.latest_start_ms
