"""A length of time as the panels paint it: large digits, small units, the sign for 'about'."""

from collections.abc import Sequence

from app.desk import ink
from app.desk.ink import Run
from app.theme import Text, Theme
from core.board.model import Figure

Styles = Sequence[tuple[Text, Text]]
"""Digits and units, from large to small."""

USUAL: Styles = (
    (Text.DIGITS, Text.UNIT),
    (Text.LINE_DIGITS, Text.UNIT),
    (Text.BIG_LINE, Text.SMALL),
)


def fitting_runs(
    figure: Figure,
    theme: Theme,
    room_px: float,
    styles: Styles = USUAL,
    before: Sequence[Run] = (),
) -> list[Run]:
    """Give the pieces of a figure after others, as large as they have room; else the smallest."""
    found: list[Run] = []
    for digits, units in styles:
        found = [*before, *figure_runs(figure, theme, digits, units)]
        if ink.width_px(found) <= room_px:
            break
    return found


def figure_runs(
    figure: Figure, theme: Theme, style: Text = Text.DIGITS, unit_style: Text = Text.UNIT
) -> list[Run]:
    """Give the pieces of a figure; one that counts up has a plus sign before it."""
    digits, units = theme.font(style), theme.font(unit_style)
    runs = [Run("+", digits, theme.ink.quiet, theme.px(4))] if figure.past else []
    if figure.about:
        runs.append(Run("≈", digits, theme.ink.text, theme.px(6)))
    for number, unit in figure.parts:
        runs.append(Run(number, digits, theme.ink.text, theme.px(3)))
        runs.append(Run(unit, units, theme.ink.quiet, theme.px(7)))
    return runs
