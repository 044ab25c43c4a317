"""What of the column has to be painted anew from one moment to the next."""

from collections.abc import Sequence

from PySide6.QtGui import QRegion

from app.desk.card_flow import Kind
from app.desk.card_rows import Shown
from app.theme import Theme
from app.words import renewed_words


def renewed(before: Sequence[Shown], after: Sequence[Shown], theme: Theme) -> QRegion | None:
    """Where the rows look otherwise than before; None where all must be painted anew."""
    if [_place(shown) for shown in before] != [_place(shown) for shown in after]:
        return None
    region = QRegion()
    for old, new in zip(before, after, strict=True):
        if old is new:
            continue
        if _ground(old) != _ground(new):
            region += QRegion(new.rect.toAlignedRect())
        region += renewed_words(old.words, new.words, theme)
    return region


def _place(shown: Shown) -> tuple[object, ...]:
    """Where a row stands, and with whom a bracket joins it."""
    return shown.row, shown.rect, shown.card.pair if shown.card is not None else ""


def _ground(shown: Shown) -> object:
    """What is painted of a row besides its words. The line at now begins where they end."""
    if shown.row.kind is Kind.NOW:
        return shown.words
    return shown.card.mark if shown.card is not None else None
