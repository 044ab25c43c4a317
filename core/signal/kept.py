"""What was worked out before, kept to be there again after a preview, an undo or a tick."""

from dataclasses import dataclass, field

from core.signal.hurried import Question
from core.signal.lane import LaneNow
from core.signal.model import LaneSignal
from core.signal.recent import Recent
from core.signal.seen import Light

MOST = 64
"""So many states of the lanes are kept,"""

MOST_LIGHTS = 1024
"""and so many light times."""

LaneKey = tuple[str, int, tuple[int | None, ...]]
"""A lane, the desk's words on it, and the times it hangs on."""


@dataclass(slots=True)
class Kept:
    """States of lanes, and the signals made of them, by all that they were worked out from."""

    lanes: Recent[LaneKey, LaneNow] = field(default_factory=lambda: Recent(MOST))
    signals: Recent[tuple[LaneNow, tuple[tuple[int, int], ...]], LaneSignal] = field(
        default_factory=lambda: Recent(MOST)
    )
    lights: Recent[tuple[Question, int], Light | None] = field(
        default_factory=lambda: Recent(MOST_LIGHTS)
    )
    whole: tuple[LaneSignal, ...] = ()
    tokens: dict[object, int] = field(default_factory=dict)

    def token(self, words: object) -> int:
        """One number for equal words of the desk, so that they are compared only once."""
        return self.tokens.setdefault(words, len(self.tokens))

    def whole_of(self, lanes: tuple[LaneSignal, ...]) -> tuple[LaneSignal, ...]:
        """The lanes together: the same object as before if every one of them is."""
        same = len(lanes) == len(self.whole) and all(
            new is old for new, old in zip(lanes, self.whole, strict=True)
        )
        if not same:
            self.whole = lanes
        return self.whole
