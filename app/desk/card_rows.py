"""The rows of the column with their cards and words: everything in sight, placed, not painted."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor

from app.desk import ink
from app.desk.card_below import lines_below
from app.desk.card_flow import Kind, Row, Shape, at_rest, before_big, scrolled
from app.desk.card_words import lay_big, lay_card, lay_line, note_is_below
from app.desk.keys import Command, key_text
from app.theme import Text, Theme
from app.words import Words
from core.board.model import Card, CardState, View

MARGIN_PX = 16
"""Left of the cards: room for the bracket of paired outcomes."""
_LEFT_PX = 28
_RIGHT_PX = 16
_PAIR_WITHIN = 6
"""Outcomes of one event stand together in the column where no more cards than these part them."""
_LINES = 2
"""At most so many for what is due, and for the summary."""
_STEP_PX = 25
"""From one line to the next, of what is due and of the summary."""
_CONFIRMS = f"{key_text(Command.CONFIRM_DUE)} confirms"


@dataclass(frozen=True, slots=True)
class Shown:
    """A row as it is drawn, with its card where it has one.

    `opened`: the card says more than the others. `first`: it is the next one to come.
    """

    row: Row
    rect: QRectF
    card: Card | None
    words: tuple[Words, ...]
    opened: bool = False
    first: bool = False

    def shows(self, card: Card, rect: QRectF, *, opened: bool, first: bool) -> bool:
        """Whether that would be drawn the same."""
        return (self.opened, self.first, self.rect, self.card) == (opened, first, rect, card)


class Rows:
    """Places the rows of a view in a column of that size.

    `before`: rows laid in that theme. Of them those are taken over that would be drawn the same.
    """

    def __init__(
        self,
        view: View,
        theme: Theme,
        width_px: int,
        height_px: int,
        before: Sequence[Shown] = (),
    ) -> None:
        self._view = view
        self._theme = theme
        self._width_px = width_px
        self._height_px = height_px
        self._before = {shown.row: shown for shown in before}
        self._opened: int | None = None

    def place(self, first: int | None, chosen: int | None = None) -> tuple[Shown, ...]:
        """Give the rows from top to bottom; the chosen card says more than the others.

        `first` None: the column at now.
        """
        self._opened = chosen
        shape = self._shape()
        summary = len(self._summary_lines())
        if first is not None:
            first = self._first_with(first)
        if first is None:
            rows = at_rest(shape, self._theme, self._height_px, summary=summary)
        else:
            rows = scrolled(shape, first, self._theme, self._height_px, summary=summary)
        return tuple(self._shown(row) for row in rows)

    def _shape(self) -> Shape:
        view = self._view
        shape = Shape(
            count=len(view.cards),
            next_index=view.next_index,
            big_index=view.big_index,
            due=len(self._due_lines()),
            more_lines=lambda index: self._below(index) + self._note_below(index),
            big_lines=lambda index: self._below(index, big=True),
            last_with=self._last_with,
        )
        lines = before_big(shape)
        # Of several out of sight the first says when word can come; the cards below need the room.
        dark = [i for i in lines if view.cards[i].state is CardState.OUT_OF_SIGHT]
        tall = (i for i in lines if self._below(i) or i in dark[:1] or _is_held(view, i))
        return replace(shape, tall=frozenset(tall))

    def _below(self, index: int, *, big: bool = False) -> int:
        """How many lines of its own a card has below the usual ones."""
        width_px = self._width_px - self._theme.px(MARGIN_PX)
        card, opened = self._view.cards[index], index == self._opened
        return len(lines_below(card, width_px, self._theme, big=big, opened=opened))

    def _last_with(self, index: int) -> int:
        cards = self._view.cards
        pair = cards[index].pair
        near = range(min(index + _PAIR_WITHIN, len(cards) - 1), index, -1) if pair else ()
        return next((i for i in near if cards[i].pair == pair), index)

    def _note_below(self, index: int) -> bool:
        width_px = self._width_px - self._theme.px(MARGIN_PX)
        return note_is_below(self._view.cards[index], width_px, self._theme)

    def _first_with(self, index: int) -> int:
        """The first card that must be in sight where this one is."""
        pair = self._view.cards[index].pair
        near = range(max(0, index - _PAIR_WITHIN), index) if pair else range(0)
        return next((i for i in near if self._view.cards[i].pair == pair), index)

    def _shown(self, row: Row) -> Shown:
        left_px = self._theme.px(MARGIN_PX)
        rect = QRectF(left_px, row.top_px, self._width_px - left_px, row.height_px)
        if row.index < 0 or row.kind is Kind.MORE:
            return Shown(row, rect, None, self._plain(row, rect))
        card, opened = self._view.cards[row.index], row.index == self._opened
        first = row.index == self._view.next_index
        kept = self._before.get(row)
        if kept is not None and kept.shows(card, rect, opened=opened, first=first):
            return kept
        match row.kind:
            case Kind.BIG:
                words = lay_big(card, rect, self._theme, opened=opened)
            case Kind.LINE | Kind.KEPT:
                words = lay_line(card, rect, self._theme, first=first)
            case _:
                words = lay_card(card, rect, self._theme, opened=opened)
        return Shown(row, rect, card, words, opened, first)

    def _plain(self, row: Row, rect: QRectF) -> tuple[Words, ...]:
        view, quiet, strong = self._view, self._theme.ink.quiet, self._theme.ink.text
        match row.kind:
            case Kind.DUE:
                return self._due(rect)
            case Kind.SUMMARY:
                colour = self._theme.ink.tone(view.summary.tone)
                return self._lines(self._summary_lines(), rect, Text.SUMMARY, colour)
            case Kind.MORE:
                text, style, colour = f"and {row.count} more before it", Text.NOTE, quiet
            case _:
                text, style, colour = now_words(row.count), Text.NOW, strong
        left_px = rect.left() + self._theme.px(_LEFT_PX)
        metrics = self._theme.metrics(style)
        text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, rect.right() - left_px)
        baseline_px = rect.center().y() + metrics.capHeight() / 2
        width_px = metrics.horizontalAdvance(text)
        return (Words(text, left_px, baseline_px, width_px, style, colour),)

    def _summary_lines(self) -> tuple[str, ...]:
        """The summary as it breaks; one line where what is due takes two: cards need the room."""
        room_px = self._width_px - self._theme.px(MARGIN_PX) - self._theme.px(_LEFT_PX)
        font = self._theme.font(Text.SUMMARY)
        most = _LINES if len(self._due_lines()) < _LINES else 1
        return ink.wrapped(self._view.summary.text, font, room_px, most)

    def _due_lines(self) -> tuple[str, ...]:
        due, theme = self._view.due, self._theme
        if due is None:
            return ()
        room_px = self._width_px - theme.px(MARGIN_PX) - theme.px(_LEFT_PX) - theme.px(_RIGHT_PX)
        room_px -= round(theme.width_px(Text.SMALL, _CONFIRMS)) + theme.px(16)
        return ink.wrapped(due.words, theme.font(Text.TAG), room_px, _LINES)

    def _due(self, rect: QRectF) -> tuple[Words, ...]:
        """What is due, and the key that confirms it."""
        theme = self._theme
        key_px = theme.width_px(Text.SMALL, _CONFIRMS)
        key_left_px = rect.right() - theme.px(_RIGHT_PX) - key_px
        words = self._lines(self._due_lines(), rect, Text.TAG, theme.ink.text)
        key = Words(
            _CONFIRMS, key_left_px, words[0].baseline_px, key_px, Text.SMALL, theme.ink.quiet
        )
        return (*words, key)

    def _lines(
        self, lines: tuple[str, ...], rect: QRectF, style: Text, colour: QColor
    ) -> tuple[Words, ...]:
        """Place lines one below the other, together in the middle of a row's height."""
        metrics = self._theme.metrics(style)
        left_px = rect.left() + self._theme.px(_LEFT_PX)
        step_px = self._theme.px(_STEP_PX)
        first_px = rect.center().y() + (metrics.capHeight() - step_px * (len(lines) - 1)) / 2
        return tuple(
            Words(
                line,
                left_px,
                first_px + place * step_px,
                metrics.horizontalAdvance(line),
                style,
                colour,
            )
            for place, line in enumerate(lines)
        )


def now_words(count: int) -> str:
    """The words of the marker for now, so many cards off: negative is back."""
    if not count:
        return "now"
    cards = "1 card" if abs(count) == 1 else f"{abs(count)} cards"
    return f"▲ now, {cards} back" if count < 0 else f"▼ now, {cards} ahead"


def _is_held(view: View, index: int) -> bool:
    """Whether the count is held: a thin line has no room to say for how long."""
    return view.cards[index].state is CardState.HELD
