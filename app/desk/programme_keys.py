"""The keys and the mouse of the programme: items of the air, and what is said on it."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from app.desk.airing import Airing, PlacesItems
from app.desk.entering import Entering
from app.desk.keys import Command
from app.desk.side import Side
from app.desk.telling import CountsChecks, Telling
from app.desk.timeline import Timeline


class DesksProgramme(PlacesItems, CountsChecks, Protocol):
    """What the programme's keys ask of the desk."""


class ProgrammeKeys(QObject):
    """Joins the two to the parts of the window, and hands on what they want of it."""

    aside = Signal(str)
    """A line to be taken beside what is being typed."""
    entered = Signal()
    """What stands in the line is to be taken."""
    facts_asked = Signal(str, int)
    """The event of which the presenter is to see a fact, '' for none, and which fact."""

    def __init__(
        self, desk: DesksProgramme, entering: Entering, timeline: Timeline, side: Side
    ) -> None:
        super().__init__(entering)
        line = entering.line
        self.airing = Airing(desk, line, timeline)
        self.telling = Telling(desk, line, entering, side, lambda: timeline.selected_card)
        self._entering = entering
        self.look = self.airing.look
        self.drop = self.airing.drop
        self.let_go = self.airing.let_go
        self.airing.entered.connect(self.entered)
        self.telling.entered.connect(self.entered)
        self.telling.aside.connect(self.aside)
        self.telling.facts_asked.connect(self.facts_asked)

    def listen(self) -> None:
        """Follow the mouse and the previews; call it once the strip is there."""
        self.airing.listen()
        self._entering.previewed.connect(self.airing.previewed)  # after the window's own ghosts

    def table(self) -> dict[Command, Callable[[], object]]:
        """Give what each of the keys does."""
        return {**self.airing.table(), **self.telling.table()}
