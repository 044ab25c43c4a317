"""An arrival in small: stations overlap, one contact is blacked out, two returns are possible."""

import pytest

from core.entries.model import Choose, Entry, Undecide
from core.plan.model import Change, EdgeRef, Outcome, Plan
from core.signal.model import HandOver, Total
from core.signal.tables import Tables
from tests.core.signal.days import (
    S,
    at,
    blackout,
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

EXPECTED = at(closest=2000, ignition=1900, turn=1000)


@pytest.fixture
def arrival() -> Plan:
    return plan(
        course(
            "approach",
            row("voice", "tarn", 100, 900),
            row("voice", "kestrel", 800, 1700),  # overlaps Tarn Hill by 100 s
            follows="closest",
        ),
        course(
            "swing-by",
            row("voice", "tarn", 2300, 4000),
            follows="closest",
            only_if="no-burn",
        ),
        course(
            "orbit",
            row("voice", "tarn", 1000, 2000),
            row("voice", "kestrel", 2000, 2600),
            follows="ignition",
            only_if="burned",
            times="offset",
        ),
        events=[event("closest", 2000), event("ignition", 1900), event("turn", 1000)],
        outcomes=[
            Outcome("burned", "ignition", "after the burn"),
            Outcome("no-burn", "ignition", "if no burn"),
        ],
        grounds=[ground("tarn"), ground("kestrel")],
        blackouts=[blackout("turn", 200, 300, "antenna turned away")],
    )


def test_the_whole_list_is_exactly_this(arrival: Plan) -> None:
    voice = lane_of(Tables(arrival).signal(EXPECTED))
    assert contact_rows(voice.contacts) == [
        (100, 900, "tarn", None),
        (900, 1200, "kestrel", None),
        (1300, 1700, "kestrel", None),
        (2300, 4000, "tarn", "no-burn"),
        (2900, 3900, "tarn", "burned"),
        (3900, 4500, "kestrel", "burned"),
    ]
    assert gap_rows(voice.gaps) == [
        (None, 100, "behind the Moon", None),
        (1200, 1300, "antenna turned away", None),
        (1700, 2300, "behind the Moon", "no-burn"),
        (1700, 2900, "behind the Moon", "burned"),
        (4000, None, "behind the Moon", "no-burn"),
        (4500, None, "behind the Moon", "burned"),
    ]
    assert edge_rows(voice.edges) == [
        (100, "approach.voice.1.back", "tarn", "behind the Moon", None),
        (1200, "turn.voice.blackout1.lost", "kestrel", "antenna turned away", None),
        (1300, "turn.voice.blackout1.back", "kestrel", "antenna turned away", None),
        (1700, "approach.voice.2.lost", "kestrel", "behind the Moon", None),
        (2300, "swing-by.voice.1.back", "tarn", "behind the Moon", "no-burn"),
        (2900, "orbit.voice.1.back", "tarn", "behind the Moon", "burned"),
        (4000, "swing-by.voice.1.lost", "tarn", "behind the Moon", "no-burn"),
        (4500, "orbit.voice.2.lost", "kestrel", "behind the Moon", "burned"),
    ]
    assert voice.hand_overs == (
        HandOver("voice", 900 * S, "tarn", "kestrel"),
        HandOver("voice", 3900 * S, "tarn", "kestrel", "burned"),
    )


def test_what_differs_between_the_returns_is_either(arrival: Plan) -> None:
    voice = lane_of(Tables(arrival).signal(EXPECTED))
    assert stretch_rows(voice.stretches) == [
        (None, 100, "gap", None, "behind the Moon"),
        (100, 900, "contact", "tarn", ""),
        (900, 1200, "contact", "kestrel", ""),
        (1200, 1300, "gap", None, "antenna turned away"),
        (1300, 1700, "contact", "kestrel", ""),
        (1700, 2300, "gap", None, "behind the Moon"),
        (2300, 2900, "either", None, "behind the Moon"),
        (2900, 3900, "contact", "tarn", ""),
        (3900, 4000, "contact", None, ""),  # through Kestrel Bay or Tarn Hill
        (4000, 4500, "either", None, "behind the Moon"),
        (4500, None, "gap", None, "behind the Moon"),
    ]


def test_a_late_burn_moves_its_own_return_alone(arrival: Plan) -> None:
    late = lane_of(Tables(arrival).signal(at(closest=2000, ignition=1990, turn=1000)))
    returns = {e.id: e.time_ms // S for e in late.edges if e.outcome is not None}
    assert returns == {
        "swing-by.voice.1.back": 2300,
        "orbit.voice.1.back": 2990,
        "swing-by.voice.1.lost": 4000,
        "orbit.voice.2.lost": 4590,
    }


def test_naming_an_outcome_makes_the_rest_plain_and_undeciding_opens_it_again(
    arrival: Plan,
) -> None:
    tables = Tables(arrival)
    burned = lane_of(tables.told(typed(Choose("burned"))).signal(EXPECTED))
    assert {c.outcome for c in burned.contacts} == {None}
    assert stretch_rows(burned.stretches)[5:] == [
        (1700, 2900, "gap", None, "behind the Moon"),
        (2900, 3900, "contact", "tarn", ""),
        (3900, 4500, "contact", "kestrel", ""),
        (4500, None, "gap", None, "behind the Moon"),
    ]
    again = tables.told(typed(Choose("burned"), Undecide("burned")))
    assert again.signal(EXPECTED) == tables.signal(EXPECTED)


def test_the_outcome_named_last_counts(arrival: Plan) -> None:
    told = Tables(arrival).told(typed(Choose("burned"), Choose("no-burn")))
    back = told.find(EdgeRef("voice", Change.BACK, after="closest"), "x", 2000 * S, EXPECTED)
    assert back is not None
    assert back.edge == "swing-by.voice.1.back"


@pytest.mark.parametrize(
    ("entries", "found"),
    [
        ((), [("burned", 1, 1200), ("no-burn", 1, 600)]),
        (typed(Choose("no-burn")), [(None, 1, 600)]),
    ],
)
def test_totals_are_told_for_each_outcome_that_is_open(
    arrival: Plan, entries: tuple[Entry, ...], found: list[tuple[str | None, int, int]]
) -> None:
    tables = Tables(arrival).told(entries)
    totals = tables.totals(tables.signal(EXPECTED)[:1], 1500 * S, 3950 * S)
    assert totals == tuple(
        Total("voice", outcome, gaps, out_s * S, out_s * S) for outcome, gaps, out_s in found
    )


def test_totals_that_agree_are_told_once(arrival: Plan) -> None:
    tables = Tables(arrival)
    assert tables.totals(tables.signal(EXPECTED)[:1], 0, 1500 * S) == (
        Total("voice", None, 2, 100 * S, 200 * S),
    )


def test_rows_of_an_event_without_a_time_are_not_there(arrival: Plan) -> None:
    voice = lane_of(Tables(arrival).signal(at(closest=2000, turn=None, ignition=None)))
    assert contact_rows(voice.contacts) == [
        (100, 900, "tarn", None),
        (900, 1700, "kestrel", None),
        (2300, 4000, "tarn", "no-burn"),
    ]
