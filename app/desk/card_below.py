"""What stands on lines of its own at the foot of a card: a clash, check-offs, a reason, facts."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.desk.ink import DIAMOND, wrapped
from app.theme import Text, Theme
from core.board.model import Card, Tone
from core.board.programme import FactLine

_SIDES_PX = 44
"""What the card keeps free at both sides."""
_MOST_FACTS = 5
"""So many lines of facts a card has at most: those that follow need the room."""


@dataclass(frozen=True, slots=True)
class BelowLine:
    """A line across the whole card."""

    text: str
    style: Text
    tone: Tone = Tone.PLAIN


def lines_below(
    card: Card,
    width_px: float,
    theme: Theme,
    *,
    big: bool = False,
    opened: bool = False,
) -> tuple[BelowLine, ...]:
    """Give the lines of a card; opened, it says what binds its time, and its facts."""
    lines = []
    if card.clash:
        lines.append(BelowLine(f"{DIAMOND} {card.clash}", Text.TAG, Tone.CLASH))
    room_px = width_px - theme.px(_SIDES_PX)
    if big or opened:
        for check in card.checks:
            small = theme.width_px(Text.NOTE, check.text) > room_px
            lines.append(BelowLine(check.text, Text.SMALL if small else Text.NOTE, check.tone))
    if opened and card.reason:
        lines.append(BelowLine(card.reason, Text.NOTE, Tone.QUIET))
    if opened:
        lines += _fact_lines(card.facts, room_px, theme)
    return tuple(lines)


def _fact_lines(facts: Sequence[FactLine], room_px: float, theme: Theme) -> list[BelowLine]:
    """Give facts, each whole or not at all; of one that may not be told yet only why."""
    found: list[BelowLine] = []
    for place, fact in enumerate(facts):
        tone = Tone.QUIET if fact.held else Tone.PLAIN
        source = f" ({fact.source})" if fact.source and not fact.held else ""
        text = fact.held or f"{fact.text}{source}"
        lines = wrapped(text, theme.font(Text.NOTE), room_px, _MOST_FACTS)
        last = place == len(facts) - 1
        if len(found) + len(lines) + (not last) > _MOST_FACTS:
            more = len(facts) - place
            return [*found, BelowLine(f"and {more} more", Text.NOTE, Tone.QUIET)]
        found += [BelowLine(line, Text.NOTE, tone) for line in lines]
    return found
