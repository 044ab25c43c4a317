"""What each key does: hands commands to the desk, the clock, and the parts of the window."""

from collections.abc import Callable, Mapping
from typing import Protocol

from PySide6.QtCore import QObject

from app.desk.clock_keys import ClockKeys
from app.desk.entering import Entering, TakesLines
from app.desk.entry_line import EntryLine
from app.desk.keys import Command
from app.desk.programme_keys import DesksProgramme
from app.desk.running import Running
from app.desk.side import Side
from app.desk.timeline import Timeline
from core.board.handing.model import HandPage
from core.board.model import EntryRow
from core.session.model import Answer, Taken

CLOCK_HELD = "The trainer has the clock"
"""What is answered where one leads the rehearsal from a window of their own."""

_STEERS = frozenset({Command.PAUSE, Command.SLOWER, Command.FASTER, Command.STEP, Command.STEP_FAR})
_JUMP = "clock next"
"""The line of the bar that the key for it stands for."""


class CommandedDesk(TakesLines, DesksProgramme, Protocol):
    """What keys ask of the desk, besides taking lines."""

    def undo(self, now_ms: int) -> Taken:
        """Take back the last entry."""

    def redo(self, now_ms: int) -> Taken:
        """Bring back what was taken back last."""

    def take_back(self, number: int, now_ms: int) -> Taken:
        """Take back any entry."""

    def bring_back(self, number: int, now_ms: int) -> Taken:
        """Bring back any entry."""

    def confirm_due(self, now_ms: int) -> Taken:
        """Confirm all that is due."""

    def entries(self) -> tuple[EntryRow, ...]:
        """Give the day's entries, oldest first."""

    def hand_page(self, now_ms: int) -> HandPage:
        """Give what whoever takes the desk over has to know."""


class Commanding(QObject):
    """Carries out commands. Those that concern the window itself are handed in as `more`."""

    def __init__(
        self,
        desk: CommandedDesk,
        running: Running,
        clock_keys: ClockKeys | None,
        entering: Entering,
        line: EntryLine,
        timeline: Timeline,
        side: Side,
        more: Mapping[Command, Callable[[], object]],
    ) -> None:
        super().__init__(line)
        self._desk = desk
        self._running = running
        self._clock_keys = clock_keys
        self._entering = entering
        self._line = line
        self._timeline = timeline
        self._side = side
        self._doing = {**self._table(), **more}
        line.commanded.connect(self.take)

    def take(self, command: Command) -> None:
        """Carry out one command; those of a simulated clock do nothing to a real one."""
        if command in self._doing:
            self._doing[command]()
        elif self._clock_keys is None:
            return
        elif command is Command.JUMP:
            self.enter_aside(_JUMP)
        elif command in _STEERS and Command.TRAINER in self._doing:
            self._not_typed(Taken(Answer.REFUSED, CLOCK_HELD))
        elif self._clock_keys.take(command):
            self._entering.let_go()  # what was said of the clock may hold no longer
            self._running.refresh()

    def enter_aside(self, text: str) -> None:
        """Take a line that a key stands for, beside what is being typed."""
        self._not_typed(self._desk.enter(text, "", self._running.now_ms()))

    def _table(self) -> dict[Command, Callable[[], object]]:
        return {
            Command.ENTER: self._enter,
            Command.NEXT_READING: lambda: self._entering.pick(1),
            Command.LAST_READING: lambda: self._entering.pick(-1),
            Command.UNDO: lambda: self._done(self._desk.undo(self._running.now_ms())),
            Command.REDO: lambda: self._done(self._desk.redo(self._running.now_ms())),
            Command.CONFIRM_DUE: self._confirm,
            Command.CARD_UP: lambda: self._up_or_down(-1),
            Command.CARD_DOWN: lambda: self._up_or_down(1),
            Command.AHEAD: lambda: self._timeline.page(1),
            Command.BACK: lambda: self._timeline.page(-1),
            Command.TO_NOW: self._timeline.home,
            Command.HELP: self._side.turn_help,
            Command.HELP_BACK: self._side.turn_help_back,
            Command.DAY: self._turn_day,
            Command.HAND_OVER: self._turn_hand_over,
            Command.TAKE_BACK: self._take_back,
            Command.SCALE: self._timeline.turn_scale,
        }

    def _enter(self) -> None:
        if self._line.text():
            self._after(self._entering.enter())
        elif (number := self._selected_entry()) is not None:
            self._done(self._desk.bring_back(number, self._running.now_ms()))

    def _take_back(self) -> None:
        if (number := self._selected_entry()) is not None:
            self._done(self._desk.take_back(number, self._running.now_ms()))

    def _confirm(self) -> None:
        self._not_typed(self._desk.confirm_due(self._running.now_ms()))

    def _not_typed(self, taken: Taken) -> None:
        """Show what a key did; what is being typed meanwhile is not lost."""
        if self._line.text():
            self._after(taken)
        else:
            self._done(taken)

    def _selected_entry(self) -> int | None:
        selected = self._side.day.selected if self._side.day_is_open else None
        return None if selected is None else selected.number

    def _done(self, taken: Taken) -> None:
        """Show what the desk did that was not typed."""
        self._line.forget()
        self._entering.say(taken)
        self._after(taken)

    def _after(self, taken: Taken) -> None:
        if taken.hands_over:
            self._side.open_hand_over()
        if taken.answer is Answer.DONE:
            self._timeline.set_ghosts(())
            self._fill_day()
            self._running.refresh()
            self._timeline.bring(taken.shows)

    def _up_or_down(self, by: int) -> None:
        if self._side.day_is_open:
            self._side.day.select_by(by)
        elif by > 0:
            self._timeline.select_next()
        else:
            self._timeline.select_previous()

    def _turn_day(self) -> None:
        self._side.turn_day()
        self._fill_day()

    def _turn_hand_over(self) -> None:
        self._side.turn_hand_over()
        self.look(self._running.now_ms())

    def look(self, now_ms: int) -> None:
        """Let the handover page, where it is open, tell of that moment."""
        if self._side.hand_over_is_open:
            self._side.hand_over.show_page(self._desk.hand_page(now_ms))

    def _fill_day(self) -> None:
        if self._side.day_is_open:
            self._side.day.show_entries(self._desk.entries())
