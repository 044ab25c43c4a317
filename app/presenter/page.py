"""The page of the presenter window: every piece of text with its place, before any is painted."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QRectF

from app.presenter.column import lay_column
from app.presenter.foot import lay_then
from app.presenter.places import places
from app.presenter.quiet import lay_grave
from app.presenter.saying import lay_sentence
from app.presenter.sheet import Sheet
from app.presenter.top import lay_top
from app.theme import Theme
from app.words import Words
from core.board.programme import PresenterView


@dataclass(frozen=True, slots=True)
class Page:
    """What is painted: texts, and thin lines that part them."""

    words: tuple[Words, ...] = ()
    rules: tuple[QLineF, ...] = ()


def lay_page(view: PresenterView, inner: QRectF, theme: Theme) -> Page:
    """The page of that view within what a frame leaves of the window."""
    sheet = Sheet(theme)
    if view.grave:
        lay_grave(sheet, view, inner)
        return Page(tuple(sheet.words))
    at = places(inner, theme)
    lay_top(sheet, view, at)
    lay_column(sheet, view, at)
    lay_sentence(sheet, view, at.sentence)
    lay_then(sheet, view, at)
    lower = view.sentence or view.fact or view.then
    return Page(tuple(sheet.words), at.rules if lower else ())
