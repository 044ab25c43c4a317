"""Who gives way when bounds contradict each other and the ground's word stands."""

from dataclasses import dataclass

from core.schedule.clash import Named, Step, Steps
from core.schedule.model import Kind
from core.schedule.standing import Bound


@dataclass(frozen=True, slots=True)
class Yields:
    """An older figure gives way for good."""

    node: int


@dataclass(frozen=True, slots=True)
class LowerGives:
    """The lower bound of an event gives way: it comes earlier than that."""

    node: int
    bound: Bound


@dataclass(frozen=True, slots=True)
class UpperGives:
    """The upper bound of an event gives way: it comes later than that."""

    node: int
    bound: Bound


@dataclass(frozen=True, slots=True)
class StepGives:
    """A tie's or limit's bound gives way, by as much as it takes."""

    step: Step


GivesWay = Yields | LowerGives | UpperGives | StepGives

YIELDING = (Kind.PLANNED, Kind.RESUMED)
"""What may come earlier for a fact or a forced figure, and is not broken by it."""

_SOFT = (Kind.PLANNED, Kind.NOT_BEFORE, Kind.NOT_AFTER)
_ANEW = (Kind.HOLD, Kind.EDGE)
_BY_STRENGTH = (Kind.EDGE, Kind.PIN, Kind.HOLD, Kind.RESUMED, Kind.FIGURE, Kind.FACT)


def weakest(found: Named, typed: int | None) -> GivesWay:
    """The member of a contradiction that gives way.

    In this order: an older figure; a count that went on before the newer word; a planned time; a
    window; the tie or limit nearest the obstacle, which is the end that the older word holds. Two
    bounds on one event: the weaker.
    """
    path, low, high = found.path, found.low, found.high
    if low is None or high is None:
        return StepGives(last_limit(path.steps))
    older = _older_figure(low, high)
    node = path.first if older is low else path.last
    if older is not None and (node != typed or path.first == path.last):
        return Yields(node)
    if low.kind is Kind.RESUMED and high.number > low.number:
        return LowerGives(path.first, low)
    soft = next((kind for kind in _SOFT if kind in (low.kind, high.kind)), None)
    if soft is not None:
        low_gives = low.kind is soft
    elif path.steps:
        step = path.steps[-1] if high.number <= low.number else path.steps[0]
        return StepGives(step)
    else:
        low_gives = _BY_STRENGTH.index(low.kind) < _BY_STRENGTH.index(high.kind)
    return LowerGives(path.first, low) if low_gives else UpperGives(path.last, high)


def _older_figure(low: Bound, high: Bound) -> Bound | None:
    """The figure among two words that is older than the other.

    A count that is held speaks anew each second, and an edge is looked up anew at each change, so
    a figure is older than they are, unless it was set by a second Enter.
    """
    for one, other in ((low, high), (high, low)):
        if one.kind is not Kind.FIGURE:
            continue
        if one.number < other.number or (other.kind in _ANEW and not one.forced):
            return one
    return None


def last_limit(steps: Steps) -> Step:
    """Which gives way where limits contradict each other by themselves: the last of them."""
    return max(steps, key=lambda s: (max(s[0], s[1]), min(s[0], s[1]), s[2]))
