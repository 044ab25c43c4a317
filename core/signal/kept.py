"""What was worked out before, kept to be there again after a preview, an undo or a tick."""

from dataclasses import dataclass, field
from typing import TypeVar

from core.signal.hurried import Question
from core.signal.lane import LaneNow
from core.signal.model import LaneSignal
from core.signal.seen import Light

MOST = 64
"""So many states of the lanes are kept before all are let go."""

LaneKey = tuple[str, int, tuple[int | None, ...]]
"""A lane, the desk's words on it, and the times it hangs on."""

_Key = TypeVar("_Key")
_Value = TypeVar("_Value")


@dataclass(slots=True)
class Kept:
    """States of lanes, and the signals made of them, by all that they were worked out from."""

    lanes: dict[LaneKey, LaneNow] = field(default_factory=dict)
    signals: dict[tuple[LaneNow, tuple[tuple[int, int], ...]], LaneSignal] = field(
        default_factory=dict
    )
    lights: dict[tuple[Question, int], Light | None] = field(default_factory=dict)
    whole: tuple[LaneSignal, ...] = ()
    tokens: dict[object, int] = field(default_factory=dict)

    def token(self, words: object) -> int:
        """One number for equal words of the desk, so that they are compared only once."""
        return self.tokens.setdefault(words, len(self.tokens))

    def keep(self, kept: dict[_Key, _Value], key: _Key, value: _Value) -> None:
        """Keep a value; the store does not grow for ever."""
        if len(kept) >= MOST:
            kept.clear()
        kept[key] = value

    def whole_of(self, lanes: tuple[LaneSignal, ...]) -> tuple[LaneSignal, ...]:
        """The lanes together: the same object as before if every one of them is."""
        same = len(lanes) == len(self.whole) and all(
            new is old for new, old in zip(lanes, self.whole, strict=True)
        )
        if not same:
            self.whole = lanes
        return self.whole
