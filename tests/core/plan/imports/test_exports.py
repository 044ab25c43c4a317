from datetime import date

import icalendar
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.plan.circles import in_order
from core.plan.imports.calendar import read_calendar
from core.plan.imports.exports import plan_calendar, plan_csv
from core.plan.imports.model import EDITORIAL, Imported, Setting
from core.plan.imports.table import open_table, read_table
from core.plan.model import Event, Fact, Plan
from core.plan.planned import planned_times
from core.times.instants import rfc3339_to_ms
from tests.strategies import plans

AT_MS = rfc3339_to_ms("2031-05-14T19:46:00.250Z")
STAMP_MS = rfc3339_to_ms("2031-05-01T00:00:00Z")
BURN = Event("burn", "Burn", at_ms=AT_MS, give_ms=30_000, live=True, facts=(Fact("One engine."),))
PLAN = Plan("Petrel 4", ("America/Halifax",), elapsed_from="burn", events=(BURN,))

Told = tuple[str, int | None, int, bool]


def words(name: str) -> str:
    """A name for comparing. icalendar 7.3 takes a backslash and N for a line break as it writes,
    and drops a byte order mark before a text."""
    return " ".join(name.replace("\\N", " ").replace("\ufeff", "").split())


def told(plan: Plan, times_ms: dict[str, int]) -> list[Told]:
    """What must come back: name, instant, give, live."""
    return sorted(
        (words(event.name), times_ms[event.id], event.give_ms, event.live)
        for event in plan.events
        if event.id in times_ms
    )


def came_back(imported: Imported) -> list[Told]:
    return sorted((words(row.name), row.at_ms, row.give_ms, row.live) for row in imported.rows)


def test_a_table_has_the_instant_the_clock_and_the_elapsed_time() -> None:
    heading, row, last, _ = plan_csv(PLAN, {"burn": AT_MS}).split("\r\n")
    assert heading.startswith("Event,Time (UTC),Date there,Clock there,Since zero,Give,Live,Lane")
    assert row == (
        "Burn,2031-05-14T19:46:00.250Z,2031-05-14,16:46:00,00:00:00,30s,yes,,burn,One engine."
    )
    assert last == f'"{EDITORIAL}"'


def test_before_elapsed_time_begins_the_minus_is_one_that_a_spreadsheet_takes() -> None:
    early = Event("tanks", "Tanks full", at_ms=AT_MS - 3_600_000)
    plan = Plan("A", ("UTC",), elapsed_from="burn", events=(early, BURN))
    text = plan_csv(plan, {"tanks": AT_MS - 3_600_000, "burn": AT_MS})
    assert ",-01:00:00," in text
    assert text.isascii()


def test_what_has_no_time_is_in_the_table_all_the_same() -> None:
    plan = Plan("A", ("UTC",), events=(Event("back", "Signal back"), BURN))
    text = plan_csv(plan, {"burn": AT_MS})
    assert text.splitlines()[-2].startswith("Signal back,,,")
    table = open_table(text)
    imported = read_table(table, table.proposed, Setting("UTC"))
    assert [one.why for one in imported.not_read] == ["this row has no time"]


def test_what_is_under_embargo_stays_in_the_plan() -> None:
    facts = (Fact("Free."), Fact("Later.", after_confirmed=True), Fact("Then.", not_before_ms=1))
    plan = Plan("A", ("UTC",), events=(Event("x", "X", at_ms=AT_MS, facts=facts),))
    text = plan_csv(plan, {"x": AT_MS}) + plan_calendar(plan, {"x": AT_MS}, STAMP_MS).decode()
    assert text.count("Free.") == 2
    assert "Later." not in text
    assert "Then." not in text


def test_a_name_that_a_spreadsheet_would_take_for_a_formula_is_guarded() -> None:
    plan = Plan("A", ("UTC",), events=(Event("x", "=1+1", at_ms=AT_MS),))
    text = plan_csv(plan, {"x": AT_MS})
    assert "\n'=1+1," in text
    table = open_table(text)
    assert read_table(table, table.proposed, Setting("UTC")).rows[0].name == "=1+1"


def test_a_calendar_is_one_that_others_read_and_says_what_it_is_for() -> None:
    calendar = icalendar.Calendar.from_ical(plan_calendar(PLAN, {"burn": AT_MS}, STAMP_MS))
    (entry,) = calendar.walk("VEVENT")
    assert (str(entry["SUMMARY"]), entry.decoded("DTSTART").isoformat()) == (
        "Burn",
        "2031-05-14T19:46:00+00:00",
    )
    assert calendar["X-WR-CALDESC"] == EDITORIAL


@settings(max_examples=25, deadline=None)
@given(plans())
def test_a_table_read_again_gives_the_same_events(plan: Plan) -> None:
    times_ms = dict(planned_times(plan, in_order(plan)))
    table = open_table(plan_csv(plan, times_ms))
    imported = read_table(table, table.proposed, Setting(plan.zones[0]))
    assert came_back(imported) == told(plan, times_ms)
    assert len(imported.not_read) == len(plan.events) - len(times_ms)


@settings(max_examples=25, deadline=None)
@given(plans())
def test_a_calendar_read_again_gives_the_same_events(plan: Plan) -> None:
    assume(all(words(event.name) for event in plan.events))
    times_ms = dict(planned_times(plan, in_order(plan)))
    text = plan_calendar(plan, times_ms, STAMP_MS).decode()
    imported = read_calendar(text, Setting(plan.zones[0], date(2031, 5, 1)))
    assert came_back(imported) == told(plan, times_ms)
    assert not imported.not_read


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.text(st.characters(exclude_categories=("Cc", "Cs")), min_size=1, max_size=120),
            st.integers(
                rfc3339_to_ms("1950-01-01T00:00:00Z"), rfc3339_to_ms("2150-01-01T00:00:00Z")
            ),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_any_name_and_any_instant_survive_both_ways(drawn: list[tuple[str, int]]) -> None:
    events = tuple(
        Event(f"e{at}", name, at_ms=at_ms)
        for at, (name, at_ms) in enumerate(drawn)
        if words(name).strip("'")
    )
    plan = Plan("A", ("America/Halifax",), events=events)
    times_ms = {event.id: event.at_ms or 0 for event in events}
    table = open_table(plan_csv(plan, times_ms))
    rows = read_table(table, table.proposed, Setting("UTC"))
    assert came_back(rows) == told(plan, times_ms)
    calendar = read_calendar(plan_calendar(plan, times_ms, STAMP_MS).decode(), Setting("UTC"))
    assert came_back(calendar) == told(plan, times_ms)
