"""Why there is no signal, who hands over to whom, and what the automatic edges are called."""

from core.plan.model import Change, Course, EdgeRef, Event, Outcome
from core.signal.automatic import automatic_events
from core.signal.cuts import NOT_BOOKED, Cut
from core.signal.model import Contact, Gap, HandOver
from core.signal.tables import Tables
from core.signal.tiles import Tile, tiled
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
)


def voice_of(*courses: Course, **times: int | None) -> tuple[tuple[Contact, ...], tuple[Gap, ...]]:
    lane = lane_of(Tables(plan(*courses)).signal(at(**times)))
    return lane.contacts, lane.gaps


def test_the_present_station_is_held_as_long_as_it_lasts() -> None:
    contacts, _ = voice_of(
        course(
            "a",
            row("voice", "tarn", 0, 100),
            row("voice", "kestrel", 40, 140),
            row("voice", "hollow", 50, 300),
            row("voice", "tarn", 99, 180),
        )
    )
    assert contact_rows(contacts) == [(0, 180, "tarn", None), (180, 300, "hollow", None)]


def test_stations_that_touch_within_a_second_hand_over_and_further_apart_lose_it() -> None:
    touching = plan(course("a", row("voice", "tarn", 0, 100), row("voice", "kestrel", 101, 140)))
    lane = lane_of(Tables(touching).signal(at()))
    assert lane.hand_overs == (HandOver("voice", 101 * S, "tarn", "kestrel"),)
    assert contact_rows(lane.contacts) == [(0, 101, "tarn", None), (101, 140, "kestrel", None)]
    apart = plan(course("a", row("voice", "tarn", 0, 100), row("voice", "kestrel", 102, 140)))
    lane = lane_of(Tables(apart).signal(at()))
    assert lane.hand_overs == ()
    assert gap_rows(lane.gaps)[1] == (100, 102, "behind the Moon", None)


def test_a_gap_has_the_cause_of_the_course_before_it_or_none_in_view() -> None:
    _, gaps = voice_of(
        course("a", row("voice", "tarn", 10, 20), row("voice", "tarn", 30, 40), gap=""),
        course("b", row("voice", "tarn", 60, 80), gap="behind the Moon"),
    )
    assert gap_rows(gaps) == [
        (None, 10, "no ground station in view", None),
        (20, 30, "no ground station in view", None),
        (40, 60, "no ground station in view", None),
        (80, None, "behind the Moon", None),
    ]


def test_a_gap_under_two_causes_is_two_gaps_that_meet() -> None:
    dark = plan(
        course("a", row("voice", "tarn", 0, 100), row("voice", "tarn", 200, 300)),
        blackouts=[
            blackout("entry", -5, 20, "plasma"),
            blackout("entry", 10, 115, "antenna turned away"),
        ],
    )
    lane = lane_of(Tables(dark).signal(at(entry=95)))
    assert gap_rows(lane.gaps)[1:-1] == [
        (90, 100, "plasma", None),
        (100, 200, "behind the Moon", None),
        (200, 210, "antenna turned away", None),
    ]
    assert [edge.id for edge in lane.edges] == [
        "a.voice.1.back",
        "entry.voice.blackout1.lost",
        "entry.voice.blackout2.back",
        "a.voice.2.lost",
    ]
    totals = Tables(dark).totals([lane], 0, 300 * S)
    assert [(t.gaps, t.longest_ms, t.out_ms) for t in totals] == [(1, 120 * S, 120 * S)]


def test_a_station_that_closes_hands_over_to_one_that_is_open() -> None:
    hours = plan(
        course("a", row("voice", "tarn", 0, 100), row("voice", "kestrel", 50, 120)),
        grounds=[ground("tarn", (10, 60)), ground("kestrel")],
    )
    lane = lane_of(Tables(hours).signal(at()))
    assert contact_rows(lane.contacts) == [(10, 60, "tarn", None), (60, 120, "kestrel", None)]
    assert [edge.id for edge in lane.edges] == ["a.voice.1h1.back", "a.voice.2.lost"]
    assert gap_rows(lane.gaps)[:2] == [
        (None, 0, "behind the Moon", None),
        (0, 10, "no ground station booked", None),
    ]


def test_a_cause_that_another_covers_until_the_signal_is_back_leaves_nothing_of_no_length() -> None:
    causes = [Cut(0, 50, "behind the Moon"), Cut(40, 80, NOT_BOOKED)]
    tiles = tiled([Tile(50, 100, contact=True, cause="behind the Moon")], causes)
    assert all(tile.from_ms < tile.to_ms for tile in tiles)
    assert NOT_BOOKED not in {tile.cause for tile in tiles}


def test_a_lane_without_a_row_is_one_gap() -> None:
    lane = lane_of(Tables(plan()).signal(at()))
    assert gap_rows(lane.gaps) == [(None, None, "no ground station in view", None)]
    assert lane.edges == ()


def test_rows_without_a_station_carry_but_hand_over_to_nobody() -> None:
    bare = plan(course("a", row("voice", None, 0, 100), row("voice", "tarn", 100, 140)))
    lane = lane_of(Tables(bare).signal(at()))
    assert contact_rows(lane.contacts) == [(0, 100, None, None), (100, 140, "tarn", None)]
    assert lane.hand_overs == ()


def test_outcomes_of_outcomes_take_their_label_from_the_innermost() -> None:
    nested = plan(
        course("swing", row("voice", "tarn", 100, 900), only_if="no-burn"),
        course("orbit", row("voice", "tarn", 200, 400), only_if="burned"),
        course("high", row("voice", "tarn", 500, 900), only_if="not-lowered"),
        course("low", row("voice", "tarn", 600, 900), follows="descent", only_if="lowered"),
        events=[event("ignition", 50), Event("descent", "descent", 450 * S, only_if="burned")],
        outcomes=[
            Outcome("burned", "ignition", ""),
            Outcome("no-burn", "ignition", ""),
            Outcome("lowered", "descent", ""),
            Outcome("not-lowered", "descent", ""),
        ],
    )
    tables = Tables(nested)
    lane = lane_of(tables.signal(at(descent=450)))
    assert contact_rows(lane.contacts) == [
        (100, 900, "tarn", "no-burn"),
        (200, 400, "tarn", "burned"),
        (500, 900, "tarn", "not-lowered"),
        (600, 900, "tarn", "lowered"),
    ]
    totals = tables.totals([lane], 100 * S, 900 * S)
    assert [(t.outcome, t.gaps, t.out_ms // S) for t in totals] == [
        ("no-burn", 0, 0),
        ("lowered", 2, 300),
        ("not-lowered", 2, 200),
    ]


def test_what_several_outcomes_share_is_told_for_each() -> None:
    three = plan(
        course("a", row("voice", "tarn", 100, 200), only_if="full"),
        course("b", row("voice", "tarn", 150, 200), only_if="short"),
        events=[event("burn", 50)],
        outcomes=[Outcome(name, "burn", "") for name in ("full", "short", "none")],
    )
    lane = lane_of(Tables(three).signal(at()))
    assert contact_rows(lane.contacts) == [
        (100, 200, "tarn", "full"),
        (150, 200, "tarn", "short"),
    ]
    assert gap_rows(lane.gaps) == [
        (None, 100, "behind the Moon", "full"),
        (None, 150, "behind the Moon", "short"),
        (None, None, "no ground station in view", "none"),
        (200, None, "behind the Moon", "full"),
        (200, None, "behind the Moon", "short"),
    ]


def test_many_events_with_outcomes_stay_quick_and_leave_no_contact_out() -> None:
    count = 12
    many = plan(
        *(
            course(
                f"c{n}-{way}",
                row("voice", "tarn", 100 * n + late, 100 * n + 50),
                only_if=f"{way}{n}",
            )
            for n in range(count)
            for way, late in (("y", 0), ("n", 20))
        ),
        events=[event(f"e{n}", 0) for n in range(count)],
        outcomes=[Outcome(f"{way}{n}", f"e{n}", "") for n in range(count) for way in "yn"],
    )
    lane = lane_of(Tables(many).signal(at()))
    assert contact_rows(lane.contacts) == [
        (100 * n + late, 100 * n + 50, "tarn", f"{way}{n}")
        for n in range(count)
        for way, late in (("y", 0), ("n", 20))
    ]


def test_automatic_edges_are_events_with_the_edges_own_ids() -> None:
    day = plan(
        course(
            "orbit",
            row("voice", "tarn", 100, 200),
            row("voice", "kestrel", 200, 300),  # a hand-over: none of its ends is an edge
            row("voice", "kestrel", 400, 500),
            row("picture", "tarn", 100, 200),
            follows="ignition",
            only_if="burned",
        ),
        events=[event("ignition", 50), event("entry", 60)],
        outcomes=[Outcome("burned", "ignition", ""), Outcome("no-burn", "ignition", "")],
        grounds=[ground("tarn"), ground("kestrel")],
        blackouts=[blackout("entry", 5, 9, "plasma")],
        auto_edges=("voice",),
    )
    events = automatic_events(day)
    assert [(e.id, e.name, e.only_if) for e in events] == [
        ("orbit.voice.1.back", "Voice back, Tarn", "burned"),
        ("orbit.voice.2.lost", "Voice lost, Kestrel", "burned"),
        ("orbit.voice.3.back", "Voice back, Kestrel", "burned"),
        ("orbit.voice.3.lost", "Voice lost, Kestrel", "burned"),
        ("entry.voice.blackout1.lost", "Voice lost, plasma", None),
        ("entry.voice.blackout1.back", "Voice back, after plasma", None),
    ]
    tables = Tables(day)
    expected = at(ignition=50, entry=420)
    for each in events:
        assert each.edge is not None
        found = tables.find(each.edge, each.id, None, expected)
        assert found is not None
        assert found.edge == each.id
    assert events[1].edge == EdgeRef("voice", Change.LOST, row="orbit.voice.2.lost")


def test_station_hours_give_automatic_edges_only_where_they_can_cut() -> None:
    day = plan(
        course("a", row("voice", "tarn", 100, 200), row("voice", "kestrel", 200, 300)),
        grounds=[ground("tarn", (0, 150), (800, 900)), ground("kestrel", (0, 900))],
        auto_edges=("voice",),
    )
    assert [e.id for e in automatic_events(day)] == [
        "a.voice.1.back",
        "a.voice.1h1.lost",
        "a.voice.1.lost",
        "a.voice.2.back",
        "a.voice.2.lost",
    ]
