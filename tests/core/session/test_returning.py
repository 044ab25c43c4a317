"""What is said, and where the clock goes on, when a session is opened again."""

from dataclasses import replace

import pytest

from core.entries.model import ClockTold, Entry
from core.session.keeping import Beat, Kept
from core.session.returning import back_words, is_of_today, last_alive_ms, rehearsal_clock
from core.times.trust import ClockTrust, Trust
from core.times.writing import Style
from tests.core.session.days import NOON_MS, notes

STYLE = Style("America/Halifax")
MACHINE_MS = NOON_MS + 7_777
KEPT = Kept(None, tuple(notes(1, 3)), Beat(MACHINE_MS, NOON_MS + 9_000), MACHINE_MS - 4_000)
HOUR_MS = 3_600_000


@pytest.mark.parametrize(
    ("away_ms", "said"),
    [
        (0, "0 s"),
        (-5_000, "0 s"),
        (20_400, "20 s"),
        (3 * 60_000 + 12_000, "3 min"),
        (2 * HOUR_MS + 59_000, "2 h"),
    ],
)
def test_the_line_tells_how_long_it_was_and_what_there_is(away_ms: int, said: str) -> None:
    words = back_words(KEPT, MACHINE_MS + away_ms, STYLE)
    assert words == f"Back after {said}: 3 entries, the last at 9:00:03 a.m."


def test_one_entry_and_none_are_told_in_their_own_words() -> None:
    one = replace(KEPT, entries=tuple(notes(1, 1)))
    assert back_words(one, MACHINE_MS, STYLE) == "Back after 0 s: 1 entry, at 9:00:01 a.m."
    none = replace(KEPT, entries=())
    assert back_words(none, MACHINE_MS, STYLE) == "Back after 0 s: nothing was entered"
    lost = Kept(None, tuple(notes(1, 3)))
    assert back_words(lost, MACHINE_MS, STYLE) == "Back: 3 entries, the last at 9:00:03 a.m."


def test_a_session_is_of_today_for_twelve_hours_after_its_last_sign_of_life() -> None:
    assert is_of_today(KEPT, MACHINE_MS + 12 * HOUR_MS - 1)
    assert not is_of_today(KEPT, MACHINE_MS + 12 * HOUR_MS)
    assert not is_of_today(Kept(None, ()), MACHINE_MS)
    assert last_alive_ms(replace(KEPT, beat=None)) == MACHINE_MS - 4_000


def test_a_rehearsal_goes_on_from_the_last_sign_of_life_at_its_rate() -> None:
    beat = Beat(MACHINE_MS, NOON_MS + 90_000, 60.0, paused=True)
    clock = rehearsal_clock(replace(KEPT, beat=beat))
    assert clock is not None
    assert (clock.now_ms(), clock.rate, clock.paused) == (NOON_MS + 90_000, 60.0, True)


def test_an_entry_kept_after_the_last_sign_of_life_takes_the_clock_further() -> None:
    beat = Beat(MACHINE_MS, NOON_MS + 1_000, paused=True)
    clock = rehearsal_clock(replace(KEPT, beat=beat, kept_ms=MACHINE_MS + 1))
    assert clock is not None
    assert clock.now_ms() == NOON_MS + 3_000


def test_a_clock_that_was_set_back_stays_so() -> None:
    clock = rehearsal_clock(replace(KEPT, beat=Beat(MACHINE_MS, NOON_MS - 60_000, paused=True)))
    assert clock is not None
    assert clock.now_ms() == NOON_MS - 60_000


def test_nobody_can_tell_where_a_rehearsal_without_any_sign_was() -> None:
    assert rehearsal_clock(Kept(None, ())) is None


def test_what_the_machine_entered_of_its_clock_is_not_counted() -> None:
    machine = Entry(4, NOON_MS + 5_000, "", ClockTold(ClockTrust(Trust.ALONE)))
    more = replace(KEPT, entries=(*KEPT.entries, machine))
    assert back_words(more, MACHINE_MS, STYLE) == back_words(KEPT, MACHINE_MS, STYLE)
    alone = replace(KEPT, entries=(machine,))
    assert back_words(alone, MACHINE_MS, STYLE).endswith("nothing was entered")
