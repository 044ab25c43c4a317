"""Plans changed in their files: what did not change stays as it was, comments and all."""

from dataclasses import replace
from difflib import ndiff
from pathlib import Path

from hypothesis import given

from core.plan.model import Event, Junction, Lane, Plan, Tie
from core.plan.reader import read_plan_text
from core.plan.rewriter import update_plan
from core.plan.writer import write_plan
from tests.strategies import plans

SAMPLES = Path(__file__).parents[3] / "sample_plans"
ARRIVAL = (SAMPLES / "petrel-arrival.toml").read_text(encoding="utf-8")
MINUTE_MS = 60_000


def _plan() -> Plan:
    return read_plan_text(ARRIVAL, "p", SAMPLES)


def _changed(new: Plan, text: str = ARRIVAL) -> list[str]:
    """The lines that differ after the change, which is checked to read as the new plan."""
    after = update_plan(text, new)
    assert read_plan_text(after, "p", SAMPLES) == new
    return [
        line.rstrip()
        for line in ndiff(text.splitlines(), after.splitlines())
        if line[0] in "+-" and line[2:].strip()
    ]


def _with(plan: Plan, name: str, **changes: object) -> Plan:
    events = tuple(
        replace(event, **changes) if event.id == name else event  # type: ignore[arg-type]
        for event in plan.events
    )
    return replace(plan, events=events)


def test_nothing_changed_leaves_the_text_alone() -> None:
    assert update_plan(ARRIVAL, _plan()) == ARRIVAL


def test_a_changed_value_keeps_the_comment_behind_it() -> None:
    comment = (
        "                          # their choice: they send it when they have one worth sending"
    )
    assert _changed(_with(_plan(), "photo", give_ms=3 * MINUTE_MS)) == [
        f'- give = "2m"{comment}',
        f'+ give = "3m"{comment}',
    ]


def test_keys_are_added_at_the_end_of_their_table_and_taken_out_with_their_line() -> None:
    new = _with(_plan(), "checks", live=True, guard_ms=5_000, give_ms=0)
    assert sorted(_changed(new)) == ['+ guard = "5s"', "+ live = true", '- give = "60s"']


def test_an_event_is_added_behind_the_one_before_it_and_another_taken_out() -> None:
    plan = _plan()
    extra = Event("meal", "A meal", ties=(Tie("checks", MINUTE_MS, 0, None),))
    at = next(at for at, event in enumerate(plan.events) if event.id == "checks") + 1
    events = [*plan.events[:at], extra, *plan.events[at:]]
    new = replace(plan, events=tuple(event for event in events if event.id != "cabin-tour"))
    assert sorted(_changed(new)) == sorted(
        [
            "- [[event]]",
            '- id = "cabin-tour"',
            '- name = "A walk round the cabin, on camera"',
            "- at = 2031-05-12T19:30:00",
            "- happened = 2031-05-12T19:31:30",
            "+ [[event]]",
            '+ id = "meal"',
            '+ name = "A meal"',
            '+ after = "checks"',
            '+ offset = "1m"',
        ]
    )


def test_a_tie_in_a_table_of_its_own_becomes_one_beside_its_event() -> None:
    text = """limbwatch = 1
title = "x"
zones = ["UTC"]
[[event]]
id = "a"
at = 2031-05-12T19:30:00
[[event]]
id = "b"                             # the second
after = { event = "a", offset = "1m" }"""
    plan = read_plan_text(text, "p", Path())
    after = update_plan(text, _with(plan, "b", ties=(Tie("a", 2 * MINUTE_MS, 0, None),)))
    assert after.splitlines()[7:] == [
        'id = "b"                             # the second',
        'after = "a"',
        'offset = "2m"',
    ]


def test_everything_but_events_is_changed_in_place_too() -> None:
    plan = _plan()
    assert plan.air is not None
    lanes = tuple(
        replace(lane, delay_ms=1_000) if lane.id == "data" else lane for lane in plan.lanes
    )
    new = replace(
        plan,
        subtitle="another arrival",
        lanes=lanes,
        air=replace(plan.air, item_gap_ms=30_000),
        junctions=(*plan.junctions, Junction(plan.junctions[0].at_ms, "More join")),
        light_time=False,
    )
    assert _changed(new) == [
        '- subtitle = "arrival at the Moon"',
        '+ subtitle = "another arrival"',
        '- delay = "2s"',
        '+ delay = "1s"',
        '- item_gap = "20s"',
        '+ item_gap = "30s"',
        "+ [[junction]]",
        "+ at = 2031-05-14T17:00:00",
        '+ name = "More join"',
        "+ [signal]",
        "+ light_time = false",
    ]


def test_windows_line_ends_stay() -> None:
    text = ARRIVAL.replace("\n", "\r\n")
    after = update_plan(text, _with(_plan(), "checks", live=True, say="checks"))
    assert "\n" not in after.replace("\r\n", "")


def test_a_change_that_cannot_be_made_in_place_makes_a_fresh_file() -> None:
    plan = _plan()
    turned = replace(plan, events=plan.events[::-1])
    assert update_plan(ARRIVAL, turned) == write_plan(turned)
    moved = replace(plan, zones=("UTC",))
    assert update_plan(ARRIVAL, moved) == write_plan(moved)


def test_a_lane_that_had_no_table_gets_one() -> None:
    text = ARRIVAL.replace('[lane.data]\nname = "DATA"\ndelay = "2s"\n', "")
    plan = read_plan_text(text, "p", SAMPLES)
    lanes = (*plan.lanes[:2], Lane("data", "DATA", 3_000))
    after = update_plan(text, replace(plan, lanes=lanes))
    assert read_plan_text(after, "p", SAMPLES).lanes == lanes
    assert after.startswith(text)


@given(plans(), plans())
def test_any_plan_can_become_any_other(old: Plan, new: Plan) -> None:
    assert read_plan_text(update_plan(write_plan(old), new), "p", Path()) == new
