"""The column of cards: one widget that paints every card in sight."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.desk.card_flow import Kind, Row, Shape, at_rest, scrolled
from app.desk.card_paint import (
    paint_bracket,
    paint_ground,
    paint_mark,
    paint_outline,
)
from app.desk.card_words import lay_big, lay_card, lay_line
from app.desk.keys import Command, key_text
from app.patterns import Patterns
from app.theme import Text, Theme
from app.words import Words, paint_words
from core.board.model import Card, View

_MARGIN_PX = 16
"""Left of the cards: room for the bracket of paired outcomes."""
_SUMMARY_PX = 34
_NOTCH = 120
"""What a wheel reports for one notch, in eighths of a degree."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a card's thread begins: the card, its instant, and the height in the column."""

    card_id: str
    at_ms: int
    y_px: int


@dataclass(frozen=True, slots=True)
class Shown:
    """A row as it is drawn, with its card where it has one."""

    row: Row
    rect: QRectF
    card: Card | None
    words: tuple[Words, ...]


class CardColumn(QWidget):
    """All cards in sight. It stands at now, or is scrolled to a card and stays there."""

    selected = Signal(str)
    """The id of the selected card, '' for none."""
    moved = Signal()
    """It was scrolled, or has gone back to now."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._patterns = Patterns(theme, self.devicePixelRatioF())
        self._view: View | None = None
        self._first: int | None = None
        self._first_id = ""
        self._chosen = -1
        self._chosen_id = ""
        self._turned = 0
        self._shown: tuple[Shown, ...] = ()
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("Countdowns")

    # ------------------------------------------------------------------ what is shown

    @property
    def selected_id(self) -> str:
        """The id of the selected card, '' for none."""
        return self._chosen_id

    @property
    def big_id(self) -> str:
        """The id of the big card while it stands in sight as such, else ''."""
        ids = (s.card.id for s in self._shown if s.row.kind is Kind.BIG and s.card is not None)
        return next(ids, "")

    @property
    def first_card(self) -> Card | None:
        """The card it is scrolled to; None while it stands at now."""
        if self._view is None or self._first is None:
            return None
        return self._view.cards[self._first]

    @property
    def shown(self) -> tuple[Shown, ...]:
        """The rows as they are drawn, from top to bottom."""
        return self._shown

    def set_theme(self, theme: Theme) -> None:
        """Draw in other colours or sizes."""
        self._theme = theme
        self._patterns = Patterns(theme, self.devicePixelRatioF())
        self._lay()

    def set_view(self, view: View) -> None:
        """Show another moment; what it is scrolled to and the selection stay by their ids."""
        self._view = view
        if self._first is not None:
            self._first = _near(view.cards, self._first_id, self._first)
            self._first_id = "" if self._first is None else self._first_id
        if self._chosen_id:
            found = _near(view.cards, self._chosen_id, self._chosen)
            if found is None:
                self._choose(-1)
            else:
                self._chosen = found
        self._lay()

    def anchors(self) -> tuple[Anchor, ...]:
        """Where the threads of the cards in sight begin, from top to bottom."""
        return tuple(
            Anchor(shown.card.id, shown.card.at_ms, shown.row.middle_px)
            for shown in self._shown
            if shown.card is not None and shown.card.at_ms is not None
        )

    # ------------------------------------------------------------------ selecting, scrolling

    def select(self, card_id: str) -> None:
        """Select a card and bring it into sight; '' or an unknown id lets go of the selection."""
        found = None
        if self._view is not None and card_id:
            found = _near(self._view.cards, card_id, self._view.next_index)
        self._choose(-1 if found is None else found)
        self._follow()

    def select_next(self) -> None:
        """Select the card below; the first one in sight where none is selected."""
        self._step(1)

    def select_previous(self) -> None:
        """Select the card above; the last one in sight where none is selected."""
        self._step(-1)

    def scroll_by(self, cards: int) -> None:
        """Scroll by so many cards: ahead, or back where negative."""
        if self._view is None or not self._view.cards:
            return
        first = self._view.next_index if self._first is None else self._first
        self._scroll_to(first + cards)

    def page(self, pages: int) -> None:
        """Scroll by as many cards as are in sight, less one to hold on to."""
        in_sight = sum(shown.card is not None for shown in self._shown)
        self.scroll_by(pages * max(1, in_sight - 1))

    def home(self) -> None:
        """Go back to now."""
        if self._first is not None:
            self._first = None
            self._lay()
            self.moved.emit()

    def _step(self, by: int) -> None:
        if self._view is None or not self._view.cards:
            return
        in_sight = [shown.row.index for shown in self._shown if shown.card is not None]
        if self._chosen < 0 and in_sight:
            self._choose(in_sight[0] if by > 0 else in_sight[-1])
        elif self._chosen >= 0:
            self._choose(min(max(self._chosen + by, 0), len(self._view.cards) - 1))
        self._follow()

    def _choose(self, index: int) -> None:
        card = self._view.cards[index] if self._view is not None and index >= 0 else None
        self._chosen = index
        card_id = "" if card is None else card.id
        if card_id != self._chosen_id:
            self._chosen_id = card_id
            self.setAccessibleDescription("" if card is None else f"{card.name}, {card.clock}")
            self.selected.emit(card_id)

    def _follow(self) -> None:
        """Bring the selected card into sight."""
        in_sight = [shown.row.index for shown in self._shown if shown.card is not None]
        if self._view is not None and self._chosen >= 0 and self._chosen not in in_sight:
            first = self._view.next_index if self._first is None else self._first
            if in_sight and self._chosen > in_sight[-1]:
                # As far as it takes for the card to be the last one in sight.
                self._scroll_to(max(first + 1, self._chosen - len(in_sight) + 2))
            else:
                self._scroll_to(self._chosen)
        self.update()

    def _scroll_to(self, index: int) -> None:
        view = self._view
        if view is None:
            return
        index = min(max(index, 0), len(view.cards) - 1)
        self._first = None if index == view.next_index else index
        self._first_id = "" if self._first is None else view.cards[index].id
        self._lay()
        self.moved.emit()

    # ------------------------------------------------------------------ placing

    def _lay(self) -> None:
        view = self._view
        if view is None:
            return
        big = None if view.big_index is None else view.cards[view.big_index]
        shape = Shape(
            count=len(view.cards),
            next_index=view.next_index,
            big_index=view.big_index,
            due=view.due is not None,
            big_clash=big is not None and bool(big.clash),
        )
        room_px = self.height() - (self._theme.px(_SUMMARY_PX) if view.summary.text else 0)
        if self._first is None:
            rows = at_rest(shape, self._theme, room_px)
        else:
            rows = scrolled(shape, self._first, self._theme, room_px)
        self._shown = tuple(self._placed(view, row) for row in rows)
        self.update()

    def _placed(self, view: View, row: Row) -> Shown:
        left_px = self._theme.px(_MARGIN_PX)
        rect = QRectF(left_px, row.top_px, self.width() - left_px, row.height_px)
        if row.kind is Kind.DUE:
            return Shown(row, rect, None, self._due_words(view, rect))
        if row.kind in (Kind.MORE, Kind.NOW):
            return Shown(row, rect, None, self._quiet_words(row, rect))
        card = view.cards[row.index]
        return Shown(row, rect, card, self._card_words(view, row, card, rect))

    def _card_words(self, view: View, row: Row, card: Card, rect: QRectF) -> tuple[Words, ...]:
        match row.kind:
            case Kind.BIG:
                return lay_big(card, rect, self._theme)
            case Kind.LINE:
                first = row.index == view.next_index
                return lay_line(card, rect, self._theme, first=first)
            case _:
                return lay_card(card, rect, self._theme)

    def _due_words(self, view: View, rect: QRectF) -> tuple[Words, ...]:
        theme = self._theme
        key = f"{key_text(Command.CONFIRM_DUE)} confirms"
        key_px = theme.width_px(Text.SMALL, key)
        baseline_px = rect.top() + theme.px(30)
        key_left_px = rect.right() - theme.px(16) - key_px
        left_px = rect.left() + theme.px(28)
        words = view.due.words if view.due is not None else ""
        room_px = key_left_px - left_px - theme.px(16)
        return (
            self._cut(words, left_px, baseline_px, room_px, Text.TAG),
            Words(key, key_left_px, baseline_px, key_px, Text.SMALL, theme.ink.quiet),
        )

    def _quiet_words(self, row: Row, rect: QRectF) -> tuple[Words, ...]:
        left_px = rect.left() + self._theme.px(28)
        baseline_px = rect.top() + self._theme.px(19)
        if row.kind is Kind.MORE:
            text, style = f"and {row.count} more before it", Text.NOTE
        else:
            text, style = _now_text(row.count), Text.NOW
        return (self._cut(text, left_px, baseline_px, rect.right() - left_px, style),)

    def _cut(
        self, text: str, left_px: float, baseline_px: float, room_px: float, style: Text
    ) -> Words:
        metrics = self._theme.metrics(style)
        text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, room_px)
        ink = self._theme.ink.quiet if style is Text.NOTE else self._theme.ink.text
        return Words(text, left_px, baseline_px, metrics.horizontalAdvance(text), style, ink)

    # ------------------------------------------------------------------ what Qt calls

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows in sight."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(event.rect(), self._theme.ink.ground)
        for shown in self._shown:
            if shown.rect.toAlignedRect().intersects(event.rect()):
                self._paint_row(painter, shown)
        self._paint_brackets(painter)
        self._paint_summary(painter)
        painter.end()

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
                self._choose(shown.row.index)
                self.update()
        event.accept()

    # ------------------------------------------------------------------ painting

    def _paint_row(self, painter: QPainter, shown: Shown) -> None:
        ink = self._theme.ink
        if shown.row.kind is Kind.NOW:
            self._paint_now(painter, shown)
        elif shown.row.kind is not Kind.MORE:
            big = shown.row.kind is Kind.BIG
            paint_ground(painter, shown.rect, ink.live if big else ink.panel, self._theme)
        if shown.card is not None and shown.card.mark is not None:
            paint_mark(painter, shown.rect, shown.card.mark, self._patterns, self._theme)
        paint_words(painter, shown.words, self._theme)
        if shown.card is not None and shown.row.index == self._chosen:
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
            if shown.card is not None and shown.card.pair:
                pairs.setdefault(shown.card.pair, []).append(shown.row.middle_px)
        for heights_px in pairs.values():
            if len(heights_px) > 1:
                paint_bracket(painter, self._theme.px(_MARGIN_PX), heights_px, self._theme)

    def _paint_summary(self, painter: QPainter) -> None:
        if self._view is None or not self._view.summary.text:
            return
        paint_words(painter, (self.summary_words(),), self._theme)

    def summary_words(self) -> Words:
        """The change that is the same for all, below the last card."""
        theme = self._theme
        summary = self._view.summary if self._view is not None else None
        text = summary.text if summary is not None else ""
        left_px = theme.px(_MARGIN_PX) + theme.px(28)
        bottom_px = self._shown[-1].row.bottom_px if self._shown else 0
        metrics = theme.metrics(Text.SUMMARY)
        text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, self.width() - left_px)
        colour = theme.ink.tone(summary.tone) if summary is not None else theme.ink.text
        width_px = metrics.horizontalAdvance(text)
        baseline_px = bottom_px + theme.px(25)
        return Words(text, left_px, baseline_px, width_px, Text.SUMMARY, colour)


def _near(cards: Sequence[Card], card_id: str, hint: int) -> int | None:
    """The index of a card, looked for from where it was outwards: cards are made when asked."""
    for step in range(max(hint, len(cards) - hint) + 1):
        for index in {hint - step, hint + step}:
            if 0 <= index < len(cards) and cards[index].id == card_id:
                return index
    return None


def _now_text(count: int) -> str:
    """The words of the marker for now, so many cards off."""
    if not count:
        return "now"
    cards = "1 card" if abs(count) == 1 else f"{abs(count)} cards"
    return f"▲ now, {cards} back" if count < 0 else f"▼ now, {cards} ahead"
