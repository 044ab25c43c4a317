"""What is remembered of a day is used where it still holds, and only there."""

from core.entries.model import Entry, Revise
from core.plan.model import Change, EdgeRef, Event, Plan, Tie
from core.schedule.alone import PlanAlone
from core.schedule.recall import Recall
from core.schedule.schedule import Schedule
from tests.core.schedule.signal_fake import FakeEdges, Series

MINUTE = 60_000
PLAN = Plan(
    "A day",
    ("UTC",),
    events=(
        Event("start", "start", at_ms=0),
        Event("back", "back", edge=EdgeRef("voice", Change.BACK, after="start")),
        Event("call", "call", ties=(Tie("back", MINUTE, None, None),)),
    ),
)
LATE = Entry(1, MINUTE, "start +5m", Revise("start", 5 * MINUTE))
LATER = Entry(2, 2 * MINUTE, "start +9m", Revise("start", 9 * MINUTE))


def edges() -> FakeEdges:
    return FakeEdges({"voice": Series("start", MINUTE, 7 * MINUTE, 9)})


def day(signal: FakeEdges, *entries: Entry, alone: PlanAlone | None = None) -> Schedule:
    return Schedule(PLAN, signal, 3 * MINUTE, entries, alone=alone)


def test_the_last_entry_taken_back_finds_the_works_before_it() -> None:
    signal = edges()
    alone = PlanAlone(PLAN, signal)
    board = day(signal, alone=alone)
    for entry in (LATE, LATER):
        board.take(entry, entry.at_ms)
    works = alone.recall.find((LATE,), signal)
    assert works is not None
    assert works.standing.entries == (LATE,)
    assert day(signal, LATE, alone=alone).expected() == day(signal, LATE).expected()


def test_works_found_can_be_changed_without_a_trace() -> None:
    signal = edges()
    alone = PlanAlone(PLAN, signal)
    day(signal, LATE, alone=alone)
    for _ in range(2):
        again = day(signal, alone=alone)
        assert again.expected() == day(signal).expected()
        again.take(LATER, LATER.at_ms)


def test_where_the_signal_lies_elsewhere_meanwhile_nothing_is_found() -> None:
    signal = edges()
    alone = PlanAlone(PLAN, signal)
    day(signal, LATE, LATER, alone=alone)
    signal.series["voice"] = Series("start", 2 * MINUTE, 7 * MINUTE, 9)
    assert alone.recall.find((LATE,), signal) is None
    assert day(signal, LATE, alone=alone).expected() == day(signal, LATE).expected()


def test_another_signal_or_another_day_finds_nothing() -> None:
    signal = edges()
    recall = Recall()
    works = day(signal, LATE)._works
    recall.keep(works, signal)
    assert recall.find((LATE, LATER), signal) is not None
    assert recall.find((LATER,), signal) is None
    assert recall.find((), signal) is None
    assert recall.find((LATE,), edges()) is None
