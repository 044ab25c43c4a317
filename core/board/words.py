"""Words the board's parts share: lists, lanes, bounds by name."""

from collections.abc import Iterable, Sequence

from core.board.model import Figure
from core.plan.model import Plan
from core.schedule.model import Cause, Constraint, Kind
from core.times.writing import figure, is_about


def listed(names: Sequence[str], most: int = 4) -> str:
    """'a, b and c'; more than `most` are counted: 'a, b, c and 7 more'."""
    if len(names) > most:
        return f"{', '.join(names[: most - 1])} and {len(names) - most + 1} more"
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def either(texts: Iterable[str]) -> str:
    """'24 min or 34 min'; equal texts once."""
    return " or ".join(dict.fromkeys(texts))


def capital(text: str) -> str:
    """The text with its first letter upper case."""
    return text[:1].upper() + text[1:]


def shown_figure(length_ms: int, give_ms: int = 0, *, past: bool = False) -> Figure:
    """A length as a screen shows it."""
    return Figure(figure(length_ms, give_ms), is_about(give_ms), past)


def lane_names(plan: Plan) -> dict[str, str]:
    """Lane ids to the names the plan gives them."""
    return {lane.id: lane.name for lane in plan.lanes}


_OWN_BOUNDS = {
    Kind.FACT: "{of} has happened",
    Kind.FIGURE: "the figure for {of}",
    Kind.HOLD: "the hold on {of}",
    Kind.PIN: "the pin of {of}",
    Kind.EDGE: "the signal's edge for {of}",
    Kind.NOT_BEFORE: "{of} not before its window",
    Kind.NOT_AFTER: "{of} not after its window",
    Kind.PLANNED: "the planned time of {of}",
}


def bound_words(bound: Constraint, names: "Names") -> str:
    """One member of a clash in words."""
    of = names(bound.of)
    if bound.kind is Kind.LEAST and bound.to:
        return f"the least from {of} to {names(bound.to)}"
    if bound.kind is Kind.MOST and bound.to:
        return f"the most from {of} to {names(bound.to)}"
    if bound.kind is Kind.TIE and bound.to:
        return f"the offset from {of} to {names(bound.to)}"
    return _OWN_BOUNDS[bound.kind].format(of=of)


_CAUSES = {
    Kind.FACT: "it has happened",
    Kind.FIGURE: "the figure given for it",
    Kind.HOLD: "its count is held",
    Kind.PIN: "pinned",
    Kind.EDGE: "the edge of the signal",
    Kind.LEAST: "as near to {of} as may be",
    Kind.MOST: "no later than {of} allows",
    Kind.NOT_BEFORE: "not before its window",
    Kind.NOT_AFTER: "not after its window",
    Kind.PLANNED: "its planned time",
    Kind.TIE: "tied to {of}",
}


def cause_words(cause: Cause | None, names: "Names") -> str:
    """What binds an event's time, in words."""
    return "" if cause is None else _CAUSES[cause.kind].format(of=names(cause.of))


class Names:
    """Event ids to the names a screen shows."""

    def __init__(self, named: Iterable[tuple[str, str]]) -> None:
        self._names = dict(named)

    def __call__(self, event_id: str) -> str:
        """The name, or the id itself where the event is gone."""
        return self._names.get(event_id, event_id)
