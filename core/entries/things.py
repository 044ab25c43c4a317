"""What a line may be about: events, lanes, items and more, with the words that name them."""

from collections.abc import Iterable
from typing import NamedTuple

from core.entries.aired import Aired
from core.entries.readings import TargetKind
from core.entries.words import spaced
from core.plan.model import CheckOff, Item, Lane, Outcome


class Thing(NamedTuple):
    """Something a line may be about; `past` is an event that has happened, an item that has run.

    `spaced` has the words of name and id, each with a space before it.
    """

    kind: TargetKind
    id: str
    name: str
    past: bool
    spaced: str


def event_thing(event_id: str, name: str, *, past: bool) -> Thing:
    """An event as a line may name it."""
    return Thing(TargetKind.EVENT, event_id, name, past, spaced(name) + spaced(event_id))


def signal_things(lanes: Iterable[Lane], outcomes: Iterable[Outcome]) -> tuple[Thing, ...]:
    """Lanes and outcomes as a line may name them."""
    told = (
        *((TargetKind.LANE, lane.id, lane.name) for lane in lanes),
        *((TargetKind.OUTCOME, each.id, each.name) for each in outcomes),
    )
    return tuple(Thing(kind, i, name, False, spaced(name) + spaced(i)) for kind, i, name in told)  # noqa: FBT003  # a tuple's field


def programme_things(
    items: Iterable[Item], checkoffs: Iterable[CheckOff], told: Aired
) -> tuple[Thing, ...]:
    """Items and check-offs as a line may name them; an item that ran or was dropped is past."""
    return (
        *(_thing(TargetKind.ITEM, each, past=_is_past(each, told)) for each in items),
        *(_thing(TargetKind.CHECKOFF, each, past=False) for each in checkoffs),
    )


def _thing(kind: TargetKind, each: Item | CheckOff, *, past: bool) -> Thing:
    return Thing(kind, each.id, each.name, past, spaced(each.name) + spaced(each.id))


def _is_past(item: Item, told: Aired) -> bool:
    return item.ran is not None or told.has_run(item.id) or told.ran(item.id).dropped
