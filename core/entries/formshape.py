"""What a form of the entry bar is: what it is about, how it is typed, how it is read."""

from dataclasses import dataclass
from enum import StrEnum


class About(StrEnum):
    """What a form is about."""

    EVENT = "event"
    LANE = "lane"
    OUTCOME = "outcome"
    ITEM = "item"
    CHECKOFF = "check-off"
    BOARD = "board"
    """No one thing: a form begins with its own word."""
    CLOCK = "clock"
    """The simulated clock."""
    ANY = "any"
    """What may follow any form."""


@dataclass(frozen=True, slots=True)
class Form:
    """One form. `examples` stand without what they are about; `target` is that, in the sheet.

    `word` is the one that marks the form, empty for figures.
    """

    about: About
    target: str
    examples: tuple[str, ...]
    read_as: str
    word: str = ""
    first: bool = False
    """Whether it is offered where no form is near what was typed."""

    @property
    def typed(self) -> tuple[str, ...]:
        """The examples as one would type them."""
        return tuple(f"{self.target} {example}".strip() for example in self.examples)

    @property
    def words(self) -> tuple[str, ...]:
        """The words that mark it, all its examples taken together."""
        firsts = {example.partition(" ")[0] for example in self.examples} | {self.word}
        return tuple(sorted(word for word in firsts if word.isalpha()))
