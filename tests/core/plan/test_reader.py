"""What a good plan reads as, and that a bad one is told whole."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.entries.on_board import BOARD_WORDS
from core.entries.on_events import EVENT_WORDS
from core.errors import PlanProblems, Problem
from core.plan.checks import BAR_WORDS
from core.plan.model import (
    Bound,
    Change,
    EdgeRef,
    Event,
    GraveLine,
    Lane,
    Limit,
    Pass,
    Plan,
    Tie,
    Usage,
    Window,
)
from core.plan.reader import read_plan, read_plan_text, read_plan_with_warnings
from core.plan.writer import write_plan
from core.times.instants import rfc3339_to_ms
from tests.strategies import plans

ROOT = Path(__file__).parents[3]
MINUTE_MS = 60_000

GOOD = """
limbwatch = 1
title = "Petrel 4"
zones = ["America/Halifax"]
elapsed_from = "liftoff"
[[event]]
id = "liftoff"
at = 2031-05-11T13:28:32
happened = 2031-05-11T16:28:32.4004Z
[[event]]
id = "ignition"
name = "Insertion burn"
after = "liftoff"
offset = "75:27:30"
most = "76:00:00"
[[event]]
id = "cutoff"
after = "ignition"
offset = "6m 14s"
fixed = true
[[event]]
id = "turn"
after = { event = "ignition", offset = "-5m" }
[[event]]
id = "photo"
after = [
  "cutoff",
  { event = "turn", offset = "8m", least = "none" },
  { event = "liftoff", most = "90h" },
]
[[event]]
id = "return"
edge = { lane = "voice", change = "back", after = "ignition", offset = "5m" }
[[event]]
id = "call"
window = ["2031-05-14T17:50:00", 2031-05-14T18:20:00-03:00]
[[event]]
id = "late"
window = ["none", "2031-05-15T12:00:00Z"]
[[limit]]
from = "turn"
to = "photo"
most = "40m"
[lane.data]
delay = "2s"
[[ground]]
id = "tarn"
lanes = ["voice", "data"]
[[course]]
id = "table"
kind = "passes"
times = "elapsed"
from = "liftoff"
until = 2031-06-01T00:00:00Z
rows = [{ lane = "picture", ground = "", back = "1h", lost = "1d 02:00:00" }]
[signal]
light_time = false
"""


def _event(name: str) -> Event:
    plan = read_plan_text(GOOD, "good", Path())
    return next(event for event in plan.events if event.id == name)


def test_times_are_in_the_desks_zone_unless_they_say_otherwise() -> None:
    liftoff = _event("liftoff")
    assert liftoff.at_ms == rfc3339_to_ms("2031-05-11T16:28:32Z")
    assert liftoff.happened_ms == rfc3339_to_ms("2031-05-11T16:28:32.400Z")


def test_a_name_is_the_id_where_none_is_given() -> None:
    assert _event("liftoff").name == "liftoff"
    assert _event("ignition").name == "Insertion burn"


def test_a_tie_gets_its_bounds_as_they_bind() -> None:
    burn_ms = 6 * MINUTE_MS + 14_000
    assert _event("ignition").ties == (
        Tie("liftoff", (75 * 60 + 27) * MINUTE_MS + 30_000, 0, 76 * 60 * MINUTE_MS),
    )
    assert _event("cutoff").ties == (Tie("ignition", burn_ms, burn_ms, burn_ms),)
    assert _event("turn").ties == (Tie("ignition", -5 * MINUTE_MS, None, 0),)
    assert _event("photo").ties == (
        Tie("cutoff", None, 0, None),
        Tie("turn", 8 * MINUTE_MS, None, None),
        Tie("liftoff", None, 0, 90 * 60 * MINUTE_MS),
    )


def test_edges_windows_and_limits_are_read() -> None:
    plan = read_plan_text(GOOD, "good", Path())
    edge = EdgeRef("voice", Change.BACK, after="ignition", offset_ms=5 * MINUTE_MS)
    assert _event("return").edge == edge
    assert _event("call").window == Window(
        rfc3339_to_ms("2031-05-14T20:50:00Z"), rfc3339_to_ms("2031-05-14T21:20:00Z")
    )
    assert _event("late").window == Window(None, rfc3339_to_ms("2031-05-15T12:00:00Z"))
    assert plan.limits == (Limit("turn", "photo", None, 40 * MINUTE_MS),)
    assert plan.light_time is False


def test_elapsed_rows_become_instants_counted_from_the_planned_liftoff() -> None:
    (course,) = read_plan_text(GOOD, "good", Path()).courses
    assert course.rows == (
        Pass(
            "picture",
            None,
            rfc3339_to_ms("2031-05-11T17:28:32Z"),
            rfc3339_to_ms("2031-05-12T18:28:32Z"),
        ),
    )
    assert course.begins == Bound(event="liftoff")
    assert course.ends == Bound(at_ms=rfc3339_to_ms("2031-06-01T00:00:00Z"))


def test_a_lane_without_a_table_is_named_by_its_id_in_capitals() -> None:
    lanes = read_plan_text(GOOD, "good", Path()).lanes
    assert lanes == (
        Lane("data", "DATA", 2_000),
        Lane("voice", "VOICE"),
        Lane("picture", "PICTURE"),
    )


def test_all_problems_are_told_at_once_in_the_order_of_the_file() -> None:
    text = GOOD.replace('"America/Halifax"', '"America/Halifx"')
    text = text.replace('offset = "6m 14s"', "offset = 374").replace('"40m"', '"40"')
    text = text.replace("elapsed_from", "elapsed").replace('"-5m"', '"5 min"')
    with pytest.raises(PlanProblems) as caught:
        read_plan_text(text, "plan.toml", Path())
    told = [str(problem) for problem in caught.value.problems]
    assert [line.split(" ")[0] for line in told] == [
        "plan.toml:4:10:",
        "plan.toml:5:1:",
        "plan.toml:19:10:",
        "plan.toml:23:40:",
        "plan.toml:43:8:",
        "plan.toml:52:9:",
    ]
    assert "Did you mean 'America/Halifax'?" in told[0]
    assert "Did you mean 'elapsed_from'?" in told[1]


def test_missing_title_and_zones_are_told() -> None:
    with pytest.raises(PlanProblems) as caught:
        read_plan_text("limbwatch = 1", "p", Path())
    assert [problem.what for problem in caught.value.problems] == [
        "'title' is missing here",
        "'zones' is missing here",
    ]


def test_awkward_ids_are_warned_of_but_taken(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(GOOD.replace('"turn"', '"voice"').replace('"call"', '"hold"'), encoding="utf-8")
    plan, warnings = read_plan_with_warnings(path)
    assert len(plan.events) == 8
    assert [(one.where.line, one.what) for one in warnings] == [
        (22, "'voice' is also a lane"),
        (35, "'hold' is also a word of the entry bar"),
    ]


def test_an_offset_that_its_own_least_never_lets_hold_is_warned_of(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    tie = '[[event]]\nid = "x"\nafter = "ignition"\noffset = "5m"\nleast = "{}"\n'
    for least, told in (
        ("6m", ["the offset is shorter than its least, which decides"]),
        ("5m", []),
    ):
        path.write_text(GOOD + tie.format(least), encoding="utf-8")
        assert [one.what for one in read_plan_with_warnings(path)[1]] == told


ITEM = """
[[item]]
id = "walk"
kind = "remote"
length = "10m"
"""


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ('booked = [["2031-05-14T17:00:00", "2031-05-14T17:10:00"]]', ""),
        ('booked = [["2031-05-14T17:00:00", "2031-05-14T17:09:59"]]', "9m 59s"),
        (
            (
                'booked = [["2031-05-14T17:00:00", "2031-05-14T17:20:00"]]\n'
                "earliest = 2031-05-14T17:02:00\nlatest = 2031-05-14T17:10:00"
            ),
            "8m",
        ),
        (
            (
                'booked = [["2031-05-14T17:00:00", "2031-05-14T17:20:00"]]\n'
                "latest = 2031-05-14T16:00:00"
            ),
            "0s",
        ),
        (
            (
                'booked = [["2031-05-14T17:00:00", "2031-05-14T17:05:00"],'
                ' ["2031-05-14T18:00:00", "2031-05-14T18:20:00"]]'
            ),
            "",
        ),
        ("earliest = 2031-05-14T17:00:00\nlatest = 2031-05-14T17:09:00", "9m"),
        ("latest = 2031-05-14T17:09:00", ""),
        ("", ""),
    ],
)
def test_an_item_longer_than_its_hours_is_warned_of(keys: str, told: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(f"{GOOD}{ITEM}{keys}\n", encoding="utf-8")
    warnings = read_plan_with_warnings(path)[1]
    assert [one.hint.partition(":")[0] for one in warnings] == (
        [f"The longest is {told}"] if told else []
    )
    assert all("'walk' is longer than any stretch" in one.what for one in warnings)


def test_the_audiences_usage_is_one_of_three() -> None:
    head = 'limbwatch = 1\ntitle = "t"\nzones = ["UTC"]\n'
    assert read_plan_text(head, "p", Path()).usage is Usage.AMERICAN
    for usage in Usage:
        assert read_plan_text(f'{head}usage = "{usage}"\n', "p", Path()).usage is usage
    (problem,) = _told(f'{head}usage = "brittish"\n')
    assert (problem.where.line, problem.where.column) == (4, 9)
    assert problem.what == "'brittish' is not known here"
    assert problem.hint == "Did you mean 'british'?"


def test_lines_for_a_grave_board_are_kept_in_their_order() -> None:
    rows = '[[grave]]\nafter = "10m"\ntext = "Later."\n[[grave]]\nafter = "0s"\ntext = "First."\n'
    plan = read_plan_text(GOOD + rows, "p", Path())
    assert plan.grave == (GraveLine(600_000, "Later."), GraveLine(0, "First."))


def test_a_live_moment_may_go_with_a_lane() -> None:
    text = GOOD.replace('id = "cutoff"', 'id = "cutoff"\nlive = true\nlive_with = "voice"')
    events = {event.id: event for event in read_plan_text(text, "p", Path()).events}
    assert events["cutoff"].live_with == "voice"
    assert events["turn"].live_with is None


def test_every_word_that_begins_a_form_of_the_entry_bar_is_warned_of() -> None:
    assert set(EVENT_WORDS) | set(BOARD_WORDS) <= BAR_WORDS


def test_a_plan_that_cannot_be_met_is_no_bad_plan() -> None:
    text = (
        GOOD.replace("fixed = true", 'least = "5m"')
        + '[[limit]]\nfrom = "ignition"\nto = "cutoff"\nmost = "4m"\n'
    )
    assert read_plan_text(text, "p", Path()).limits[-1].most_ms == 4 * MINUTE_MS


@pytest.mark.parametrize(
    "path", sorted([*ROOT.glob("sample_plans/*.toml"), *ROOT.glob("tests/plans/*.toml")]), ids=str
)
def test_every_plan_of_the_project_is_good_and_written_again_the_same(path: Path) -> None:
    plan, warnings = read_plan_with_warnings(path)
    assert not warnings
    assert read_plan_text(write_plan(plan), "written", path.parent) == plan


@given(plans(), st.data())
def test_any_damage_to_a_plan_is_told_and_never_a_crash(plan: Plan, data: st.DataObject) -> None:
    text = write_plan(plan)
    start = data.draw(st.integers(0, len(text)))
    length = data.draw(st.integers(0, 40))
    damage = data.draw(st.text(st.sampled_from('[]{}"=.,#\n -0aé'), max_size=6))
    told = _told(text[:start] + damage + text[start + length :])
    assert told == tuple(sorted(told))
    assert all(problem.where.file == "p" for problem in told)


def _told(text: str) -> tuple[Problem, ...]:
    try:
        read_plan_text(text, "p", Path())
    except PlanProblems as problems:
        return problems.problems
    return ()


def test_a_plan_in_a_file_knows_its_folder(tmp_path: Path) -> None:
    (tmp_path / "plan.toml").write_text(GOOD, encoding="utf-8")
    assert read_plan(tmp_path / "plan.toml").folder == tmp_path


@pytest.mark.parametrize("open_end", ["none", ""])
def test_a_window_may_be_open_at_either_end(open_end: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    at = '"2031-05-14T17:50:00Z"'
    path.write_text(
        'limbwatch = 1\ntitle = "t"\nzones = ["UTC"]\n'
        f'[[event]]\nid = "late"\nwindow = [{at}, "{open_end}"]\n'
        f'[[event]]\nid = "early"\nwindow = ["{open_end}", {at}]\nafter = "late"\n'
    )
    late, early = read_plan(path).events
    assert late.window is not None
    assert early.window is not None
    assert (late.window.not_after_ms, early.window.not_before_ms) == (None, None)
    assert late.window.not_before_ms == early.window.not_after_ms is not None


@pytest.mark.parametrize("name", ["T-9", "AOS#1", "rev.2", "t+9", "gate/a", "été_2", "x:y"])
def test_an_id_may_hold_the_signs_of_the_trade(name: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(
        'limbwatch = 1\ntitle = "t"\nzones = ["UTC"]\n'
        f'[[event]]\nid = "{name}"\nat = 2031-05-14T17:50:00Z\n'
    )
    assert read_plan(path).events[0].id == name
