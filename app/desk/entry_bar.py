"""The bar at the foot of the window: the line one types in, and beside it what it would do."""

from dataclasses import replace

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.desk import ink
from app.desk.answer import AnswerBeside, of_change, of_preview, of_taken
from app.desk.entry_line import EntryLine
from app.desk.ink import Run
from app.desk.keys import Command, key_text
from app.theme import Text, Theme
from core.board.model import LastChange, Preview
from core.session.model import Answer, Taken

_HIGH = 108
_FIELD_HIGH = 56
_GAP = 26
_PAD = 18


class EntryBar(QWidget):
    """Holds the line and the answer, and paints the ground and the field's frame."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._margin_px = 0
        self._field_px = 0
        self.line = EntryLine(self)
        self.line.setPlaceholderText(f"{key_text(Command.HELP)}: what can be typed")
        self.answer = AnswerBeside(theme, self)
        self._desk = ""
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self.line.setFont(theme.font(Text.ENTRY))
        self.line.setPalette(theme.qt_palette())
        self.answer.set_theme(theme)
        self._lay_out()
        self.update()

    def set_edges(self, margin_px: int, field_px: int) -> None:
        """Keep so far from the sides, and make the field so wide: as the cards above stand."""
        self._margin_px, self._field_px = margin_px, field_px
        self._lay_out()
        self.update()

    def wanted_px(self) -> int:
        """How high it is."""
        return self._theme.px(_HIGH)

    def show_desk(self, who: str) -> None:
        """Show quietly, at the end of the field, who is at the desk; '' for nobody."""
        if who != self._desk:
            self._desk = who
            self.setAccessibleDescription(f"{who} is at the desk" if who else "")
            self._lay_out()
            self.update()

    def show_preview(self, preview: Preview, *, lines: bool = True) -> None:
        """Show how the line is read, and what it would do unless that is told elsewhere."""
        self.answer.show_this(of_preview(preview, lines=lines))

    def show_change(self, change: LastChange | None) -> None:
        """Show what changed last while nothing is typed, where its panel has no room."""
        self.answer.show_this(of_change(change))

    def show_taken(self, taken: Taken) -> None:
        """Show what the desk answered; while it asks, the clash it asks about stands."""
        shown = of_taken(taken)
        if taken.answer is Answer.ASKS:
            shown = replace(shown, clash=self.answer.shown.clash)
        self.answer.show_this(shown)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out anew."""
        del event
        self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, and the frame that says where the keyboard is."""
        del event
        with QPainter(self) as painter:  # ended even where painting fails
            self._paint(painter)

    def _paint(self, painter: QPainter) -> None:
        theme = self._theme
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), theme.ink.bar)
        painter.setPen(QPen(theme.ink.outline, theme.px(2)))
        painter.setBrush(theme.ink.field)
        field = self.field()
        painter.drawRoundedRect(field, theme.px(5), theme.px(5))
        baseline_px = field.center().y() + theme.px(6)
        who = Run(self._desk, theme.font(Text.TAG), theme.ink.quiet)
        ink.draw_right(painter, field.right() - theme.px(_PAD), baseline_px, [who])

    def field(self) -> QRectF:
        """Give where the frame of the line stands."""
        high = self._theme.px(_FIELD_HIGH)
        top = (self.height() - high) / 2
        return QRectF(self._margin_px + 1, top, self._field_px - 2, high)

    def _lay_out(self) -> None:
        field = self.field()
        pad = self._theme.px(_PAD)
        who_px = self._theme.width_px(Text.TAG, self._desk) + pad if self._desk else 0
        self.line.setGeometry(field.adjusted(pad, 4, -pad - who_px, -4).toRect())
        left = round(field.right()) + self._theme.px(_GAP)
        right = self.width() - self._margin_px
        self.answer.setGeometry(left, 0, max(0, right - left), self.height())
