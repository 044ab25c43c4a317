"""Keys for what is said: the sentence, its length, the clipboard, a check-off, facts, grave."""

from collections.abc import Callable
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
    facts_asked = Signal(str)
    """The event whose facts the presenter is to see, '' for none."""

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
        self._facts_of = ""

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
        """Show the facts of the selected card; the same key again takes them away."""
        selected = self._selected()
        if self._side.to_say.grave:
            self._say(_NO_FACTS)
            return
        if not selected and not self._facts_of:
            self._say(_NO_CARD)
            return
        self._facts_of = "" if selected == self._facts_of else selected
        self.facts_asked.emit(self._facts_of)
        self._say(_fact_words(self._card()) if self._facts_of else _FACTS_GONE)

    def _grave(self) -> None:
        """Ask for it, or to leave it; the desk wants Enter once more for both."""
        self._line.put(_GRAVE_OVER if self._side.to_say.grave else _GRAVE)
        self.entered.emit()

    def _say(self, taken: Taken) -> None:
        """Answer in the bar, unless something is being typed there."""
        if not self._line.text():
            self._entering.say(taken)


def _fact_words(card: Card | None) -> Taken:
    """Say which fact the presenter is shown: the first that may be told."""
    if card is None:
        return _FACTS_GONE
    told = next((fact.text for fact in card.facts if not fact.held), "")
    if not told:
        return Taken(Answer.REFUSED, f"There is no fact of {card.name} that may be told now")
    return Taken(Answer.DONE, f"A fact of {card.name} is shown to the presenter", f"“{told}”")
