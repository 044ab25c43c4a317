"""The strip beside the tables: the plan's signal, around the event one stands on."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QWidget

from app.builder.looking import Looked
from app.theme import Theme
from core.times.writing import Hours, Style, clock_text

if TYPE_CHECKING:
    from app.strip.widget import StripView

_LINE_PX = 48


class StripBeside(QWidget):
    """The same strip as the board's, read only. While the draft is broken it keeps the last one."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._looked: Looked | None = None
        self._stands = ""
        self._late = False
        self._painted = False
        self.strip: StripView | None = None
        self.line = QLabel("", self)
        self.line.setObjectName("quiet")
        self.line.setWordWrap(True)
        self._say()

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        if self.strip is not None:
            self.strip.set_theme(theme)
        self._place()

    def show_looked(self, looked: Looked) -> None:
        """Show a plan; one that cannot be worked out leaves the last one."""
        if looked.view is not None or self._looked is None:
            self._looked = looked
        self._show()
        self._say(looked.said)

    def forget(self) -> None:
        """Show nothing any more: another plan is made now."""
        self._looked, self._stands = None, ""
        if self.strip is not None:
            self.strip.hide()
        self._say()

    def show_broken(self, *, broken: bool) -> None:
        """Say whether what is shown is older than the draft."""
        if broken != self._late:
            self._late = broken
            self._say()

    def stand_on(self, event: str) -> None:
        """Show the signal around an event; '' stays where it is."""
        if event and event != self._stands:
            self._stands = event
            self._show()

    def add_strip(self) -> None:
        """Load and show the strip; after the first paint."""
        # Here and not above: loading pyqtgraph takes longer than all the rest of the window.
        from app.strip.widget import StripView  # noqa: PLC0415

        self.strip = StripView(self._theme, self)
        self._place()
        self.strip.hide()  # until there is something to show on it
        self._show()

    def _show(self) -> None:
        looked = self._looked
        if self.strip is None or looked is None or looked.view is None:
            return
        at_ms = dict(looked.expected_ms).get(self._stands)
        style = Style(looked.plan.zones[0], Hours.TWENTY_FOUR)
        words = "" if at_ms is None else clock_text(at_ms, style, seconds=False)
        self.strip.set_view(looked.view, at_ms, words)
        self.strip.show()

    def _say(self, said: str = "") -> None:
        nothing = self._looked is None or self._looked.view is None
        if self._late:
            said = "As it was before: what is marked ◆ is to be mended first"
            said = "Nothing to show yet" if nothing else said
        self.line.setText(said or ("" if not nothing else "The signal appears here"))
        self._place()

    def _place(self) -> None:
        foot_px = self._theme.px(_LINE_PX)  # also while empty: the strip stays where it is
        high_px = max(1, self.height() - foot_px)
        if self.strip is not None:
            self.strip.setGeometry(0, 0, self.width(), high_px)
        self.line.setGeometry(
            self._theme.px(8), high_px, self.width() - self._theme.px(16), max(foot_px, 1)
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the height anew."""
        del event
        self._place()

    def paintEvent(self, event: QPaintEvent) -> None:
        """After the first frame, and not before, load what draws the strip."""
        del event
        if not self._painted:
            self._painted = True
            QTimer.singleShot(0, self, self.add_strip)
