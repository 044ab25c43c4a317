"""What LAST CHANGE tells of: the last entry that moved something, or was taken back."""

from collections.abc import Sequence
from dataclasses import replace

from core.board.lately import last_change
from core.board.meaning import meaning
from core.board.model import LastChange
from core.entries.model import Entry
from core.schedule.model import Effect
from core.session.previews import told_moves
from core.session.session import Session
from core.session.turning import is_of_times, told_as


class LastTaken:
    """LAST CHANGE of a session: as it is, or as it stood when the session was opened again."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.change: LastChange | None = None
        self.recall()

    def taken(self, entry: Entry, effect: Effect) -> None:
        """An entry was taken. After a note, what moved last is still what moved last."""
        if is_of_times(entry, self._session.store.entries):
            said = meaning(entry.action, self._session.names, self._session.style)
            self._tell(entry, effect, said)

    def several(self, headline: str) -> None:
        """More than one was taken at once: all of them in one line."""
        if self.change is not None:
            self.change = replace(self.change, headline=headline)

    def turned(self, entry: Entry) -> str:
        """An entry was taken back or brought back; gives it in words.

        One that moved no event is told in the bar alone: what moved last is still what moved last.
        """
        session = self._session
        said = told_as(entry, session.store.entries, session.names, session.style)
        if is_of_times(entry, session.store.entries):
            self._tell(entry, Effect(), said)
        return said

    def recall(self) -> None:
        """As it stood, of entries that were there before."""
        self._recall(self._session.store.entries)

    def recall_standing(self) -> None:
        """Of the entries that stand, as if none had ever been taken back."""
        self.change = None
        self._recall(self._session.standing)

    def _recall(self, entries: Sequence[Entry]) -> None:
        recalled = self._session.last_taken(entries)
        if recalled is None:
            return
        entry, effect = recalled
        session = self._session
        said = told_as(entry, entries, session.names, session.style)
        self._tell(entry, effect, said)

    def _tell(self, entry: Entry, effect: Effect, said: str) -> None:
        session = self._session
        moves = told_moves(effect, session.scene)
        self.change = last_change(entry, effect, moves, said, session.scene)
