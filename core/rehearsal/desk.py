"""The desk of a rehearsal: any desk, open to those who check what it would tell the audience."""

from core.plan.model import Plan
from core.saying.model import Told
from core.session.desk import Desk
from core.session.ground import SkiesFor, no_skies
from core.session.store import MemoryStore, Store
from core.times.clocks import SimClock


class OpenDesk(Desk):
    """A desk on a simulated clock that can be built anew from what was entered."""

    def __init__(
        self,
        plan: Plan,
        clock: SimClock,
        store: Store | None = None,
        skies_for: SkiesFor = no_skies,
    ) -> None:
        self._made_of = (plan, clock, skies_for)
        self.store: Store = MemoryStore() if store is None else store
        super().__init__(plan, clock, self.store, skies_for=skies_for)

    def told(self, now_ms: int) -> tuple[Told, ...]:
        """The sentences of that moment, with what each of them claims."""
        return self._session.telling.told(now_ms)

    def anew(self) -> "OpenDesk":
        """A desk built from scratch from the same plan and entries."""
        plan, clock, skies_for = self._made_of
        return OpenDesk(plan, clock, self.store, skies_for)
