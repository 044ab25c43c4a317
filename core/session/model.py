"""What the desk answers when something is entered."""

from dataclasses import dataclass, field
from enum import StrEnum

from core.schedule.model import Effect


class Answer(StrEnum):
    """How an Enter ended."""

    DONE = "done"
    ASKS = "asks"
    """A second Enter is wanted, for the reason in words."""
    REFUSED = "refused"
    NOTHING = "nothing"
    """An empty line, or nothing to take back."""


@dataclass(frozen=True, slots=True)
class Taken:
    """The answer and its words for the bar. `number` is the entry's, where one was made."""

    answer: Answer
    words: str = ""
    hint: str = ""
    number: int | None = None
    shows: str = ""
    """The id of an event that is to come into sight: one that was added."""
    effect: Effect = field(default=Effect(), compare=False)
    """What the entry did to the schedule."""
    hands_over: bool = False
    """Somebody else has the desk now."""
    later: str = field(default="", compare=False)
    """The words of a question that has stood a while: with the instant it was asked at."""


READS_ONLY = Taken(
    Answer.REFUSED, "This window only reads", "Another has the session: enter it there"
)


@dataclass(frozen=True, slots=True)
class FirstEnter:
    """The first Enter of a line that asks for a second, and when what it does was told last."""

    text: str
    selected: str
    pick: int
    at_ms: int
    told_ms: int

    def is_of(self, text: str, selected: str, pick: int) -> bool:
        """Whether the second Enter is on the same line."""
        return (self.text, self.selected, self.pick) == (text, selected, pick)
