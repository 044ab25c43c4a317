"""Offsets that chase themselves, limits that contradict each other: an answer, and at once."""

from time import perf_counter

from core.entries.model import Free, Revise
from core.plan.model import Event, Plan, Tie, Window
from core.schedule.schedule import Schedule
from tests.core.schedule.case_files import entry_of
from tests.core.schedule.desk import Desk, at, event, m, plan, tie
from tests.core.schedule.signal_fake import FakeEdges


def one_millisecond_too_long(until: str = "") -> Plan:
    last = Event(
        "D",
        "D",
        ties=(tie("C", 10), Tie("A", m(10), 0, m(30) - 1)),
        window=Window(None, at(until)) if until else None,
    )
    return plan(
        event("A", planned="10:00"), event("B", tie("A", 10)), event("C", tie("B", 10)), last
    )


def test_a_chase_of_one_millisecond_ends_at_once() -> None:
    begun = perf_counter()
    desk = Desk(one_millisecond_too_long())
    assert desk.board.chasing
    assert desk.board.clash is None
    assert perf_counter() - begun < 1


def test_a_chase_that_a_window_stops_goes_there_at_once() -> None:
    begun = perf_counter()
    desk = Desk(one_millisecond_too_long(until="23:00"))
    assert not desk.board.chasing
    assert desk.times("D") == "23:00"
    assert perf_counter() - begun < 1


def test_limits_that_contradict_each_other_by_a_millisecond_end_at_once() -> None:
    begun = perf_counter()
    tight = Event("C", "C", ties=(tie("B", 10, 10), Tie("A", m(15), 0, m(20) - 1)))
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10, 10)), tight))
    assert desk.board.clash is not None
    assert desk.board.clash.over_ms == 1
    desk.type(Revise("C", at("23:00")))
    assert perf_counter() - begun < 1


def test_a_freed_pin_that_lets_a_long_chain_chase_ends_at_once() -> None:
    count = 2000
    links = [event("e0", pin="10:00")]
    links += [event(f"e{k}", tie(f"e{k - 1}", 1, 0)) for k in range(1, count)]
    links.append(Event("end", "end", ties=(tie(f"e{count - 1}", 1, 0), Tie("e0", 0, 0, m(1999)))))
    board = Schedule(plan(*links), FakeEdges(), 0)
    begun = perf_counter()
    effect = board.take(entry_of(1, Free("e0"), 0, forced=True), 0)
    assert effect.notes
    assert perf_counter() - begun < 2


def test_a_hundred_thousand_events_are_built_and_retimed() -> None:
    count = 100_000
    links = [event("e0", planned="10:00")]
    links += [event(f"e{k}", tie(f"e{k - 1 - k % 3 if k > 3 else 0}", 1)) for k in range(1, count)]
    board = Schedule(plan(*links), FakeEdges(), 0)
    effect = board.take(entry_of(1, Revise("e0", at("10:05")), 0), 0)
    assert len(effect.moves) == count
