from pathlib import Path

import pytest

from core.board.model import CardState
from core.session.desk import Desk
from core.session.model import Answer
from core.session.store import MemoryStore
from tests.core.board.boards import Seat, at_ms, plan_of, seat
from tests.fakes import HandMachine


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


def stored(tmp_path: Path, clock: str = "16:41:12") -> tuple[Seat, MemoryStore]:
    """A desk and the store behind it."""
    sim = HandMachine.at(0).sim_clock(at_ms(clock))
    store = MemoryStore()
    return Seat(Desk(plan_of(tmp_path), sim, store), sim), store


# ----- Enter, and Enter once more


def test_enter_takes_the_line_and_numbers_the_entry(desk: Seat) -> None:
    taken = desk.enter("ignition +45s per flight")
    assert (taken.answer, taken.number) == (Answer.DONE, 1)
    assert desk.card("ignition").clock == "5:00:45 p.m."


def test_an_empty_line_is_nothing(desk: Seat) -> None:
    assert desk.enter("   ").answer is Answer.NOTHING
    assert desk.desk.entries() == ()


def test_a_line_that_cannot_be_read_is_refused_with_a_hint(desk: Seat) -> None:
    taken = desk.enter("ignitoin +45s")
    assert taken.answer is Answer.REFUSED
    assert "ignitoin" in taken.words
    assert taken.hint
    assert desk.desk.entries() == ()


def test_a_clash_changes_nothing_at_the_first_enter(desk: Seat) -> None:
    taken = desk.enter("rehearsed 5:59p")
    assert taken.answer is Answer.ASKS
    assert "it clashes" in taken.words
    assert desk.card("rehearsed").clock == "5:38:20 p.m."


def test_the_second_enter_on_the_same_text_sets_it_all_the_same(tmp_path: Path) -> None:
    desk, store = stored(tmp_path)
    desk.enter("rehearsed 5:59p")
    taken = desk.enter("rehearsed 5:59p", again=True)
    assert taken.answer is Answer.DONE
    assert desk.card("rehearsed").clock == "5:59:00 p.m."
    assert store.entries[0].forced


def test_a_second_enter_on_another_text_or_card_asks_anew(desk: Seat) -> None:
    desk.enter("rehearsed 5:59p")
    assert desk.enter("rehearsed 5:59:30p", again=True).answer is Answer.ASKS
    desk.enter("+25m", "supper")
    assert desk.enter("+25m", "school", again=True).answer is Answer.ASKS


def test_a_second_enter_without_a_first_asks(desk: Seat) -> None:
    assert desk.enter("rehearsed 5:59p", again=True).answer is Answer.ASKS


def test_an_enter_in_between_takes_the_question_back(desk: Seat) -> None:
    desk.enter("rehearsed 5:59p")
    desk.enter("note asked again")
    assert desk.enter("rehearsed 5:59p", again=True).answer is Answer.ASKS


def test_a_plain_entry_is_not_marked_as_forced(tmp_path: Path) -> None:
    desk, store = stored(tmp_path)
    desk.take("supper 6:40p")  # asks because it is far, but overrules nothing
    assert not store.entries[0].forced


def test_the_instant_that_counts_is_that_of_the_first_enter(tmp_path: Path) -> None:
    desk, store = stored(tmp_path)
    assert desk.enter("supper now").answer is Answer.ASKS
    desk.go_to("16:41:27")
    assert desk.enter("supper now", again=True).answer is Answer.DONE
    assert desk.card("supper").at_ms == at_ms("16:41:12")
    assert store.entries[0].at_ms == at_ms("16:41:12")


def test_long_after_the_first_enter_it_says_what_it_would_do_as_of_that(tmp_path: Path) -> None:
    desk, store = stored(tmp_path)
    first = desk.enter("supper now")
    desk.go_to("16:42:47")
    asked = desk.enter("supper now", again=True)
    assert asked.answer is Answer.ASKS
    assert asked.words.startswith("Enter once more: Supper happened at 4:41:12 p.m. ")
    reasons = first.words.removeprefix("Enter once more: ")
    assert asked.words.endswith(f", as of the first Enter 1 min 35 s ago; {reasons}")
    desk.go_to("16:42:50")
    assert desk.enter("supper now", again=True).answer is Answer.DONE
    assert store.entries[0].at_ms == at_ms("16:41:12")


def test_a_question_that_has_stood_a_while_says_when_it_was_asked(desk: Seat) -> None:
    first = desk.enter("supper now")
    reasons = first.words.removeprefix("Enter once more: ")
    assert first.later == f"Enter once more, asked at 4:41:12 p.m.: {reasons}"


def test_as_often_as_one_waits_it_says_so_again(tmp_path: Path) -> None:
    desk, store = stored(tmp_path)
    desk.enter("supper now")
    for clock in ("16:41:40", "16:42:10"):
        desk.go_to(clock)
        assert desk.enter("supper now", again=True).answer is Answer.ASKS
    assert not store.entries


def test_a_line_that_would_do_the_same_by_now_is_taken_however_late(desk: Seat) -> None:
    assert desk.enter("rehearsed 5:59p").answer is Answer.ASKS
    desk.go_to("16:45:00")
    assert desk.enter("rehearsed 5:59p", again=True).answer is Answer.DONE


def test_the_plans_own_pin_goes_only_at_the_second_enter(desk: Seat) -> None:
    assert desk.enter("school free").answer is Answer.ASKS
    assert "pinned" in str(desk.card("school").tags)
    desk.enter("school free", again=True)
    assert "pinned" not in str(desk.card("school").tags)


def test_a_line_without_a_target_is_about_the_selected_card(desk: Seat) -> None:
    desk.take("+2m", "supper")
    assert desk.card("supper").clock == "6:22:00 p.m."


# ----- undo and redo


def test_undo_takes_back_the_last_entry_and_redo_brings_it_back(desk: Seat) -> None:
    desk.take("ignition +45s")
    desk.take("supper +2m")
    taken = desk.desk.undo(desk.now_ms)
    assert taken.words == "Taken back: Supper at 6:22:00 p.m."
    assert desk.card("supper").clock == "6:20:00 p.m."
    assert desk.card("ignition").clock == "5:00:45 p.m."
    desk.desk.undo(desk.now_ms)
    assert desk.card("ignition").clock == "5:00:00 p.m."
    desk.desk.redo(desk.now_ms)
    desk.desk.redo(desk.now_ms)
    assert desk.card("supper").clock == "6:22:00 p.m."
    assert desk.desk.redo(desk.now_ms).answer is Answer.NOTHING


def test_nothing_typed_means_nothing_to_take_back(desk: Seat) -> None:
    assert desk.desk.undo(desk.now_ms).answer is Answer.NOTHING
    assert desk.desk.redo(desk.now_ms).answer is Answer.NOTHING


def test_something_new_typed_ends_what_redo_could_bring_back(desk: Seat) -> None:
    desk.take("ignition +45s")
    desk.desk.undo(desk.now_ms)
    desk.take("supper +2m")
    assert desk.desk.redo(desk.now_ms).answer is Answer.NOTHING
    assert desk.card("ignition").clock == "5:00:00 p.m."


def test_undo_takes_back_a_fact_too(desk: Seat) -> None:
    desk.take("go happened 4:41p")
    desk.desk.undo(desk.now_ms)
    assert desk.card("go").state is CardState.DUE
    assert desk.card("ignition").clock == "5:00:00 p.m."


def test_any_entry_of_the_day_can_be_taken_back_and_brought_back(desk: Seat) -> None:
    desk.take("go happened 4:41p")
    desk.take("supper +2m")
    assert desk.desk.take_back(1, desk.now_ms).answer is Answer.DONE
    assert desk.card("go").state is CardState.DUE
    assert desk.card("supper").clock == "6:22:00 p.m."
    assert [row.taken_back for row in desk.desk.entries()] == [True, False]
    assert desk.desk.bring_back(1, desk.now_ms).answer is Answer.DONE
    assert desk.card("go").state is CardState.HAPPENED


def test_an_entry_is_turned_once_only(desk: Seat) -> None:
    desk.take("supper +2m")
    assert desk.desk.bring_back(1, desk.now_ms).answer is Answer.NOTHING
    desk.desk.take_back(1, desk.now_ms)
    assert desk.desk.take_back(1, desk.now_ms).answer is Answer.NOTHING
    assert desk.desk.take_back(9, desk.now_ms).answer is Answer.NOTHING


def test_a_relative_figure_keeps_its_instant_when_an_older_entry_is_taken_back(
    desk: Seat,
) -> None:
    desk.take("ignition 5:02p")
    desk.take("ignition +45s")
    desk.desk.take_back(1, desk.now_ms)
    assert desk.card("ignition").clock == "5:02:45 p.m."


def test_taking_back_a_forced_entry_gives_the_older_figure_its_place_again(desk: Seat) -> None:
    desk.take("ignition 5:02p")
    desk.take("go 5:03p")
    assert desk.card("ignition").clock == "5:23:00 p.m."
    desk.desk.undo(desk.now_ms)
    assert desk.card("ignition").clock == "5:02:00 p.m."


def test_the_last_change_says_what_was_turned(desk: Seat) -> None:
    desk.take("supper +2m")
    desk.desk.undo(desk.now_ms)
    last = desk.view.last_change
    assert last is not None
    assert last.headline == "Taken back: Supper at 6:22:00 p.m."


# ----- what is due, confirmed


def test_one_key_confirms_all_that_is_due_at_the_times_that_were_shown(desk: Seat) -> None:
    desk.go_to("17:24")
    taken = desk.desk.confirm_due(desk.now_ms)
    assert taken.words == "Confirmed: Go for the burn; Loss of signal and Burn, cutoff"
    assert desk.card("cutoff").state is CardState.HAPPENED
    assert desk.card("cutoff").clock == "5:06:00 p.m."
    assert desk.card("ignition").state is CardState.DUE  # its outcome is open
    assert desk.view.due is None
    assert len(desk.desk.entries()) == 3


def test_confirming_a_resumed_count_leaves_every_shown_time_where_it_was(desk: Seat) -> None:
    desk.take("go happened 4:40p")
    desk.take("cutoff hold")
    desk.go_to("16:43:12")
    desk.take("cutoff resume")
    desk.go_to("17:23:30")
    due = desk.view.due
    assert due is not None
    before = {name: desk.card(name).clock for name in due.ids}
    desk.desk.confirm_due(desk.now_ms)
    assert {name: desk.card(name).clock for name in due.ids} == before


def test_nothing_due_is_said(tmp_path: Path) -> None:
    desk = seat(tmp_path, "16:00")
    taken = desk.desk.confirm_due(desk.now_ms)
    assert (taken.answer, taken.words) == (Answer.NOTHING, "Nothing is due")


def test_a_confirmation_is_taken_back_like_any_entry(desk: Seat) -> None:
    desk.desk.confirm_due(desk.now_ms)
    desk.desk.undo(desk.now_ms)
    assert desk.card("go").state is CardState.DUE


# ----- the day's entries


def test_the_days_entries_say_when_what_and_who(desk: Seat) -> None:
    desk.take("ignition +45s per flight")
    desk.go_to("16:42:00")
    desk.take("note the hall is noisy")
    first, second = desk.desk.entries()
    assert (first.number, first.when, first.typed) == (
        1,
        "4:41:12 p.m.",
        "ignition +45s per flight",
    )
    assert (first.meaning, first.source) == ("Burn, ignition at 5:00:45 p.m.", "flight")
    assert (second.when, second.meaning) == ("4:42:00 p.m.", "the hall is noisy")
    assert first.can_take_back
    assert not first.taken_back


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("ignition 5:02p +-40s", "Burn, ignition at 5:02:00 p.m., ± 40 s"),
        ("ignition +-40s", "Burn, ignition ± 40 s"),
        ("go happened 4:41p", "Go for the burn happened at 4:41:00 p.m."),
        ("ignition hold", "Burn, ignition held at 4:41:12 p.m. with 18 min 48 s"),
        ("checks scrub with", "Cabin checks done called off, with all tied to it"),
        ("checks scrub bridge", "Cabin checks done called off, those tied to it tied across"),
        ("checks scrub stay", "Cabin checks done called off, those tied to it stay"),
        ("supper pin", "Supper pinned to 6:20:00 p.m."),
        ("supper free", "Supper follows its ties again"),
        ("burned", "Outcome: after the burn (Burn, ignition)"),
        ("voice lost 4:41p", "Voice lost at 4:41:00 p.m."),
        ("voice closed", "Voice closed from 4:41:12 p.m."),
        ('new "Wave" ignition +4m', "Added: Wave"),
        ("replan", "The present times are the planned ones now"),
    ],
)
def test_every_entry_says_what_it_means(desk: Seat, typed: str, said: str) -> None:
    desk.take(typed)
    assert desk.desk.entries()[0].meaning == said


def test_resume_and_undecided_are_listed_too(desk: Seat) -> None:
    for typed in ("ignition hold", "ignition resume", "burned", "burned undecided", "voice open"):
        desk.enter(typed)
    said = [row.meaning for row in desk.desk.entries()]
    assert said[1] == "Burn, ignition resumes at 4:41:12 p.m."
    assert said[3] == "Outcome open again: after the burn (Burn, ignition)"


def test_a_board_in_memory_says_that_nothing_is_saved(desk: Seat) -> None:
    assert desk.view.saved == "not saved"


# ----- outcomes, edges, lanes


def test_an_outcome_named_and_undecided_again(desk: Seat) -> None:
    desk.take("burned per flight")
    assert not desk.has("return-none")
    desk.take("burned undecided")
    assert desk.has("return-none")
    assert desk.card("return").pair == "ignition"


def test_the_other_outcome_takes_the_place_of_the_first(desk: Seat) -> None:
    desk.take("burned")
    desk.take("no-burn per flight")
    assert desk.has("return-none")
    assert not desk.has("return")


def test_an_observed_edge_is_a_fact_of_the_event_that_names_it(desk: Seat) -> None:
    desk.go_to("16:50:30")
    desk.take("voice lost 4:50:12p")
    card = desk.card("loss")
    assert (card.state, card.clock, card.note.text) == (
        CardState.HAPPENED,
        "4:50:12 p.m.",
        "12 s later",
    )
    assert at_ms("16:50:12") in [edge.at_ms for edge in desk.view.strip.edges]


def test_an_observed_edge_moves_the_later_rows_of_its_table(desk: Seat) -> None:
    desk.take("burned")
    desk.go_to("17:24")
    desk.take("voice back 5:23:50p")
    edges = [edge.at_ms for edge in desk.view.strip.edges if edge.lane == "voice"]
    assert at_ms("18:37:10") in edges
    assert desk.card("checks").at_ms == at_ms("17:29:20")


def test_alone_it_moves_none_of_them(desk: Seat) -> None:
    desk.take("burned")
    desk.go_to("17:24")
    desk.take("voice back 5:23:50p alone")
    edges = [edge.at_ms for edge in desk.view.strip.edges if edge.lane == "voice"]
    assert at_ms("17:23:50") in edges
    assert at_ms("18:36:10") in edges
    assert desk.card("return").state is CardState.HAPPENED


def test_an_automatic_edge_is_typed_by_its_lane_not_by_its_name(desk: Seat) -> None:
    desk.take("burned")
    desk.go_to("19:26")
    taken = desk.take("voice back now")
    assert "VOICE back" in taken.words
    edge = next(card for card in desk.view.cards if card.at_ms == at_ms("19:26"))
    assert (edge.name, edge.state) == ("Voice back, Tarn Hill", CardState.HAPPENED)


def test_an_automatic_edge_is_revised_by_selecting_its_card(desk: Seat) -> None:
    desk.take("burned")
    edge = next(card for card in desk.view.cards if card.name == "Voice lost, Tarn Hill")
    desk.take("+1m", edge.id)
    assert desk.card(edge.id).at_ms == at_ms("18:37:10")


def test_a_closed_lane_is_told_on_cards_and_strip_and_opens_again(desk: Seat) -> None:
    desk.take("voice closed")
    desk.take("picture closed")
    assert desk.card("go").note.text == ""
    assert desk.view.contact.lanes[0].word == "closed by the ground"
    desk.desk.undo(desk.now_ms)
    desk.desk.undo(desk.now_ms)
    assert desk.view.contact.lanes[0].word == "left"


# ----- rehearsal


def test_every_entry_of_a_simulated_clock_is_marked_as_a_rehearsals(tmp_path: Path) -> None:
    desk, store = stored(tmp_path)
    desk.take("ignition +45s")
    desk.desk.undo(desk.now_ms)
    desk.desk.confirm_due(desk.now_ms)
    assert len(store.entries) == 3
    assert all(entry.rehearsal for entry in store.entries)
    badge = desk.view.rehearsal
    assert badge is not None
    assert (badge.rate, badge.paused) == ("1", False)


def test_on_the_real_clock_nothing_says_rehearsal(tmp_path: Path) -> None:
    machine = HandMachine.at(at_ms("16:41:12"))
    store = MemoryStore()
    clock = machine.real_clock()
    desk = Seat(Desk(plan_of(tmp_path), clock, store), clock)
    desk.take("ignition +45s")
    assert desk.view.rehearsal is None
    assert not store.entries[0].rehearsal
