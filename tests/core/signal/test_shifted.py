"""A path out of a file that moves with its event: the signal says so, and by how much."""

import pytest

from core.entries.model import Choose
from core.plan.model import Course, CourseKind, Outcome, Plan
from core.plan.orbitdata.trajectory import trajectory_of
from core.signal.model import Shifted
from core.signal.tables import Tables
from tests.core.plan.orbitdata.petrel import OEM
from tests.core.signal.days import S, at, course, event, plan, row, typed


def flown(follows: str | None = "burn", only_if: str | None = None) -> Course:
    path = trajectory_of(OEM, "petrel.oem")
    return Course("flown", CourseKind.TRAJECTORY, follows, only_if, trajectory=path)


def day(*courses: Course) -> Plan:
    outcomes = (Outcome("kept", "burn", "kept"), Outcome("missed", "burn", "missed"))
    return plan(*courses, events=[event("burn", 50), event("open")], outcomes=outcomes)


@pytest.mark.parametrize("by_s", [300, -300, 1])
def test_a_path_that_moved_with_its_event_is_told_with_how_far(by_s: int) -> None:
    tables = Tables(day(flown()))
    assert tables.shifted(at(burn=50 + by_s)) == (Shifted("flown", "burn", by_s * S),)


def test_one_that_lies_as_its_file_says_is_not_told() -> None:
    tables = Tables(day(flown()))
    assert tables.shifted(at(burn=50)) == ()
    assert tables.shifted(lambda _: 50 * S + 999) == ()
    assert Tables(day(flown(follows=None))).shifted(at(burn=350)) == ()


def test_one_whose_event_has_no_time_is_not_told() -> None:
    assert Tables(day(flown())).shifted(at()) == ()
    assert Tables(day(flown(follows="open"))).shifted(at(open=350)) == ()


def test_a_printed_list_is_made_to_move_and_is_not_told() -> None:
    listed = course("listed", row("voice", None, 100, 200), follows="burn")
    assert Tables(day(listed)).shifted(at(burn=350)) == ()


def test_it_counts_from_the_planned_times_the_tables_are_given() -> None:
    tables = Tables(day(flown())).printed_for(at(burn=60))
    assert tables.shifted(at(burn=350)) == (Shifted("flown", "burn", 290 * S),)


def test_one_of_an_outcome_that_did_not_come_is_not_told() -> None:
    tables = Tables(day(flown(only_if="missed")))
    late = at(burn=350)
    assert len(tables.shifted(late)) == 1
    assert tables.told(typed(Choose("kept"))).shifted(late) == ()
    assert len(tables.told(typed(Choose("missed"))).shifted(late)) == 1
