"""A computed arrival in small: the burn's return moves with it, the other stays, names stay."""

from dataclasses import replace

import pytest

from core.entries.model import Observe, Shift
from core.plan.model import Blackout, Change, EdgeRef, Event, Ground, Outcome, Plan
from core.signal.automatic import automatic_events
from core.signal.model import LaneSignal
from core.signal.tables import Tables
from tests.core.signal.days import (
    S,
    at,
    contact_rows,
    edge_rows,
    gap_rows,
    lane_of,
    plan,
    stretch_rows,
    typed,
)
from tests.core.signal.skies import ArrivalSky, arrival_course

PLANNED = at(ignition=1900)
AFTER = EdgeRef("voice", Change.BACK, after="ignition")


@pytest.fixture
def arrival() -> Plan:
    return plan(
        arrival_course(),
        events=[
            Event("ignition", "ignition", at_ms=1900 * S),
            Event("back", "back", edge=AFTER, only_if="burned"),
            Event("back-without", "back, if no burn", edge=AFTER, only_if="no-burn"),
        ],
        outcomes=[
            Outcome("burned", "ignition", "after the burn"),
            Outcome("no-burn", "ignition", "if no burn"),
        ],
        grounds=[
            Ground("tarn", "Tarn", ("voice",), latitude_deg=1.0, longitude_deg=2.0),
            Ground("kestrel", "Kestrel", ("voice",), latitude_deg=3.0, longitude_deg=4.0),
        ],
        auto_edges=("voice",),
    )


def voice_of(arrival: Plan, ignition_s: int = 1900) -> LaneSignal:
    return lane_of(Tables(arrival, ArrivalSky()).signal(at(ignition=ignition_s)))


def test_the_whole_list_is_exactly_this(arrival: Plan) -> None:
    voice = voice_of(arrival)
    assert contact_rows(voice.contacts) == [
        (100, 900, "tarn", None),
        (900, 1700, "kestrel", None),
        (2300, 4000, "tarn", "no-burn"),
        (2900, 4500, "tarn", "burned"),
    ]
    assert edge_rows(voice.edges) == [
        (1700, "arrival.voice.kestrel1.lost", "kestrel", "behind the Moon", None),
        (2300, "arrival.voice.no-burn.tarn2.back", "tarn", "behind the Moon", "no-burn"),
        (2900, "arrival.voice.burned.tarn2.back", "tarn", "behind the Moon", "burned"),
        (4000, "arrival.voice.no-burn.tarn2.lost", "tarn", "behind the Moon", "no-burn"),
        (4500, "arrival.voice.burned.tarn2.lost", "tarn", "behind the Moon", "burned"),
    ]
    assert [edge.give_ms for edge in voice.edges] == [5 * S, 9 * S, 9 * S, 9 * S, 9 * S]


def test_what_no_course_says_is_neither_loss_nor_return(arrival: Plan) -> None:
    voice = voice_of(arrival)
    assert gap_rows(voice.gaps)[0] == (None, 100, "not computed", None)
    assert gap_rows(voice.gaps)[-1] == (90_000, None, "not computed", None)
    assert all(edge.time_ms not in (100 * S, 90_000 * S) for edge in voice.edges)


def test_between_the_two_returns_it_is_either(arrival: Plan) -> None:
    assert (2300, 2900, "either", None, "behind the Moon") in stretch_rows(
        voice_of(arrival).stretches
    )


def test_a_later_burn_moves_its_own_return_alone(arrival: Plan) -> None:
    late = {edge.id: edge.time_ms // S for edge in voice_of(arrival, 1990).edges}
    assert late == {
        "arrival.voice.kestrel1.lost": 1700,
        "arrival.voice.no-burn.tarn2.back": 2300,
        "arrival.voice.burned.tarn2.back": 2990,
        "arrival.voice.no-burn.tarn2.lost": 4000,
        "arrival.voice.burned.tarn2.lost": 4590,
    }


def test_a_contact_keeps_its_name_however_late_the_burn(arrival: Plan) -> None:
    for late_s in (5000, 30_000):
        names = {edge.id: edge.time_ms // S for edge in voice_of(arrival, 1900 + late_s).edges}
        assert names["arrival.voice.burned.tarn2.back"] == 2900 + late_s


def test_an_event_on_the_return_waits_for_the_one_of_its_outcome(arrival: Plan) -> None:
    tables, expected = Tables(arrival, ArrivalSky()), at(ignition=1990)
    burned = tables.find(AFTER, "back", 1990 * S, expected)
    without = tables.find(AFTER, "back-without", 1990 * S, expected)
    assert burned is not None
    assert without is not None
    assert (burned.time_ms, burned.give_ms) == (2990 * S, 9 * S)
    assert without.time_ms == 2300 * S
    assert tables.needs(AFTER) == ("ignition",)


def test_every_edge_is_an_event_by_itself_under_its_own_outcome(arrival: Plan) -> None:
    events = automatic_events(arrival, ArrivalSky())
    assert [(event.id, event.only_if) for event in events if "kestrel1" not in event.id] == [
        ("arrival.voice.tarn1.back", None),
        ("arrival.voice.burned.tarn2.back", "burned"),
        ("arrival.voice.burned.tarn2.lost", "burned"),
        ("arrival.voice.no-burn.tarn2.back", "no-burn"),
        ("arrival.voice.no-burn.tarn2.lost", "no-burn"),
    ]


LOST_LATE = Observe("voice", Change.LOST, 1712 * S, edge="arrival.voice.kestrel1.lost")


def test_an_observed_loss_moves_no_computed_return_and_is_shown_beside_it(arrival: Plan) -> None:
    voice = lane_of(Tables(arrival, ArrivalSky()).told(typed(LOST_LATE)).signal(PLANNED))
    edges = {edge.id: edge for edge in voice.edges}
    lost = edges["arrival.voice.kestrel1.lost"]
    assert (lost.time_ms, lost.table_ms, lost.observed) == (1712 * S, 1700 * S, True)
    assert edges["arrival.voice.burned.tarn2.back"].time_ms == 2900 * S


def test_with_shift_it_moves_them_all(arrival: Plan) -> None:
    shifted = Observe("voice", Change.LOST, 1712 * S, Shift.SHIFT, LOST_LATE.edge)
    told = Tables(arrival, ArrivalSky()).told(typed(shifted))
    edges = {edge.id: edge.time_ms // S for edge in lane_of(told.signal(at(ignition=1990))).edges}
    assert edges["arrival.voice.burned.tarn2.back"] == 3002
    assert edges["arrival.voice.no-burn.tarn2.back"] == 2312


def test_without_the_time_of_its_burn_a_course_says_nothing(arrival: Plan) -> None:
    voice = lane_of(Tables(arrival, ArrivalSky()).signal(at(ignition=None)))
    assert voice.edges == ()
    assert gap_rows(voice.gaps) == [(None, None, "not computed", None)]


def test_a_state_seen_before_is_not_worked_out_again(arrival: Plan) -> None:
    tables = Tables(arrival, ArrivalSky())
    first, late = tables.signal(PLANNED), tables.signal(at(ignition=1990))
    assert tables.signal(PLANNED) == first
    assert tables.signal(PLANNED)[0] is first[0]
    assert tables.signal(at(ignition=1990))[0] is late[0]


def test_a_blackout_after_something_out_there_is_heard_a_lights_way_later(arrival: Plan) -> None:
    entry = Event("entry", "entry", at_ms=3000 * S, at_craft=True)
    dark = Blackout("entry", 100 * S, 200 * S, ("voice",), "plasma")
    landing = replace(arrival, events=(*arrival.events, entry), blackouts=(dark,))
    sky = ArrivalSky(distance_km=299_792.458 * 60)
    voice = lane_of(Tables(landing, sky).signal(at(ignition=1900, entry=3000)))
    plasma = [(gap.from_ms, gap.to_ms) for gap in voice.gaps if gap.cause == "plasma"]
    assert plasma == [(3160 * S, 3260 * S)]


def test_how_far_it_is_comes_from_the_branch_that_is_flown(arrival: Plan) -> None:
    light = Tables(arrival, ArrivalSky()).light(PLANNED, 1000 * S)
    assert light is not None
    assert light.way_ms == 1301
    assert Tables(arrival, ArrivalSky()).light(at(ignition=None), 1000 * S) is None
    assert Tables(arrival).light(PLANNED, 1000 * S) is None
