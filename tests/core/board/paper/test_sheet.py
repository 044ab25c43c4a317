"""The rest of the printed plan: outcomes, programme, stations, check-offs, facts, its head."""

from pathlib import Path

import pytest

from core.plan.reader import read_plan
from core.times.writing import Hours
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat, seat_on
from tests.core.board.paper.sheets import (
    event,
    heads,
    row,
    section,
    stands,
    titles,
    words,
    written,
)
from tests.core.board.programmes import on_the_air

SAMPLES = Path(__file__).resolve().parents[4] / "sample_plans"


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


# ------------------------------------------------------------------ its head


def test_as_planned_it_says_so_and_as_it_stands_since_when(desk: Seat) -> None:
    sheet = written(desk)
    assert sheet.title == "Whimbrel 2, round the Moon"
    assert sheet.what == "The plan as it was written"
    assert sheet.made == "Printed Tuesday, 13 May 2031, 5:05:00 p.m. Atlantic"
    desk.take("go +1m")
    told = "The plan as it stood on Wednesday, 14 May 2031, 4:41:12 p.m. Atlantic"
    assert stands(desk).what == f"{told}, after 1 entry"
    desk.take("go +2m")
    assert stands(desk).what == f"{told}, after 2 entries"


def test_it_says_whose_clock_times_they_are_and_from_when_elapsed_time_counts(desk: Seat) -> None:
    (lead,) = written(desk).lead
    assert lead == (
        "Clock times are Atlantic. Where no day is written, it is Sunday, 11 May 2031. "
        "Elapsed time counts from Liftoff, Sunday, 11 May 2031, 1:28:30 p.m. Atlantic."
    )


def test_the_legend_has_the_marks_that_this_plan_can_have(desk: Seat) -> None:
    told = [each.text for each in written(desk).legend]
    assert told[:4] == ["signal", "none", "lost then", "back then"]
    assert told[4].startswith("either")
    assert len(told) == 5
    desk.take("voice closed")
    assert stands(desk).legend[-1].text == "closed by the ground"


def test_what_clashes_stands_at_the_head(tmp_path: Path) -> None:
    sheet = written(seat(tmp_path, text=FLIGHT.replace('least = "2m"', 'least = "3h"')))
    assert any(text.startswith("Clash by") for text in sheet.warnings)
    assert written(seat(tmp_path)).warnings == ()


def test_hours_of_24_are_written_throughout(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(FLIGHT, encoding="utf-8")
    sheet = stands(seat_on(read_plan(path), at_ms("16:41"), Hours.TWENTY_FOUR))
    told = " ".join(text for each in sheet.sections for text in words(sheet, each.title))
    assert "17:00:00" in told
    assert ".m." not in told + sheet.what


# ------------------------------------------------------------------ outcomes


def test_outcomes_stand_side_by_side(desk: Seat) -> None:
    found = section(written(desk), "Outcomes")
    (grid,) = found.grids
    assert heads(grid) == ["AFTER THE BURN", "IF NO BURN"]
    day = "Wednesday, 14 May 2031"
    assert words(written(desk), "Outcomes") == [
        "Burn, ignition",
        (
            f"Signal back, after the burn (5:22:50 p.m., {day}) | "
            f"Signal back, if no burn (5:12:30 p.m., {day})"
        ),
    ]


def test_an_outcome_is_called_so_only_by_its_source(desk: Seat) -> None:
    assert len(section(written(desk), "Outcomes").lead) == 1
    desk.take("burned per flight")
    assert section(stands(desk), "Outcomes").lead[1] == (
        "A source has said of Burn, ignition: after the burn."
    )


def test_outcomes_of_one_name_are_told_apart(tmp_path: Path) -> None:
    more = """
[[outcome]]
id = "called"
of = "school"
name = "after the burn"
[[outcome]]
id = "not-called"
of = "school"
name = "if no call"
"""
    sheet = written(seat(tmp_path, text=FLIGHT + more))
    below = event(sheet, "Cabin checks done")["EVENT"].below
    assert below.startswith("only after the burn (Burn, ignition)")


# ------------------------------------------------------------------ the programme


def test_items_have_all_that_binds_them(tmp_path: Path) -> None:
    (grid,) = section(written(on_the_air(tmp_path)), "Items").grids
    found = row(grid, "Break 3")
    assert {head: place.text for head, place in found.items()} == {
        "ITEM": "Break 3",
        "ON THE AIR": "not placed",
        "LENGTH": "2 min 10 s",
        "OWED": "owed",
        "EARLIEST": "4:30 p.m.",
        "LATEST": "5:00 p.m.",
        "SPONSOR": "A",
        "NEEDS": "",
    }
    assert found["LENGTH"].below == "+ 30 s turnaround"
    assert found["ITEM"].strong
    assert row(grid, "Break 4")["ITEM"].below == "break; cannot be left early"
    assert row(grid, "Remote, the hall")["NEEDS"].text == "voice"
    assert row(grid, "Tape, how they stop")["ITEM"].below == "tape; for a gap"


def test_items_say_what_became_of_them(tmp_path: Path) -> None:
    taken = on_the_air(tmp_path)
    taken.take("break-3 at 4:42p")
    taken.take("stop off")
    (grid,) = section(stands(taken), "Items").grids
    placed = row(grid, "Break 3")["ON THE AIR"]
    assert (placed.text, placed.below) == ("4:42 p.m.", "to 4:44:10 p.m.")
    assert row(grid, "Tape, how they stop")["ON THE AIR"].text == "will not run"
    taken.go_to("16:42")
    taken.take("break-3 now")
    (grid,) = section(stands(taken), "Items").grids
    assert row(grid, "Break 3")["ON THE AIR"].text == "since 4:42 p.m."
    taken.go_to("16:44:20")
    taken.take("break-3 over")
    (grid,) = section(stands(taken), "Items").grids
    ran = row(grid, "Break 3")["ON THE AIR"]
    assert (ran.text, ran.below) == ("4:42 p.m. to 4:44:20 p.m.", "ran 10 s over")


def test_the_rules_between_items_are_said(tmp_path: Path) -> None:
    assert section(written(on_the_air(tmp_path)), "Items").lead == (
        "20 s between any two items; 12 min between two breaks.",
    )


def test_a_line_that_is_booked_stands_with_its_item(tmp_path: Path) -> None:
    booked = """
[[item]]
id = "pier"
kind = "remote"
name = "Remote, the pier"
length = "4m"
weight = 2
booked = [
  ["2031-05-14T16:00:00", "2031-05-14T17:30:00"],
  ["2031-05-14T23:00:00", "2031-05-15T01:00:00"],
]
"""
    (grid,) = section(written(on_the_air(tmp_path, more=booked)), "Items").grids
    found = row(grid, "Remote, the pier")
    assert found["ITEM"].below == "remote; weight 2"
    assert found["BOOKED"].text.splitlines() == [
        "4:00 p.m. to 5:30 p.m.", "11:00 p.m. to Thu 1:00 a.m."
    ]  # fmt: skip


def test_on_and_off_the_air_and_the_junctions_stand_in_order(tmp_path: Path) -> None:
    assert words(written(on_the_air(tmp_path)), "The air") == [
        "Wednesday, 14 May 2031",
        "3:30:00 p.m. | 1:30 p.m. | On the air",
        "5:30:00 p.m. | 3:30 p.m. | Network joins",
        "7:00:00 p.m. | 5:00 p.m. | Off the air, hard",
    ]


# ------------------------------------------------------------------ the signal


def test_contact_and_gaps_are_totalled_by_lane_and_outcome(desk: Seat) -> None:
    (grid,) = section(written(desk), "Contact in all").grids
    assert heads(grid) == [
        "LANE", "IF", "IN CONTACT", "GAPS", "OUT OF CONTACT", "LONGEST GAP"
    ]  # fmt: skip
    told = words(written(desk), "Contact in all")
    assert told[0].startswith("VOICE | after the burn | ")
    assert told[1].startswith("VOICE | if no burn | ")
    desk.take("burned")
    assert "IF" not in heads(section(stands(desk), "Contact in all").grids[0])


def test_in_contact_and_out_of_it_make_up_the_whole(tmp_path: Path) -> None:
    """By hand: voice from 12:00 to 4:50 and from 5:12:30 to 9:00 a.m. is 20 h 37 min 30 s."""
    taken = seat(tmp_path)
    taken.take("no-burn")
    (grid,) = section(stands(taken), "Contact in all").grids
    found = row(grid, "VOICE")
    assert found["IN CONTACT"].text == "20 h 37 min 30 s"
    assert found["OUT OF CONTACT"].text == "22 min 30 s"
    assert found["GAPS"].text == "1"


def test_ground_stations_have_place_mask_lanes_and_hours(tmp_path: Path) -> None:
    place = """name = "Tarn Hill"
latitude = 34.25
longitude = -112.4
height = 2900
mask = 10
open = [["2031-05-14T12:00:00", "2031-05-14T20:00:00"]]"""
    text, lanes = FLIGHT.replace('name = "Tarn Hill"', place), "voice, picture"
    assert words(written(seat(tmp_path, text=text)), "Ground stations") == [
        f"Tarn Hill | 34.25° N, 112.4° W, 2,900 m | 10° | {lanes} | Wed 12:00 p.m. to 8:00 p.m.",
        f"Kestrel Bay | from tables only |  | {lanes} | always",
    ]


def test_each_course_has_a_line(desk: Seat) -> None:
    gap, moves = "behind the Moon", "moves with Burn, ignition"
    assert words(written(desk), "Courses") == [
        f"approach | table of contacts, 3 rows |  | {gap}",
        f"past | table of contacts, 1 row | only if no burn | {gap}",
        f"orbit | table of contacts, 3 rows | only after the burn; {moves} | {gap}",
    ]


def test_blackouts_are_told_from_their_event(tmp_path: Path) -> None:
    more = """
[[blackout]]
after = "cutoff"
from = "-25s"
to = "4m 40s"
lanes = ["voice"]
cause = "plasma"
"""
    assert words(written(seat(tmp_path, text=FLIGHT + more)), "Blackouts") == [
        "plasma | 25 s before Burn, cutoff to 4 min 40 s after it | voice"
    ]


# ------------------------------------------------------------------ check-offs, facts

CHECKED = (
    FLIGHT
    + """
[[checkoff]]
id = "clamps"
name = "Clamps released"
of = "cutoff"
count = 8
enough = 4
spaced = true
"""
)
FACTS = """at_craft = true
facts = [
  { text = "Half the day's fuel goes.", source = "agency", date = 2031-03-02 },
  { text = "It worked.", after_confirmed = true },
  { text = "The crew chose the song.", not_before = 2031-05-14T17:10:00 },
  { text = "Both.", after_confirmed = true, not_before = 2031-05-14T17:10:00 },
]

[[event]]
id = "cutoff\""""
WITH_FACTS = FLIGHT.replace('at_craft = true\n\n[[event]]\nid = "cutoff"', FACTS)


def test_check_offs_have_their_rule_and_room_to_write(tmp_path: Path) -> None:
    taken = seat(tmp_path, text=CHECKED)
    rule = "Clamps released | Burn, cutoff | 4 of 8, evenly spread round the ring"
    assert words(written(taken), "Check-offs") == [f"{rule} | ________ of 8"]
    taken.take("clamps 1 3 5 7")
    assert words(stands(taken), "Check-offs") == [f"{rule} | 4 of 8: 1, 3, 5, 7"]


def test_facts_have_their_source_and_an_embargo_says_until_when(tmp_path: Path) -> None:
    told = words(written(seat(tmp_path, text=WITH_FACTS)), "Facts")
    until = "Wed 5:10 p.m."
    assert told == [
        "Burn, ignition | Half the day's fuel goes. (agency, 2 March 2031) | ",
        "Burn, ignition | It worked. | EMBARGOED until this is confirmed",
        f"Burn, ignition | The crew chose the song. | EMBARGOED until {until}",
        f"Burn, ignition | Both. | EMBARGOED until {until} and this is confirmed",
    ]


def test_an_embargo_that_is_over_is_gone_as_it_stands_but_not_as_planned(tmp_path: Path) -> None:
    taken = seat(tmp_path, "17:20", text=WITH_FACTS)
    taken.take("ignition happened 5:00:10p")
    assert "EMBARGO" not in heads(section(stands(taken), "Facts").grids[0])
    assert "EMBARGOED until Wed 5:10 p.m." in words(written(taken), "Facts")[2]


# ------------------------------------------------------------------ the samples


@pytest.mark.parametrize("name", ["first-steps", "petrel-arrival", "three-days"])
def test_every_event_item_and_fact_of_a_sample_is_printed(name: str) -> None:
    plan = read_plan(SAMPLES / f"{name}.toml")
    sheet = written(seat_on(plan, at_ms("12:00")))
    told = {
        place.text
        for each in sheet.sections
        for grid in each.grids
        for line in grid.lines
        for place in line.places
    }
    assert {each.name for each in plan.events} <= told
    assert {each.name for each in plan.items} | {each.name for each in plan.junctions} <= told
    assert {each.name for each in plan.grounds} <= told
    assert {fact.text for each in plan.events for fact in each.facts} <= told
    assert {each.name for each in plan.checkoffs} <= told
    assert {each.id for each in plan.courses} <= told


def test_a_plan_of_nothing_has_no_section(tmp_path: Path) -> None:
    bare = 'limbwatch = 1\ntitle = "Nothing"\nzones = ["UTC"]\n'
    sheet = written(seat(tmp_path, text=bare))
    assert titles(sheet) == []
    assert sheet.legend == ()


def test_words_for_a_grave_board_are_not_printed(tmp_path: Path) -> None:
    grave = '\n[[grave]]\nafter = "10m"\ntext = "Nothing has been heard."\n'
    sheet = written(seat(tmp_path, text=FLIGHT + grave))
    assert "Nothing has been heard." not in repr(sheet)
