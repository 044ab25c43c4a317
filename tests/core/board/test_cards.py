from pathlib import Path

import pytest

from core.board.model import CardState, Mark, Tone
from core.signal.model import Fill
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat, shown


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


def test_an_event_ahead_counts_down_to_its_clock_time(desk: Seat) -> None:
    card = desk.card("ignition")
    assert card.state is CardState.AHEAD
    assert (shown(card.figure), card.lead) == ("18 min 48 s", "")
    assert (card.clock, card.zone) == ("5:00:00 p.m.", "Atlantic")
    assert card.at_ms == at_ms("17:00")
    assert card.note.text == "out of contact; ± 20 s"
    assert card.reason == "tied to Go for the burn"
    assert [tag.text for tag in card.tags] == ["must be live"]


def test_a_time_with_much_give_says_about_and_loses_its_seconds(desk: Seat) -> None:
    card = desk.card("checks")
    assert shown(card.figure) == "≈ 47 min"
    assert card.clock == "about 5:28 p.m."
    desk.go_to("17:30")
    assert shown(desk.card("checks").figure) == "+ ≈ 2 min"


def test_an_event_past_its_time_in_contact_is_due_and_counts_up(desk: Seat) -> None:
    card = desk.card("go")
    assert card.state is CardState.DUE
    assert (shown(card.figure), card.lead) == ("+ 1 min 12 s", "due")
    assert desk.view.due is not None
    assert desk.view.due.ids == ("go",)
    assert desk.view.due.words == "Overdue: Go for the burn (1 min 12 s)"


def test_the_board_invents_no_slip_for_what_follows_something_due(desk: Seat) -> None:
    assert desk.card("ignition").at_ms == at_ms("17:00")


def test_out_of_contact_a_passed_event_is_out_of_sight_until_the_first_possible_word(
    desk: Seat,
) -> None:
    desk.go_to("17:01")
    card = desk.card("ignition")
    assert card.state is CardState.OUT_OF_SIGHT
    assert (card.figure, card.lead) == (None, "out of sight")
    assert card.note.text == "first word 5:13 or 5:23 p.m."
    assert desk.view.due is not None
    assert "ignition" not in desk.view.due.ids


def test_on_the_ground_nothing_is_out_of_sight(tmp_path: Path) -> None:
    on_ground = FLIGHT.replace(
        "at = 2031-05-11T13:28:00\nhappened = 2031-05-11T13:28:30.400", "at = 2031-05-14T17:02:00"
    )
    desk = seat(tmp_path, "16:52:00", on_ground)
    assert (desk.card("ignition").note.text, desk.card("cutoff").note.text) == (
        "± 20 s",
        "out of contact",
    )
    desk.go_to("17:07")
    assert desk.card("ignition").state is CardState.DUE
    assert desk.card("cutoff").state is CardState.OUT_OF_SIGHT


def test_it_stays_out_of_sight_to_the_later_of_two_returns_and_says_the_same_time(
    desk: Seat,
) -> None:
    desk.go_to("17:14")
    card = desk.card("ignition")
    assert card.state is CardState.OUT_OF_SIGHT
    assert card.note.text == "first word 5:23 p.m."
    desk.go_to("17:24")  # from its return on the first words take their time
    assert desk.card("ignition").state is CardState.DUE


def test_once_they_are_heard_a_passed_event_is_due(desk: Seat) -> None:
    desk.go_to("17:13")
    desk.take("voice back 5:12:40p")
    assert desk.card("ignition").state is CardState.DUE


def test_a_return_that_hangs_on_an_outcome_is_not_heard_by_its_time(desk: Seat) -> None:
    desk.go_to("17:13")
    card = desk.card("return-none")
    assert card.state is CardState.DUE
    assert (shown(card.figure), card.lead) == ("+ 30 s", "not heard by 5:12:30 p.m.")


def test_what_hangs_on_an_open_outcome_is_never_among_those_one_key_confirms(desk: Seat) -> None:
    desk.go_to("17:40")
    due = desk.view.due
    assert due is not None
    assert due.ids == ("go", "loss", "cutoff")
    desk.desk.confirm_due(desk.now_ms)
    assert desk.card("return").lead == "not heard by 5:22:50 p.m."


def test_a_return_whose_outcome_is_named_is_simply_due(desk: Seat) -> None:
    desk.go_to("17:24")
    desk.take("burned per flight")
    assert desk.card("return").lead == "due"
    assert desk.view.due is not None
    assert "return" in desk.view.due.ids


def test_a_held_count_stands_and_says_for_how_long(desk: Seat) -> None:
    desk.take("ignition hold")
    desk.go_to("16:43:42")
    card = desk.card("ignition")
    assert card.state is CardState.HELD
    assert (shown(card.figure), card.lead) == ("18 min 48 s", "HELD WITH")
    assert card.clock == ""
    assert card.note.text == "held for 2 min 30 s"
    assert card.change.text == ""
    assert card.at_ms == at_ms("17:02:30")


def test_what_follows_a_held_count_slides_with_it(desk: Seat) -> None:
    desk.take("ignition hold")
    desk.go_to("16:43:42")
    card = desk.card("cutoff")
    assert (shown(card.figure), card.clock) == ("24 min 48 s", "5:08:30 p.m.")


def test_a_card_that_follows_a_held_count_says_why_it_moves(desk: Seat) -> None:
    slides = "slides with the hold"
    desk.take("ignition hold")
    told = {name: [tag.text for tag in desk.card(name).tags] for name in ("ignition", "cutoff")}
    assert (slides in told["ignition"], slides in told["cutoff"]) == (False, True)
    assert slides in [tag.text for tag in desk.card("checks").tags]
    assert slides not in [tag.text for tag in desk.card("return-none").tags]
    desk.take("ignition resume")
    assert slides not in [tag.text for tag in desk.card("cutoff").tags]


def test_a_fact_says_when_it_happened_and_how_late_it_was(desk: Seat) -> None:
    desk.take("go happened 4:41:02p")
    card = desk.card("go")
    assert card.state is CardState.HAPPENED
    assert (card.figure, card.lead) == (None, "happened")
    assert (card.clock, card.note.text) == ("4:41:02 p.m.", "1 min 02 later")
    assert card.change.text == ""


def test_a_fact_on_its_planned_second_was_on_time(desk: Seat) -> None:
    desk.take("go happened 4:40p")
    assert desk.card("go").note.text == "on time"


def test_an_edge_the_plan_did_not_name_needs_nobody_to_confirm_it(desk: Seat) -> None:
    desk.go_to("18:40")
    desk.take("burned")
    edge = next(card for card in desk.view.cards if card.name == "Voice lost, Tarn Hill")
    assert (edge.state, edge.lead) == (CardState.HAPPENED, "passed")
    assert desk.view.due is not None
    assert edge.id not in desk.view.due.ids


def test_what_hangs_on_a_course_that_was_called_off_is_unknown_and_stands_last(
    desk: Seat,
) -> None:
    desk.take("ignition scrub stay")
    card = desk.card("return")
    assert card.state is CardState.UNKNOWN
    assert (card.figure, card.lead, card.clock) == (None, "time unknown", "")
    assert card.at_ms is None
    assert card.mark is None
    last = [each.id for each in desk.view.cards if each.state is CardState.UNKNOWN]
    assert [each.id for each in desk.view.cards][-len(last) :] == last


def test_marks_are_in_the_order_of_time(desk: Seat) -> None:
    assert desk.card("loss").mark == Mark("voice", Fill.CONTACT, Fill.GAP)
    assert desk.card("return").mark == Mark("voice", Fill.GAP, Fill.CONTACT)
    assert desk.card("ignition").mark == Mark("voice", Fill.GAP, Fill.GAP)
    assert desk.card("go").mark == Mark("picture", Fill.CONTACT, Fill.CONTACT)


def test_a_mark_under_an_outcome_shows_what_holds_then(desk: Seat) -> None:
    assert desk.card("checks").mark == Mark("picture", Fill.CONTACT, Fill.CONTACT)
    assert desk.card("sleep").mark == Mark("voice", Fill.EITHER, Fill.EITHER)


def test_after_an_early_loss_the_planned_one_says_that_the_signal_is_gone_already(
    desk: Seat,
) -> None:
    assert desk.card("loss").note.text.startswith("then out of contact")
    desk.take("voice lost now")
    card = desk.card("loss")
    assert (card.state, card.note.text) == (CardState.AHEAD, "voice is lost already")
    assert card.mark == Mark("voice", Fill.GAP, Fill.GAP)


def test_a_note_says_what_the_audience_will_have(desk: Seat) -> None:
    assert desk.card("loss").note.text == "then out of contact 23 min or 33 min"
    assert desk.card("cutoff").note.text == "out of contact"
    assert desk.card("school").note.text == "no pictures"
    assert desk.card("sleep").note.text == "contact depends on the outcome"
    assert desk.card("rehearsed").note.text == ""


def test_a_card_and_contact_give_a_gap_the_same_length(desk: Seat) -> None:
    voice = desk.view.contact.lanes[0]
    assert voice.then == "then behind the Moon for 23 min or 33 min"
    assert desk.card("loss").note.text.endswith("23 min or 33 min")


def test_the_two_possible_returns_are_a_pair_and_what_follows_them_is_not(desk: Seat) -> None:
    paired = {card.id: card.pair for card in desk.view.cards if card.pair}
    assert paired == {"return-none": "ignition", "return": "ignition"}


def test_what_hangs_on_an_outcome_says_on_which(desk: Seat) -> None:
    assert "after the burn" in [tag.text for tag in desk.card("checks").tags]
    assert [tag.text for tag in desk.card("return").tags] == ["must be live"]


def test_naming_the_outcome_drops_the_other_and_unties_the_pair(desk: Seat) -> None:
    desk.take("burned per flight")
    assert not desk.has("return-none")
    assert desk.card("return").pair == ""
    assert desk.card("checks").tags == ()


def test_a_pinned_card_says_how_much_slack_is_left(desk: Seat) -> None:
    tags = [tag.text for tag in desk.card("school").tags]
    assert tags == ["must be live", "pinned, slack 28 min 10 s"]


def test_an_overruled_limit_stands_on_the_card_of_the_later_event(desk: Seat) -> None:
    desk.take("rehearsed 5:59p")
    assert desk.card("school").clash == "1 min too early against School call rehearsed"
    assert desk.card("rehearsed").clash == ""
    notice = "Overruled: School call 1 min too early against School call rehearsed"
    assert (notice, Tone.CLASH) in [(said.text, said.tone) for said in desk.view.notices]


def test_a_window_overruled_says_on_which_side(desk: Seat) -> None:
    desk.take("sleep 1:05a")
    assert desk.card("sleep").clash == "5 min after its window"
    desk.take("sleep 10:50p")
    assert desk.card("sleep").clash == "10 min before its window"


def test_a_limit_holds_again_when_there_is_room(desk: Seat) -> None:
    desk.take("rehearsed 5:59p")
    desk.take("rehearsed 5:50p")
    assert desk.card("school").clash == ""
    assert desk.view.notices == ()


def test_a_revised_time_is_marked_and_gives_its_reason(desk: Seat) -> None:
    desk.take("ignition 5:02p per flight")
    card = desk.card("ignition")
    assert "revised" in [tag.text for tag in card.tags]
    assert card.reason == "the time that was typed"
    desk.take("ignition free")
    assert "revised" not in [tag.text for tag in desk.card("ignition").tags]


def test_a_figure_that_is_the_plans_own_time_is_no_revision_any_more(desk: Seat) -> None:
    desk.take("ignition +45s")
    assert "revised" in [tag.text for tag in desk.card("ignition").tags]
    desk.take("replan")
    assert "revised" not in [tag.text for tag in desk.card("ignition").tags]
    desk.take("ignition +45s")
    assert "revised" in [tag.text for tag in desk.card("ignition").tags]


def test_cards_are_written_only_when_they_are_asked_for_and_only_once(desk: Seat) -> None:
    cards = desk.view.cards
    assert cards[1] is cards[1]
    assert cards[-1].id == cards[len(cards) - 1].id
    assert [card.id for card in cards[1:3]] == [cards[1].id, cards[2].id]
    assert [card.id for card in cards] == [cards[at].id for at in range(len(cards))]
    with pytest.raises(IndexError):
        cards[len(cards)]
