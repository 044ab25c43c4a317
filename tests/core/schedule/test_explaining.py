"""Why an event moved, where what moves it had no time before."""

from core.entries.model import Entry, Revise
from core.plan.model import Change, EdgeRef, Event, Plan, Tie
from core.schedule.model import Cause, Kind
from core.schedule.schedule import Schedule
from tests.core.schedule.strategies import EDGES, MINUTE

LOSS = EdgeRef("voice", Change.BACK, after="approach")


def test_what_has_a_time_only_now_is_told_as_what_moved_it() -> None:
    """By hand: the words hang on a return after the approach, which is held up by the call, which

    waits for the words: so neither words nor call have a time. A figure for the words gives both
    one: the call by its own planned time, 101 min. The approach may be no earlier than the call,
    so it goes from 100 to 101 min.
    """
    words = Event(id="words", name="First words", edge=LOSS)
    call = Event(
        id="call",
        name="Call",
        at_ms=101 * MINUTE,
        ties=(Tie("approach", -MINUTE, None, 0), Tie("words", None, 0, None)),
    )
    approach = Event(id="approach", name="Approach", at_ms=100 * MINUTE)
    board = Schedule(Plan("A flight", ("UTC",), events=(approach, words, call)), EDGES, 0)
    assert board.brief("call").expected_ms is None
    figure = Entry(1, 80 * MINUTE, "", Revise("words", 80 * MINUTE), forced=True)
    effect = board.take(figure, 80 * MINUTE)
    assert effect.chains is not None
    (link,) = effect.chains.chain("approach")
    assert (link.event, link.moved_ms) == ("approach", MINUTE)
    assert link.cause == Cause(Kind.MOST, "call")
