"""A length of time as the panels paint it: large digits, small units, the sign for 'about'."""

from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import Figure


def figure_runs(figure: Figure, theme: Theme) -> list[Run]:
    """Give the pieces of a figure."""
    digits, units = theme.font(Text.DIGITS), theme.font(Text.UNIT)
    runs = [Run("≈", digits, theme.ink.text, theme.px(6))] if figure.about else []
    for number, unit in figure.parts:
        runs.append(Run(number, digits, theme.ink.text, theme.px(3)))
        runs.append(Run(unit, units, theme.ink.quiet, theme.px(7)))
    return runs
