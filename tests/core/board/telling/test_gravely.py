"""On a grave board: what is shown on the desk and before the presenter, and when no line is."""

import pytest

from app.resources import sample_plan
from app.skies import skies_for
from core.board.model import View
from core.board.programme import ItemState
from core.board.written import Tone
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.session.model import Answer
from core.times.clocks import SimClock
from core.times.zones import instant_to_ms

NOT_HEARD = (
    "Mission control has not heard from Petrel since it went behind the Moon. "
    "That is all that is known."
)
NO_WORD = (
    "There is still no word from Petrel. Mission control is calling. "
    "We stay with it, and say what they say."
)


def desk_at(clock: str, *typed: str) -> tuple[Desk, int]:
    """The desk of the arrival once those lines were entered, then 'grave'."""
    plan = read_plan(sample_plan("petrel-arrival"))
    now_ms = instant_to_ms(f"2031-05-14T{clock}", plan.zones[0])
    desk = Desk(plan, SimClock(now_ms, paused=True), skies_for=skies_for)
    for text in (*typed, "grave"):
        if desk.enter(text, "", now_ms).answer is Answer.ASKS:
            assert desk.enter(text, "", now_ms, again=True).answer is Answer.DONE
    return desk, now_ms


def board(clock: str, *typed: str) -> View:
    desk, now_ms = desk_at(clock, *typed)
    return desk.view(now_ms)


def lines(clock: str, *typed: str) -> tuple[str, ...]:
    """What is shown, which is the same on both windows."""
    view = board(clock, *typed)
    assert view.to_say is not None
    assert view.presenter is not None
    desk = tuple(sentence.twenty for sentence in view.to_say.sentences)
    assert view.presenter.lines == desk
    return desk


def test_in_contact_no_line_is_shown_since_an_earlier_loss_of_the_plan_is_over() -> None:
    assert lines("16:41:00") == ()


def test_behind_the_moon_no_line_is_shown_before_the_last_possible_return() -> None:
    assert lines("17:15:00", "voice lost 4:49:05p") == ()


@pytest.mark.parametrize("typed", [(), ("voice lost 4:49:05p",)])
def test_a_line_comes_so_long_after_the_last_possible_return(typed: tuple[str, ...]) -> None:
    assert NOT_HEARD not in lines("17:32:21", *typed)
    assert lines("17:32:23", *typed)[-1:] == (NOT_HEARD,)
    assert lines("17:52:25", *typed)[-1:] == (NO_WORD,)


@pytest.mark.parametrize(
    "heard",
    [
        "voice back 5:21:39p per flight",
        "picture back 5:28p per flight",
        "return happened 5:21:39p per flight",
        "photo now per flight",
        "checks happened 5:30p per pool",
    ],
)
def test_once_there_was_word_no_line_is_shown(heard: str) -> None:
    told = lines("17:34:53", heard)
    assert not {NOT_HEARD, NO_WORD} & set(told)


def test_the_second_silence_counts_by_itself() -> None:
    typed = ("voice lost 4:49:05p", "voice back 5:21:39p per flight", "burned per flight")
    assert NOT_HEARD not in lines("19:39:00", *typed)
    assert lines("19:42:00", *typed)[-1:] == (NOT_HEARD,)


def test_the_source_is_named_as_it_is_spoken() -> None:
    told = lines("17:34:53", "voice back 5:21:39p per flight", "photo now per flight")
    assert told == (
        (
            "The last word from mission control came at five thirty-four Atlantic: "
            "first picture from orbit."
        ),
    )


def test_breaks_and_tapes_are_not_proposed_and_none_is_owed() -> None:
    desk, now_ms = desk_at("16:35:00")
    clear = desk.view(now_ms).clear
    assert clear is not None
    floating = [row.item for row in clear.rows if row.state is not ItemState.PLACED]
    assert floating == ["gym", "geologist"]
    assert clear.owed == ()
    assert {each.item for each in desk.proposed(now_ms).places} == {"gym", "geologist"}


def test_a_placed_break_stays_where_it_is_and_is_told_what_it_loses_but_no_other_place() -> None:
    desk, now_ms = desk_at("16:35:00", "break 3 4:48p")
    clear = desk.view(now_ms).clear
    assert clear is not None
    row = next(row for row in clear.rows if row.item == "break-3")
    assert row.words.tone is Tone.CLASH
    assert "else at" not in row.words.text
    assert "break-3" not in {each.item for each in desk.proposed(now_ms).places}


def test_they_are_proposed_again_once_it_is_over() -> None:
    desk, now_ms = desk_at("16:35:00")
    desk.view(now_ms)
    desk.enter("grave over", "", now_ms)
    assert desk.enter("grave over", "", now_ms, again=True).answer is Answer.DONE
    assert "break-4" in {each.item for each in desk.proposed(now_ms).places}


def test_facts_leave_the_cards() -> None:
    desk, now_ms = desk_at("16:35:00")
    assert not any(card.facts for card in desk.view(now_ms).cards)
