"""A line about an item of the programme: the item as it stands, and what is refused of any."""

from dataclasses import dataclass

from core.entries.aired import Ran
from core.entries.context import Context
from core.entries.forms import nearest_form
from core.entries.formshape import About
from core.entries.model import Action
from core.entries.readings import Reading, Target
from core.entries.words import shown
from core.errors import EntryProblem
from core.plan.model import Item
from core.times.writing import Hours, Style, clock_text, dated_clock_text


@dataclass(frozen=True, slots=True)
class OnItem:
    """A line about an item: `rest` is what follows the target, in small letters."""

    item: Item
    target: Target
    rest: str
    context: Context

    @property
    def ran(self) -> Ran:
        """How it stands by the desk's word."""
        return self.context.aired.ran(self.item.id)

    @property
    def start_ms(self) -> int | None:
        """Where it is placed, by the desk or by the plan."""
        placed_ms = self.ran.placed_ms
        return self.item.at_ms if placed_ms is None else placed_ms

    def reading(self, action: Action, how: str, *asks: str) -> Reading:
        """A reading of this line; empty questions are none."""
        words = f"{self.item.name} {how}"
        return Reading(action, words, self.target, asks=tuple(filter(None, asks)))

    def refused(self, what: str, hint: str) -> EntryProblem:
        """The error for what cannot be said of this item."""
        return EntryProblem(f"{self.item.name} {what}", self.rest, hint)

    def example(self, form: str) -> str:
        """A form as one would type it for this item."""
        return f"'{self.target.words} {form}'"

    def clock(self, at_ms: int) -> str:
        """An instant as the desk's window writes it."""
        return dated_clock_text(at_ms, self.context.style, self.context.now_ms)


def was_dropped(line: OnItem) -> str:
    """The question about an item that was dropped, or empty."""
    return "It was said that it will not run" if line.ran.dropped else ""


def check_not_run(line: OnItem) -> None:
    """Refuse what has run: each item runs once."""
    over_ms = line.ran.over_ms
    if over_ms is not None:
        what = f"has run, until {line.clock(over_ms)}"
        raise line.refused(what, "Take back the entry that ended it")
    if line.item.ran is not None:
        raise line.refused(
            f"has run, until {line.clock(line.item.ran[1])}", "The plan says so: ran"
        )
    if line.context.aired.has_run(line.item.id):
        what = "has run: something else went on the air after it"
        raise line.refused(what, f"When it was over: {line.example('over 4:48:10p')}")


def not_read(line: OnItem) -> EntryProblem:
    """The error for a line that no form of an item reads."""
    what = f"'{shown(line.rest)}' is nothing that is read for {line.item.name}"
    if not line.rest:
        what = f"What of {line.item.name}?"
    return EntryProblem(what, line.rest, nearest_form(About.ITEM, line.target.words, line.rest))


_SNAP_MS = 10_000


def placing_line(item: str, at_ms: int, zone: str) -> str:
    """The line that gives an item its start, to the nearest ten seconds: 'break-3 at 16:46:10'."""
    snapped_ms = (at_ms + _SNAP_MS // 2) // _SNAP_MS * _SNAP_MS
    return f"{item} at {clock_text(snapped_ms, Style(zone, Hours.TWENTY_FOUR))}"
