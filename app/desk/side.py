"""The right column: the panels, or in their place help, the day's entries or the handover."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.change import LastChangePanel
from app.desk.clear import ClearUntil
from app.desk.contact import Contact
from app.desk.day_list import DayList
from app.desk.hand_over import HandOver
from app.desk.help_sheet import HelpSheet
from app.desk.if_entered import IfEntered
from app.desk.reports import Reports
from app.desk.stacking import Growth, Stacked, stacked
from app.desk.to_say import ToSayPanel
from app.theme import Theme
from core.board.model import Said, View

_GAP = 12


class Side(QWidget):
    """Shows the panels; F1, F2 and Shift+F2 open what takes their place, beside the countdowns."""

    def __init__(
        self,
        theme: Theme,
        parent: QWidget | None = None,
        *,
        simulated: bool,
        trained: bool = False,
    ) -> None:
        super().__init__(parent)
        self._theme = theme
        self.contact = Contact(theme)
        self.clear = ClearUntil(theme)
        self.to_say = ToSayPanel(theme)
        self.change = LastChangePanel(theme)
        self.if_entered = IfEntered(theme)
        self.help = HelpSheet(theme, simulated=simulated, trained=trained)
        self.day = DayList(theme)
        self.hand_over = HandOver(theme)
        self.reports = Reports(theme)
        self._there: frozenset[QWidget] = frozenset()
        """The panels that the present view has something for."""
        self._heights: dict[Stacked, int] = {}
        self._laid_for: tuple[object, ...] = ()
        """What the panels needed when they were laid out."""
        self._open: QWidget | None = None
        for child in self._all():
            child.setParent(self)
        self._lay_out()

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        for child in self._all():
            child.set_theme(theme)
        self._lay_out()

    def show_view(self, view: View) -> None:
        """Show another moment; what the plan has nothing for has no panel."""
        self.contact.show_contact(view.contact)
        if view.clear is not None:
            self.clear.show_clear(view.clear)
        if view.to_say is not None:
            self.to_say.show_to_say(view.to_say)
        self.change.show_change(view.last_change)
        there = {
            self.clear: view.clear is not None,
            self.to_say: view.to_say is not None,
            self.change: view.last_change is not None,
        }
        self._there = frozenset(panel for panel, is_there in there.items() if is_there)
        if self._laid_for != self._needs():
            self._lay_out()

    def next_length(self) -> None:
        """Show the sentence at its next length."""
        self.to_say.next_length()
        self._lay_out()

    def show_lines(self, lines: tuple[Said, ...]) -> bool:
        """Show what the typed line would do, in place of the last change; () for nothing.

        False where there is no room for it, and it must be told elsewhere.
        """
        if self.if_entered.show_lines(lines):
            self._lay_out()
        return self._open is None and (not lines or self.if_entered in self._heights)

    @property
    def tells_change(self) -> bool:
        """Whether the last change is told here; else it must be told elsewhere."""
        return self._open is None and self.change in self._heights

    @property
    def day_is_open(self) -> bool:
        """Whether the day's entries are shown, and the arrows and Enter belong to them."""
        return self._open is self.day

    def turn_help(self) -> None:
        """Open the help sheet, turn its page, or close it after the last."""
        if self._open is not self.help:
            self.help.open()
            self._show(self.help)
        elif not self.help.turn():
            self.close_open()

    def turn_help_back(self) -> None:
        """Turn the help sheet back by a page; nothing where it is closed, or at its first."""
        if self._open is self.help:
            self.help.turn_back()

    def turn_day(self) -> None:
        """Open the day's entries, or close them."""
        if self.day_is_open:
            self.close_open()
        else:
            self.day.open()
            self._show(self.day)

    @property
    def hand_over_is_open(self) -> bool:
        """Whether the handover page is shown."""
        return self._open is self.hand_over

    def turn_hand_over(self) -> None:
        """Open the handover page, go on to its next sheet, or close it after the last."""
        if not self.hand_over_is_open:
            self.open_hand_over()
        elif not self.hand_over.turn():
            self.close_open()

    def open_hand_over(self) -> None:
        """Open the handover page at its top."""
        self.hand_over.open()
        self._show(self.hand_over)

    def turn_reports(self) -> None:
        """Open what was reported, or close it."""
        self._show(None if self._open is self.reports else self.reports)

    def close_open(self) -> bool:
        """Go back to the panels; False where they were there already."""
        was_open = self._open is not None
        self._show(None)
        return was_open

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out anew."""
        del event
        self._lay_out()

    def _show(self, widget: QWidget | None) -> None:
        self._open = widget
        self._lay_out()

    def _all(self) -> tuple[Stacked | HelpSheet | DayList | HandOver | Reports, ...]:
        return (*self._panels(), self.help, self.day, self.hand_over, self.reports)

    def _panels(self) -> tuple[Stacked, ...]:
        return (self.contact, self.clear, self.to_say, self.change, self.if_entered)

    def _needs(self) -> tuple[object, ...]:
        """What the heights of the panels hang on."""
        sizes = [(p.least_px(), p.wanted_px()) for p in self._panels() if p is not self.if_entered]
        return self._there, sizes

    def _lay_out(self) -> None:
        wide, high = self.width(), self.height()
        self.help.setGeometry(0, 0, wide, high)
        self.day.setGeometry(0, 0, wide, high)
        self.hand_over.setGeometry(0, 0, wide, high)
        self.reports.setGeometry(0, 0, wide, high)
        self._lay_out_panels(wide, high)
        self.help.setVisible(self._open is self.help)
        self.day.setVisible(self._open is self.day)
        self.hand_over.setVisible(self.hand_over_is_open)
        self.reports.setVisible(self._open is self.reports)

    def _lay_out_panels(self, wide: int, high: int) -> None:
        """Put the panels that are there one below the other."""
        for panel in self._panels():
            panel.resize(wide, panel.height())  # words break at this width
        self._laid_for = self._needs()
        last = self.if_entered if self.if_entered.shown else self.change
        there = self._there | {self.contact, self.if_entered}
        shown = [p for p in (self.contact, self.clear, self.to_say, last) if p in there]
        gap = self._theme.px(_GAP)
        self._heights = stacked(shown, high, gap, growing=self._growing())
        top = 0
        for panel in self._panels():
            panel_px = self._heights.get(panel, 0)
            panel.setVisible(self._open is None and panel_px > 0)
            if panel_px:
                panel.setGeometry(0, top, wide, panel_px)
                top += panel_px + gap

    def _growing(self) -> tuple[Growth, ...]:
        """Who gets room first: the last change is the first to give it up, then the items."""
        return (
            (self.clear, self.clear.few_px),
            (self.to_say, self.to_say.first_px),
            (self.if_entered, self.if_entered.fit_px),
            (self.clear, self.clear.fit_px),
            (self.to_say, self.to_say.fit_px),
            (self.change, self.change.fit_px),
            (self.contact, self.contact.fit_px),
        )
