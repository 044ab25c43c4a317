"""The plans that ship, and the real one beside this file: clean, and as full as they claim."""

import re
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.resources import sample_plan, sample_plans
from core.plan.model import CourseKind, Plan
from core.plan.reader import read_plan, read_plan_with_warnings

APOLLO = Path(__file__).with_name("apollo16-arrival.toml")


def _revolutions(plan: Plan, lane: str) -> int:
    """How many contacts a lane has that no earlier row of any course runs on into."""
    rows = sorted(
        (row.back_ms, row.lost_ms)
        for course in plan.courses
        if course.times != "offset"
        for row in course.rows
        if row.lane == lane
    )
    count, end_ms = 0, 0
    for back_ms, lost_ms in rows:
        count += back_ms > end_ms
        end_ms = max(end_ms, lost_ms)
    return count


@pytest.mark.parametrize("path", [*sample_plans(), APOLLO], ids=lambda path: path.stem)
def test_each_plan_reads_without_a_problem_or_a_warning(path: Path) -> None:
    _, warnings = read_plan_with_warnings(path)
    assert not warnings


@pytest.mark.parametrize("path", [*sample_plans(), APOLLO], ids=lambda path: path.stem)
def test_no_two_events_share_a_name(path: Path) -> None:
    names = Counter(event.name for event in read_plan(path).events)
    assert [name for name, count in names.items() if count > 1] == []


def test_the_first_steps_are_five_events_with_a_tie_and_a_pin() -> None:
    plan = read_plan(sample_plan("first-steps"))
    assert len(plan.events) == 5
    assert any(event.ties for event in plan.events)
    assert any(event.pinned for event in plan.events)


def test_the_crowded_plan_is_as_crowded_as_it_says() -> None:
    plan = read_plan(sample_plan("three-days"))
    assert len(plan.events) == 300
    assert sum(event.pinned for event in plan.events) >= 8
    assert sum(len(event.ties) == 2 for event in plan.events) >= 40
    assert len({outcome.of for outcome in plan.outcomes}) == 3
    assert len(plan.outcomes) == 6
    assert len(plan.grounds) == 3
    assert _revolutions(plan, "voice") >= 30
    assert _revolutions(plan, "picture") >= 30


def test_the_crowded_plan_has_names_and_no_numbered_filler() -> None:
    plan = read_plan(sample_plan("three-days"))
    numbered = [event.name for event in plan.events if re.search(r"\d", event.name)]
    assert all(name.startswith("Signal back, revolution ") for name in numbered)


def test_the_arrival_uses_what_a_plan_can_say() -> None:
    plan = read_plan(sample_plan("petrel-arrival"))
    ties = [tie for event in plan.events for tie in event.ties]
    assert any(tie.offset_ms is not None and tie.offset_ms < 0 for tie in ties)
    assert any(tie.least_ms == tie.most_ms == tie.offset_ms for tie in ties)
    assert any(len(event.ties) == 2 for event in plan.events)
    assert any(event.edge and event.edge.offset_ms for event in plan.events)
    assert any(event.window and event.at_ms is None for event in plan.events)
    kinds = {course.kind for course in plan.courses}
    assert kinds == {CourseKind.PASSES, CourseKind.ARRIVAL, CourseKind.ORBIT}
    assert any(course.file for course in plan.courses)
    assert plan.limits
    assert plan.blackouts
    assert plan.junctions
    assert plan.checkoffs
    assert [item.kind for item in plan.items if item.owed].count("break") == 6


def test_the_apollo_plan_has_both_published_returns() -> None:
    plan = read_plan(APOLLO)
    courses = {course.id: course for course in plan.courses}
    liftoff = datetime(1972, 4, 16, 17, 54, tzinfo=UTC)  # from memory
    liftoff_ms = round(liftoff.timestamp() * 1000)
    with_burn_ms = courses["first-orbits"].rows[0].back_ms - liftoff_ms
    without_ms = courses["without"].rows[0].back_ms - liftoff_ms
    # NASA Apollo Flight Journal, Apollo 16, Day 4 part 2: 74:50:05 and 74:42:08
    assert with_burn_ms == (74 * 3600 + 50 * 60 + 5) * 1000
    assert without_ms == (74 * 3600 + 42 * 60 + 8) * 1000
    assert courses["first-orbits"].follows == "ignition"
    assert courses["without"].follows is None
