"""A line that is being typed: how it is read, and what it would do. Nothing is changed by it."""

from collections.abc import Callable
from dataclasses import replace

from core.board.model import Preview
from core.entries.model import Action, Entry
from core.entries.reading import read
from core.entries.readings import ClockCommand
from core.errors import EntryProblem, EntryRefused
from core.schedule.model import Effect
from core.session.context import DeskContext
from core.session.nameable import Nameable
from core.session.offering import Offer
from core.session.previews import Considered, preview_of
from core.session.session import Session
from core.session.steering import as_it_stands
from core.session.supposing import is_ours
from core.times.clocks import RealClock, SimClock
from core.times.writing import floor_second_ms

Numbered = Callable[[str, Action, int, str], Entry]
"""The next entry of the session: what was typed, what it does, the board's time, who said so."""


class Considering:
    """Reads lines against a session as it stands."""

    def __init__(self, session: Session, clock: RealClock | SimClock, numbered: Numbered) -> None:
        self._session = session
        self._clock = clock
        self._numbered = numbered
        self._nameable: Nameable | None = None
        self.offer = Offer()
        """The changed plan that a line may take over."""
        self.clock_held = ""
        """Why no line may steer the simulated clock, '' where one may."""

    def of(
        self, text: str, selected: str, now_ms: int, pick: int = 0, *, on_air: bool = True
    ) -> Considered:
        """How the line is read, and what it would do, `on_air` too; see `Desk.consider`."""
        self._session.schedule.tick(floor_second_ms(now_ms))
        readings = read(text, self._context(now_ms, selected))
        if isinstance(self._clock, SimClock):
            clock = self._clock
            readings = tuple(as_it_stands(reading, clock) for reading in readings)
        picked = pick % len(readings)
        reading = readings[picked]
        if isinstance(reading.action, ClockCommand):
            if self.clock_held:
                raise EntryRefused(self.clock_held)
            return Considered(readings, picked, None, Effect())
        entry = self._numbered(text.strip(), reading.action, now_ms, reading.source)
        looks = on_air or is_ours(entry.action)
        effect, supposed = self._session.preview(entry, now_ms, on_air=looks)
        return Considered(readings, picked, entry, effect, supposed=supposed)

    def preview(self, text: str, selected: str, now_ms: int, pick: int = 0) -> Preview:
        """What Enter would do with the line, in words."""
        if not text.strip():
            return Preview()
        try:
            considered = self._forced(self.of(text, selected, now_ms, pick), now_ms)
        except (EntryProblem, EntryRefused) as problem:
            return Preview(error=problem.what, hint=problem.hint)
        session = self._session
        return preview_of(considered, session.scene, session.names, now_ms, session.late)

    def _forced(self, considered: Considered, now_ms: int) -> Considered:
        """With what a second Enter would do, where one is asked for."""
        effect, entry = considered.effect, considered.entry
        if entry is None or (effect.clash is None and not effect.asks):
            return considered
        second, supposed = self._session.preview(replace(entry, forced=True), now_ms)
        return replace(considered, second=second, supposed=supposed)

    def _context(self, now_ms: int, selected: str) -> DeskContext:
        scene = self._session.scene
        known = self._nameable
        self._nameable = known.of(scene) if known is not None else Nameable(scene)
        return DeskContext(
            scene,
            self._nameable,
            self._session.tables,
            now_ms,
            selected,
            simulated=isinstance(self._clock, SimClock),
            waiting=self.offer.plan,
            trouble=self.offer.trouble,
            standing=self._session.standing,
            asked=self._session.asked(now_ms),
        )
