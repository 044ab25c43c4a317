import pytest

from core.plan.model import Bound, Change, Course, CourseKind, EdgeRef, Event, Outcome, Plan, Tie
from core.signal.tables import Tables
from tests.core.signal.days import (
    S,
    at,
    blackout,
    course,
    event,
    ground,
    plan,
    row,
)

BACK, LOST = Change.BACK, Change.LOST


def series(first_s: int, times: int, period_s: int = 7200) -> Plan:
    """Contacts of ten minutes, one each period, that move with an insertion planned for 6 h."""
    rows = [
        row("voice", "tarn", 21600 + first_s + n * period_s, 21600 + first_s + n * period_s + 600)
        for n in range(times)
    ]
    return plan(course("passes", *rows, follows="insert"), events=[event("insert", 21600)])


def test_a_later_anchor_can_bring_an_earlier_contact() -> None:
    tables = Tables(series(600, 4))
    ref = EdgeRef("voice", BACK, after="ready")

    def talk_s(insert_s: int) -> int | None:
        found = tables.find(ref, "talk", 29460 * S, at(insert=insert_s))
        return None if found is None else found.time_ms // S

    assert talk_s(21600) == 36600
    assert talk_s(21720) == 29520  # 2 min later, and the contact before it now comes after 'ready'
    assert talk_s(21480) == 36480


@pytest.mark.parametrize("insert_s", [21600, 21750, 21540, 21560])
def test_a_table_moves_rigidly_with_the_event_it_follows(insert_s: int) -> None:
    tables = Tables(series(7020, 3))
    late_s = insert_s - 21600
    for nth in (1, 2, 3):
        found = tables.find(EdgeRef("voice", BACK, nth=nth), "x", None, at(insert=insert_s))
        assert found is not None
        assert found.time_ms == (28620 + 7200 * (nth - 1) + late_s) * S
        assert found.edge == f"passes.voice.{nth}.back"


@pytest.mark.parametrize(
    ("ref", "from_s", "found_s"),
    [
        (EdgeRef("voice", BACK, after="x"), 100, 100),  # at or after
        (EdgeRef("voice", BACK, after="x"), 101, 300),
        (EdgeRef("voice", BACK, after="x", nth=2), 100, 300),
        (EdgeRef("voice", BACK, after="x", nth=3), 100, None),
        (EdgeRef("voice", LOST, before="x"), 200, 200),  # at or before
        (EdgeRef("voice", LOST, before="x"), 199, None),
        (EdgeRef("voice", LOST, before="x", nth=2), 500, 200),
        (EdgeRef("voice", LOST, nth=2), None, 400),
        (EdgeRef("voice", LOST, nth=3), None, None),
        (EdgeRef("voice", LOST, after="x"), None, None),  # 'x' has no time
        (EdgeRef("voice", LOST, row="one.voice.2.lost"), None, 400),
        (EdgeRef("voice", LOST, row="one.voice.3.lost"), None, None),
        (EdgeRef("data", LOST, after="x"), 0, None),
    ],
)
def test_an_edge_is_counted_away_from_its_instant(
    ref: EdgeRef, from_s: int | None, found_s: int | None
) -> None:
    tables = Tables(
        plan(course("one", row("voice", "tarn", 100, 200), row("voice", "tarn", 300, 400)))
    )
    from_ms = None if from_s is None else from_s * S
    found = tables.find(ref, "e", from_ms, at())
    assert (None if found is None else found.time_ms // S) == found_s


def test_an_edge_is_looked_up_in_the_world_of_its_event() -> None:
    tables = Tables(
        plan(
            course("early", row("voice", "tarn", 100, 900), only_if="no-burn"),
            course("late", row("voice", "tarn", 200, 800), only_if="burned"),
            events=[
                event("ignition", 50),
                Event("plain", "plain"),
                Event("return", "return", only_if="burned"),
                Event("words", "words", ties=(Tie("return-none", 0, 0, None),)),
                Event("return-none", "return-none", only_if="no-burn"),
            ],
            outcomes=[Outcome("burned", "ignition", ""), Outcome("no-burn", "ignition", "")],
        )
    )
    ref = EdgeRef("voice", BACK, after="ignition")

    def edge(name: str) -> str:
        found = tables.find(ref, name, 50 * S, at(ignition=50))
        return "" if found is None else found.edge

    assert edge("return") == "late.voice.1.back"
    assert edge("return-none") == "early.voice.1.back"
    assert edge("words") == "early.voice.1.back"  # inherited through its tie
    assert edge("plain") == "late.voice.1.back"  # on none: the outcome named first is taken


def test_what_an_edge_needs_is_all_that_its_lane_follows() -> None:
    tables = Tables(
        plan(
            course("one", row("voice", "tarn", 0, 9), follows="closest"),
            course("two", row("picture", "tarn", 0, 9), follows="school"),
            course("three", row("voice", "tarn", 20, 29), follows="closest"),
            blackouts=[blackout("entry", 5, 6, "plasma")],
        )
    )
    assert tables.needs(EdgeRef("voice", BACK, after="x")) == ("closest", "entry")
    assert tables.needs(EdgeRef("picture", BACK)) == ("school",)
    assert tables.needs(EdgeRef("data", BACK)) == ()


def test_the_planned_time_of_a_followed_event_comes_through_ties_and_edges() -> None:
    told = plan(
        course("first", row("voice", "tarn", 100, 200)),
        course("second", row("picture", "tarn", 500, 600), follows="talk"),
        events=[
            event("back", edge=EdgeRef("voice", BACK, nth=1)),
            Event("talk", "talk", ties=(Tie("back", 60 * S, 0, None),)),
        ],
    )
    tables = Tables(told)
    assert tables.printed("talk") == 160 * S
    ref = EdgeRef("picture", BACK, nth=1)
    found = tables.find(ref, "x", None, at(talk=170))
    assert found is not None
    assert found.time_ms == 510 * S
    moved = tables.printed_for(at(talk=150)).find(ref, "x", None, at(talk=170))
    assert moved is not None
    assert moved.time_ms == 520 * S


def test_a_planned_time_in_a_circle_is_none() -> None:
    circle = plan(
        course("one", row("voice", "tarn", 100, 200), follows="back"),
        events=[
            event("back", edge=EdgeRef("voice", BACK, nth=1)),
            Event("a", "a", ties=(Tie("b", 0, 0, None),)),
            Event("b", "b", ties=(Tie("a", 0, 0, None),)),
        ],
    )
    tables = Tables(circle)
    assert tables.printed("back") is None
    assert tables.printed("a") is None
    assert tables.find(EdgeRef("voice", BACK, nth=1), "x", None, at(back=100)) is None


def test_a_course_ends_where_it_says() -> None:
    bounded = Course(
        "one",
        CourseKind.PASSES,
        rows=(row("voice", "tarn", 0, 100), row("voice", "tarn", 200, 300)),
        begins=Bound(at_ms=10 * S),
        ends=Bound(event="ignition"),
    )
    tables = Tables(plan(bounded, grounds=[ground("tarn")]))
    (voice, *_) = tables.signal(at(ignition=90))
    assert [(c.from_ms, c.to_ms) for c in voice.contacts] == [(10 * S, 90 * S)]
    assert tables.needs(EdgeRef("voice", BACK)) == ("ignition",)
