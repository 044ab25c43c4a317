"""The lower half: the sentence to say, and a fact where the desk has asked for one."""

from PySide6.QtCore import QRectF

from app.presenter.sheet import Piece, Sheet, lines_of
from app.theme import Text, Theme
from core.board.programme import PresenterView

SENTENCES = (Text.PROMPT_SENTENCE, Text.PROMPT_SENTENCE_SMALL, Text.PROMPT_SENTENCE_LEAST)
"""From large to small; the last is the least there is."""
_STEP = 1.17
"""From one line to the next, in parts of the size."""
_PAD, _ABOVE = 13, 14
_FACT = Text.PROMPT_FACT
_FACT_LINES = 2
_SOUNDS = Text.PROMPT_WORDS


def lay_sentence(sheet: Sheet, view: PresenterView, room: QRectF) -> None:
    """Place the sentence at the top of its room and the fact at the foot."""
    theme = sheet.theme
    pad_px = theme.px(_PAD)
    room = room.adjusted(0, pad_px, 0, -pad_px)
    if view.fact:
        room = _lay_fact(sheet, view.fact, room)
    text, _ = fitting(view, theme, room)
    sounds = view.sounds if text == view.sentence else view.shorter_sounds
    if sounds:
        room = _lay_sounds(sheet, view, sounds, room)
    text, style = fitting(view, theme, room)
    lines = _lines(text, style, theme, room)
    pieces = [Piece(line, style, theme.ink.text) for line in lines]
    first_px = room.top() + theme.metrics(style).capHeight() + theme.px(_ABOVE)
    sheet.put_lines(pieces, room.left(), first_px, _step_px(style, theme), room.width() + 1)


def fitting(view: PresenterView, theme: Theme, room: QRectF) -> tuple[str, Text]:
    """The sentence and its size: the longer one if it fits, the shorter one else."""
    for text in (view.sentence, view.shorter):
        for style in SENTENCES:
            lines = lines_of(text, style, theme, room.width(), 99)
            if len(lines) <= _most_lines(style, theme, room):
                return text, style
    return view.shorter, SENTENCES[-1]


def _lay_fact(sheet: Sheet, fact: str, room: QRectF) -> QRectF:
    """Place the fact; gives the room that is left above it."""
    theme = sheet.theme
    step_px = _step_px(_FACT, theme)
    lines = lines_of(fact, _FACT, theme, room.width(), _FACT_LINES)
    foot_px = room.bottom() - theme.px(_PAD)
    first_px = foot_px - step_px * (len(lines) - 1)
    pieces = [Piece(line, _FACT, theme.ink.quiet) for line in lines]
    sheet.put_lines(pieces, room.left(), first_px, step_px, room.width() + 1)
    return room.adjusted(0, 0, 0, first_px - step_px - theme.px(_ABOVE) - room.bottom())


def _lay_sounds(sheet: Sheet, view: PresenterView, sounds: str, room: QRectF) -> QRectF:
    """Place how names sound below the sentence, unless that would cost the longer one its room."""
    theme = sheet.theme
    left = room.adjusted(0, 0, 0, -_step_px(_SOUNDS, theme))
    if fitting(view, theme, left)[0] != fitting(view, theme, room)[0]:
        return room
    piece = Piece(sounds, _SOUNDS, theme.ink.quiet)
    sheet.put(piece, room.left(), room.bottom() - theme.px(_PAD), room.width())
    return left


def _lines(text: str, style: Text, theme: Theme, room: QRectF) -> tuple[str, ...]:
    return lines_of(text, style, theme, room.width(), _most_lines(style, theme, room))


def _most_lines(style: Text, theme: Theme, room: QRectF) -> int:
    metrics = theme.metrics(style)
    first_px = metrics.capHeight() + theme.px(_ABOVE)
    left_px = room.height() - first_px - metrics.descent() * 0.8
    return max(1, 1 + int(left_px / _step_px(style, theme)))


def _step_px(style: Text, theme: Theme) -> float:
    return _STEP * theme.px(style.reference_px)
