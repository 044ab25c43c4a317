"""What the machine's clock does, and what the machine says of it: into the record, in one line."""

from collections.abc import Callable

from core.entries.model import Action, ClockStep, ClockTold, Entry
from core.session.quietly import Quietly
from core.session.session import Session
from core.times.trust import NOT_TOLD, ClockTrust

Numbered = Callable[[str, Action, int], Entry]
"""The next entry of the session: what was typed, what it does, and the board's time."""


class Machine:
    """Keeps in a session what nobody typed. A window that only reads shows it alone."""

    def __init__(self, session: Session, quietly: Quietly, numbered: Numbered) -> None:
        self._session = session
        self._quietly = quietly
        self._numbered = numbered
        self.trust = NOT_TOLD
        """What the machine said of its clock last."""

    def stepped(self, by_ms: int, now_ms: int, *, slept: bool) -> None:
        """Its clock jumped, or it slept."""
        self._keep(ClockStep(by_ms, slept), now_ms)
        self._quietly.clock_stepped(by_ms, now_ms, slept=slept)

    def told(self, trust: ClockTrust, now_ms: int) -> None:
        """It said how far its clock is to be trusted: kept where that is another thing now."""
        self.trust = trust
        actions = (entry.action for entry in reversed(self._session.standing))
        told = next((each for each in actions if isinstance(each, ClockTold)), None)
        if trust.is_news_after(None if told is None else told.clock):
            self._keep(ClockTold(trust), now_ms)

    def _keep(self, action: Action, now_ms: int) -> None:
        if self._session.store.reads_only:
            return
        entry = self._numbered("", action, now_ms)
        self._session.schedule.take(entry, now_ms)
        self._session.keep(entry)
