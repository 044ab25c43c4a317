from pathlib import Path

import pytest

from core.board.lately import with_said
from core.board.model import CardState, LastChange, Said, Tone
from core.entries.airing import MarkSaid, Waive
from core.entries.model import Entry, Revise
from core.plan.model import Change
from core.signal.model import Fill
from core.times.writing import Hours, Style
from tests.core.board.boards import FLIGHT, Seat, at_ms, plan_of, seat, seat_on, shown


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


# ----- the header and the order of the cards


def test_the_clock_is_a_sentence(desk: Seat) -> None:
    header = desk.view.header
    assert f"{header.weekday}, {header.clock} {header.zone}" == "Wednesday, 4:41:12 p.m. Atlantic"
    assert header.utc == "19:41:12"
    assert (header.title, header.subtitle) == ("Whimbrel 2", "round the Moon")


def test_elapsed_time_counts_from_the_second_it_really_began(desk: Seat) -> None:
    assert (desk.view.header.elapsed, desk.view.header.elapsed_word) == (
        "3 d 03:12:42",
        "elapsed",
    )


@pytest.mark.parametrize(
    ("clock", "said"),
    [
        ("14:00", "On the air from 3:00:00 p.m."),
        ("15:00", "On the air until 11:00:00 p.m."),
        ("23:00", "Off the air"),
    ],
)
def test_the_header_says_where_the_programme_stands(tmp_path: Path, clock: str, said: str) -> None:
    air = "[air]\non = 2031-05-14T15:00:00\noff = 2031-05-14T23:00:00\n"
    assert seat(tmp_path, clock, FLIGHT + air).view.header.status.text == said


def test_a_window_writes_all_its_clock_times_one_way(tmp_path: Path) -> None:
    desk = seat_on(plan_of(tmp_path), at_ms("16:41:12"), Hours.TWENTY_FOUR)
    view = desk.view
    assert view.header.clock == "16:41:12"
    assert desk.card("ignition").clock == "17:00:00"
    assert {edge.text for edge in view.strip.edges} >= {"16:50", "17:12"}
    written = [card.clock + card.note.text + card.lead for card in view.cards]
    assert not any("p.m." in text or "a.m." in text for text in written)


def test_cards_stand_in_the_order_of_time_and_the_next_is_the_first_to_come(desk: Seat) -> None:
    view = desk.view
    times_ms = [card.at_ms for card in view.cards if card.at_ms is not None]
    assert times_ms == sorted(times_ms)
    assert view.cards[view.next_index].id == "loss"
    assert view.cards[view.next_index - 1].id == "go"


def test_the_big_card_is_the_next_live_moment(desk: Seat) -> None:
    desk.go_to("17:23")
    desk.take("burned per flight")
    view = desk.view
    assert view.big_index is not None
    assert view.cards[view.big_index].id == "school"
    desk.take("school scrub stay")
    view = desk.view
    assert view.big_index is not None
    assert view.cards[view.big_index].id == "checks"  # nothing live is left: simply the next


def test_what_is_out_of_sight_comes_before_what_is_ahead_and_is_never_the_big_card(
    desk: Seat,
) -> None:
    desk.go_to("17:01")
    view = desk.view
    assert view.cards[view.next_index].id == "ignition"
    assert view.big_index is not None
    assert view.cards[view.big_index].id == "return-none"


def test_at_the_end_of_the_plan_nothing_is_next(desk: Seat) -> None:
    desk.take("no-burn")
    desk.clock.jump(at_ms("12:00", "2031-05-16"))  # type: ignore[union-attr]
    view = desk.view
    assert view.next_index == len(view.cards)
    assert view.big_index is None


def test_many_due_events_stand_in_one_short_row(desk: Seat) -> None:
    desk.go_to("18:25")
    desk.take("burned")
    due = desk.view.due
    assert due is not None
    assert due.words == (
        "Overdue: Go for the burn (1 h 45 min), Loss of signal (1 h 35 min) and 7 more"
    )


# ----- the change against the plan


def test_nothing_changed_is_said_once(desk: Seat) -> None:
    desk.take("go happened 4:40p")
    assert desk.view.summary.text == "All that is to come is as in the flight plan."
    assert {card.change.text for card in desk.view.cards} == {""}


def test_with_events_overdue_it_is_not_said_that_all_is_as_planned(desk: Seat) -> None:
    desk.go_to("16:45")
    assert desk.view.due is not None
    assert desk.view.summary.text == "Nothing to come has a new time."


def test_where_events_have_no_time_any_more_it_is_said_of_what_still_comes(desk: Seat) -> None:
    desk.take("go happened 4:40p")
    desk.take("burned")
    assert desk.view.summary.text == "What still comes is as in the flight plan."


def test_a_change_that_most_have_is_said_once_and_on_a_card_only_where_it_differs(
    tmp_path: Path,
) -> None:
    text = FLIGHT.replace('auto_edges = ["voice"]\n', "")
    desk = seat(tmp_path, text=text)
    desk.take("go happened 4:41p")
    desk.take("burned")
    desk.take("sleep 11:31p")
    desk.take("supper 6:21p")
    said = desk.view.summary
    assert (
        said.text == "All but Loss of signal and School call run 1 min later than the flight plan."
    )
    assert said.tone is Tone.CHANGE
    changes = {card.id: card.change.text for card in desk.view.cards}
    assert changes["ignition"] == ""
    assert changes["loss"] == "as planned"
    assert changes["school"] == "stays"


def test_a_change_of_few_stands_on_their_cards(desk: Seat) -> None:
    desk.take("supper 6:25p")
    assert desk.view.summary.text == ""
    assert desk.card("supper").change.text == "5 min later"
    assert desk.card("supper").change.tone is Tone.CHANGE
    assert desk.card("ignition").change.text == ""


# ----- the strip


def test_the_strip_has_every_lane_in_stretches_that_meet(desk: Seat) -> None:
    strip = desk.view.strip
    assert [(lane.lane, lane.name, lane.colour) for lane in strip.lanes] == [
        ("voice", "VOICE", "voice"),
        ("picture", "PICTURE", "picture"),
    ]
    for lane in strip.lanes:
        assert lane.starts_ms[1:] == lane.ends_ms[:-1]
        assert len(lane.fills) == len(lane.words) == len(lane.starts_ms)


def test_the_strip_shows_contact_gap_and_where_it_depends_on_the_outcome(desk: Seat) -> None:
    voice = desk.view.strip.lanes[0]

    def at(clock: str) -> tuple[Fill, str]:
        place = next(n for n, end in enumerate(voice.ends_ms) if at_ms(clock) < end)
        return voice.fills[place], voice.words[place]

    assert at("16:45") == (Fill.CONTACT, "")
    assert at("17:00") == (Fill.GAP, "behind the Moon")
    assert at("17:15") == (Fill.EITHER, "either")
    assert at("17:30")[0] is Fill.CONTACT


def test_edges_on_the_strip_carry_the_minute_that_is_said(desk: Seat) -> None:
    edges = [e for e in desk.view.strip.edges if e.lane == "voice" and e.at_ms > at_ms("16:41")]
    assert [(edge.text, edge.lost) for edge in edges[:3]] == [
        ("4:50 p.m.", True),
        ("5:12 p.m.", False),
        ("5:23 p.m.", False),  # the later of two, as it is said
    ]
    assert edges[0].at_ms == at_ms("16:50")


def test_ground_stations_are_brackets_that_meet_at_the_hand_over(desk: Seat) -> None:
    spans = {(span.name, span.from_ms, span.to_ms) for span in desk.view.strip.grounds}
    assert ("Kestrel Bay", at_ms("16:20"), at_ms("16:50")) in spans
    assert ("Tarn Hill", at_ms("12:00"), at_ms("16:20")) in spans


def test_the_strip_is_the_same_object_until_something_moves(desk: Seat) -> None:
    strip = desk.view.strip
    desk.go_to("16:42")
    assert desk.view.strip is strip
    desk.take("ignition +1m")
    moved = desk.view.strip
    assert moved is not strip
    assert at_ms("17:01") in moved.events_ms
    assert at_ms("17:23:50") in [edge.at_ms for edge in moved.edges]
    assert at_ms("17:12:30") in [edge.at_ms for edge in moved.edges]


# ----- CONTACT


def contact(desk: Seat, lane: str) -> tuple[str, str, str, str]:
    now = next(each for each in desk.view.contact.lanes if each.lane == lane)
    return shown(now.figure), now.word, now.through, now.then


def test_contact_says_what_is_left_through_whom_and_what_comes_then(desk: Seat) -> None:
    assert contact(desk, "voice") == (
        "8 min 48 s",
        "left",
        "through Kestrel Bay",
        "then behind the Moon for 23 min or 33 min",
    )


def test_contact_announces_the_next_hand_over(desk: Seat) -> None:
    desk.go_to("16:00")
    assert contact(desk, "voice")[:3] == (
        "50 min 00 s",
        "left",
        "through Tarn Hill; hand-over to Kestrel Bay 4:20 p.m.",
    )


def test_in_a_gap_contact_gives_both_possible_returns(desk: Seat) -> None:
    desk.go_to("16:55")
    assert contact(desk, "voice") == (
        "17 min 30 s",
        "until back, or 27 min 50 s",
        "behind the Moon",
        "then as the outcome has it",
    )


def test_a_return_that_only_one_outcome_brings_may_be_later(desk: Seat) -> None:
    desk.go_to("16:55")
    assert contact(desk, "picture")[:2] == ("33 min 00 s", "until back, or later")
    desk.take("burned")
    assert contact(desk, "picture")[:2] == ("33 min 00 s", "until back")


def test_between_the_two_returns_contact_gives_the_latest(desk: Seat) -> None:
    desk.go_to("17:13")
    assert contact(desk, "voice")[:3] == (
        "9 min 50 s",
        "until back, at the latest",
        "depends on the outcome",
    )


def test_a_lane_closed_by_the_ground_says_so_and_opens_again(desk: Seat) -> None:
    desk.take("voice closed")
    assert contact(desk, "voice")[1] == "closed by the ground"
    voice = desk.view.strip.lanes[0]
    assert Fill.CLOSED in voice.fills
    desk.go_to("16:43")
    desk.take("voice open")
    assert contact(desk, "voice")[:2] == ("7 min 00 s", "left")


def test_a_lane_closed_in_a_gap_says_so_at_once(desk: Seat) -> None:
    desk.go_to("17:00")
    assert contact(desk, "voice")[2] == "behind the Moon"
    desk.take("voice closed")
    assert contact(desk, "voice")[2] == "closed by the ground; behind the Moon"
    assert contact(desk, "picture")[2] == "behind the Moon"
    desk.take("voice open")
    assert contact(desk, "voice")[2] == "behind the Moon"


def test_totals_say_once_over_what_and_what_each_outcome_brings(desk: Seat) -> None:
    assert desk.view.contact.totals == (
        "Out of contact in the next 24 h",
        "Voice: 3 gaps, 21 h 24 min after the burn; 2 gaps, 8 h 04 min if no burn",
        "Picture: 2 gaps, 22 h 51 min after the burn; 1 gap, 23 h 53 min if no burn",
    )


def test_a_plan_without_signal_has_an_empty_contact_and_strip(tmp_path: Path) -> None:
    text = """
limbwatch = 1
title = "Fulmar 1"
zones = ["UTC"]

[[event]]
id = "liftoff"
at = 2031-05-14T20:00:00Z
"""
    view = seat(tmp_path, text=text).view
    parts = (view.contact.lanes, view.contact.totals, view.strip.lanes, view.strip.edges)
    assert not any(parts)
    assert view.cards[0].mark is None
    assert view.cards[0].note.text == ""
    assert view.cards[0].name == "liftoff"
    assert (view.header.elapsed, view.header.elapsed_word) == ("", "")


def test_an_event_alone_on_the_board_is_the_big_card(tmp_path: Path) -> None:
    text = 'limbwatch = 1\ntitle = "Fulmar 1"\nzones = ["UTC"]\n\n[[event]]\nid = "liftoff"\n'
    view = seat(tmp_path, text=text + "at = 2031-05-14T20:00:00Z\n").view
    assert (view.next_index, view.big_index) == (0, 0)
    assert view.cards[0].state is CardState.AHEAD


# ----- LAST CHANGE


def test_last_change_says_what_moved_what_stayed_and_who_said_it(desk: Seat) -> None:
    desk.take("go happened 4:41p per flight")
    last = desk.view.last_change
    assert last is not None
    assert (last.when, last.source, last.headline) == (
        "4:41:12 p.m.",
        "flight",
        "Go for the burn happened 1 min later than planned",
    )
    assert [(text, said.text) for text, said in last.rows] == [
        ("Burn, ignition and 4 more follow", "1 min later"),
        ("Said on the air", "not yet"),
    ]


def test_last_change_says_whether_the_audience_has_been_told() -> None:
    style = Style("UTC", Hours.TWENTY_FOUR)
    moved = Entry(2, 0, "", Revise("loss", 5_000))
    change = LastChange("", "flight", "Loss 5 s later", (), event="loss", number=2)
    before = Entry(1, 0, "", MarkSaid("Loss is due.", (("loss", 0),)))
    after = Entry(3, 60_000, "", MarkSaid("Loss is due.", (("loss", 5_000),)))

    def told(*entries: Entry) -> Said:
        return dict(with_said(change, entries, style).rows)["Said on the air"]

    assert told(before, moved) == Said("not yet")
    assert told(before, moved, after) == Said("00:01:00", Tone.QUIET)
    assert told(moved, Entry(3, 0, "", Waive(("loss",)))).text == "need not be"
    assert told(moved, Entry(3, 0, "", MarkSaid("Back soon.", (("back", 0),)))).text == "not yet"


def test_last_change_names_what_goes_along_and_what_is_overruled(desk: Seat) -> None:
    desk.take("cutoff +1m")
    last = desk.view.last_change
    assert last is not None
    assert ("Burn, ignition goes along", "1 min later") in [(a, b.text) for a, b in last.rows]
    desk.take("rehearsed 5:59p")
    last = desk.view.last_change
    assert last is not None
    assert ("School call", "limit overruled", Tone.CLASH) in [
        (a, b.text, b.tone) for a, b in last.rows
    ]


def test_last_change_says_what_stayed_and_why(desk: Seat) -> None:
    desk.take("supper pin")
    desk.take("school 6:05p")
    last = desk.view.last_change
    assert last is not None
    assert ("Supper stays", "pinned") in [(a, b.text) for a, b in last.rows]


def test_a_note_leaves_the_last_change_where_it_is(desk: Seat) -> None:
    desk.take("supper 6:25p")
    before = desk.view.last_change
    desk.take("note the hall is noisy")
    assert desk.view.last_change == before


def test_a_fact_is_told_against_what_was_expected_and_against_the_plan(desk: Seat) -> None:
    desk.take("supper 6:25p")
    desk.go_to("18:25")
    desk.take("supper happened 6:24:14p per flight")
    last = desk.view.last_change
    assert last is not None
    assert last.headline == "Supper happened 46 s before it was expected"
    assert last.rows[0][0] == "Against the flight plan"
    assert last.rows[0][1].text == "4 min 14 later"


def test_what_was_taken_back_of_the_programme_leaves_the_last_change(desk: Seat) -> None:
    desk.take("supper 6:25p")
    before = desk.view.last_change
    desk.take("grave")
    taken = desk.desk.undo(desk.now_ms)
    assert taken.words == "Taken back: Grave"
    assert desk.view.last_change == before
    desk.desk.caught_up(desk.now_ms)
    assert desk.view.last_change == before


def test_naming_the_outcome_says_what_has_no_time_any_more(desk: Seat) -> None:
    desk.take("burned per flight")
    last = desk.view.last_change
    assert last is not None
    assert last.headline == "Outcome: after the burn (Burn, ignition)"
    assert [(a, b.text) for a, b in last.rows] == [("Signal back, if no burn", "no time any more")]


def test_an_edge_of_the_strip_says_which_way_it_goes(desk: Seat) -> None:
    losses = {edge.at_ms for edge in desk.view.strip.edges if edge.lost}
    for lane in desk.desk.signal():
        told = {e.time_ms for e in lane.edges if e.change is Change.LOST}
        assert told <= losses


def test_the_burn_and_its_returns_stay_until_a_source_has_named_the_outcome(desk: Seat) -> None:
    desk.go_to("17:40")
    view = desk.view
    stay = [card.id for card in view.cards[view.next_index :]][:3]
    assert stay == ["ignition", "return-none", "return"]
    assert view.due is not None
    assert not {"ignition", "return-none", "return"} & set(view.due.ids)
    desk.take("burned per flight")
    view = desk.view
    assert view.due is not None
    assert {"ignition", "return"} <= set(view.due.ids)
