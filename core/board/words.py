"""Words the board's parts share: lists, lanes, bounds by name."""

from collections.abc import Iterable, Mapping, Sequence

from core.board.model import Figure
from core.plan.model import Plan
from core.saying.clocks import said_minute_ms
from core.schedule.model import Broken, Cause, Constraint, Kind
from core.signal.model import Shifted
from core.times.writing import (
    MINUTE_MS,
    Hours,
    Style,
    clock_text,
    dated_clock_text,
    difference_words,
    figure,
    is_about,
    nearest_minute_ms,
    short_duration_words,
)

_ROUGH_FROM_MS = 10 * MINUTE_MS


def listed(names: Sequence[str], most: int = 4) -> str:
    """'a, b and c'; more than `most` are counted: 'a, b, c and 7 more'.

    Names that have a comma of their own are kept apart by semicolons: 'a, x; b and c'.
    """
    shown = list(names) if len(names) <= most else list(names[: most - 1])
    if len(names) > most:
        shown.append(f"{len(names) - most + 1} more")
    if len(shown) < 2:
        return "".join(shown)
    apart = "; " if any("," in name for name in shown) else ", "
    return f"{apart.join(shown[:-1])} and {shown[-1]}"


def either(texts: Iterable[str]) -> str:
    """'24 min or 34 min'; equal texts once."""
    return " or ".join(dict.fromkeys(texts))


def event_clock_text(at_ms: int, give_ms: int, style: Style, today_ms: int) -> str:
    """An event's clock time on a card: to the second, or 'about 5:31 p.m.', the minute as said.

    Never finer than the give, so that card and sentence have the same minute.
    """
    if not is_about(give_ms):
        return dated_clock_text(at_ms, style, today_ms)
    minute_ms = said_minute_ms(at_ms, give_ms)
    return "about " + dated_clock_text(minute_ms, style, today_ms, seconds=False)


def either_clocks(times_ms: Sequence[int], style: Style, now_ms: int) -> str:
    """'5:12 or 5:23 p.m.': those of the possible returns that are still to come.

    The first of them all is rounded down, later ones to the nearest: so nobody looks away too long
    before the first, or waits in vain at the last.
    """
    first_ms, *others_ms = times_ms
    nearest_ms = (nearest_minute_ms(at_ms) for at_ms in others_ms)
    told = [clock_text(at_ms, style, seconds=False) for at_ms in (first_ms, *nearest_ms)]
    still = (text for text, at_ms in zip(told, times_ms, strict=True) if at_ms > now_ms)
    clocks = list(dict.fromkeys(still))
    halves = {clock[-5:] for clock in clocks}
    if style.hours is Hours.TWELVE and len(halves) == 1:
        clocks = [*(clock[:-5] for clock in clocks[:-1]), clocks[-1]]
    return either(clocks)


def rough_words(length_ms: int) -> str:
    """A length one plans by: to the second below ten minutes, from there to the nearest minute."""
    if length_ms < _ROUGH_FROM_MS:
        return short_duration_words(length_ms)
    return short_duration_words((length_ms + MINUTE_MS // 2) // MINUTE_MS * MINUTE_MS)


def gap_words(lengths_ms: Sequence[int], *, sure: bool) -> str:
    """How long a gap lasts: '24 min or 34 min', '40 min or longer' where it may not end then."""
    lengths = either(rough_words(length_ms) for length_ms in lengths_ms)
    return lengths if sure or not lengths else f"{lengths} or longer"


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
    Kind.RESUMED: "the count of {of}, which goes on",
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


_OFF = {
    Kind.LEAST: "too early against {other}",
    Kind.MOST: "too late against {other}",
    Kind.TIE: "off its offset from {other}",
    Kind.NOT_BEFORE: "before its window",
    Kind.NOT_AFTER: "after its window",
    Kind.PLANNED: "before its planned time",
    Kind.HOLD: "before its count allows",
    Kind.RESUMED: "before its count allows",
    Kind.PIN: "off its pin",
    Kind.FIGURE: "off the figure given for it",
    Kind.EDGE: "off its edge of the signal",
    Kind.FACT: "off what has happened",
}


def broken_event(broken: Broken) -> str:
    """The event whose card says that a limit is overruled: the later one of a tie."""
    return broken.limit.to or broken.limit.of


def broken_words(broken: Broken, names: "Names") -> str:
    """How far the event of that card is off: '1 min too late against School call'."""
    by = short_duration_words(broken.short_ms)
    return f"{by} {_OFF[broken.limit.kind].format(other=names(broken.limit.of))}"


_CAUSES = {
    Kind.FACT: "it has happened",
    Kind.FIGURE: "the time that was typed",
    Kind.HOLD: "its count is held",
    Kind.RESUMED: "its count, which goes on",
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


def shifted_words(shifted: Shifted, names: "Names") -> str:
    """'flown: 5 min later with Closest to the Moon; shifted, not recomputed'."""
    by = difference_words(shifted.by_ms)
    return f"{shifted.course}: {by} with {names(shifted.event)}; shifted, not recomputed"


class Names:
    """Event ids to the names a screen shows."""

    def __init__(self, named: Mapping[str, str]) -> None:
        self._names = named

    def __call__(self, event_id: str) -> str:
        """The name, or the id itself where the event is gone."""
        return self._names.get(event_id, event_id)

    def __contains__(self, event_id: object) -> bool:
        """Whether the board has an event or an outcome of that id."""
        return event_id in self._names
