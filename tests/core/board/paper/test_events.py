"""The table of events on paper."""

from pathlib import Path

import pytest

from core.board.paper.sheet import AsOf
from core.session.on_paper import printed_plan
from core.signal.model import Fill
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat
from tests.core.board.paper.sheets import (
    MADE_MS,
    event,
    events,
    heads,
    stands,
    titles,
    words,
    written,
)

C, G, E = Fill.CONTACT, Fill.GAP, Fill.EITHER


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


def days(taken: Seat) -> list[str]:
    return [line.day for line in events(written(taken)).lines if line.day]


def test_only_columns_in_which_something_stands_are_there(desk: Seat) -> None:
    assert heads(events(written(desk))) == [
        "ATLANTIC", "CENTRAL", "ELAPSED", "PLANNED", "EVENT", "LIVE: BACK BY", "VOICE", "PICTURE"
    ]  # fmt: skip


def test_a_plan_of_bare_events_has_a_table_of_bare_events(tmp_path: Path) -> None:
    bare = (
        'limbwatch = 1\ntitle = "Bare"\nzones = ["America/Halifax"]\n'
        '[[event]]\nid = "a"\nname = "Alone"\nat = 2031-05-14T16:00:00\n'
    )
    sheet = written(seat(tmp_path, text=bare))
    assert titles(sheet) == ["Events"]
    assert heads(events(sheet)) == ["ATLANTIC", "EVENT"]
    assert words(sheet, "Events") == ["Wednesday, 14 May 2031", "4:00:00 p.m. | Alone"]


def test_events_stand_in_order_of_time_with_a_line_for_each_day(desk: Seat) -> None:
    told = [line.day or line.places[4].text for line in events(written(desk)).lines]
    assert told[:4] == [
        "Sunday, 11 May 2031", "Liftoff", "Wednesday, 14 May 2031", "Voice back, Tarn Hill"
    ]  # fmt: skip
    order = ["Go for the burn", "Loss of signal", "Burn, ignition", "School call", "Crew to sleep"]
    places = [told.index(name) for name in order]
    assert places == sorted(places)


def test_each_time_is_in_the_zone_of_the_desk_and_in_those_of_the_audience(desk: Seat) -> None:
    found = event(written(desk), "Burn, ignition")
    assert found["ATLANTIC"].text == "5:00:00 p.m."
    assert found["CENTRAL"].text == "3:00 p.m."
    assert found["ELAPSED"].text == "3 d 03:31:30"


def test_a_day_that_is_another_one_for_the_audience_is_said(desk: Seat) -> None:
    desk.take("sleep +1h")
    assert event(stands(desk), "Crew to sleep")["CENTRAL"].text == "Wed 10:30 p.m."


def test_many_zones_stand_below_the_desks_own_time(tmp_path: Path) -> None:
    zones = '"America/Halifax", "America/Chicago", "Europe/Rome", "Asia/Tokyo"'
    text = FLIGHT.replace('"America/Halifax", "America/Chicago"', zones)
    sheet = written(seat(tmp_path, text=text))
    assert heads(events(sheet))[:2] == ["ATLANTIC", "ELAPSED"]
    below = event(sheet, "Burn, ignition")["ATLANTIC"].below
    assert below.splitlines() == [
        "± 20 s", "3:00 p.m. Central", "10:00 p.m. Central European", "Thu 5:00 a.m. Japan"
    ]  # fmt: skip


def test_how_certain_a_time_is_stands_below_it_and_a_doubtful_one_has_no_seconds(
    desk: Seat,
) -> None:
    sheet = written(desk)
    assert event(sheet, "Burn, ignition")["ATLANTIC"].below == "± 20 s"
    found = event(sheet, "Cabin checks done")
    assert found["ATLANTIC"].text == "about 5:28 p.m."
    assert found["ATLANTIC"].below == "± 1 min"
    assert found["CENTRAL"].text == "3:28 p.m."


def test_a_live_moment_says_by_when_to_be_back_and_stands_out(desk: Seat) -> None:
    found = event(written(desk), "Loss of signal")
    assert found["LIVE: BACK BY"].text == "4:47:00 p.m."
    assert found["EVENT"].strong
    assert not event(written(desk), "Supper")["EVENT"].strong
    assert event(written(desk), "Supper")["LIVE: BACK BY"].text == ""


def test_what_a_time_hangs_on_is_told_in_words(desk: Seat) -> None:
    def below(name: str) -> str:
        return event(written(desk), name)["EVENT"].below

    assert below("Go for the burn") == ""
    assert below("Burn, ignition") == "20 min after Go for the burn, at least 5 min"
    assert below("Burn, cutoff") == "6 min after Burn, ignition, fixed"
    assert below("Loss of signal") == "last loss of voice before Burn, ignition"
    assert below("Signal back, if no burn") == "first return of voice after Loss of signal"
    assert below("School call") == "pinned; at least 2 min after School call rehearsed"
    assert below("Crew to sleep") == "window 11:00 p.m. to Thu 1:00 a.m."


def test_what_belongs_to_one_outcome_only_says_so_unless_its_name_does(desk: Seat) -> None:
    sheet = written(desk)
    assert event(sheet, "Cabin checks done")["EVENT"].below.startswith("only after the burn; ")
    assert "only" not in event(sheet, "Signal back, after the burn")["EVENT"].below
    desk.take("burned")
    assert "only" not in event(stands(desk), "Cabin checks done")["EVENT"].below


def test_the_mark_of_each_lane_is_a_shape_and_a_word(desk: Seat) -> None:
    def lanes(name: str) -> list[tuple[str, object]]:
        found = event(written(desk), name)
        return [(found[lane].text, found[lane].mark) for lane in ("VOICE", "PICTURE")]

    assert lanes("Go for the burn") == [("signal", (C, C)), ("signal", (C, C))]
    assert lanes("Burn, ignition") == [("none", (G, G)), ("none", (G, G))]
    assert lanes("Loss of signal") == [("lost", (C, G)), ("none", (G, G))]
    assert lanes("Signal back, if no burn")[0] == ("back", (G, C))
    assert lanes("Liftoff") == [("on the ground", None), ("on the ground", None)]


def test_what_depends_on_the_outcome_is_either(tmp_path: Path) -> None:
    more = '\n[[event]]\nid = "x"\nname = "Between"\nat = 2031-05-14T17:15:00\n'
    found = event(written(seat(tmp_path, text=FLIGHT + more)), "Between")
    assert (found["VOICE"].text, found["VOICE"].mark) == ("either", (E, E))


def test_many_lanes_share_one_column(tmp_path: Path) -> None:
    more = "".join(f'[lane.l{n}]\nname = "L{n}"\n' for n in range(6))
    span = "back = 2031-05-14T12:00:00, lost = 2031-05-15T12:00:00"
    rows = ", ".join(f'{{ lane = "l{n}", ground = "tarn", {span} }}' for n in range(6))
    carried = ", ".join(f'"{lane}"' for lane in ["voice", "picture", *(f"l{n}" for n in range(6))])
    text = FLIGHT.replace('lanes = ["voice", "picture"]', f"lanes = [{carried}]", 1)
    text += f'{more}[[course]]\nid = "more"\nkind = "passes"\nrows = [{rows}]\n'
    sheet = written(seat(tmp_path, text=text))
    assert heads(events(sheet))[-1] == "SIGNAL"
    assert sheet.legend == ()
    told = event(sheet, "Burn, ignition")["SIGNAL"].text
    assert told.splitlines() == ["none: voice, picture", "signal: l0, l1, l2, l3, l4, l5"]


def test_a_time_that_has_moved_stands_beside_the_planned_one(desk: Seat) -> None:
    desk.take("go +1:18")
    found = event(stands(desk), "Burn, ignition")
    assert found["ATLANTIC"].text == "5:01:18 p.m."
    assert (found["PLANNED"].text, found["PLANNED"].below) == ("5:00:00 p.m.", "1 min 18 later")
    assert event(stands(desk), "School call")["PLANNED"].text == ""


def test_nothing_off_the_plan_needs_no_column_for_it(tmp_path: Path) -> None:
    text = FLIGHT.replace("happened = 2031-05-11T13:28:30.400", "")
    assert "PLANNED" not in heads(events(written(seat(tmp_path, text=text))))


def test_what_has_happened_is_held_or_waits_for_word_says_so(desk: Seat) -> None:
    desk.take("go happened 4:40:30p")
    assert event(stands(desk), "Go for the burn")["ATLANTIC"].below == "happened"
    assert event(stands(desk), "Liftoff")["ATLANTIC"].below == "happened"
    desk.take("ignition hold")
    assert event(stands(desk), "Burn, ignition")["ATLANTIC"].below.startswith("held with 19 min")


def test_what_is_overdue_is_not_confirmed_as_it_stands_but_not_as_planned(desk: Seat) -> None:
    desk.go_to("18:30")
    assert event(stands(desk), "Go for the burn")["ATLANTIC"].below == "not confirmed"
    assert event(written(desk), "Go for the burn")["ATLANTIC"].below == ""


def test_what_is_called_off_stands_last_without_a_time(desk: Seat) -> None:
    desk.take("supper scrub")
    told = words(stands(desk), "Events")
    place = told.index("Without a time")
    assert "Supper (called off; 20 min after School call)" in told[place + 1]


def test_what_belongs_to_an_outcome_that_did_not_come_says_so(desk: Seat) -> None:
    desk.take("burned")
    found = event(stands(desk), "Signal back, if no burn")
    assert found["ATLANTIC"].text == ""
    assert found["EVENT"].below.startswith("belongs to an outcome that did not come; first return")


def test_a_limit_that_was_overruled_is_told_with_its_event(desk: Seat) -> None:
    desk.take("rehearsed 5:59p")
    sheet = stands(desk)
    off = "1 min too early against School call rehearsed"
    assert event(sheet, "School call")["EVENT"].below.endswith(f"overruled: {off}")
    assert f"Overruled: School call {off}" in sheet.warnings


def test_a_part_has_the_events_of_that_time_and_says_so_on_its_head(desk: Seat) -> None:
    sheet = printed_plan(desk.desk, AsOf(None, MADE_MS, at_ms("17:00"), at_ms("17:06")))
    assert [line.day or line.places[3].text for line in events(sheet).lines] == [
        "Wednesday, 14 May 2031", "Burn, ignition"
    ]  # fmt: skip
    assert sheet.what == (
        "The plan as it was written; events only from Wednesday, 14 May 2031, 5:00:00 p.m. Atlantic"
        " to Wednesday, 14 May 2031, 5:06:00 p.m. Atlantic"
    )


NIGHT = """
limbwatch = 1
title = "A night"
zones = ["America/Halifax"]
[[event]]
id = "a"
name = "Before"
at = 2031-11-02T01:30:00-03:00
[[event]]
id = "b"
name = "An hour on"
after = "a"
offset = "1h"
"""


def test_a_night_on_which_clocks_go_back_says_so_between_the_same_times(tmp_path: Path) -> None:
    told = words(written(seat(tmp_path, text=NIGHT)), "Events")
    assert told == [
        "Sunday, 2 November 2031",
        "1:30:00 a.m. | Before",
        "Sunday, 2 November 2031; clocks have gone back 1 h",
        "1:30:00 a.m. | An hour on (1 h after Before)",
    ]


def test_a_night_on_which_clocks_go_on_says_so_too(tmp_path: Path) -> None:
    text = NIGHT.replace("2031-11-02T01:30:00-03:00", "2031-03-09T01:30:00")
    told = words(written(seat(tmp_path, text=text)), "Events")
    assert told[2] == "Sunday, 9 March 2031; clocks have gone on 1 h"
    assert told[3].startswith("3:30:00 a.m.")
