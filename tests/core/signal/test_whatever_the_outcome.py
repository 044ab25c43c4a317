"""What was seen or heard is so in every world, whatever the outcome turns out to be."""

from core.entries.model import Action, Choose, Observe, Revise
from core.plan.model import Change, EdgeRef, Event, Outcome
from core.signal.cuts import NOT_BOOKED
from core.signal.model import LaneSignal
from core.signal.tables import Tables
from core.signal.tiles import NOT_IN_PLAN
from tests.core.signal.days import (
    S,
    at,
    contact_rows,
    course,
    edge_rows,
    event,
    gap_rows,
    ground,
    lane_of,
    plan,
    row,
    stretch_rows,
    typed,
)

BACK, LOST = Change.BACK, Change.LOST
MOON = "behind the Moon"

# Behind the Moon from 100. Back at 200 through Tarn if there was no burn; after it at 300 through
# Kestrel, and lost again at 400.
DAY = plan(
    course("before", row("voice", "tarn", 0, 100)),
    course("none", row("voice", "tarn", 200, 600), only_if="no-burn"),
    course("orbit", row("voice", "kestrel", 300, 400), only_if="burned"),
    events=[
        event("ignition", 120),
        Event("return-none", "", edge=EdgeRef("voice", BACK, after="ignition"), only_if="no-burn"),
        Event("return", "", edge=EdgeRef("voice", BACK, after="ignition"), only_if="burned"),
    ],
    outcomes=[Outcome("burned", "ignition", ""), Outcome("no-burn", "ignition", "")],
    grounds=[ground("tarn"), ground("kestrel")],
)
EXPECTED = at(ignition=120)
EARLY = "none.voice.1.back"


def observe(change: Change, time_s: int, edge: str = "") -> Observe:
    return Observe("voice", change, time_s * S, edge=edge)


def told(*actions: Action) -> LaneSignal:
    return lane_of(Tables(DAY).told(typed(*actions)).signal(EXPECTED))


def test_a_return_that_one_outcome_foresaw_is_contact_under_the_other_too() -> None:
    heard = told(observe(BACK, 206, EARLY))
    assert stretch_rows(heard.stretches)[2:] == [
        (100, 206, "gap", None, MOON),
        (206, 300, "contact", "tarn", ""),
        (300, 400, "contact", None, ""),
        (400, 606, "either", None, MOON),
        (606, None, "gap", None, MOON),
    ]
    assert edge_rows(heard.edges)[2:] == [
        (206, EARLY, "tarn", MOON, None),
        (400, "orbit.voice.1.lost", "kestrel", MOON, "burned"),
        (606, "none.voice.1.lost", "tarn", MOON, "no-burn"),
    ]
    assert heard.edges[2].observed


def test_it_stands_when_the_other_outcome_is_named() -> None:
    heard = told(observe(BACK, 206, EARLY), Choose("burned"))
    assert contact_rows(heard.contacts)[1:] == [
        (206, 300, "tarn", None),
        (300, 400, "kestrel", None),
    ]


def test_the_return_of_the_other_outcome_keeps_its_time_and_can_still_be_observed() -> None:
    tables = Tables(DAY).told(typed(observe(BACK, 206, EARLY)))
    for event_id, time_s in (("return-none", 206), ("return", 300)):
        ref = EdgeRef("voice", BACK, after="ignition")
        found = tables.find(ref, event_id, 120 * S, EXPECTED)
        assert found is not None
        assert found.time_ms == time_s * S
    assert tables.near("voice", BACK, 290 * S, EXPECTED) == "orbit.voice.1.back"


def test_a_loss_that_one_outcome_foresaw_ends_the_contact_under_the_other_too() -> None:
    lost = told(observe(LOST, 395, "orbit.voice.1.lost"))
    assert gap_rows(lost.gaps)[1:] == [
        (100, 200, MOON, "no-burn"),
        (100, 300, MOON, "burned"),
        (395, 600, NOT_IN_PLAN, "no-burn"),
        (395, None, MOON, "burned"),
        (600, None, MOON, "no-burn"),
    ]
    assert [edge.time_ms for edge in lost.edges if edge.observed] == [395 * S, 395 * S]


def test_an_edge_that_is_only_revised_belongs_to_its_outcome() -> None:
    revised = told(Revise("return-none", 210 * S, None, EARLY), Choose("burned"))
    assert revised.contacts == told(Choose("burned")).contacts


def test_until_a_late_return_they_are_out_for_the_reason_they_were_out_before() -> None:
    day = plan(
        course("one", row("voice", "tarn", 100, 600), row("voice", "kestrel", 101, 600), gap=MOON),
        grounds=[ground("tarn"), ground("kestrel", (400, 500))],
    )
    seen = Observe("voice", BACK, 106 * S, edge="one.voice.1.back")
    lane = lane_of(Tables(day).told(typed(seen)).signal(at()))
    assert gap_rows(lane.gaps)[0] == (None, 106, MOON, None)
    assert NOT_BOOKED not in {gap.cause for gap in lane.gaps}


def test_a_loss_given_earlier_keeps_the_cause_of_the_loss_that_it_was() -> None:
    day = plan(
        course("one", row("voice", "tarn", 0, 100), row("voice", "kestrel", 1, 95), gap=MOON),
        grounds=[ground("tarn"), ground("kestrel", (400, 500))],
    )
    earlier = Revise("loss", 90 * S, None, "one.voice.1.lost")
    lane = lane_of(Tables(day).told(typed(earlier)).signal(at()))
    assert gap_rows(lane.gaps)[1:] == [(90, None, MOON, None)]
    assert [(edge.time_ms, edge.table_ms) for edge in lane.edges][1:] == [(90 * S, 100 * S)]
