"""Items, moments and what the desk entered, in minutes from nought: for tests that say so."""

from dataclasses import replace

from core.air.model import Moment
from core.air.running import Programme
from core.entries.aired import aired
from core.entries.model import Action, Entry
from core.plan.model import Item

MINUTE = 60_000


def ms(minutes: float) -> int:
    """That many minutes."""
    return round(minutes * MINUTE)


def item(name: str, minutes: float = 2, **given: object) -> Item:
    """An owed tape of that length, or whatever is given."""
    made = Item(id=name, kind="tape", name=name, length_ms=ms(minutes), owed=True)
    return replace(made, **given)  # type: ignore[arg-type] # a test's shorthand


def moment(name: str, at: float, guard: float = 1, stay: float = 1, give: float = 0) -> Moment:
    """A live moment at that minute."""
    back = ms(at - guard)
    return Moment(name, name, ms(at), back, ms(at + stay), back - ms(give))


def junction(name: str, at: float) -> Moment:
    """A junction at that minute."""
    return Moment(name, name, ms(at), ms(at), ms(at), ms(at), junction=True)


def programme(*items: Item, after: tuple[Action, ...] = ()) -> Programme:
    """The items after what was entered."""
    entries = [Entry(number, 0, "", action) for number, action in enumerate(after, 1)]
    return Programme(items, aired(entries))
