"""Keys for what is said: the sentence, its length, the clipboard, a check-off, facts, grave."""

from collections.abc import Callable, Sequence
from typing import Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from app.desk.entering import Entering
from app.desk.entry_line import EntryLine
from app.desk.keys import Command
from app.desk.side import Side
from core.board.model import Card
from core.session.model import Answer, Taken

_SAID, _PLACE = "said", "place"
_GRAVE, _GRAVE_OVER = "grave", "grave over"
_NOTHING = Taken(Answer.REFUSED, "There is nothing to say now")
_COPIED = Taken(Answer.DONE, "The sentence is on the clipboard")
_PAGE_COPIED = Taken(Answer.DONE, "The handover page is on the clipboard")
_NO_CHECK = Taken(Answer.REFUSED, "Select a card that has a check-off")
_NO_CARD = Taken(Answer.REFUSED, "Select the card whose facts are to be shown")
_NO_FACTS = Taken(Answer.REFUSED, "The board is grave: no facts are shown")
_FACTS_GONE = Taken(Answer.DONE, "The presenter is shown no fact")


class CountsChecks(Protocol):
    """What a key for a check-off asks of the desk."""

    def count_words(self, selected: str) -> str:
        """Give the line that counts one more on an event, as 'clamps +1'; '' where it has none."""


class Telling(QObject):
    """Each key stands for a line of the bar; those that say nothing new are taken at once."""

    aside = Signal(str)
    """A line to be taken beside what is being typed."""
    entered = Signal()
    """What stands in the line is to be taken."""
    facts_asked = Signal(str, int)
    """The event of which the presenter is to see a fact, '' for none, and which fact."""

    def __init__(
        self,
        desk: CountsChecks,
        line: EntryLine,
        entering: Entering,
        side: Side,
        card: Callable[[], Card | None],
    ) -> None:
        super().__init__(line)
        self._desk = desk
        self._line = line
        self._entering = entering
        self._side = side
        self._card = card
        self._facts_of, self._fact = "", 0

    def table(self) -> dict[Command, Callable[[], object]]:
        """Give what each of its keys does."""
        return {
            Command.SAID: self._said,
            Command.COPY: self._copy,
            Command.LENGTH: self._side.next_length,
            Command.PLACE: lambda: self._line.put(_PLACE),
            Command.ONE_MORE: self._one_more,
            Command.FACTS: self._facts,
            Command.GRAVE: self._grave,
        }

    def _selected(self) -> str:
        card = self._card()
        return "" if card is None else card.id

    def _said(self) -> None:
        if self._side.to_say.first is None:
            self._say(_NOTHING)
        else:
            self.aside.emit(_SAID)

    def _copy(self) -> None:
        if self._side.hand_over_is_open:
            QGuiApplication.clipboard().setText(self._side.hand_over.text)
            self._say(_PAGE_COPIED)
            return
        spoken = self._side.to_say.spoken
        if spoken:
            QGuiApplication.clipboard().setText(spoken)
        self._say(_COPIED if spoken else _NOTHING)

    def _one_more(self) -> None:
        words = self._desk.count_words(self._selected())
        if words:
            self.aside.emit(words)
        else:
            self._say(_NO_CHECK)

    def _facts(self) -> None:
        """Show a fact of the selected card, at the same key again its next; after the last none."""
        card, showing = self._card(), self._facts_of
        if self._side.to_say.grave:
            self._say(_NO_FACTS)
            return
        if card is None and not showing:
            self._say(_NO_CARD)
            return
        told = () if card is None else _tellable(card)
        after = self._fact if card is not None and card.id == showing else -1
        fact = next((place for place in told if place > after), None)
        self._facts_of = "" if card is None or fact is None else card.id
        self._fact = fact or 0
        if showing or self._facts_of:
            self.facts_asked.emit(self._facts_of, self._fact)
        if card is None or (fact is None and card.id == showing):
            self._say(_FACTS_GONE)
        else:
            self._say(_fact_words(card, told, fact))

    def _grave(self) -> None:
        """Ask for it, or to leave it; the desk wants Enter once more for both."""
        self._line.put(_GRAVE_OVER if self._side.to_say.grave else _GRAVE)
        self.entered.emit()

    def _say(self, taken: Taken) -> None:
        """Answer in the bar, unless something is being typed there."""
        if not self._line.text():
            self._entering.say(taken)


def _tellable(card: Card) -> tuple[int, ...]:
    """Give the places of those facts of a card that may be told now."""
    return tuple(place for place, fact in enumerate(card.facts) if not fact.held)


def _fact_words(card: Card, told: Sequence[int], fact: int | None) -> Taken:
    """Say which fact the presenter is shown, and how many there are."""
    if fact is None:
        words = f"There is no fact of {card.name} that may be told now"
        return Taken(Answer.REFUSED, words, "The presenter is shown none")
    which = "A fact" if len(told) == 1 else f"Fact {told.index(fact) + 1} of {len(told)}, of"
    words = f"{which}{' of' if len(told) == 1 else ''} {card.name} is shown to the presenter"
    return Taken(Answer.DONE, words, f"“{card.facts[fact].text}”")
