"""Who is at the desk, and what was promised to the audience: typed, and what then stands."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.entries.airing import KeepPromise, Promise
from core.entries.at_desk import Turn, at_desk, turns, who_typed
from core.entries.model import Action, ClockStep, Entry, Note
from core.entries.promised import open_promises, promised
from core.entries.reading import read
from core.entries.signing import SignIn, SignOut
from core.errors import EntryProblem
from tests.core.entries.at_the_desk import AtTheDesk

DESK = AtTheDesk()
HALL, CREW = Promise("back to the hall after the burn"), Promise("the crew's own words")


def typed(line: str, desk: AtTheDesk = DESK) -> Action:
    """What the line does, of several readings the first."""
    action = read(line, desk)[0].action
    assert isinstance(action, Action)
    return action


def entered(*actions: Action) -> tuple[Entry, ...]:
    """These as entries, one a second, each by whoever was at the desk."""
    found: list[Entry] = []
    for number, action in enumerate(actions, 1):
        by = who_typed(action, at_desk(found))
        found.append(Entry(number, number * 1_000, "", action, by=by))
    return tuple(found)


# ------------------------------------------------------------------ signing


@pytest.mark.parametrize(
    ("line", "who"),
    [("sign in AB", "AB"), ("sign in ab", "AB"), ("Sign In a.b.", "AB"), ("sign in Ö", "Ö")],
)
def test_initials_are_kept_in_capitals_without_stops(line: str, who: str) -> None:
    assert typed(line) == SignIn(who)


def test_signing_in_while_another_is_there_says_from_whom() -> None:
    assert read("sign in CD", DESK)[0].how == "CD is at the desk"
    assert read("sign in CD", DESK.after(SignIn("AB")))[0].how == "CD takes the desk from AB"


def test_signing_out_needs_no_initials_but_takes_the_right_ones() -> None:
    there = DESK.after(SignIn("AB"))
    assert typed("sign out", there) == typed("sign out ab", there) == SignOut("AB")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("sign", "in or out"),
        ("sign up", "no way to sign"),
        ("sign in", "Whose initials"),
        ("sign in ABCDE", "no initials"),
        ("sign in 4B", "no initials"),
        ("sign in A B", "no initials"),
        ("sign out", "Nobody is signed in"),
    ],
)
def test_what_is_no_signing_says_what_is(line: str, said: str) -> None:
    with pytest.raises(EntryProblem, match=said) as refused:
        read(line, DESK)
    assert refused.value.hint


def test_nobody_signs_in_twice_or_another_out() -> None:
    there = DESK.after(SignIn("AB"))
    with pytest.raises(EntryProblem, match="AB is signed in already"):
        read("sign in ab", there)
    with pytest.raises(EntryProblem, match="not who is signed in"):
        read("sign out CD", there)


def test_a_signal_is_not_mistaken_for_signing() -> None:
    desk = DESK.with_event("back", name="Signal back")
    assert typed("signal 5:22p", desk) == typed("back 5:22p", desk)
    assert typed("sign 5:22p", desk) == typed("back 5:22p", desk)
    assert typed("sign in AB", desk) == SignIn("AB")


def test_turns_meet_and_end_with_a_signing_out() -> None:
    day = entered(SignIn("AB"), Note("a"), SignIn("CD"), SignOut("CD"), Note("b"), SignIn("AB"))
    assert turns(day) == (
        Turn("AB", 1_000, 3_000),
        Turn("CD", 3_000, 4_000),
        Turn("AB", 6_000),
    )
    assert [entry.by for entry in day] == ["AB", "AB", "CD", "CD", "", "AB"]


def test_what_the_machine_enters_nobody_typed() -> None:
    assert who_typed(ClockStep(3_000, slept=False), "AB") == ""
    assert who_typed(Note("quiet"), "AB") == "AB"
    assert who_typed(SignIn("CD"), "AB") == "CD"


signings = st.lists(
    st.sampled_from(["AB", "CD"]).map(SignIn)
    | st.just("").map(SignOut)
    | st.just("quiet").map(Note),
    max_size=12,
)


@given(signings)
def test_whoever_is_at_the_desk_has_the_last_turn(actions: Sequence[Action]) -> None:
    day = entered(*actions)
    last = [turn.who for turn in turns(day) if turn.until_ms is None]
    assert at_desk(day) == "".join(last)
    assert len(last) <= 1


# ------------------------------------------------------------------ promises


def test_a_promise_is_kept_to_the_letter() -> None:
    assert typed("promise the crew’s own words – soon") == Promise("the crew’s own words – soon")


def test_a_promise_may_name_who_made_it() -> None:
    (reading,) = read("promise back to the hall per pool", DESK)
    assert (reading.action, reading.source) == (Promise("back to the hall"), "pool")
    (reading,) = read("promise five minutes per guest", DESK)
    assert reading.action == Promise("five minutes per guest")


def test_the_only_promise_needs_no_words_to_be_kept() -> None:
    assert typed("kept", DESK.after(HALL)) == KeepPromise(1, HALL.text)


def test_of_several_promises_words_say_which() -> None:
    desk = DESK.after(HALL, CREW)
    assert typed("kept crew", desk) == KeepPromise(2, CREW.text)
    assert typed("kept burn hall", desk) == KeepPromise(1, HALL.text)


def test_of_several_that_are_meant_alike_enter_asks_which() -> None:
    readings = read("kept", DESK.after(HALL, CREW))
    assert [reading.action for reading in readings] == [
        KeepPromise(1, HALL.text),
        KeepPromise(2, CREW.text),
    ]
    assert all(reading.asks for reading in readings)


@pytest.mark.parametrize(
    ("line", "before", "said"),
    [
        ("promise", (), "What was promised"),
        ("kept", (), "No promise is open"),
        ("kept hall", (HALL, KeepPromise(1, HALL.text)), "No promise is open"),
        ("kept moon", (HALL, CREW), "No open promise has 'moon'"),
        ("kept", (HALL,) * 5, "5 promises are open"),
    ],
)
def test_what_is_no_promise_is_told(line: str, before: tuple[Action, ...], said: str) -> None:
    with pytest.raises(EntryProblem, match=said) as refused:
        read(line, DESK.after(*before))
    assert refused.value.hint


def test_a_promise_is_open_until_it_was_kept() -> None:
    day = entered(SignIn("AB"), HALL, CREW, KeepPromise(2, HALL.text))
    first, second = promised(day)
    assert (first.by, first.at_ms, first.kept_ms) == ("AB", 2_000, 4_000)
    assert open_promises(promised(day)) == (second,)


def test_a_promise_that_was_taken_back_cannot_be_kept() -> None:
    assert promised(entered(KeepPromise(7, "gone"))) == ()
