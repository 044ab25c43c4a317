"""Taking entries back and bringing them back, one after the other or any one of the day."""

from collections.abc import Callable

from core.entries.model import Action, BringBack, Entry, TakeBack, standing
from core.session.last_taken import LastTaken
from core.session.model import READS_ONLY, Answer, Taken
from core.session.session import Session
from core.session.turning import last_to_take_back, to_turn

Numbered = Callable[[str, Action, int], Entry]
"""The next entry of the session: what was typed, what it does, and the board's time."""


class Undoing:
    """What was taken back last can be brought back, as long as nothing else was typed since."""

    def __init__(self, session: Session, last: LastTaken, numbered: Numbered) -> None:
        self._session = session
        self._last = last
        self._numbered = numbered
        self._undone: list[int] = []

    def forget(self) -> None:
        """Something was typed: what was taken back before stays so."""
        self._undone.clear()

    def undo(self, now_ms: int) -> Taken:
        """Take back the last entry that stands."""
        number = last_to_take_back(self._session.store.entries)
        if number is None:
            return Taken(Answer.NOTHING, "Nothing to take back")
        undone = [*self._undone, number]
        taken = self.turn(TakeBack(number), now_ms)
        self._undone = undone
        return taken

    def redo(self, now_ms: int) -> Taken:
        """Bring back what was taken back last."""
        if not self._undone:
            return Taken(Answer.NOTHING, "Nothing to bring back")
        undone = self._undone[:-1]
        taken = self.turn(BringBack(self._undone[-1]), now_ms)
        self._undone = undone
        return taken

    def back_to(self, number: int, now_ms: int) -> None:
        """What stood after the entry of that number stands again, and nothing else.

        Into the record only: the board is to be made anew after it.
        """
        entries = self._session.store.entries
        then = {e.number for e in standing(e for e in entries if e.number <= number)}
        now = {entry.number for entry in standing(entries)}
        turns: list[Action] = [TakeBack(each) for each in sorted(now - then, reverse=True)]
        turns += [BringBack(each) for each in sorted(then - now)]
        for turn in turns:
            self._session.store.append(self._numbered("", turn, now_ms))
        self._undone.clear()

    def turn(self, action: TakeBack | BringBack, now_ms: int) -> Taken:
        """Take back, or bring back, any entry of the day."""
        session = self._session
        if session.store.reads_only:
            return READS_ONLY
        if to_turn(session.store.entries, action) is None:
            return Taken(Answer.NOTHING, "That entry cannot be turned")
        turned = self._numbered("", action, now_ms)
        session.store.append(turned)
        self._undone.clear()
        session.rebuild(now_ms)
        return Taken(Answer.DONE, self._last.turned(turned), number=turned.number)
