"""While away: one line on what has changed since somebody left."""

from collections.abc import Sequence

from core.saying.audience import Audience
from core.saying.clocks import down_minute_ms
from core.saying.situations import Moved, WhileAway
from core.times.writing import HOUR_MS, MINUTE_MS, SECOND_MS

_MOST = 3
"""So many things can be heard in one line; the board has the rest."""


def rejoining(away: WhileAway, audience: Audience) -> str:
    """The line: 'Since we left: ignition is 45 seconds later; nothing else has changed.'."""
    since = "Since we left"
    if away.since_ms is not None:
        since = f"Since {audience.bare(down_minute_ms(away.since_ms))}"
    other = away.other[:_MOST]
    happened = away.happened[: _MOST - len(other)]
    moves = _fewest(away.moved, _MOST - len(other) - len(happened))
    moved = [_moved(each) for each in moves]
    if moved and away.along:
        moved[-1] += _along(away)
    parts = [*other, *_happened(happened), *moved]
    if not parts:
        return f"{since}: nothing has changed."
    all_told = (other, happened, moves) == (away.other, away.happened, away.moved)
    rest = "nothing else has changed" if all_told else "and more besides"
    return f"{since}: {'; '.join(parts)}; {rest}."


def _fewest(moved: Sequence[Moved], most: int) -> tuple[Moved, ...]:
    """The first of those that moved, no more than that many."""
    found: list[Moved] = []
    for each in moved:
        left = most - sum(len(one.words) for one in found)
        if left > 0:
            found.append(Moved(each.words[:left], each.by_ms))
    return tuple(found)


def _happened(words: Sequence[str]) -> list[str]:
    if not words:
        return []
    verb = "has" if len(words) == 1 else "have"
    return [f"{_listed(words)} {verb} happened"]


def _moved(moved: Moved) -> str:
    """Those that moved by the same amount together."""
    verb = "is" if len(moved.words) == 1 else "are"
    side = "later" if moved.by_ms > 0 else "earlier"
    return f"{_listed(moved.words)} {verb} {_length(abs(moved.by_ms))} {side}"


def _along(away: WhileAway) -> str:
    """Those that follow are counted: by how much each, the board shows."""
    others = "1 other has" if away.along == 1 else f"{away.along} others have"
    one = len(away.moved) == 1 and len(away.moved[0].words) == 1
    return f", and {others} moved with {'it' if one else 'them'}"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _length(length_ms: int) -> str:
    """'45 seconds', '1 minute 18 seconds': for the eye of one who has just come back."""
    counted = (
        (length_ms // HOUR_MS, "hour"),
        (length_ms // MINUTE_MS % 60, "minute"),
        (length_ms // SECOND_MS % 60, "second"),
    )
    return " ".join(f"{n} {unit}{'' if n == 1 else 's'}" for n, unit in counted if n)
