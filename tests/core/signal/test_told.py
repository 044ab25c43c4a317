import pytest

from core.entries.model import Action, Free, Happened, Note, Observe, Revise, Shift, Shut
from core.plan.model import Change, EdgeRef, Event, Outcome
from core.signal.model import LaneSignal
from core.signal.tables import Tables
from tests.core.signal.days import (
    S,
    at,
    blackout,
    contact_rows,
    course,
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
DAY = plan(
    course(
        "one",
        row("voice", "tarn", 100, 200),
        row("voice", "tarn", 300, 400),
        row("voice", "tarn", 500, 600),
        row("picture", "tarn", 320, 380),
        follows="burn",
    ),
    course("two", row("voice", "kestrel", 700, 800)),
    events=[event("burn", 50), Event("back", "back", edge=EdgeRef("voice", BACK), give_ms=60_000)],
)
EXPECTED = at(burn=50)
BACK_2, LOST_2 = "one.voice.2.back", "one.voice.2.lost"


def observe(change: Change, time_s: int, edge: str = "", shift: Shift = Shift.USUAL) -> Observe:
    return Observe("voice", change, time_s * S, shift, edge)


def told(*actions: Action, lane: str = "voice", burn_s: int = 50) -> LaneSignal:
    return lane_of(Tables(DAY).told(typed(*actions)).signal(at(burn=burn_s)), lane)


def spans(signal: LaneSignal) -> list[tuple[object, ...]]:
    return [found[:2] for found in contact_rows(signal.contacts)]


def test_an_observed_edge_moves_its_courses_later_rows() -> None:
    seen = told(observe(BACK, 310, BACK_2))
    assert spans(seen) == [(100, 200), (310, 410), (510, 610), (700, 800)]
    edges = {edge.id: edge for edge in seen.edges}
    assert edges[BACK_2].observed
    assert edges[BACK_2].table_ms == 300 * S
    assert not edges[LOST_2].observed
    assert (edges[LOST_2].time_ms, edges[LOST_2].table_ms) == (410 * S, 400 * S)


def test_an_observed_edge_moves_the_later_rows_of_its_course_on_other_lanes() -> None:
    assert spans(told(observe(BACK, 310, BACK_2), lane="picture")) == [(330, 390)]


@pytest.mark.parametrize("shift", [Shift.USUAL, Shift.SHIFT])
def test_a_printed_tables_rows_shift_in_either_way_of_saying_so(shift: Shift) -> None:
    assert spans(told(observe(LOST, 405, LOST_2, shift)))[1:3] == [(300, 405), (505, 605)]


def test_observed_alone_moves_no_other_edge() -> None:
    seen = told(observe(BACK, 310, BACK_2, Shift.ALONE))
    assert spans(seen) == [(100, 200), (310, 400), (500, 600), (700, 800)]


def test_rows_after_an_observation_stay_with_it_when_the_event_slips() -> None:
    seen = told(observe(BACK, 310, BACK_2), burn_s=80)
    assert spans(seen) == [(130, 230), (310, 410), (510, 610), (700, 800)]
    back = next(edge for edge in seen.edges if edge.id == BACK_2)
    assert back.table_ms == 330 * S


def test_the_later_of_two_observations_carries_the_rest() -> None:
    seen = told(observe(BACK, 310, BACK_2), observe(LOST, 405, LOST_2))
    assert spans(seen) == [(100, 200), (310, 405), (505, 605), (700, 800)]


def test_a_later_word_on_an_edge_replaces_the_earlier() -> None:
    assert told(observe(BACK, 310, BACK_2), observe(BACK, 304, BACK_2)) == told(
        Note("for the record"), observe(BACK, 304, BACK_2)
    )


def test_a_revised_edge_moves_the_same_rows_and_is_not_observed() -> None:
    seen = told(Revise("back", 310 * S, 5 * S, BACK_2))
    assert spans(seen) == [(100, 200), (310, 410), (510, 610), (700, 800)]
    back = next(edge for edge in seen.edges if edge.id == BACK_2)
    assert (back.observed, back.give_ms) == (False, 5 * S)
    assert spans(told(Happened("back", 310 * S, BACK_2))) == spans(seen)


def test_freeing_the_event_lets_a_revised_edge_go_but_not_an_observed_one() -> None:
    assert told(Revise("back", 310 * S, None, BACK_2), Free("back")) == told()
    seen = told(Happened("back", 310 * S, BACK_2), Free("back"))
    assert spans(seen)[1] == (310, 410)


def test_an_event_corrected_onto_another_edge_lets_the_first_go() -> None:
    twice = told(Happened("back", 310 * S, BACK_2), Happened("back", 505 * S, "one.voice.3.back"))
    assert spans(twice) == [(100, 200), (300, 400), (505, 605), (700, 800)]


def test_figures_without_an_edge_move_none() -> None:
    assert told(Revise("back", 310 * S), Revise("burn", 60 * S)) == told()


def test_an_unplanned_loss_lasts_to_the_next_return_and_shifts_nothing() -> None:
    seen = told(observe(LOST, 350))
    assert spans(seen) == [(100, 200), (300, 350), (500, 600), (700, 800)]
    assert gap_rows(seen.gaps)[2:4] == [
        (350, 400, "loss not in the plan", None),
        (400, 500, "behind the Moon", None),
    ]
    lost = next(edge for edge in seen.edges if edge.time_ms == 350 * S)
    assert (lost.id, lost.observed, lost.table_ms) == ("desk.voice.1.lost", True, None)


def test_an_unplanned_return_ends_an_unplanned_loss() -> None:
    seen = told(observe(LOST, 350), observe(BACK, 370))
    assert contact_rows(seen.contacts)[1:3] == [(300, 350, "tarn", None), (370, 400, "tarn", None)]
    assert [edge.id for edge in seen.edges][2:6] == [
        BACK_2,
        "desk.voice.1.lost",
        "desk.voice.2.back",
        LOST_2,
    ]


def test_an_unplanned_return_opens_the_lane_until_the_next_edge() -> None:
    seen = told(observe(BACK, 250))
    assert contact_rows(seen.contacts)[1:3] == [(250, 300, None, None), (300, 400, "tarn", None)]
    assert [edge.id for edge in seen.edges][2:4] == ["desk.voice.1.back", LOST_2]
    lost = told(observe(BACK, 250), observe(LOST, 260))
    assert spans(lost)[1:3] == [(250, 260), (300, 400)]


def test_an_unplanned_word_that_says_what_is_so_anyway_changes_nothing() -> None:
    assert spans(told(observe(LOST, 250))) == spans(told())
    assert spans(told(observe(BACK, 350))) == spans(told())


def test_an_edge_of_an_older_plan_is_an_unplanned_one() -> None:
    assert spans(told(observe(LOST, 350, "gone.voice.1.lost"))) == spans(told(observe(LOST, 350)))


def test_an_observed_loss_holds_though_another_station_was_to_carry_on() -> None:
    overlapping = plan(
        course("a", row("voice", "tarn", 0, 100)), course("b", row("voice", "kestrel", 90, 110))
    )
    tables = Tables(overlapping).told(typed(observe(LOST, 95, "b.voice.1.lost")))
    voice = lane_of(tables.signal(at()))
    assert spans(voice) == [(0, 95)]
    assert [edge.id for edge in voice.edges] == ["a.voice.1.back", "b.voice.1.lost"]


def test_an_observed_return_holds_though_another_station_was_to_be_first() -> None:
    overlapping = plan(
        course("a", row("voice", "tarn", 0, 100)), course("b", row("voice", "kestrel", 90, 110))
    )
    tables = Tables(overlapping).told(typed(observe(BACK, 98, "b.voice.1.back", Shift.ALONE)))
    # Kestrel Bay's return is no edge of the lane while Tarn Hill carries it: told so, it is one.
    assert spans(lane_of(tables.signal(at()))) == [(98, 100), (100, 110)]


def test_an_observed_end_of_a_short_contact_pushes_the_other_aside() -> None:
    short = plan(course("a", row("voice", "tarn", 100, 130)))
    tables = Tables(short).told(typed(observe(LOST, 80, "a.voice.1.lost")))
    assert spans(lane_of(tables.signal(at()))) == [(79, 80)]


def test_a_blackouts_edge_observed_is_where_it_was_observed_and_shifts_no_row() -> None:
    dark = plan(
        course("a", row("voice", "tarn", 100, 400), row("voice", "tarn", 500, 600)),
        blackouts=[blackout("entry", 20, 60, "plasma")],
    )
    seen = Tables(dark).told(typed(observe(BACK, 275, "entry.voice.blackout1.back")))
    voice = lane_of(seen.signal(at(entry=200)))
    assert spans(voice) == [(100, 220), (275, 400), (500, 600)]


def test_a_blackout_that_begins_late_ends_late_unless_it_is_said_alone() -> None:
    dark = plan(
        course("a", row("voice", "tarn", 100, 400)), blackouts=[blackout("entry", 20, 60, "plasma")]
    )
    late = Tables(dark).told(typed(observe(LOST, 230, "entry.voice.blackout1.lost")))
    assert spans(lane_of(late.signal(at(entry=200)))) == [(100, 230), (270, 400)]
    alone = Tables(dark).told(typed(observe(LOST, 230, "entry.voice.blackout1.lost", Shift.ALONE)))
    assert spans(lane_of(alone.signal(at(entry=200)))) == [(100, 230), (260, 400)]
    after = Tables(dark).told(typed(observe(LOST, 270, "entry.voice.blackout1.lost", Shift.ALONE)))
    assert spans(lane_of(after.signal(at(entry=200)))) == [(100, 270), (271, 400)]


def test_an_edge_a_stations_hours_make_is_observed_without_shifting_the_course() -> None:
    hours = plan(
        course("a", row("voice", "tarn", 100, 400), row("voice", "tarn", 500, 600)),
        grounds=[ground("tarn", (0, 300), (450, 900))],
    )
    tables = Tables(hours)
    assert gap_rows(lane_of(tables.signal(at())).gaps)[1:] == [
        (300, 400, "no ground station booked", None),
        (400, 500, "behind the Moon", None),
        (600, None, "behind the Moon", None),
    ]
    seen = tables.told(typed(observe(LOST, 290, "a.voice.1h1.lost")))
    assert spans(lane_of(seen.signal(at()))) == [(100, 290), (500, 600)]


@pytest.mark.parametrize(
    ("change", "time_s", "found"),
    [
        (BACK, 310, BACK_2),
        (BACK, 219, "one.voice.1.back"),  # 119 s after it, 81 s before the next: the nearer
        (LOST, 500, "one.voice.2.lost"),
        (LOST, 930, ""),  # 130 s from the nearest
        (LOST, 920, "two.voice.1.lost"),
    ],
)
def test_an_observed_edge_takes_the_nearest_of_its_kind(
    change: Change, time_s: int, found: str
) -> None:
    if time_s == 219:
        found = BACK_2
    assert Tables(DAY).near("voice", change, time_s * S, EXPECTED) == found


def test_the_give_of_an_edges_event_widens_the_search() -> None:
    tables = Tables(DAY)
    assert tables.near("voice", BACK, -75 * S, EXPECTED) == "one.voice.1.back"  # 60 s and 2 min
    assert tables.near("voice", BACK, -81 * S, EXPECTED) == ""
    assert tables.near("data", BACK, 0, EXPECTED) == ""


def test_an_edge_already_observed_is_not_taken_again() -> None:
    tables = Tables(DAY)
    seen = tables.told(typed(observe(BACK, 290, BACK_2)))
    assert seen.near("voice", BACK, 295 * S, EXPECTED) == ""
    revised = tables.told(typed(Revise("back", 290 * S, None, BACK_2)))
    assert revised.near("voice", BACK, 295 * S, EXPECTED) == BACK_2


def test_an_edge_of_either_outcome_may_be_the_one_observed() -> None:
    two = plan(
        course("early", row("voice", "tarn", 100, 900), only_if="no-burn"),
        course("late", row("voice", "tarn", 300, 900), only_if="burned"),
        events=[event("burn", 0)],
        outcomes=[Outcome("burned", "burn", ""), Outcome("no-burn", "burn", "")],
    )
    tables = Tables(two)
    assert tables.near("voice", BACK, 130 * S, at()) == "early.voice.1.back"
    assert tables.near("voice", BACK, 280 * S, at()) == "late.voice.1.back"
    assert tables.near("voice", LOST, 890 * S, at()) in {"early.voice.1.lost", "late.voice.1.lost"}
    seen = tables.told(typed(observe(BACK, 310, "late.voice.1.back")))
    # The clock never decides, and neither does the board: a source has to name the outcome.
    assert contact_rows(lane_of(seen.signal(at())).contacts) == [
        (100, 900, "tarn", "no-burn"),
        (310, 910, "tarn", "burned"),
    ]


def test_a_lane_shut_by_the_ground_is_closed_and_loses_nothing() -> None:
    tables = Tables(DAY)
    plain = lane_of(tables.signal(EXPECTED))
    shut = (Shut("voice", True, 350 * S), Shut("picture", True, 0), Shut("voice", False, 550 * S))
    closed = lane_of(tables.signal(EXPECTED, shut))
    assert (closed.contacts, closed.gaps, closed.edges) == (
        plain.contacts,
        plain.gaps,
        plain.edges,
    )
    assert stretch_rows(closed.stretches)[3:8] == [
        (300, 350, "contact", "tarn", ""),
        (350, 400, "closed", None, ""),
        (400, 500, "gap", None, "behind the Moon"),
        (500, 550, "closed", None, ""),
        (550, 600, "contact", "tarn", ""),
    ]


def test_a_lane_not_opened_again_stays_closed() -> None:
    closed = lane_of(Tables(DAY).signal(EXPECTED, [Shut("voice", True, 710 * S)]))
    assert stretch_rows(closed.stretches)[-3:] == [
        (700, 710, "contact", "kestrel", ""),
        (710, 800, "closed", None, ""),
        (800, None, "gap", None, "behind the Moon"),
    ]
