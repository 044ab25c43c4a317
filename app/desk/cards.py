"""The column of cards: one widget that paints every card in sight."""

from dataclasses import dataclass

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QRegion, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.desk.card_changes import renewed
from app.desk.card_cursor import Cursor
from app.desk.card_flow import Kind
from app.desk.card_paint import paint_bracket, paint_ground, paint_mark, paint_outline
from app.desk.card_rows import MARGIN_PX, Rows, Shown
from app.patterns import Patterns
from app.theme import Theme
from app.words import paint_words
from core.board.model import Card, View

_NOTCH = 120
"""What a wheel reports for one notch, in eighths of a degree."""
_BARE = (Kind.MORE, Kind.NOW, Kind.SUMMARY)
"""Rows without a ground of their own."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a card's thread begins: the card, its instant, and the height in the column."""

    card_id: str
    at_ms: int
    y_px: int


class CardColumn(QWidget):
    """All cards in sight. It stands at now, or is scrolled to a card and stays there."""

    selected = Signal(str)
    """The id of the selected card, '' for none."""
    moved = Signal()
    """It was scrolled, or has gone back to now."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._patterns = Patterns(theme)
        self._view: View | None = None
        self._cursor = Cursor()
        self._told_id = ""
        self._outlined = ""
        self._turned = 0
        self._shown: tuple[Shown, ...] = ()
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)  # nothing to paint below it
        self.setAccessibleName("Countdowns")

    # ------------------------------------------------------------------ what is shown

    @property
    def selected_id(self) -> str:
        """The id of the selected card, '' for none."""
        return self._cursor.chosen_id

    @property
    def big_id(self) -> str:
        """The id of the big card while it stands in sight as such, else ''."""
        ids = (s.card.id for s in self._shown if s.row.kind is Kind.BIG and s.card is not None)
        return next(ids, "")

    @property
    def first_card(self) -> Card | None:
        """The card it is scrolled to; None while it stands at now."""
        if self._view is None or self._cursor.first is None:
            return None
        return self._view.cards[self._cursor.first]

    @property
    def shown(self) -> tuple[Shown, ...]:
        """The rows as they are drawn, from top to bottom."""
        return self._shown

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self._patterns = Patterns(theme)
        self._shown = ()  # laid in another theme
        self._lay()
        self.update()

    def set_view(self, view: View) -> None:
        """Show another moment; what it is scrolled to and the selection stay by their ids."""
        self._view = view
        self._cursor.take(view)
        self._lay()
        self._tell()

    def anchors(self) -> tuple[Anchor, ...]:
        """Where the threads of the cards in sight begin, from top to bottom."""
        return tuple(
            Anchor(shown.card.id, shown.card.at_ms, shown.row.middle_px)
            for shown in self._shown
            if shown.card is not None and shown.card.at_ms is not None
            if shown.row.kind is not Kind.KEPT
        )

    # ------------------------------------------------------------------ selecting, scrolling

    def select(self, card_id: str) -> None:
        """Select a card and bring it into sight; '' or an unknown id lets go of the selection."""
        self._cursor.choose_by_id(card_id)
        self._follow()

    def bring(self, card_id: str) -> None:
        """Bring a card into sight without selecting it; '' or an unknown id leaves all as it is."""
        if card_id and self._cursor.bring(card_id, self._in_sight()):
            self._scrolled()

    def select_next(self) -> None:
        """Select the card below; the first one in sight where none is selected."""
        self._cursor.step(1, self._in_sight())
        self._follow()

    def select_previous(self) -> None:
        """Select the card above; the last one in sight where none is selected."""
        self._cursor.step(-1, self._in_sight())
        self._follow()

    def scroll_by(self, cards: int) -> None:
        """Scroll by so many cards: ahead, or back where negative."""
        self._cursor.scroll_by(cards)
        self._scrolled()

    def page(self, pages: int) -> None:
        """Scroll by as many cards as are in sight, less one to hold on to."""
        self.scroll_by(pages * max(1, len(self._in_sight()) - 1))

    def begin_with(self, card_id: str) -> None:
        """Scroll so that the column begins with a card."""
        self._cursor.begin_with(card_id)
        self._scrolled()

    def home(self) -> None:
        """Go back to now."""
        self._cursor.scroll_to(None)
        self._scrolled()

    def _follow(self) -> None:
        """Open the selected card, and scroll where that leaves it out of sight."""
        self._lay()
        if self._cursor.follow(self._in_sight()):
            self._lay()
            if self._cursor.follow(self._in_sight()):
                self._lay()
            self.moved.emit()
        self._tell()

    def _tell(self) -> None:
        """Say which card is selected, if it is another than was said last."""
        if self._cursor.chosen_id != self._told_id:
            self._told_id = self._cursor.chosen_id
            self.setAccessibleDescription(self._chosen_in_words())
            self.selected.emit(self._told_id)

    def _chosen_in_words(self) -> str:
        if self._view is None or self._cursor.chosen is None:
            return ""
        card = self._view.cards[self._cursor.chosen]
        return ", ".join(part for part in (card.name, card.lead, card.clock, card.reason) if part)

    def _scrolled(self) -> None:
        self._lay()
        self.moved.emit()

    def _in_sight(self) -> list[int]:
        """The cards from the first to the last; not one that is kept beside them."""
        shown = (each for each in self._shown if each.row.kind is not Kind.KEPT)
        return [each.row.index for each in shown if each.card is not None]

    def _lay(self) -> None:
        """Place the rows, and paint anew what looks otherwise than before."""
        if self._view is None:
            return
        before, outlined = self._shown, self._outlined
        rows = Rows(self._view, self._theme, self.width(), self.height(), before)
        self._shown = rows.place(self._cursor.first, self._cursor.chosen)
        self._outlined = self._cursor.chosen_id
        part = renewed(before, self._shown, self._theme)
        if part is None or outlined != self._outlined:
            self.update()
        else:
            self.update(part)

    # ------------------------------------------------------------------ what Qt calls

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows in sight."""
        with QPainter(self) as painter:  # ended even where painting fails
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(event.rect(), self._theme.ink.ground)
            part = event.region()
            for shown in self._shown:
                if part.intersects(shown.rect.toAlignedRect()):
                    self._paint_row(painter, shown, part)
            self._paint_brackets(painter)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Place the rows anew."""
        super().resizeEvent(event)
        self._lay()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Scroll a card for each notch."""
        self._turned += event.angleDelta().y()
        notches = int(self._turned / _NOTCH)
        self._turned -= notches * _NOTCH
        if notches:
            self.scroll_by(-notches)
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Select the card under the mouse."""
        for shown in self._shown:
            if shown.card is not None and shown.rect.contains(event.position()):
                self._cursor.choose(shown.row.index)
                self._follow()
                return

    # ------------------------------------------------------------------ painting

    def _paint_row(self, painter: QPainter, shown: Shown, part: QRegion) -> None:
        ink = self._theme.ink
        if shown.row.kind is Kind.NOW:
            self._paint_now(painter, shown)
        if shown.row.kind not in _BARE:
            big = shown.row.kind is Kind.BIG
            paint_ground(painter, shown.rect, ink.live if big else ink.panel, self._theme)
        if shown.card is not None and shown.card.mark is not None:
            paint_mark(painter, shown.rect, shown.card.mark, self._patterns, self._theme)
        paint_words(painter, shown.words, self._theme, part)
        if shown.card is not None and shown.card.id == self._cursor.chosen_id:
            paint_outline(painter, shown.rect, self._theme)

    def _paint_now(self, painter: QPainter, shown: Shown) -> None:
        """A line in the limb's colour, to the right of the words."""
        words = shown.words[0]
        left_px = round(words.left_px + words.width_px) + self._theme.px(12)
        thick_px = self._theme.px(2)
        y_px = shown.row.middle_px - thick_px // 2
        painter.fillRect(left_px, y_px, self.width() - left_px, thick_px, self._theme.ink.limb)

    def _paint_brackets(self, painter: QPainter) -> None:
        pairs: dict[str, list[int]] = {}
        for shown in self._shown:
            if shown.card is not None and shown.card.pair and shown.row.kind is not Kind.KEPT:
                pairs.setdefault(shown.card.pair, []).append(shown.row.middle_px)
        for heights_px in pairs.values():
            if len(heights_px) > 1:
                paint_bracket(painter, self._theme.px(MARGIN_PX), heights_px, self._theme)
