"""A plan whose file has changed while the board runs."""

from pathlib import Path

import pytest

from core.board.model import Tone
from core.errors import PlanProblems
from core.session.model import Answer
from tests.core.board.boards import FLIGHT, Seat, plan_of, seat

SUPPER = '[[event]]\nid = "supper"\nname = "Supper"\nafter = "school"\noffset = "20m"\n'
LATER = FLIGHT.replace('after = "go"\noffset = "20m"', 'after = "go"\noffset = "22m"')


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


def change(desk: Seat, folder: Path, text: str) -> None:
    try:
        found = plan_of(folder, text)
    except PlanProblems as problems:
        desk.desk.plan_on_disk(problems, desk.now_ms)
    else:
        desk.desk.plan_on_disk(found, desk.now_ms)


def test_a_changed_plan_is_offered_and_changes_nothing(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, LATER)
    said = desk.view.notices[0]
    assert said.text == "Plan changed on disk: 2 would move. Type plan to take it over"
    assert said.tone is Tone.CHANGE
    assert desk.card("ignition").clock == "5:00:00 p.m."


def test_it_is_previewed_taken_and_undone_like_any_entry(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, LATER)
    assert any("2 min later" in line for line in desk.lines("plan"))
    desk.take("plan")
    assert desk.card("ignition").clock == "5:02:00 p.m."
    assert desk.view.notices == ()
    assert desk.enter("plan").answer is Answer.REFUSED
    desk.desk.undo(desk.now_ms)
    assert desk.card("ignition").clock == "5:00:00 p.m."
    desk.desk.redo(desk.now_ms)
    assert desk.card("ignition").clock == "5:02:00 p.m."


def test_the_changed_plan_is_the_new_flight_plan_to_compare_with(
    desk: Seat, tmp_path: Path
) -> None:
    change(desk, tmp_path, LATER)
    desk.take("plan")
    assert desk.view.summary.text == "Nothing to come has a new time."
    assert {card.change.text for card in desk.view.cards} == {""}


def test_entries_stand_on_the_changed_plan(desk: Seat, tmp_path: Path) -> None:
    desk.take("supper +5m")
    change(desk, tmp_path, LATER)
    desk.take("plan")
    assert desk.card("supper").clock == "6:25:00 p.m."


def test_entries_on_events_that_are_gone_are_kept_and_listed(desk: Seat, tmp_path: Path) -> None:
    assert SUPPER in FLIGHT
    desk.take("supper +5m per flight")
    change(desk, tmp_path, FLIGHT.replace(SUPPER, ""))
    desk.take("plan")
    assert not desk.has("supper")
    row = desk.desk.entries()[0]
    assert not row.taken_back
    assert row.meaning == "supper at 6:25:00 p.m. (not in the plan now)"
    desk.desk.undo(desk.now_ms)
    assert desk.card("supper").clock == "6:25:00 p.m."
    assert desk.desk.entries()[0].meaning == "Supper at 6:25:00 p.m."


def test_a_plan_that_only_names_things_otherwise_says_how_many(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, FLIGHT.replace('"Supper"', '"Supper, late"'))
    assert desk.view.notices[0].text == (
        "Plan changed on disk: 0 would move, 1 more is changed. Type plan to take it over"
    )


def test_the_line_says_why_a_broken_plan_cannot_be_taken(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, FLIGHT.replace('after = "go"', 'after = "goo"'))
    taken = desk.enter("plan")
    assert taken.answer is Answer.REFUSED
    assert taken.words.startswith("The plan on disk has 1 problem: ")
    assert taken.words in desk.view.notices[0].text.replace(
        "; the board keeps the last good one. First", ""
    )


def test_a_plan_with_problems_is_told_and_the_last_good_one_stays(
    desk: Seat, tmp_path: Path
) -> None:
    change(desk, tmp_path, FLIGHT.replace('after = "go"', 'after = "goo"'))
    said = desk.view.notices[0]
    assert said.tone is Tone.CLASH
    assert said.text.startswith(
        "The plan on disk has 1 problem; the board keeps the last good one."
    )
    assert "plan.toml:" in said.text
    assert desk.enter("plan").answer is Answer.REFUSED
    assert desk.card("ignition").clock == "5:00:00 p.m."


def test_a_plan_put_back_as_it_was_is_offered_no_more(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, LATER)
    change(desk, tmp_path, FLIGHT)
    assert desk.view.notices == ()


def test_problems_mended_are_told_no_more(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, "limbwatch = 1\n")
    change(desk, tmp_path, FLIGHT)
    assert desk.view.notices == ()


def test_a_plan_in_another_zone_changes_every_clock(desk: Seat, tmp_path: Path) -> None:
    change(desk, tmp_path, FLIGHT.replace('["America/Halifax", "America/Chicago"]', '["UTC"]'))
    desk.take("plan")
    assert desk.view.header.zone == "UTC"
    assert desk.card("go").clock == "4:40:00 p.m."
