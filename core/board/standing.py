"""How each event stands at a moment: ahead, due, out of sight, held, happened."""

from dataclasses import dataclass

from core.board.model import CardState
from core.board.sight import Sight
from core.plan.model import Change, Event
from core.schedule.model import Brief, Line, State


@dataclass(frozen=True, slots=True)
class Standing:
    """An event's state at a moment. `words_ms`: when the first word of it can, or could, come."""

    state: CardState
    words_ms: tuple[int, ...] = ()
    heard_ms: int | None = None
    """When an event out there is heard here, if that is worth telling apart."""


SETTLED = {
    State.HAPPENED: CardState.HAPPENED,
    State.HELD: CardState.HELD,
    State.UNKNOWN: CardState.UNKNOWN,
}
"""What stands at any second, as long as the schedule says so."""


def floor_s(ms: int) -> int:
    """The instant floored to the whole second, as every shown time is."""
    return ms - ms % 1000


def stands(
    event: Event,
    line: Brief | Line,
    sight: Sight,
    now_ms: int,
    *,
    on_ground: bool = False,
    way_ms: int = 0,
) -> Standing:
    """How an event of the board stands at `now_ms`.

    The board invents no slip: past its expected time an event is due, counting up, if the desk
    could know of it; while nobody can, it is out of sight. That lasts to the latest of several
    possible returns, unless there is contact before. An edge of the signal is never out of sight:
    silence is what one hears of it, nor is what happens on the ground. A computed edge needs nobody
    to confirm it. What happens at a distant craft is on its way for `way_ms` before all that.
    """
    settled = SETTLED.get(line.state)
    if settled is not None:
        return Standing(settled)
    expected_ms = line.expected_ms
    if expected_ms is None:
        return Standing(CardState.UNKNOWN)
    heard_ms = floor_s(expected_ms + way_ms) if way_ms else None
    if (heard_ms or floor_s(expected_ms)) > now_ms:
        ahead = floor_s(expected_ms) > now_ms
        return Standing(CardState.AHEAD if ahead else CardState.ON_ITS_WAY, heard_ms=heard_ms)
    if event.edge is not None or on_ground:
        return Standing(CardState.HAPPENED if is_automatic(event) else CardState.DUE)
    expected_ms = floor_s(expected_ms + way_ms)  # as shown: no second of silence in between
    words_ms = sight.word_from(expected_ms, line.outcome)
    still_ms = tuple(at_ms for at_ms in words_ms if at_ms > now_ms)
    told = sight.is_told(expected_ms, now_ms)
    if still_ms and not told and (still_ms == words_ms or not sight.is_heard(expected_ms, now_ms)):
        return Standing(CardState.OUT_OF_SIGHT, words_ms)
    return Standing(CardState.DUE, heard_ms=heard_ms)


def is_automatic(event: Event) -> bool:
    """Whether the event is an edge of the signal that the plan did not name."""
    return event.edge is not None and bool(event.edge.row)


def is_return(event: Event) -> bool:
    """Whether the event is a return of the signal."""
    return event.edge is not None and event.edge.change is Change.BACK
