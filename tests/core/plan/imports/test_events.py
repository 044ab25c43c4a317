from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.plan.imports.events import Made, events_of, slug
from core.plan.imports.model import Row
from core.plan.model import Event, Ground, Lane, Plan, Tie
from core.plan.reader import read_plan_text
from core.plan.writer import write_plan
from core.times.instants import rfc3339_to_ms

LIFTOFF_MS = rfc3339_to_ms("2031-05-11T16:28:32Z")
LIFTOFF = Event("liftoff", "Liftoff", at_ms=LIFTOFF_MS)
PLAN = Plan(
    "Petrel 4",
    ("America/Halifax",),
    elapsed_from="liftoff",
    events=(LIFTOFF, Event("ignition", "Ignition", ties=(Tie("liftoff", 60_000, 0, None),))),
    grounds=(Ground("tarn", "Tarn Hill", ("voice",)),),
    lanes=(Lane("voice", "VOICE"),),
)
EMPTY = Plan("New", ("UTC",))


def row(name: str, at_ms: int | None = LIFTOFF_MS + 1_000_000, **more: object) -> Row:
    values: dict[str, object] = {"line": 1, "text": name, "name": name, "at_ms": at_ms}
    return Row(**(values | more))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("Insertion burn, ignition", "insertion-burn-ignition"),
        ("First picture!", "first-picture"),
        ("Éclipse über Ærø", "eclipse-uber-ærø"),
        (
            "The very first of all the live pictures from the far side",
            "the-very-first-of-all-the-live-pictures",
        ),
        ("x" * 90, "x" * 40),
        ("***", "event"),
        ("Hold", "hold-event"),
        ("Voice", "voice-event"),
        ("Liftoff", "liftoff-2"),
    ],
)
def test_ids_are_made_of_names_as_one_would_type_them(name: str, identity: str) -> None:
    made = events_of([row(name)], PLAN)
    (event,) = (*made.events, *(same.event for same in made.same))
    assert event.id == identity


def test_ids_are_counted_on_and_stay_the_same_for_the_same_rows() -> None:
    rows = [row("Sleep", LIFTOFF_MS + at * 86_400_000) for at in range(1, 4)]
    ids = [event.id for event in events_of(rows, PLAN).events]
    assert ids == ["sleep", "sleep-2", "sleep-3"]
    assert ids == [event.id for event in events_of(rows, PLAN).events]


def test_a_row_carries_its_give_live_lane_and_notes() -> None:
    (event,) = events_of(
        [row("A", give_ms=30_000, live=True, lane="voice", note="At Tarn Hill", length_ms=90_000)],
        PLAN,
    ).events
    assert (event.give_ms, event.live, event.live_with) == (30_000, True, "voice")
    assert [fact.text for fact in event.facts] == ["At Tarn Hill", "It lasts 1m 30s."]


def test_a_lane_that_the_plan_does_not_have_is_kept_in_words() -> None:
    (event,) = events_of([row("A", live=True, lane="telemetry")], PLAN).events
    assert event.live_with is None
    assert event.facts[0].text == "Signal: telemetry."


def test_elapsed_times_are_tied_to_what_the_plan_counts_from() -> None:
    rows = [row("A", None, elapsed_ms=90_000), row("B", None, elapsed_ms=-600_000)]
    made = events_of(rows, PLAN)
    assert [event.ties for event in made.events] == [
        (Tie("liftoff", 90_000, 0, None),),
        (Tie("liftoff", -600_000, None, 0),),
    ]
    assert made.zero == "liftoff"


def test_a_liftoff_among_the_rows_is_counted_from_where_the_plan_says_nothing() -> None:
    rows = [row("A", None, elapsed_ms=90_000), row("Lift-off", LIFTOFF_MS)]
    made = events_of(rows, EMPTY)
    assert made.zero == "lift-off"
    assert made.events[0].ties[0].event == "lift-off"


def test_elapsed_times_that_count_from_nothing_are_not_taken() -> None:
    made = events_of([row("A", None, elapsed_ms=90_000)], EMPTY)
    assert not made.events
    assert made.not_taken[0].why == "nothing says what this time counts from"
    chosen = events_of([row("A", None, elapsed_ms=90_000)], PLAN, "ignition")
    assert chosen.events[0].ties[0].event == "ignition"


def test_what_stands_already_is_named_and_never_doubled() -> None:
    rows = [
        row("LIFT OFF!", LIFTOFF_MS),
        row("Liftoff", LIFTOFF_MS + 400),
        row("Ignition", LIFTOFF_MS + 90_000),
        row("Liftoff", None, elapsed_ms=0),
        row("New", LIFTOFF_MS + 5_000_000),
        row("new", LIFTOFF_MS + 5_000_000),
    ]
    made = events_of(rows, PLAN)
    assert [event.id for event in made.events] == ["lift-off", "new-event"]
    assert [(same.row.name, same.stands, same.why) for same in made.same] == [
        ("Liftoff", "liftoff", "at the same time"),
        ("Ignition", "ignition", "at another time"),
        ("Liftoff", "liftoff", "elapsed times count from it"),
        ("new", "new-event", "at the same time"),
    ]


def test_a_row_that_lasts_may_make_an_event_for_its_end() -> None:
    made = events_of([row("Burn", length_ms=374_000)], PLAN, ends=True)
    assert [(event.id, event.name) for event in made.events] == [
        ("burn", "Burn"),
        ("burn-end", "Burn, end"),
    ]
    assert [row.name for row in made.rows] == ["Burn", "Burn"]
    assert made.events[1].ties == (Tie("burn", 374_000, 374_000, 374_000),)


def test_years_that_no_plan_holds_are_not_taken() -> None:
    made = events_of([row("A", rfc3339_to_ms("2999-01-01T00:00:00Z"))], PLAN)
    assert made.not_taken[0].hint == "Check the year"


_NAMES = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1)
_ROWS = st.lists(
    st.builds(
        lambda name, at_ms, elapsed_ms, give_ms, live, length_ms: row(
            name.strip() or "x",
            at_ms,
            elapsed_ms=elapsed_ms if at_ms is None else None,
            give_ms=give_ms,
            live=live,
            lane="voice",
            length_ms=length_ms,
        ),
        _NAMES | st.sampled_from(["Sleep", "Hold", "Ignition", "Liftoff"]),
        st.none() | st.integers(LIFTOFF_MS - 10**9, LIFTOFF_MS + 10**9),
        st.integers(-(10**9), 10**9),
        st.integers(0, 10**7),
        st.booleans(),
        st.none() | st.integers(0, 10**7),
    ),
    max_size=8,
)


@settings(max_examples=80, deadline=None)
@given(_ROWS, st.booleans())
def test_what_is_made_is_a_plan_that_reads_back_and_no_row_is_lost(
    rows: list[Row], ends: bool
) -> None:
    made = events_of(rows, PLAN, ends=ends)
    assert _rows_of(made, ends) == len(rows)
    whole = Plan(
        PLAN.title,
        PLAN.zones,
        elapsed_from=PLAN.elapsed_from,
        events=(*PLAN.events, *made.events),
        grounds=PLAN.grounds,
        lanes=PLAN.lanes,
    )
    assert read_plan_text(write_plan(whole), "plan.toml", Path()).events == whole.events


def _rows_of(made: Made, ends: bool) -> int:
    own = [one for one in made.events if not (ends and one.name.endswith(", end"))]
    return len(own) + len(made.same) + len(made.not_taken)


def test_the_same_name_thousands_of_times_is_no_trouble() -> None:
    rows = [row("Sleep", LIFTOFF_MS + at * 5_000) for at in range(5_000)]
    assert events_of(rows, PLAN).events[-1].id == "sleep-5000"


def test_an_id_never_ends_in_a_broken_word() -> None:
    assert (
        slug("Acquisition of signal through Kestrel Point")
        == "acquisition-of-signal-through-kestrel"
    )
