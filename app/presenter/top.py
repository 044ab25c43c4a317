"""The upper left: the event, its countdown, its time; in a break back in, wrap, event."""

from app.presenter.places import Places
from app.presenter.sheet import FigureStyle, Piece, Sheet, lines_of
from app.theme import Text
from core.board.model import Figure
from core.board.programme import PresenterView

DIGITS = (
    FigureStyle(Text.PROMPT_DIGITS, Text.PROMPT_UNIT),
    FigureStyle(Text.PROMPT_DIGITS_NARROW, Text.PROMPT_UNIT_NARROW, 0.1),
    FigureStyle(Text.PROMPT_DIGITS_LESS, Text.PROMPT_UNIT_NARROW, 0.1),
    FigureStyle(Text.PROMPT_DIGITS_LEAST, Text.PROMPT_UNIT_NARROW, 0.1),
    FigureStyle(Text.PROMPT_LANE, Text.PROMPT_SMALL_UNIT),
)
"""For the countdown, from wide to narrow. The last three are for windows of another shape."""
_SECOND = FigureStyle(Text.PROMPT_STRONG, Text.PROMPT_SMALL_UNIT)
_TITLES = (Text.PROMPT_TITLE, Text.PROMPT_STRONG, Text.PROMPT_TITLE_LEAST)
_SPACE = 28
_SECOND_SPACE = 44
_TITLE_STEP = 50


def lay_top(sheet: Sheet, view: PresenterView, at: Places) -> None:
    """Place what belongs to the one countdown."""
    room_px = at.countdown_right_px - at.left_px
    if view.lead:
        _lay_lead(sheet, view, at, room_px)
    else:
        _lay_title(sheet, view.name, at, room_px)
    if view.figure is not None:
        sheet.put_figure(
            view.figure, digits_of(view.figure, sheet, room_px), at.left_px, at.digits_px
        )
    if view.second:
        _lay_second(sheet, view.second, at, room_px)
    elif view.at:
        _lay_below(sheet, view, at, room_px)


def digits_of(figure: Figure, sheet: Sheet, room_px: float) -> FigureStyle:
    """The widest digits that fit."""
    fitting = (style for style in DIGITS if sheet.figure_px(figure, style) <= room_px)
    return next(fitting, DIGITS[-1])


def _lay_title(sheet: Sheet, name: str, at: Places, room_px: float) -> None:
    """The event's name: smaller where it is long, then on two lines, only then cut."""
    theme = sheet.theme
    for style in _TITLES:
        if theme.width_px(style, name) <= room_px:
            sheet.put(Piece(name, style, theme.ink.text), at.left_px, at.title_px, room_px)
            return
    step_px = theme.px(_TITLE_STEP)
    lines = lines_of(name, _TITLES[-1], theme, room_px, 2)
    pieces = [Piece(line, _TITLES[-1], theme.ink.text) for line in lines]
    sheet.put_lines(pieces, at.left_px, at.title_px - step_px * 0.5, step_px, room_px)


def _lay_lead(sheet: Sheet, view: PresenterView, at: Places, room_px: float) -> None:
    """'back in', what it is one comes back from, and when that is."""
    theme = sheet.theme
    lead = Piece(view.lead, Text.PROMPT_TITLE, theme.ink.text)
    left_px = sheet.put(lead, at.left_px, at.title_px, room_px) + theme.px(_SPACE)
    end_px = at.left_px + room_px
    clock = Piece(view.at, Text.PROMPT_WORDS, theme.ink.quiet)
    name = Piece(view.name, Text.PROMPT_TITLE_LEAST, theme.ink.quiet)
    clock_px = sheet.width_px(clock) + theme.px(_SPACE)
    left_px = sheet.put(name, left_px, at.title_px, end_px - clock_px - left_px)
    sheet.put(clock, left_px + theme.px(_SPACE), at.title_px, end_px - left_px)


def _lay_below(sheet: Sheet, view: PresenterView, at: Places, room_px: float) -> None:
    """The clock time, and right of it the change against the plan, whole or not at all."""
    theme = sheet.theme
    time = Piece(view.at, Text.PROMPT_STRONG, theme.ink.text)
    change = Piece(view.change.text, Text.PROMPT_WORDS, theme.ink.tone(view.change.tone))
    space_px = theme.px(_SECOND_SPACE)
    if sheet.width_px(time) + space_px + sheet.width_px(change) > room_px:
        time = Piece(view.at, Text.PROMPT_TITLE_LEAST, theme.ink.text)
        space_px = theme.px(_SPACE)
    end_px = sheet.put(time, at.left_px, at.below_px, room_px)
    left_px = end_px + space_px
    if left_px + sheet.width_px(change) <= at.left_px + room_px:
        sheet.put(change, left_px, at.below_px, sheet.width_px(change) + 1)


def _lay_second(
    sheet: Sheet, second: tuple[tuple[str, Figure], ...], at: Places, room_px: float
) -> None:
    """The wrap and then the event, each with its own countdown; the event's name is cut at last."""
    theme = sheet.theme
    space_px, after_px = theme.px(_SPACE) * 0.6, theme.px(_SECOND_SPACE)
    left_px, end_px = at.left_px, at.left_px + room_px
    for label, figure in second:
        figure_px = sheet.figure_px(figure, _SECOND)
        name = Piece(label, Text.PROMPT_WORDS, theme.ink.quiet)
        left_px = sheet.put(name, left_px, at.below_px, end_px - left_px - figure_px - space_px)
        left_px = sheet.put_figure(figure, _SECOND, left_px + space_px, at.below_px) + after_px
