"""The foot: what comes then, on one line."""

from app.presenter.places import Places
from app.presenter.sheet import Piece, Sheet
from app.theme import Text
from core.board.programme import PresenterView

_STYLE = Text.PROMPT_WORDS
_SPACE, _APART = 11, 34


def lay_then(sheet: Sheet, view: PresenterView, at: Places) -> None:
    """Place as much of it as fits whole; only the first is ever cut."""
    if not view.then:
        return
    theme = sheet.theme
    left_px = sheet.put(
        Piece("then", _STYLE, theme.ink.quiet), at.left_px, at.then_px, at.right_px - at.left_px
    )
    space_px = theme.px(_SPACE)
    left_px += space_px
    for number, then in enumerate(view.then):
        figure = Piece(then.figure, _STYLE, theme.ink.text)
        name = Piece(then.name, _STYLE, theme.ink.quiet)
        wide_px = sheet.width_px(figure) + space_px + sheet.width_px(name)
        if number and left_px + wide_px > at.right_px:
            return
        left_px = sheet.put(figure, left_px, at.then_px, at.right_px - left_px) + space_px
        left_px = sheet.put(name, left_px, at.then_px, at.right_px - left_px) + theme.px(_APART)
