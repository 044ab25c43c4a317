"""What becomes of the typed line: previewed at each change, taken at Enter, asked about twice."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from app.desk.entry_line import EntryLine
from core.board.model import Preview
from core.session.model import Answer, Taken


class TakesLines(Protocol):
    """What the entry bar needs of the desk."""

    def preview(self, text: str, selected: str, now_ms: int, pick: int = 0) -> Preview:
        """Tell how a line is read and what it would do."""

    def enter(
        self, text: str, selected: str, now_ms: int, pick: int = 0, *, again: bool = False
    ) -> Taken:
        """Take a line."""


_STANDS_TICKS = 45
"""So many looks an answer stands beside an empty line."""

_FRESH_TICKS = 15
"""So many looks a question is plainly about now."""


@dataclass(frozen=True, slots=True)
class _Asked:
    """What a second Enter would confirm."""

    text: str
    selected: str
    pick: int


class Entering(QObject):
    """Between the line and the desk: the preview of now, the reading picked, the question open."""

    previewed = Signal(object)
    """A Preview."""
    answered = Signal(object)
    """A Taken: the words stand until the line changes."""

    def __init__(
        self,
        desk: TakesLines,
        line: EntryLine,
        selected: Callable[[], str],
        now_ms: Callable[[], int],
    ) -> None:
        super().__init__(line)
        self._desk = desk
        self.line = line
        self._selected = selected
        self._now_ms = now_ms
        self._pick = 0
        self._choices = 0
        self._asked: _Asked | None = None
        self._said: Taken | None = None
        self._stood = 0
        self.answer_stands = False
        """Whether the desk's last answer is still shown."""
        line.textChanged.connect(self._changed)

    def look(self) -> None:
        """Preview again, a second later; what the desk has answered stands for a while."""
        self._stood += 1
        if self._stood > _STANDS_TICKS and not self.line.text():
            self.answer_stands = False
        if not self.answer_stands:
            self._preview()
        elif self._stood == _FRESH_TICKS and self._said is not None and self._said.later:
            self.answered.emit(replace(self._said, words=self._said.later))

    def look_anew(self) -> None:
        """Preview for another card or reading: a question about the last one falls."""
        if self.line.text():
            self._asked = None
            self.answer_stands = False
        self.look()

    def pick(self, by: int) -> None:
        """Go to the next reading, or the one before."""
        if self._choices > 1:
            self._pick = (self._pick + by) % self._choices
            self.look_anew()

    def enter(self) -> Taken:
        """Take the line; the second Enter on the same line, card and reading confirms."""
        here = self._here()
        again = self._asked == here
        taken = self._desk.enter(here.text, here.selected, self._now_ms(), here.pick, again=again)
        self._asked = here if taken.answer is Answer.ASKS else None
        if taken.answer is Answer.DONE:
            self.line.forget()
        self.say(taken)
        return taken

    def clear(self) -> None:
        """Drop the line and what was said about it."""
        self.line.forget()
        self._changed()

    def say(self, taken: Taken) -> None:
        """Show an answer of the desk until the line changes; beside an empty one, for a while."""
        self._said = taken
        self._stood = 0
        self.answer_stands = True
        self.answered.emit(taken)

    def let_go(self) -> None:
        """Let an answer go, unless it is about what stands in the line."""
        if self.answer_stands and not self.line.text():
            self.answer_stands = False
            self.look()

    def unsay(self, taken: Taken) -> None:
        """Let an answer go that no longer holds, if it is still the one that stands."""
        if self.answer_stands and self._said == taken:
            self.answer_stands = False
            self.look()

    def _changed(self) -> None:
        self._pick = 0
        self._asked = None
        self.answer_stands = False
        self._preview()

    def _preview(self) -> None:
        preview = self._desk.preview(self.line.text(), self._selected(), self._now_ms(), self._pick)
        self._choices = len(preview.choices)
        self.previewed.emit(preview)

    def _here(self) -> _Asked:
        return _Asked(self.line.text(), self._selected(), self._pick)
