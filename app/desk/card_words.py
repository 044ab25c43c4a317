"""Where the words of a card stand: every piece of text with its place, before any is painted."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor

from app.desk.card_below import BelowLine, lines_below
from app.desk.card_flow import LINE_PX
from app.desk.ink import wrapped
from app.theme import Text, Theme
from app.words import Words
from core.board.model import Card, CardState, Figure, Said

ABOUT = "≈"
PAST = "+"

_LEFT_PX = 28
_RIGHT_PX = 16
_NAME_PX = 236
_SPACE_PX = 12
_CARD_LINE_PX = 84
_BIG_LINE_PX = 217
"""The baseline of the first line below the usual ones."""
_NAME_STEP_PX, _BIG_NAME_STEP_PX, _LEAD_STEP_PX = 18, 24, 17
"""From one line of a text to the next."""
_SMALL_STYLES = (Text.LINE_DIGITS, Text.STRONG)
"""For countdowns, from large to small: the first that fits is taken."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of text that has no place yet."""

    text: str
    style: Text
    colour: QColor


class _Sheet:
    """Collects words as they are placed in one card."""

    def __init__(self, rect: QRectF, theme: Theme) -> None:
        self.words: list[Words] = []
        self.theme = theme
        self.left_px = rect.left() + theme.px(_LEFT_PX)
        self.name_px = rect.left() + theme.px(_NAME_PX)
        self.right_px = rect.right() - theme.px(_RIGHT_PX)
        self.width_px = rect.width()
        self._top_px = rect.top()

    def y(self, reference_px: float) -> float:
        """A height in the card, given for 1600 x 1000."""
        return self._top_px + self.theme.px(reference_px)

    def put(self, piece: _Piece, left_px: float, baseline_px: float, room_px: float) -> float:
        """Place a piece from its left end, cut to the room; gives where it ends."""
        text = piece.text
        width_px = self.theme.width_px(piece.style, text)
        if width_px > room_px:
            metrics = self.theme.metrics(piece.style)
            text = metrics.elidedText(text, Qt.TextElideMode.ElideRight, max(0.0, room_px))
            width_px = self.theme.width_px(piece.style, text)
        if not text or width_px > room_px:
            return left_px
        self.words.append(Words(text, left_px, baseline_px, width_px, piece.style, piece.colour))
        return left_px + width_px

    def put_name(self, piece: _Piece, baseline_px: float, end_px: float) -> None:
        """Place a card's name, smaller where it is too long, then on two lines, only then cut."""
        room_px = end_px - self.name_px
        for style in (Text.TAG, Text.SMALL):
            if self.theme.width_px(piece.style, piece.text) > room_px:
                piece = replace(piece, style=style)
        self.put_lines(piece, self.name_px, (baseline_px, _NAME_STEP_PX), room_px)

    def put_lines(
        self, piece: _Piece, left_px: float, place_px: tuple[float, int], room_px: float
    ) -> None:
        """Place a piece on two lines where one is too short, about the baseline of one.

        `place_px`: that baseline, and from one line to the next, given for 1600 x 1000.
        """
        baseline_px, step_px = place_px
        lines = wrapped(piece.text, self.theme.font(piece.style), room_px, 2)
        if self.theme.width_px(piece.style, piece.text) <= room_px or len(lines) < 2:
            self.put(piece, left_px, baseline_px, room_px)
            return
        baseline_px -= self.theme.px(step_px * 0.62)
        for line in lines:
            self.put(replace(piece, text=line), left_px, baseline_px, room_px)
            baseline_px += self.theme.px(step_px)

    def put_note(self, card: Card, style: Text, baseline_px: float, left_px: float) -> None:
        """Place a note at the right, smaller where it is too long, then without its figures.

        Where not even that has room it is left out: the card's mark says as much.
        """
        note, room_px = card.note, self.right_px - left_px
        if self.theme.width_px(style, note.text) > room_px:
            style = Text.SMALL
        if card.note_less and self.theme.width_px(style, note.text) > room_px:
            fits = self.theme.width_px(style, card.note_less) <= room_px
            note = replace(note, text=card.note_less if fits else "")
        self.put_right(_saids((note,), style, self.theme), baseline_px, room_px)

    def whole(self, pieces: Sequence[_Piece], room_px: float) -> list[_Piece]:
        """The first pieces, as many as fit the room uncut with a space before each."""
        fitting: list[_Piece] = []
        for piece in pieces:
            room_px -= self.theme.width_px(piece.style, piece.text) + self.theme.px(_SPACE_PX)
            if room_px < 0:
                break
            fitting.append(piece)
        return fitting

    def put_right(self, pieces: Sequence[_Piece], baseline_px: float, room_px: float) -> float:
        """Place pieces so that the last ends at the right edge, first things first.

        Gives where the words to the left of them have to end.
        """
        space_px = self.theme.px(_SPACE_PX)
        fitting: list[tuple[_Piece, float]] = []
        for piece in pieces:
            wanted_px = self.theme.width_px(piece.style, piece.text)
            given_px = min(wanted_px, room_px)
            if given_px < min(wanted_px, self.theme.px(48)):
                break
            fitting.append((piece, given_px))
            room_px -= given_px + space_px
        end_px = self.right_px
        for piece, given_px in reversed(fitting):
            # Half a pixel more: a width that is just right must not cost the last letter.
            self.put(piece, end_px - given_px, baseline_px, given_px + 0.5)
            end_px -= given_px + space_px
        return end_px


def lay_line(card: Card, rect: QRectF, theme: Theme, *, first: bool) -> tuple[Words, ...]:
    """The words of a thin line before the big card."""
    sheet = _Sheet(rect, theme)
    baseline_px = sheet.y(38)
    if _is_long(card.lead, sheet):  # across the line, and all else below it
        baseline_px = sheet.y(48)
        lead = _Piece(card.lead, Text.SMALL, theme.ink.quiet)
        sheet.put(lead, sheet.left_px, sheet.y(20), sheet.right_px - sheet.left_px)
        _count(
            replace(card, lead=""),
            sheet,
            _SMALL_STYLES,
            (baseline_px, _count_end_px(sheet)),
            Text.UNIT,
        )
    else:
        _lead_and_count(card, sheet, (21, 48), baseline_px, _SMALL_STYLES)
    clock = [_Piece(card.clock, Text.CLOCK, theme.ink.quiet)] if card.clock else []
    end_px = sheet.put_right(clock, baseline_px, sheet.right_px - sheet.name_px)
    name = f"first: {card.name}" if first else card.name
    sheet.put_name(_Piece(name, Text.NAME, theme.ink.text), baseline_px, end_px)
    return tuple(sheet.words)


def lay_card(card: Card, rect: QRectF, theme: Theme, *, opened: bool = False) -> tuple[Words, ...]:
    """The words of a card of the common size; opened, it says more, on lines of its own."""
    sheet = _Sheet(rect, theme)
    _lead_and_count(card, sheet, (25, 57), sheet.y(49), (Text.DIGITS, *_SMALL_STYLES))
    upper, lower = sheet.y(32), sheet.y(58)
    beside, between = _shared_out(card, sheet)
    end_px = sheet.put_right(beside, upper, sheet.right_px - sheet.name_px)
    name_ink = theme.ink.quiet if card.state is CardState.HAPPENED else theme.ink.text
    sheet.put_name(_Piece(card.name, Text.NAME, name_ink), upper, end_px)
    clock = _Piece(card.clock, Text.CLOCK, theme.ink.quiet)
    at_px = sheet.put(clock, sheet.name_px, lower, sheet.right_px - sheet.name_px)
    space_px = theme.px(_SPACE_PX)
    for piece in between:
        at_px = sheet.put(piece, at_px + space_px, lower, sheet.right_px - at_px - space_px)
    first_px = _CARD_LINE_PX
    if note_is_below(card, rect.width(), theme):
        sheet.put_note(card, Text.NOTE, sheet.y(first_px), sheet.name_px)
        first_px += LINE_PX
    else:
        sheet.put_note(card, Text.NOTE, lower, at_px + space_px)
    below = lines_below(card, rect.width(), theme, opened=opened)
    _put_below(below, sheet, first_px)
    return tuple(sheet.words)


def note_is_below(card: Card, width_px: float, theme: Theme) -> bool:
    """Whether a card of the common size needs a line more: its note has no room by its clock."""
    if not card.note.text:
        return False
    room_px = width_px - theme.px(_NAME_PX) - theme.px(_RIGHT_PX) - theme.px(_SPACE_PX)
    clock_px = theme.width_px(Text.CLOCK, card.clock)
    note_px = theme.width_px(Text.SMALL, card.note.text)
    return clock_px + note_px > room_px


def _shared_out(card: Card, sheet: _Sheet) -> tuple[list[_Piece], list[_Piece]]:
    """What stands at the right of a small card's name, and what between its clock and note.

    The change and 'must be live' always stand somewhere, if need be at the cost of the name's
    end; any other tag, and a check-off, only where there is room for it.
    """
    theme = sheet.theme
    space_px = theme.px(_SPACE_PX)
    room_px = sheet.right_px - sheet.name_px
    upper_px = room_px - theme.width_px(Text.TAG, card.name)
    larger_px = theme.width_px(Text.NAME, card.name) - theme.width_px(Text.TAG, card.name)
    lower_px = room_px - space_px - theme.width_px(Text.CLOCK, card.clock)
    if not note_is_below(card, sheet.width_px, theme):
        lower_px -= theme.width_px(Text.NOTE, card.note.text)
    musts = len([said for said in (card.change, *card.tags[: card.live]) if said.text])
    beside: list[_Piece] = []
    below: list[_Piece] = []
    told = (card.change, *card.tags, *card.checks)
    for place, whole in enumerate(_saids(told, Text.TAG, theme)):
        # 'pinned, slack 8 min' may shorten to 'pinned'.
        for piece in (whole, replace(whole, text=whole.text.partition(",")[0])):
            wide_px = theme.width_px(Text.TAG, piece.text) + space_px
            if wide_px <= upper_px - larger_px:
                beside.append(piece)
                upper_px -= wide_px
                break
            if wide_px <= lower_px:
                below.append(piece)
                lower_px -= wide_px
                break
        else:
            if place < musts:
                beside.append(whole)
                upper_px -= theme.width_px(Text.TAG, whole.text) + space_px
    return beside, below


def lay_big(card: Card, rect: QRectF, theme: Theme, *, opened: bool = False) -> tuple[Words, ...]:
    """The words of the big card, with what stands on lines of its own below the others."""
    sheet = _Sheet(rect, theme)
    room_px = sheet.right_px - sheet.left_px
    name = _Piece(card.name, Text.BIG_NAME, theme.ink.text)
    beside_px = max(room_px * 0.3, room_px - theme.width_px(name.style, name.text))
    tags = sheet.whole(_saids(card.tags, Text.STRONG, theme), beside_px)
    end_px = sheet.put_right(tags, sheet.y(43), beside_px)
    name_px = end_px - sheet.left_px
    for style in (Text.BIG_LINE, Text.NAME):
        if theme.width_px(name.style, name.text) > name_px:
            name = replace(name, style=style)
    sheet.put_lines(name, sheet.left_px, (sheet.y(43), _BIG_NAME_STEP_PX), name_px)
    count_px, count_end_px = _big_count(card, sheet)
    lower = sheet.y(188)
    clock = _Piece(f"{card.clock} {card.zone}" if card.clock else "", Text.BIG_LINE, theme.ink.text)
    at_px = sheet.put(clock, sheet.left_px, lower, room_px)
    space_px = theme.px(_SPACE_PX)
    change = _saids((card.change,), Text.BIG_LINE, theme)
    if sheet.whole(change, sheet.right_px - count_end_px - space_px):
        sheet.put_right(change, count_px, room_px)
    else:
        for piece in change:
            at_px = sheet.put(piece, at_px + space_px, lower, sheet.right_px - at_px - space_px)
    sheet.put_note(card, Text.BIG_NOTE, lower, at_px + space_px)
    below = lines_below(card, rect.width(), theme, big=True, opened=opened)
    _put_below(below, sheet, _BIG_LINE_PX)
    return tuple(sheet.words)


def _put_below(lines: Sequence[BelowLine], sheet: _Sheet, first_px: int) -> None:
    """Lines of their own, each across the whole card."""
    for place, line in enumerate(lines):
        baseline_px = sheet.y(first_px + place * LINE_PX)
        piece = _Piece(line.text, line.style, sheet.theme.ink.tone(line.tone))
        sheet.put(piece, sheet.left_px, baseline_px, sheet.right_px - sheet.left_px)


def _big_count(card: Card, sheet: _Sheet) -> tuple[float, float]:
    """The large countdown, a little lower where a word stands above it.

    Gives its baseline and where it ends.
    """
    baseline_px = sheet.y(145)
    if card.lead and card.figure is not None:
        lead = _Piece(card.lead, Text.HEADING, sheet.theme.ink.quiet)
        sheet.put(lead, sheet.left_px, sheet.y(70), sheet.right_px - sheet.left_px)
        baseline_px = sheet.y(153)
    styles = (Text.BIG_DIGITS, Text.LONG_DIGITS, Text.DIGITS)
    return baseline_px, _count(card, sheet, styles, (baseline_px, sheet.right_px), Text.BIG_UNIT)


def _lead_and_count(
    card: Card,
    sheet: _Sheet,
    stacked_px: tuple[int, int],
    alone_px: float,
    styles: Sequence[Text],
) -> None:
    """The countdown at the left; a word that goes with it stands above it, both a little closer.

    `stacked_px`: the baselines of the two, in the card, given for 1600 x 1000.
    """
    lead_px, digits_px = stacked_px
    end_px = _count_end_px(sheet)
    if not card.lead or card.figure is None:
        _count(card, sheet, styles, (alone_px, end_px), Text.UNIT)
        return
    lead = _Piece(card.lead, Text.SMALL, sheet.theme.ink.quiet)
    if _is_long(card.lead, sheet):  # on two lines, and the countdown a little lower
        lead_px, digits_px = lead_px + 3, digits_px + 8
    place_px = (sheet.y(lead_px), _LEAD_STEP_PX)
    sheet.put_lines(lead, sheet.left_px, place_px, end_px - sheet.left_px)
    _count(card, sheet, _SMALL_STYLES, (sheet.y(digits_px), end_px), Text.UNIT)


def _count_end_px(sheet: _Sheet) -> float:
    """Where the countdown at the left has to end."""
    return sheet.name_px - sheet.theme.px(_SPACE_PX)


def _is_long(lead: str, sheet: _Sheet) -> bool:
    """Whether the word above a countdown is too long for the room over it."""
    return sheet.theme.width_px(Text.SMALL, lead) > _count_end_px(sheet) - sheet.left_px


def _count(
    card: Card, sheet: _Sheet, styles: Sequence[Text], place_px: tuple[float, float], unit: Text
) -> float:
    """Place the countdown, in the largest style that fits; where there is none, the lead.

    `place_px`: the baseline, and where it must end. Gives where it does.
    """
    baseline_px, end_px = place_px
    room_px = end_px - sheet.left_px
    if card.figure is None:
        lead = _Piece(card.lead, Text.STRONG, sheet.theme.ink.text)
        return sheet.put(lead, sheet.left_px, baseline_px, room_px)
    runs = [_runs(card.figure, style, unit, sheet.theme) for style in styles]
    fitting = next((run for run in runs if _length_px(run, sheet.theme) <= room_px), runs[-1])
    at_px = sheet.left_px
    for piece, after_px in fitting:
        at_px = sheet.put(piece, at_px, baseline_px, end_px - at_px + 0.5) + after_px
    return at_px


def _runs(figure: Figure, style: Text, unit: Text, theme: Theme) -> list[tuple[_Piece, float]]:
    """Signs, digits and units, each with the space after it."""
    size_px = style.reference_px
    near_px, far_px = theme.px(size_px * 0.1), theme.px(size_px * 0.22)
    runs: list[tuple[_Piece, float]] = []
    if figure.past:
        runs.append((_Piece(PAST, style, theme.ink.quiet), near_px))
    if figure.about:
        runs.append((_Piece(ABOUT, style, theme.ink.text), far_px))
    for digits, name in figure.parts:
        runs.append((_Piece(digits, style, theme.ink.text), near_px))
        runs.append((_Piece(name, unit, theme.ink.quiet), far_px))
    return runs


def _length_px(runs: list[tuple[_Piece, float]], theme: Theme) -> float:
    lengths = (theme.width_px(piece.style, piece.text) + after for piece, after in runs)
    return sum(lengths) - (runs[-1][1] if runs else 0.0)


def _saids(saids: Sequence[Said], style: Text, theme: Theme) -> list[_Piece]:
    return [_Piece(s.text, style, theme.ink.tone(s.tone)) for s in saids if s.text]
