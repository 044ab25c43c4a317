"""The desk of a rehearsal: any desk, open to those who check what it would tell the audience."""

from core.board.facts import SideBySide, as_written
from core.board.programme import ToSay
from core.entries.model import Action, Entry
from core.errors import EntryRefused
from core.plan.model import Plan
from core.saying.model import Told
from core.session.desk import Desk
from core.session.ground import Ground, SkiesFor, no_skies
from core.session.store import MemoryStore, Store
from core.times.clocks import SimClock
from core.times.writing import Hours, floor_second_ms


class OpenDesk(Desk):
    """A desk on a simulated clock that can be built anew from what was entered."""

    def __init__(
        self,
        plan: Plan,
        clock: SimClock,
        store: Store | None = None,
        skies_for: SkiesFor = no_skies,
        hours: Hours = Hours.TWELVE,
        both: SideBySide = as_written,
        ground: Ground | None = None,
    ) -> None:
        self._made_of = (plan, clock, skies_for)
        self.store: Store = MemoryStore() if store is None else store
        super().__init__(plan, clock, self.store, hours, skies_for, both, ground)

    @property
    def ground(self) -> Ground:
        """The plan made ready, for another desk beside this one."""
        return self._session.ground

    def told(self, now_ms: int) -> tuple[Told, ...]:
        """The sentences of that moment, with what each of them claims."""
        return self._session.telling.told(now_ms)

    def to_say(self, now_ms: int) -> ToSay:
        """What is shown to be said at that moment."""
        return self._session.telling.at(now_ms)

    def due(self, now_ms: int) -> tuple[str, ...]:
        """What is due at that moment, and nobody has confirmed."""
        return self._session.scene.arranged(floor_second_ms(now_ms)).due

    def hold_clock(self, why: str) -> None:
        """Let no line steer the clock: somebody else does."""
        self._considering.clock_held = why

    def force(self, action: Action, at_ms: int) -> None:
        """Take it at that instant, whatever it is against. Raises EntryRefused where it cannot."""
        number = len(self.store.entries) + 1
        entry = Entry(number, at_ms, "", action, forced=True, rehearsal=True)
        effect = self._session.schedule.take(entry, at_ms)
        if effect.clash is not None or effect.asks:
            raise EntryRefused(f"{action} is against what has happened")
        self._session.keep(entry)

    def anew(self) -> "OpenDesk":
        """A desk built from scratch from the same plan and entries."""
        plan, clock, skies_for = self._made_of
        return OpenDesk(plan, clock, self.store, skies_for)
