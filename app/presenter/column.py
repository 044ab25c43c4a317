"""The upper right: the clock, how long each lane is as it is, and by when to be back."""

from dataclasses import dataclass

from app.presenter.places import Places
from app.presenter.sheet import FigureStyle, Piece, Sheet
from app.theme import Text
from core.board.model import Figure
from core.board.programme import PresenterView

_LANES = 3
_STYLES = (Text.PROMPT_STRONG, Text.PROMPT_TITLE_LEAST, Text.PROMPT_WORDS)
_SPACE = 18
_MOST_STEP = 150
_CLOCK_BELOW = 26


@dataclass(frozen=True, slots=True)
class _Measure:
    """How large a row is: its figure, and how far its label is above that, and the clock."""

    figure: FigureStyle
    label: int
    clock: int


_FEW = _Measure(FigureStyle(Text.PROMPT_LANE, Text.PROMPT_SMALL_UNIT), 59, 82)
_MANY = _Measure(FigureStyle(Text.PROMPT_TITLE_LEAST, Text.PROMPT_SMALL_UNIT), 42, 58)
_FEW_ROWS = 3


@dataclass(frozen=True, slots=True)
class _Row:
    label: str
    figure: Figure | None
    word: str
    strong: bool = False


def lay_column(sheet: Sheet, view: PresenterView, at: Places) -> None:
    """Place the clock and the rows below it, spread over the height there is."""
    theme = sheet.theme
    room_px = at.right_px - at.column_px
    clock = Piece(view.clock, Text.PROMPT_TITLE_LEAST, theme.ink.quiet)
    clock_px = at.title_px - theme.px(_CLOCK_BELOW)
    sheet.put(clock, at.column_px, clock_px, room_px)
    rows = _rows(view)
    if not rows:
        return
    measure = _FEW if len(rows) <= _FEW_ROWS else _MANY
    first_px = clock_px + theme.px(measure.clock + measure.label)
    step_px = (at.below_px - first_px) / max(1, len(rows) - 1)
    step_px = min(step_px, theme.px(_MOST_STEP))
    for number, row in enumerate(rows):
        _lay_row(sheet, row, measure, (at.column_px, first_px + number * step_px), room_px)


def _rows(view: PresenterView) -> list[_Row]:
    rows = [_Row(lane.name, lane.figure, lane.word) for lane in view.lanes[:_LANES]]
    if view.back:
        rows.append(_Row(view.back_word, None, view.back, strong=True))
    return rows


def _lay_row(
    sheet: Sheet, row: _Row, measure: _Measure, place_px: tuple[float, float], room_px: float
) -> None:
    """Place a row with its value's left end and baseline there."""
    theme = sheet.theme
    left_px, baseline_px = place_px
    label = Piece(row.label, Text.PROMPT_WORDS, theme.ink.quiet)
    sheet.put(label, left_px, baseline_px - theme.px(measure.label), room_px)
    end_px = left_px + room_px
    if row.figure is not None:
        left_px = sheet.put_figure(row.figure, measure.figure, left_px, baseline_px)
        left_px += theme.px(_SPACE)
    word = _word(row, measure, sheet, end_px - left_px)
    sheet.put(word, left_px, baseline_px, end_px - left_px)


def _word(row: _Row, measure: _Measure, sheet: Sheet, room_px: float) -> Piece:
    """The word of a row; a strong one is smaller where it is long or there are many rows."""
    ink = sheet.theme.ink
    if not row.strong:
        return Piece(row.word, _STYLES[-1], ink.quiet)
    styles = _STYLES if measure is _FEW else _STYLES[1:]
    pieces = [Piece(row.word, style, ink.text) for style in styles]
    return next((each for each in pieces if sheet.width_px(each) <= room_px), pieces[-1])
