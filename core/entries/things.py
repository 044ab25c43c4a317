"""What a line may be about: events, lanes and outcomes, with the words that name them."""

from collections.abc import Iterable
from typing import NamedTuple

from core.entries.readings import TargetKind
from core.entries.words import spaced
from core.plan.model import Lane, Outcome


class Thing(NamedTuple):
    """Something a line may be about; `past` is an event that has happened.

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
