"""The right column: the panels, or in their place the help sheet or the day's entries."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk.change import LastChangePanel
from app.desk.contact import Contact
from app.desk.day_list import DayList
from app.desk.help_sheet import HelpSheet
from app.theme import Theme
from core.board.model import View

_GAP = 12
_CHANGE_SHARE = 0.35


class Side(QWidget):
    """Shows the panels; F1 and F2 open what takes their place, beside the countdowns."""

    def __init__(self, theme: Theme, parent: QWidget | None = None, *, simulated: bool) -> None:
        super().__init__(parent)
        self._theme = theme
        self.contact = Contact(theme)
        self.change = LastChangePanel(theme)
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

    def _all(self) -> tuple[Contact, LastChangePanel, HelpSheet, DayList]:
        return (self.contact, self.change, self.help, self.day)

    def _lay_out(self) -> None:
        wide, high = self.width(), self.height()
        self.help.setGeometry(0, 0, wide, high)
        self.day.setGeometry(0, 0, wide, high)
        gap = self._theme.px(_GAP)
        self.contact.resize(wide, self.contact.height())  # words break at this width
        kept_px = min(self.change.wanted_px(), high * _CHANGE_SHARE) if self._changed_yet else 0
        contact_px = round(min(self.contact.wanted_px(), high - gap - kept_px))
        self.contact.setGeometry(0, 0, wide, contact_px)
        self.change.resize(wide, self.change.height())
        left_px = max(0, high - contact_px - gap)
        change_px = min(round(self.change.wanted_px()), left_px)
        self.change.setGeometry(0, contact_px + gap, wide, change_px)
        self.help.setVisible(self._open is self.help)
        self.day.setVisible(self._open is self.day)
        self.contact.setVisible(self._open is None)
        self.change.setVisible(self._open is None and self._changed_yet)
