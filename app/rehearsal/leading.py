"""Between the windows of a rehearsal and the rehearsal itself: what the trainer's keys do."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QEvent, QObject

from app.desk.clock_keys import ClockKeys
from app.desk.closing import Closing, ending_words
from app.desk.keys import Command
from app.desk.running import Running
from app.rehearsal.keys import Ask, key_text
from app.rehearsal.window import TrainerWindow
from core.board.model import Said, Tone, View
from core.board.reported import Reported
from core.errors import EntryProblem, EntryRefused
from core.rehearsal.adding import surprise_of
from core.rehearsal.choosing import completed, next_words
from core.rehearsal.live import LiveRun
from core.rehearsal.marks import Mark
from core.rehearsal.quiet import quiet_line, reported
from core.rehearsal.rows import Row
from core.rehearsal.showing import trainer_view
from core.rehearsal.wording import effect_words
from core.times.clocks import SimClock
from core.times.writing import clock_text

_CLOCK = {
    Ask.PAUSE: Command.PAUSE,
    Ask.SLOWER: Command.SLOWER,
    Ask.FASTER: Command.FASTER,
    Ask.STEP: Command.STEP,
    Ask.STEP_FAR: Command.STEP_FAR,
}


class ReportedTo(Protocol):
    """What the desk window is asked for."""

    def show_reports(self, line: Said, reports: tuple[Reported, ...]) -> None:
        """Show what was reported."""


class Leading(QObject):
    """Leads a rehearsal as its trainer asks. `write` writes the score page, and gives where.

    Whoever connects it does so after the windows: reports come with the second that is shown.
    """

    def __init__(
        self,
        run: LiveRun,
        clock: SimClock,
        running: Running,
        desk: ReportedTo,
        window: TrainerWindow,
        write: Callable[[LiveRun], str],
    ) -> None:
        super().__init__(running)
        self._run = run
        self._clock = clock
        self._clock_keys = ClockKeys(clock)
        self._running = running
        self._desk = desk
        self._window = window
        self._write = write
        self._asked = ""
        self._added = 0
        self._ended = False
        self._closed = False
        self._closing = Closing(self)
        running.viewed.connect(self._viewed)
        window.asked.connect(self.take)
        window.typed.connect(self._typed)
        window.moved.connect(self._let_fall)
        window.closing.connect(self._wants_to_close)
        window.closed.connect(self._trainer_closed)

    def _viewed(self, view: View) -> None:
        """Another second stands on the board."""
        heard = self._run.look(view)
        if any(each.report.step_ms for each in heard):
            self._running.refresh()
            return
        score = self._run.score()
        self._window.show_trainer(trainer_view(self._run, score), view)
        reports = reported(self._run, score)
        self._desk.show_reports(quiet_line(reports), reports)
        if self._run.over and not self._ended:
            self.end()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt calls it
        """Whoever presses a key at the desk has what was reported before them."""
        if event.type() == QEvent.Type.KeyPress:
            self._run.saw()
        return super().eventFilter(watched, event)

    def end(self) -> None:
        """Let the clock stand, and write the score page."""
        self._ended = True
        self._clock.pause()
        if self._run.over:  # what is entered now still belongs to it
            self._clock.jump(self._run.day.end_ms)
        self._say(f"The rehearsal stands. {self._write(self._run)}")
        self._running.refresh()

    # ------------------------------------------------------------ keys

    def take(self, ask: Ask) -> None:
        """Do what a key asks for."""
        if ask in _CLOCK:
            self._clock_keys.take(_CLOCK[ask])
            self._running.refresh()
            return
        doing: dict[Ask, Callable[[], object]] = {
            Ask.ENTER: self._enter,
            Ask.COMPLETE: self._complete,
            Ask.CLEAR: self._clear,
            Ask.MARK: self._mark,
            Ask.NEXT: self._on_to_next,
            Ask.END: self.end,
        }
        if ask in doing:
            doing[ask]()

    def _let_fall(self) -> None:
        """A question about another row holds no longer."""
        self._asked = ""

    def _clear(self) -> None:
        self._let_fall()
        self._window.let_go()
        self._say("")

    def _typed(self, text: str) -> None:
        self._let_fall()
        typing = bool(text.strip())
        self._window.show_next(next_words(text, self._run.plan) if typing else None)

    def _complete(self) -> None:
        line, chosen = self._window.bar.line, self._window.below.chosen
        if chosen:
            line.setText(completed(line.text(), chosen))

    def _mark(self) -> None:
        line = self._window.bar.line
        name = line.text().strip() or f"Mark {len(self._run.marks) + 1}"
        mark = self._run.mark(name)
        line.setText("")
        self._say(f"Marked: {name}, {self._time(mark.at_ms)}")
        self._running.refresh()

    def _on_to_next(self) -> None:
        to_ms = self._run.on_to_next()
        if to_ms is None:
            self._say("No report is still to come")
            return
        self._say(f"On at {self._time(to_ms)}")
        self._running.refresh()

    # ------------------------------------------------------------ Enter

    def _enter(self) -> None:
        text, row = self._window.bar.line.text().strip(), self._window.selected
        try:
            if text:
                self._add(text)
            elif row is None:
                self._say("Select a row with the arrow keys, or type a surprise")
            else:
                self._on_row(row)
        except (EntryProblem, EntryRefused) as problem:
            self._say(str(problem), Tone.CLASH)

    def _add(self, text: str) -> None:
        self._added += 1
        surprise = surprise_of(text, self._run.plan, self._run.now_ms, self._added)
        self._run.add(surprise)
        self._window.let_go()
        self._say(f"Added: {effect_words(surprise, self._run.plan)}")
        self._running.refresh()

    def _on_row(self, row: Row) -> None:
        """Spring it, or go back to it, at the second Enter on the same row."""
        if row.surprise:
            if self._confirmed(row, "Enter once more springs it now"):
                self._run.spring(row.surprise)
                self._window.let_go()
                self._say(f"Sprung: {row.what}")
                self._running.refresh()
        elif row.mark is not None:
            count = self._run.entered_since(row.mark)
            entries = "1 entry since is" if count == 1 else f"{count} entries since are"
            asks = f"Enter once more goes back to {self._time(row.mark.at_ms)}; {entries} kept as"
            if self._confirmed(row, f"{asks} an earlier attempt"):
                self._back_to(row.mark)
        else:
            self._say("Only a surprise can be sprung, and only a report or a mark gone back to")

    def _confirmed(self, row: Row, asks: str) -> bool:
        """Whether this is the second Enter; else it is asked for."""
        if self._asked == row.key:
            self._let_fall()
            return True
        self._asked = row.key
        self._say(asks)
        return False

    def _back_to(self, mark: Mark) -> None:
        self._run.back_to(mark)
        self._ended = False
        self._window.let_go()
        key = key_text(Ask.PAUSE)
        self._say(f"Back at {self._time(mark.at_ms)}; the clock stands, {key} lets it go")
        self._running.refresh()

    # ------------------------------------------------------------ closing

    @property
    def ends_by_closing(self) -> bool:
        """Whether closing the desk's window would end the rehearsal: it goes on till then."""
        return not self._ended and not self._closed

    def _trainer_closed(self) -> None:
        self._closed = True

    def _wants_to_close(self) -> None:
        """Close at the second time of asking: closing ends the rehearsal."""
        self._window.may_close = self._ended or self._closing.lets(1)
        if not self._window.may_close:
            self._say(ending_words())

    def _time(self, at_ms: int) -> str:
        return clock_text(at_ms, self._run.style)

    def _say(self, text: str, tone: Tone = Tone.PLAIN) -> None:
        self._window.say(Said(text, tone))
