from collections.abc import Callable
from pathlib import Path

import pytest

from core.board.model import Tone
from core.board.programme import AirBox, ItemState
from core.session.model import Answer
from core.times.writing import Style, clock_text, duration_words
from tests.core.board.boards import FLIGHT, ZONE, Seat, at_ms, shown
from tests.core.board.programmes import broken, on_the_air, owed, row

Sit = Callable[..., Seat]

_STYLE = Style(ZONE)


@pytest.fixture
def sit(tmp_path: Path) -> Sit:
    """Sits down at a desk with the small programme."""

    def made(clock: str = "16:41:12", more: str = "", flight: str = FLIGHT) -> Seat:
        return on_the_air(tmp_path, clock, more, flight)

    return made


def top(taken: Seat) -> tuple[str, str, str, str]:
    """The panel's figure with what stands before it, back by, and for what."""
    clear = taken.view.clear
    assert clear is not None
    return clear.lead, shown(clear.figure), clear.back_by, clear.live


def status(taken: Seat) -> str:
    return taken.view.header.status.text


def tone(taken: Seat, item: str) -> Tone:
    panel = taken.view.clear
    assert panel is not None
    return next(each.words.tone for each in panel.rows if each.item == item)


def box(taken: Seat, item: str) -> AirBox:
    return next(each for each in taken.view.air.boxes if each.item == item)


# ------------------------------------------------------------------ clear time


def test_clear_time_counts_down_to_back_by_of_the_next_live_moment(sit: Sit) -> None:
    taken = sit()
    assert top(taken) == ("", "5 min 48 s", "back by 4:47:00 p.m.", "Loss of signal")
    taken.go_to("16:46:59")
    assert top(taken)[1] == "1 s"


def test_within_a_live_moment_it_says_so_and_until_when(sit: Sit) -> None:
    taken = sit("16:48")
    assert top(taken) == ("you must be live", "2 min 00 s", "until 4:50:00 p.m.", "Loss of signal")


def test_a_live_moment_that_may_still_come_waits_for_word(sit: Sit) -> None:
    taken = sit("17:30:30", more=_LIVE.format(at="17:31:00", keys='give = "2m"'))
    taken.go_to("17:31:10")
    assert top(taken) == ("you must be live", "", "until there is word", "Docking")
    assert row(taken, "stop") == "when there is word"
    taken.take("docking now")
    assert top(taken)[0] == ""


_LIVE = """
[[event]]
id = "docking"
name = "Docking"
at = 2031-05-14T{at}
live = true
{keys}
"""


def test_a_live_moment_without_stay_or_give_waits_for_word_half_a_minute(sit: Sit) -> None:
    taken = sit("17:30:30", more=_LIVE.format(at="17:31:00", keys='guard = "20s"'))
    taken.go_to("17:31:00")
    assert top(taken) == ("you must be live", "", "until there is word", "Docking")
    assert row(taken, "stop") == "when there is word"
    taken.go_to("17:31:29")
    assert top(taken)[0] == "you must be live"
    taken.go_to("17:31:30")
    assert top(taken)[0] == ""


def test_a_return_that_has_come_early_asks_nobody_to_be_live_at_its_computed_time(
    sit: Sit,
) -> None:
    stays = FLIGHT.replace('guard = "2m"\n\n[[event]]\nid = "checks"', _STAYS)
    assert stays != FLIGHT
    taken = sit("17:18:30", flight=stays)
    assert top(taken)[2:] == ("back by 5:20:50 p.m.", "Signal back, after the burn")
    taken.take("voice back now")
    until = ("you must be live", "3 min 00 s", "until 5:21:30 p.m.", "Signal back, after the burn")
    assert top(taken) == until
    taken.go_to("17:21:30")
    assert top(taken)[2:] == ("back by 5:30:00 p.m.", "Network joins")
    taken.go_to("17:22:50")
    assert top(taken)[2:] == ("back by 5:30:00 p.m.", "Network joins")
    assert row(taken, "hall") == "leave by 5:25:40"


def test_a_return_is_still_to_come_while_its_lane_is_lost_again(sit: Sit) -> None:
    taken = sit("17:15:00")
    taken.take("voice back now")
    taken.go_to("17:16")
    taken.take("voice lost now")
    assert top(taken)[3] == "Signal back, after the burn"


_STAYS = 'guard = "2m"\nstay = "3m"\n\n[[event]]\nid = "checks"'


def test_a_junction_is_to_be_back_by_to_the_second(sit: Sit) -> None:
    assert top(sit("17:25"))[1:] == ("5 min 00 s", "back by 5:30:00 p.m.", "Network joins")


def test_with_no_moment_left_the_hard_end_is_counted_to(sit: Sit) -> None:
    assert top(sit("18:30")) == ("off the air in", "30 min 00 s", "at 7:00:00 p.m.", "")


def test_a_live_moment_that_goes_with_the_picture_begins_where_that_is_lost(sit: Sit) -> None:
    flight = FLIGHT.replace('id = "loss"', 'id = "loss"\nlive_with = "picture"')
    assert top(sit(flight=flight))[1:3] == ("3 min 48 s", "back by 4:45:00 p.m.")


def test_a_loss_under_another_outcome_does_not_count_for_that(sit: Sit) -> None:
    late = _LIVE.format(at="18:32:00", keys='live_with = "picture"\nguard = "1m"')
    taken = sit("18:20", more=late)
    assert top(taken)[2] == "back by 6:31:00 p.m."
    certain = sit("18:20", more=late + 'only_if = "burned"\n')
    assert top(certain)[2] == "back by 6:29:00 p.m."


def test_a_loss_long_before_it_does_not_count_for_that(sit: Sit) -> None:
    flight = FLIGHT.replace("lost = 2031-05-14T16:48:00", "lost = 2031-05-14T16:30:00")
    flight = flight.replace('id = "loss"', 'id = "loss"\nlive_with = "picture"')
    assert top(sit(flight=flight))[2] == "back by 4:47:00 p.m."


def test_a_held_count_has_no_moment(sit: Sit) -> None:
    taken = sit("16:53")
    assert top(taken)[3] == "Burn, ignition"
    taken.take("ignition hold")
    assert top(taken)[3] == "Signal back, if no burn"


def test_moments_of_all_outcomes_count_until_a_source_has_named_one(sit: Sit) -> None:
    taken = sit("17:05")
    assert top(taken)[3] == "Signal back, if no burn"
    taken.take("burned")
    assert top(taken)[2:] == ("back by 5:20:50 p.m.", "Signal back, after the burn")


# ------------------------------------------------------------------ what fits


def test_what_fits_now_says_by_when_to_leave(sit: Sit) -> None:
    taken = sit()
    assert row(taken, "break-3") == "leave by 4:44:20"
    assert row(taken, "hall") == "leave by 4:42:40"


def test_what_fits_later_says_when(sit: Sit) -> None:
    taken = sit("16:42")
    assert row(taken, "stop") == "fits after 4:50"
    assert row(taken, "break-4") == "fits after 5:00:20"


def test_the_words_hold_at_every_second_up_to_the_leave_by_time(sit: Sit) -> None:
    taken = sit("16:44:20")
    assert row(taken, "break-3") == "leave by 4:44:20"
    taken.go_to("16:44:21")
    assert row(taken, "break-3") == "fits after 4:50:20"


def test_what_needs_a_lane_fits_only_where_that_is_sure_to_be_there(sit: Sit) -> None:
    taken = sit("17:00:20")
    assert row(taken, "hall") == "fits after 5:22:50"
    taken.take("no-burn")
    assert row(taken, "hall") == "fits after 5:12:30"


def test_a_lane_closed_by_the_ground_is_none(sit: Sit) -> None:
    taken = sit("16:30")
    assert row(taken, "hall") == "leave by 4:42:40"
    taken.take("voice closed")
    assert row(taken, "hall") == "no place"


def test_what_takes_the_place_of_what_is_owed_says_so(sit: Sit) -> None:
    taken = sit("16:41:05", flight=FLIGHT.replace('guard = "60s"', 'guard = "9m"'))
    assert row(taken, "stop") == "no room beside what is owed"
    assert row(taken, "break-3") == "leave by 4:44:20"


def test_what_fits_only_if_nothing_comes_early_is_tight(sit: Sit) -> None:
    def tight(taken: Seat) -> bool:
        assert taken.view.clear is not None
        return next(each.tight for each in taken.view.clear.rows if each.item == "stop")

    more = _LIVE.format(at="16:32:00", keys='give = "20s"')
    taken = sit("16:25:50", more=more)
    assert not tight(taken)
    taken.go_to("16:26:10")
    assert tight(taken)


def test_of_several_owed_it_says_by_when_the_next_must_begin(sit: Sit) -> None:
    taken = sit()
    assert owed(taken) == [
        "break 3 is owed by 5:00 p.m.",
        "break 4 is owed by 6:30 p.m.",
        "all of it fits if the next begins by 4:56:20 p.m.",
    ]
    taken.take("break 3 off")
    assert owed(taken) == ["break 4 is owed by 6:30 p.m."]


def talks(count: int, length_s: int) -> str:
    """So many owed items, no two of one length."""
    return "".join(
        f"""
[[item]]
id = "talk-{number}"
kind = "studio"
name = "Talk {number}"
length = "{length_s + number}s"
owed = true
"""
        for number in range(count)
    )


def test_of_more_than_can_be_tried_it_says_that_all_has_place_where_places_are_found(
    sit: Sit,
) -> None:
    taken = sit("16:30", more=talks(14, 60))
    assert "all of it has a place: place says where" in owed(taken)
    assert row(taken, "talk-3") == "fits now"  # by when, nobody can say
    taken.take("place")
    assert not taken.desk.on_air(taken.now_ms).broken


def test_of_more_than_there_is_time_for_it_says_by_how_much(sit: Sit) -> None:
    taken = sit("16:30", more=talks(14, 1200))
    (told,) = [line for line in owed(taken) if "more is owed" in line]
    assert told.endswith(" more is owed than there is time for")


def test_of_what_cannot_be_reckoned_it_says_that_it_is_not_sure(sit: Sit) -> None:
    taken = sit("16:30", more=talks(14, 520))
    assert "not sure of a place for 4 of what is owed: too much at once" in owed(taken)


# ------------------------------------------------------------------ on the air


def test_an_item_on_the_air_counts_down_to_its_end_and_back_in(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 now")
    assert top(taken)[:2] == ("back in", "2 min 40 s")
    assert row(taken, "break-3") == "on the air, over in 2 min 10 s"
    assert box(taken, "break-3").state is ItemState.ON_AIR


def test_running_over_it_counts_up_and_its_box_grows(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 now")
    taken.go_to("16:44:02")
    assert row(taken, "break-3") == "on the air, over by 40 s"
    assert top(taken)[:2] == ("over by", "40 s")
    told = taken.view.presenter
    assert told is not None
    assert (told.lead, shown(told.figure)) == ("over by", "40 s")
    assert box(taken, "break-3").to_ms == at_ms("16:44:02")


def test_over_it_has_run_and_is_owed_no_more(sit: Sit) -> None:
    taken = sit()
    assert status(taken) == "On the air; break 3 is owed by 5:00 p.m."
    taken.take("break 3 now")
    taken.go_to("16:43")
    taken.take("break 3 over")
    assert box(taken, "break-3").state is ItemState.RUN
    assert (box(taken, "break-3").from_ms, box(taken, "break-3").to_ms) == (
        at_ms("16:41:12"),
        at_ms("16:43"),
    )
    assert status(taken) == "On the air; break 4 is owed by 6:30 p.m."


def test_the_gap_between_breaks_counts_from_the_end_of_the_last(sit: Sit) -> None:
    taken = sit("16:52")
    taken.take("break 3 now")
    taken.go_to("16:54:30")
    taken.take("break 3 over")
    assert row(taken, "break-4") == "fits after 5:06:30"


# ------------------------------------------------------------------ placed


def test_a_placed_item_stands_in_the_lane_and_says_when(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 at 4:43p")
    assert row(taken, "break-3") == "at 4:43:00"
    placed = box(taken, "break-3")
    assert (placed.state, placed.from_ms, placed.to_ms) == (
        ItemState.PLACED,
        at_ms("16:43"),
        at_ms("16:45:10"),
    )


def test_others_keep_clear_of_what_is_placed(sit: Sit) -> None:
    taken = sit("16:31")
    taken.take("break 3 at 4:40p")
    assert row(taken, "hall") == "leave by 4:35:40"


def test_a_place_that_has_gone_by_is_told_with_the_next_one(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 at 4:43p")
    taken.go_to("16:43:30")
    assert broken(taken) == [
        ("Break 3: not begun; was at 4:43:00 p.m.", "move break 3 to 4:44:00 p.m."),
    ]
    assert row(taken, "break-3") == "not begun; was at 4:43:00"


# ------------------------------------------------------------------ a revision breaks the air


def test_a_moment_that_comes_forward_over_a_break_says_by_when_to_end_it(sit: Sit) -> None:
    taken = sit("16:53")
    taken.take("break 3 now")
    taken.take("ignition 4:55:45p")
    assert broken(taken) == [
        ("Break 3: back 55 s too late for Burn, ignition", "end break 3 by 4:54:15 p.m."),
    ]


def test_from_one_that_cannot_be_cut_the_presenter_rejoins_after_it(sit: Sit) -> None:
    taken = sit("17:01")
    taken.take("break 4 now")
    more = _LIVE.format(at="17:03:00", keys='guard = "30s"')
    assert not broken(taken)
    late = sit("17:01", more=more)
    late.take("break 4 now")
    assert broken(late) == [
        ("Break 4: back 1 min too late for Docking", "you rejoin at 5:03:30 p.m., after it"),
    ]


def test_one_who_is_back_within_the_guard_is_told_that_it_is_before_the_moment(sit: Sit) -> None:
    taken = sit("17:01", more=_LIVE.format(at="17:04:00", keys='guard = "1m"'))
    taken.take("break 4 now")
    assert broken(taken) == [
        ("Break 4: back 30 s too late for Docking", "you rejoin at 5:03:30 p.m., before it"),
    ]


def test_a_remote_that_falls_into_a_gap_is_told_with_its_next_place(sit: Sit) -> None:
    taken = sit(flight=FLIGHT.replace('only_if = "burned"\nlive = true', 'only_if = "burned"'))
    taken.take("hall at 5:30p")
    assert not broken(taken)
    taken.take("ignition 5:10p")
    assert broken(taken) == [
        ("Remote, the hall: 2 min 50 s without voice", "move remote, the hall to 5:32:50 p.m.")
    ]
    assert box(taken, "hall").clash == "2 min 50 s without voice"


def test_what_has_no_place_any_more_is_told(sit: Sit) -> None:
    taken = sit("16:50:30")
    taken.take("ignition 4:53:50p")
    assert row(taken, "break-3") == "fits after 4:54:10"
    taken.go_to("16:57:51")
    assert row(taken, "break-3") == "no place"
    assert taken.view.clear is not None
    assert taken.view.clear.owed[0].tone is Tone.CLASH
    assert owed(taken)[0] == "no place for break 3"


# ------------------------------------------------------------------ off the air


def test_before_and_after_the_hours_the_header_says_so(sit: Sit) -> None:
    assert status(sit("15:00")) == "On the air from 3:30:00 p.m."
    assert status(sit("19:00")) == "Off the air"
    assert status(sit("18:31")) == "On the air until 7:00:00 p.m."


def test_while_the_network_has_the_air_nothing_runs_and_what_is_owed_moves_after_it(
    sit: Sit,
) -> None:
    taken = sit("16:31")
    taken.take("air off until 4:40p")
    assert status(taken) == "Off the air: the network has it until 4:40 p.m."
    assert top(taken)[:2] == ("the network has it", "9 min 00 s")
    assert row(taken, "break-3") == "fits after 4:40"
    assert (at_ms("16:31"), at_ms("16:40")) in taken.view.air.away


def test_nobody_having_said_until_when_it_waits(sit: Sit) -> None:
    taken = sit("16:31")
    taken.take("air off")
    assert status(taken) == "Off the air: the network has it"
    assert row(taken, "break-3") == "when the air is back"
    taken.go_to("16:56:10")
    assert row(taken, "break-3") == "when the air is back"
    taken.go_to("16:56:30")
    assert owed(taken)[0] == "no place for break 3"


def test_nothing_fits_now_while_the_network_has_the_air_or_a_moment_waits(sit: Sit) -> None:
    away = sit("16:31")
    away.take("air off")
    assert not any(each.fits_now for each in away.desk.on_air(away.now_ms).fits)
    waits = sit("17:31:10", more=_LIVE.format(at="17:31:00", keys='give = "2m"'))
    assert not any(each.fits_now for each in waits.desk.on_air(waits.now_ms).fits)


def test_back_on_the_air_everything_is_as_it_was(sit: Sit) -> None:
    taken = sit("16:31")
    taken.take("air off")
    taken.go_to("16:33")
    taken.take("air on")
    assert row(taken, "break-3") == "leave by 4:44:20"


# ------------------------------------------------------------------ proposals


def test_the_proposal_places_everything_owed_and_what_else_has_room(sit: Sit) -> None:
    taken = sit()
    taken.take("place")
    boxes = {each.item: each.from_ms for each in taken.view.air.boxes}
    assert boxes == {
        "break-3": at_ms("16:42"),
        "stop": at_ms("16:50"),
        "break-4": at_ms("17:08:10"),
        "hall": at_ms("17:22:50"),
    }
    assert not broken(taken)


def test_what_is_placed_keeps_its_place_as_long_as_that_can_be(sit: Sit) -> None:
    taken = sit()
    taken.take("break 4 at 5:05p")
    taken.take("place")
    assert box(taken, "break-4").from_ms == at_ms("17:05")


def test_a_place_that_loses_a_moment_is_proposed_anew(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 at 4:45p")
    assert broken(taken)
    found = taken.desk.proposed(taken.now_ms)
    assert found.moved == ("break-3",)
    taken.take("place")
    assert box(taken, "break-3").from_ms == at_ms("16:42")


def test_a_place_that_leaves_none_for_what_is_owed_is_given_up(sit: Sit) -> None:
    taken = sit("16:41", flight=FLIGHT.replace('guard = "60s"', 'guard = "9m"'))
    taken.take("stop at 4:41:05p")
    found = taken.desk.proposed(taken.now_ms)
    assert found.moved == ("stop",)
    assert not found.left


def test_where_not_all_has_place_it_says_why_and_the_most_that_can(sit: Sit) -> None:
    taken = sit("16:30")
    more = """
[[item]]
id = "news"
kind = "studio"
name = "News"
length = "20m"
owed = true
earliest = 2031-05-14T16:40:00
latest = 2031-05-14T17:10:00
"""
    full = sit("16:30", more=more)
    preview = full.preview("place")
    assert preview.error == "No place for news: Burn, ignition stands in its way"
    assert preview.hint.startswith("The most that can: Break 3 at 4:31:00 p.m.")
    assert not taken.preview("place").error


def test_where_giving_up_a_place_helps_nobody_it_is_kept(sit: Sit) -> None:
    more = """
[[item]]
id = "news"
kind = "studio"
name = "News"
length = "20m"
owed = true
earliest = 2031-05-14T16:40:00
latest = 2031-05-14T17:10:00
"""
    taken = sit(more=more)
    taken.take("break 3 at 4:43p")
    taken.take("stop at 4:51p")
    found = taken.desk.proposed(taken.now_ms)
    assert [each.items[0] for each in found.left] == ["news"]
    assert found.moved == ()


def test_what_is_too_late_by_its_own_limits_holds_up_nothing_else(sit: Sit) -> None:
    taken = sit("16:59")
    assert owed(taken)[0] == "no place for break 3"
    taken.take("place")
    assert box(taken, "break-4").state is ItemState.PLACED


# ------------------------------------------------------------------ ticks


def test_the_lane_is_the_same_object_while_nothing_on_it_changes(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 at 4:43p")
    before = taken.view.air
    taken.go_to("16:41:30")
    assert taken.view.air is before


def test_countdown_and_clock_add_up_to_back_by_at_every_second(sit: Sit) -> None:
    taken = sit("16:30")
    for second in range(0, 960, 7):
        now_ms = at_ms("16:30") + second * 1000
        clear = taken.desk.on_air(now_ms).clear
        panel = taken.desk.on_air(now_ms).panel
        assert clear.until_ms is not None
        assert shown(panel.figure) == duration_words(clear.until_ms - now_ms)
        assert panel.back_by.endswith(clock_text(clear.until_ms, _STYLE))


# ------------------------------------------------------------------ what presses


def pressed(taken: Seat) -> list[str]:
    """What the panel says on top is lost, with the way out."""
    assert taken.view.clear is not None
    assert all(said.tone is Tone.CLASH for said in taken.view.clear.broken)
    return [said.text for said in taken.view.clear.broken]


def test_the_way_out_stays_as_long_as_what_is_on_the_air_breaks_a_moment(sit: Sit) -> None:
    taken = sit("16:53")
    taken.take("break 3 now")
    assert pressed(taken) == []
    taken.take("ignition 4:55:45p per flight")
    way = "end break 3 by 4:54:15 p.m."
    assert pressed(taken) == [f"Break 3: back 55 s too late for Burn, ignition; {way}"]
    assert status(taken) == f"On the air; {way}"
    assert row(taken, "break-3") == "on the air, end it by 4:54:15"
    taken.go_to("16:54:20")
    assert row(taken, "break-3") == "on the air, end it now"
    taken.take("break 3 over")
    assert pressed(taken) == []


def test_where_it_can_be_cut_back_in_counts_to_when_one_must_be_back(sit: Sit) -> None:
    taken = sit("16:53")
    taken.take("break 3 now")
    taken.take("ignition 4:55:45p per flight")
    assert top(taken)[:3] == ("back in", "1 min 45 s", "back by 4:54:45 p.m.")
    told = taken.view.presenter
    assert told is not None
    assert (told.lead, shown(told.figure), told.at) == ("back in", "1 min 45 s", "4:54:45 p.m.")
    assert (told.second[0][0], shown(told.second[0][1])) == ("wrap", "1 min 15 s")


def test_where_it_cannot_the_true_time_is_told(sit: Sit) -> None:
    taken = sit("17:01", more=_LIVE.format(at="17:03:00", keys='guard = "30s"'))
    taken.take("break 4 now")
    assert row(taken, "break-4") == "on the air, you rejoin at 5:03:30, after it"
    assert status(taken) == "On the air; you rejoin at 5:03:30 p.m."
    assert top(taken)[:2] == ("back in", "2 min 30 s")
    told = taken.view.presenter
    assert told is not None
    assert (told.at, told.second[0][0]) == ("5:03:30 p.m.", "wrap")


def test_a_moment_that_the_networks_absence_would_cost_is_told(sit: Sit) -> None:
    short = sit("16:40")
    assert short.enter("air off 5m").answer is Answer.DONE
    assert pressed(short) == []
    asked = sit("16:40")
    taken = asked.enter("air off 8m")
    lost = "The network has the air during Loss of signal; take it back by 4:47:00 p.m."
    assert (taken.answer, taken.words) == (Answer.ASKS, f"Enter once more: {lost}")
    asked.enter("air off 8m", again=True)
    assert pressed(asked) == [lost]
    assert top(asked)[2] == "back by 4:47:00 p.m."


def test_nobody_having_said_until_when_a_moment_is_lost_once_it_has_begun(sit: Sit) -> None:
    taken = sit("16:40")
    assert taken.enter("air off").answer is Answer.DONE
    assert pressed(taken) == []
    taken.go_to("16:47")
    assert pressed(taken) == [
        "The network has the air during Loss of signal; take it back now",
    ]


def test_while_the_network_has_the_air_a_junction_before_the_return_calls_nobody(sit: Sit) -> None:
    taken = sit("17:25")
    taken.take("no-burn")
    taken.take("air off 10m")
    assert top(taken)[2] == "back by 5:58:00 p.m."
    told = taken.view.presenter
    assert told is not None
    assert told.back == "by 5:58 p.m."


def test_a_moment_before_the_hours_calls_nobody_back_and_is_said_to_be_outside_them(
    sit: Sit,
) -> None:
    taken = sit("15:00", more=_LIVE.format(at="15:20:00", keys='guard = "1m"'))
    outside = "not in the programme: Docking, 3:20:00 p.m."
    assert top(taken) == ("on the air in", "30 min 00 s", "", outside)
    told = taken.view.presenter
    assert told is not None
    assert (told.back_word, told.back) == ("on the air", "from 3:30 p.m.")
    taken.go_to("15:21:00")
    told = taken.view.presenter
    assert told is not None
    assert (told.back_word, told.back) == ("be back", "by 4:47 p.m.")
    assert top(taken)[2:] == ("back by 4:47:00 p.m.", "Loss of signal")


def test_what_would_begin_while_another_is_on_the_air_says_so_in_its_row(sit: Sit) -> None:
    taken = sit("16:31:00")
    taken.take("hall at 4:33p")
    taken.take("break 3 now")
    assert row(taken, "hall") == "30 s too near to break 3"
    taken.go_to("16:32:30")
    taken.take("break 3 over")
    assert row(taken, "hall") == "at 4:33:00"


def test_on_a_grave_board_a_tape_that_has_not_begun_is_no_clash(sit: Sit) -> None:
    taken = sit("16:41:12")
    taken.take("stop at 4:51p")
    taken.go_to("16:53")
    assert tone(taken, "stop") is Tone.CLASH
    taken.take("grave")
    assert tone(taken, "stop") is Tone.QUIET


def test_before_the_end_of_the_programme_nobody_is_called_back_for_what_comes_after_it(
    sit: Sit,
) -> None:
    taken = sit("18:50", more=_LIVE.format(at="19:20:00", keys='guard = "1m"'))
    assert top(taken) == ("off the air in", "10 min 00 s", "at 7:00:00 p.m.", "")
    told = taken.view.presenter
    assert told is not None
    assert told.back == ""


def test_a_moment_after_the_hours_is_said_to_be_outside_them(sit: Sit) -> None:
    taken = sit("19:00", more=_LIVE.format(at="19:20:00", keys='guard = "1m"'))
    outside = "not in the programme: Docking, 7:20:00 p.m."
    assert top(taken) == ("off the air", "", "", outside)
    told = taken.view.presenter
    assert told is not None
    assert told.back == ""


def test_the_header_says_of_what_is_owed_what_the_panel_says(sit: Sit) -> None:
    taken = sit("16:41:12")
    for clock in ("16:41:12", "16:44:30", "16:56:40", "17:01", "18:10"):
        taken.go_to(clock)
        assert status(taken).removeprefix("On the air; ") in owed(taken), clock
    taken.go_to("16:56:40")
    assert status(taken) == "On the air; no place for break 3"
    assert taken.view.header.status.tone is Tone.CLASH
    taken.go_to("16:58:00")  # its own time is over: that is left to the panel
    assert status(taken) == "On the air; break 4 is owed by 6:30 p.m."
    assert "no place for break 3" in owed(taken)


def test_what_is_placed_and_has_no_place_it_could_go_to_is_owed_by_no_time(sit: Sit) -> None:
    taken = sit("16:41:12")
    taken.take("break 3 at 4:56p")
    taken.take("ignition 4:57:45p per flight")
    taken.go_to("16:55:30")
    assert owed(taken)[0] == "no place for break 3"
    assert status(taken) == "On the air; no place for break 3"


@pytest.mark.parametrize(
    ("clock", "line", "words"),
    [
        ("16:41:12", "break 3 at 4:45p", "back 40 s too late for Loss of signal"),
        ("16:41:12", "hall at 4:50:30p", "4 min without voice"),
        ("16:48", "stop now", "back 6 min 40 s too late for Loss of signal"),
        ("17:26", "stop now", "1 min 40 s over the junction, Network joins"),
        ("18:57", "stop now", "2 min 40 s past the end of the programme"),
    ],
)
def test_what_we_do_ourselves_asks_once_more_if_it_loses_something_dear(
    sit: Sit, clock: str, line: str, words: str
) -> None:
    taken = sit(clock)
    first = taken.enter(line)
    assert first.answer is Answer.ASKS
    assert words in first.words
    assert first.words in taken.preview(line).ask
    assert taken.enter(line, again=True).answer is Answer.DONE


def test_a_revision_called_by_the_ground_never_asks_for_what_is_on_the_air(sit: Sit) -> None:
    taken = sit("16:53")
    taken.take("break 3 now")
    assert taken.preview("ignition 4:55:45p per flight").lines[0].tone is Tone.CLASH
    assert taken.enter("ignition 4:55:45p per flight").answer is Answer.DONE


def test_what_begins_before_a_moment_is_over_begins_too_early(sit: Sit) -> None:
    taken = sit("16:41:12")
    taken.take("stop at 4:49p")
    words = "Tape, how they stop: begins 1 min too early after Loss of signal"
    assert broken(taken)[0][0] == words


def test_the_way_out_of_a_place_is_where_the_proposal_puts_it(sit: Sit) -> None:
    taken = sit("16:41:12")
    taken.take("stop at 4:49p")
    (at,) = (
        each.from_ms for each in taken.desk.proposed(taken.now_ms).places if each.item == "stop"
    )
    way = f"move tape, how they stop to {clock_text(at, _STYLE)}"
    assert broken(taken)[0][1] == way


def test_rows_that_clash_come_first_and_what_is_gone_last(sit: Sit) -> None:
    taken = sit("16:41:12")
    taken.take("break 3 at 4:43p")
    taken.take("hall at 4:50:30p")
    assert taken.view.clear is not None
    assert taken.view.clear.rows[0].item == "hall"
    taken.go_to("16:59:30")
    assert taken.view.clear is not None
    last = taken.view.clear.rows[-1]
    assert (last.item, last.words.text) == ("break-3", "not begun; was at 4:43:00")
    assert last.words.tone is Tone.QUIET
    assert not box(taken, "break-3").clash


def test_the_preview_says_which_placed_items_move_and_from_where(sit: Sit) -> None:
    taken = sit("16:41:12")
    taken.take("break 3 at 4:45p")
    told = [said.text for said in taken.preview("place").lines]
    assert told[0] == "Break 3 moves: 4:45:00 p.m. → 4:42:00 p.m."
    assert "Break 4: 5:08:10 p.m." in told


def test_what_is_placed_well_is_owed_no_more(sit: Sit) -> None:
    taken = sit()
    taken.take("break 3 at 4:43p")
    assert status(taken) == "On the air; break 4 is owed by 6:30 p.m."
    taken.take("break 3 at 4:45p")
    assert status(taken) == "On the air; break 3 is owed by 5:00 p.m."


def test_what_would_have_to_end_as_it_begins_has_no_way_out_but_not_to_begin(sit: Sit) -> None:
    taken = sit("16:48")
    asked = taken.enter("stop now")
    words = "Tape, how they stop: back 6 min 40 s too late for Loss of signal"
    assert asked.words == f"Enter once more: {words}"
