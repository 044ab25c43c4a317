"""The right column: the panels, or in their place the help sheet or the day's entries."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.change import LastChangePanel
from app.desk.contact import Contact
from app.desk.day_list import DayList
from app.desk.help_sheet import HelpSheet
from app.desk.if_entered import IfEntered
from app.theme import Theme
from core.board.model import Said, View

_GAP = 12
_CHANGE_SHARE = 0.35


class Side(QWidget):
    """Shows the panels; F1 and F2 open what takes their place, beside the countdowns."""

    def __init__(self, theme: Theme, parent: QWidget | None = None, *, simulated: bool) -> None:
        super().__init__(parent)
        self._theme = theme
        self.contact = Contact(theme)
        self.change = LastChangePanel(theme)
        self.if_entered = IfEntered(theme)
        self.help = HelpSheet(theme, simulated=simulated)
        self.day = DayList(theme)
        self._changed_yet = False
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
        """Show another moment."""
        before = (self._changed_yet, self.contact.wanted_px(), self.change.wanted_px())
        self.contact.show_contact(view.contact)
        self.change.show_change(view.last_change)
        self._changed_yet = view.last_change is not None
        if before != (self._changed_yet, self.contact.wanted_px(), self.change.wanted_px()):
            self._lay_out()

    def show_lines(self, lines: tuple[Said, ...]) -> bool:
        """Show what the typed line would do, in place of the last change; () for nothing.

        False where help or the day's entries take the room, and it must be told elsewhere.
        """
        if self.if_entered.show_lines(lines):
            self._lay_out()
        return self._open is None

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

    def turn_day(self) -> None:
        """Open the day's entries, or close them."""
        if self.day_is_open:
            self.close_open()
        else:
            self.day.open()
            self._show(self.day)

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

    def _all(self) -> tuple[Contact, LastChangePanel, IfEntered, HelpSheet, DayList]:
        return (self.contact, self.change, self.if_entered, self.help, self.day)

    def _lay_out(self) -> None:
        wide, high = self.width(), self.height()
        self.help.setGeometry(0, 0, wide, high)
        self.day.setGeometry(0, 0, wide, high)
        self._lay_out_panels(wide, high)
        self.help.setVisible(self._open is self.help)
        self.day.setVisible(self._open is self.day)

    def _lay_out_panels(self, wide: int, high: int) -> None:
        """CONTACT, and below it what would change or what has; the totals make room for it."""
        gap = self._theme.px(_GAP)
        below: IfEntered | LastChangePanel | None = None
        if self.if_entered.shown:
            below = self.if_entered
        elif self._changed_yet:
            below = self.change
        for panel in (self.contact, self.change, self.if_entered):
            panel.resize(wide, panel.height())  # words break at this width
        kept_px = 0.0
        if below is self.if_entered:
            kept_px = min(below.wanted_px(), high - gap - self.contact.least_px())
        elif below is not None:
            kept_px = min(below.wanted_px(), high * _CHANGE_SHARE)
        contact_px = round(min(self.contact.wanted_px(), high - gap - kept_px))
        self.contact.setGeometry(0, 0, wide, contact_px)
        self.contact.setVisible(self._open is None)
        for panel in (self.change, self.if_entered):
            panel_px = min(round(panel.wanted_px()), max(0, high - contact_px - gap))
            panel.setGeometry(0, contact_px + gap, wide, panel_px)
            panel.setVisible(self._open is None and panel is below)
