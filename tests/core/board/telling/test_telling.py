"""Which sentence is the one of the moment, what is owed, and what is told to who comes back."""

import re
from pathlib import Path

import pytest

from core.board.telling.telling import Telling
from core.entries.airing import Grave, LeaveAir, MarkSaid, TakeAir, Waive
from core.entries.model import (
    Choose,
    Happened,
    Hold,
    Note,
    Observe,
    Resume,
    Revise,
    Scrub,
    Way,
)
from core.plan.model import Change
from core.saying.model import TWENTY_MS, Subject, speaking_ms
from tests.core.board.boards import FLIGHT, at_ms
from tests.core.board.talk import Talk, talk
from tests.core.saying.aloud import lengths

SAID = FLIGHT.replace(
    'name = "Burn, ignition"',
    'name = "Burn, ignition"\nsay = "the burn round the Moon"\nsounds = "WIM-brul"',
).replace(
    'name = "Loss of signal"',
    'name = "Loss of signal"\nsay = "the moment Whimbrel goes behind the Moon"',
)
AIR = """
[air]
on = 2031-05-14T15:30:00
off = 2031-05-14T23:00:00

[[junction]]
at = 2031-05-14T17:00:00
name = "Network joins"

[[junction]]
at = 2031-05-14T19:00:00
name = "The east leaves"
"""


@pytest.fixture
def here(tmp_path: Path) -> Talk:
    return talk(tmp_path, SAID)


# ------------------------------------------------------------------ the sentence of the moment


def test_within_ten_minutes_of_a_loss_one_speaks_of_what_is_left(here: Talk) -> None:
    assert here.first("16:42:12") == (
        "We have about five and a half minutes of pictures left, and just under eight of voice. "
        "Then Whimbrel goes behind the Moon. "
        "The burn round the Moon is due while nobody on Earth can hear it."
    )


def test_while_one_lane_stays_the_loss_of_another_is_told_late(here: Talk) -> None:
    assert here.subjects("16:38:30")[0] is Subject.NEXT
    assert here.first("16:41:00").startswith("We have about seven minutes of pictures left, and ")


def test_a_live_moment_is_no_quiet_time(tmp_path: Path) -> None:
    here = talk(tmp_path, SAID)
    here.take("17:25", Choose("burned"), "flight")
    assert Subject.QUIET not in here.subjects("18:00")


def test_in_the_silence_the_next_live_moment_is_told_and_that_it_is_unheard(here: Talk) -> None:
    assert here.first("16:52:00") == (
        "Next, the burn round the Moon. It is due in about eight minutes, at five o'clock "
        "Atlantic, three o'clock Central. We will not hear it."
    )


def test_what_goes_on_unheard_is_told_with_an_if(here: Talk) -> None:
    assert here.first("17:01:00") == (
        "If all is going to plan, the engine is burning now, behind the Moon, where nobody on "
        "Earth can hear it. The first chance of any word is about eleven minutes away."
    )


def test_after_it_there_are_two_times_to_watch(here: Talk) -> None:
    assert here.first("17:07:00") == (
        "Two times to watch. With no burn, their signal is expected at about five-twelve; after a "
        "full one, about five twenty-three. So at five-twelve, quiet is what they hope for here. "
        "Those times are Atlantic."
    )


def test_in_the_minute_of_a_return_one_watches(here: Talk) -> None:
    assert here.first("17:12:00") == (
        "Coming up now, the first of two times to watch: signal back, if no burn. "
        "Quiet is what they hope for here."
    )
    assert here.first("17:12:45").startswith("This is the first of two times to watch: ")


def test_a_return_that_stays_out_proves_nothing(here: Talk) -> None:
    told = here.first("17:15:00")
    assert told == (
        "Five-twelve has come and gone, and nobody has reported a signal. That proves nothing. "
        "What it means is for mission control to say. The next time to watch is about five "
        "twenty-three."
    )


def test_when_the_last_return_stays_out_nothing_is_said_of_what_was_to_come(here: Talk) -> None:
    assert here.subjects("17:26:00") == [Subject.MISSED]
    assert "The next time to watch" not in here.first("17:26:00")


def test_a_signal_heard_is_told_and_what_it_means_is_not_ours_to_say(here: Talk) -> None:
    edge = here.session.schedule.edge("return")
    here.take("17:22:55", Observe("voice", Change.BACK, at_ms("17:22:55"), edge=edge))
    assert here.first("17:23:10").startswith(
        "We have voice again, since five twenty-two. What that means is for mission control to say."
    )


def test_an_outcome_is_told_only_as_a_named_source_has_said_it(here: Talk) -> None:
    here.take("17:24:00", Choose("burned"))
    assert Subject.OUTCOME not in here.subjects("17:24:10")
    here.take("17:24:20", Choose("burned"), "desk")
    assert Subject.OUTCOME not in here.subjects("17:24:30")
    here.take("17:25:00", Choose("burned"), "flight")
    assert here.first("17:25:10") == (
        "Mission control confirms the burn. They said so at five twenty-five."
    )


def test_nothing_is_said_of_how_it_runs_while_nobody_knows_how_it_went(here: Talk) -> None:
    here.take("16:40:10", Happened("go", at_ms("16:40")))
    assert Subject.LATE in here.subjects("16:42:12")
    assert Subject.LATE not in here.subjects("17:07:00")


def test_nothing_is_on_time_while_something_is_overdue(here: Talk) -> None:
    on_time = "What is still to come is on time, by the flight plan."
    assert on_time in [told.line for told in here.told("16:40:29")]
    assert on_time not in [told.line for told in here.told("16:40:30")]
    here.take("16:40:40", Happened("go", at_ms("16:40")), "flight")
    assert on_time in [told.line for told in here.told("16:40:45")]


def test_that_all_is_on_time_is_true_until_the_next_event_is_overdue(here: Talk) -> None:
    told = next(t for t in here.told("16:38:00") if t.subject is Subject.LATE)
    assert at_ms("16:40:20") < told.until_ms < at_ms("16:40:30")


def test_a_delay_is_told_and_that_nobody_has_said_why(here: Talk) -> None:
    here.take("16:35", Revise("go", at_ms("16:41:18")), "flight")
    late = next(t for t in here.told("16:35:30") if t.subject is Subject.LATE)
    assert late.twenty == (
        "They are running a little over a minute behind the flight plan. Mission control has not "
        "said why."
    )
    here.take("16:36", Note("a valve was slow"), "flight")
    late = next(t for t in here.told("16:36:30") if t.subject is Subject.LATE)
    assert late.twenty == "They are running a little over a minute behind the flight plan."


def test_a_hold_is_told_exactly_and_its_age_rounded_down(here: Talk) -> None:
    here.take("16:33", Hold("ignition", at_ms("16:33"), 27 * 60_000))
    assert here.first("16:39:40") == (
        "The count to the burn round the Moon is holding, with twenty-seven minutes left on it. "
        "It stopped more than six minutes ago. There is no new time yet."
    )
    here.take("16:40", Resume("ignition", at_ms("16:40")))
    assert Subject.HOLD not in here.subjects("16:40:05")


def test_what_is_called_off_comes_first_with_who_said_so(here: Talk) -> None:
    here.take("16:34", Scrub("ignition", Way.STAY), "agency")
    assert here.first("16:35").startswith(
        "The burn round the Moon is called off. The agency said so at four thirty-four."
    )


def test_while_a_count_is_held_no_estimate_is_ours(here: Talk) -> None:
    here.take("16:33", Hold("ignition", at_ms("16:33"), 27 * 60_000))
    assert here.subjects("16:39") == [Subject.HOLD, Subject.NEXT]
    assert here.at("16:39").sentences[1].times == (("loss", at_ms("16:50")),)


def test_no_sentence_counts_down_the_last_minute(here: Talk) -> None:
    assert Subject.NEXT not in here.subjects("16:59:20")


def test_in_the_last_minute_before_a_live_moment_it_is_what_one_speaks_of(here: Talk) -> None:
    for clock in ("16:59:00", "16:59:58"):
        assert here.first(clock) == ("Coming up now: the burn round the Moon. We will not hear it.")
    assert here.subjects("17:00:00")[0] is Subject.GAP


def test_a_live_moment_is_due_until_somebody_says_that_it_came(here: Talk) -> None:
    here.take("17:25", Choose("burned"), "flight")
    assert here.first("17:59:57") == "Coming up now: school call."
    assert here.first("18:00:01") == "Due now: school call."
    here.take("18:00:20", Happened("school", at_ms("18:00:10")))
    assert here.first("18:00:21") == "It came at six o'clock: school call."
    assert here.subjects("18:03:10")[0] is not Subject.MOMENT


def test_a_live_moment_that_nobody_confirms_was_due(tmp_path: Path) -> None:
    text = SAID.replace('name = "School call"', 'name = "School call"\nstay = "4m"')
    here = talk(tmp_path, text)
    here.take("17:25", Choose("burned"), "flight")
    assert (
        here.first("18:01:30") == "School call was due at six o'clock. Nobody has confirmed it yet."
    )


def test_what_hangs_on_an_open_outcome_is_not_spoken_of_as_coming(here: Talk) -> None:
    assert Subject.MOMENT not in here.subjects("17:12:00")
    assert Subject.MOMENT not in here.subjects("17:22:50")


def test_what_is_under_way_has_not_come_and_gone(here: Talk) -> None:
    assert here.subjects("17:01:00").count(Subject.GAP) == 1


def test_hours_before_anything_it_is_quiet(tmp_path: Path) -> None:
    here = talk(tmp_path, SAID)
    here.take("17:25", Choose("burned"), "flight")
    assert here.first("18:50") == (
        "Next on the flight plan: crew to sleep. It is due at "
        "eleven-thirty Atlantic, nine-thirty Central."
    )


def test_while_what_decides_is_not_known_nothing_is_said_of_what_was_to_come(here: Talk) -> None:
    assert here.subjects("17:44") == [Subject.WAITING]
    assert here.first("17:44") == (
        "We are waiting for word of the burn round the Moon. Silence proves nothing. How it went "
        "is for mission control to say."
    )
    assert Subject.NEXT in here.subjects("17:53")


def test_through_the_hour_every_sentence_can_be_read_aloud(here: Talk) -> None:
    telling = here.telling(at_ms("16:30"))
    for now_ms in range(at_ms("16:30"), at_ms("17:45"), 5_000):
        for told in telling.told(now_ms):
            assert speaking_ms(told.twenty) <= TWENTY_MS
            assert len(told.line) <= len(told.twenty) <= len(told.long)
            for text in (told.line, told.twenty):
                assert re.fullmatch(r"[A-Z][^\d]*[.”]", text)
                assert not re.search(r"  |\.\.| [.,;]|\b(\w+) \1\b|None", text)


def test_there_is_always_something_to_say_but_in_the_last_minute(here: Talk) -> None:
    telling = here.telling(at_ms("16:30"))
    for now_ms in range(at_ms("16:30"), at_ms("17:45"), 1_000):
        live = (at_ms("16:50"), at_ms("17:00"))
        if not any(0 < each - now_ms <= 60_000 for each in live):
            assert telling.told(now_ms)


def test_how_names_sound_goes_with_a_sentence_that_has_them(tmp_path: Path) -> None:
    named = SAID.replace("the burn round the Moon", "the burn of Whimbrel")
    told = talk(tmp_path, named).at("16:52:10").sentences[0]
    assert "Whimbrel" in told.twenty
    assert told.sounds == ("WIM-brul",)
    assert told.line_sounds == (("WIM-brul",) if "Whimbrel" in told.line else ())


def test_how_a_name_sounds_does_not_stand_under_a_sentence_without_it(here: Talk) -> None:
    told = here.at("16:52:10").sentences[0]
    assert told.twenty.startswith("Next")
    assert (told.sounds, told.line_sounds) == ((), ())


def test_a_fact_that_may_be_told_makes_the_long_one(tmp_path: Path) -> None:
    facts = SAID.replace(
        'sounds = "WIM-brul"', 'sounds = "WIM-brul"\nfacts = [ { text = "One engine." } ]'
    )
    told = talk(tmp_path, facts).sentence("16:52:10")
    assert told.long == f"{told.twenty} One engine."
    assert len(told.line) < len(told.twenty)


def test_a_fact_that_waits_for_word_stays_out(tmp_path: Path) -> None:
    held = 'facts = [ { text = "One engine.", after_confirmed = true } ]'
    facts = SAID.replace('sounds = "WIM-brul"', f'sounds = "WIM-brul"\n{held}')
    told = talk(tmp_path, facts).sentence("16:52:10")
    assert told.long == told.twenty


# ------------------------------------------------------------------ kept, and said


def test_a_sentence_is_kept_word_for_word_until_it_is_no_longer_true(here: Talk) -> None:
    begun_ms = at_ms("16:42:12")
    telling = here.telling(begun_ms)
    first = telling.at(begun_ms).sentences[0]
    later = telling.at(first.until_ms).sentences[0]
    assert (later.twenty, later.until_ms) == (first.twenty, first.until_ms)
    after = telling.at(first.until_ms + 1_000).sentences[0]
    assert after.until_ms > first.until_ms
    assert first.true_for.startswith("true for ")


def test_a_sentence_outlives_a_change_that_does_not_touch_it(here: Talk) -> None:
    begun_ms = at_ms("16:42:12")
    telling = here.telling(begun_ms)
    first = telling.at(begun_ms).sentences[0]
    here.take("16:42:20", Revise("supper", at_ms("18:40")), "flight")
    after = here.telling(at_ms("16:42:20"), telling).at(at_ms("16:42:20")).sentences[0]
    assert after.until_ms == first.until_ms


def test_a_clock_turned_back_makes_sentences_anew(here: Talk) -> None:
    telling = here.telling(at_ms("16:44:12"))
    later = telling.at(at_ms("16:44:12")).sentences[0]
    assert "three and a half minutes" in later.twenty or "three minutes" in later.twenty
    assert "five and a half minutes" in telling.at(at_ms("16:42:12")).sentences[0].twenty


def test_it_is_told_when_the_sentence_was_said(here: Talk) -> None:
    first = here.sentence("16:42:12")
    here.take("16:42:20", MarkSaid(first.twenty, first.times))
    assert here.at("16:42:25").said == "said 4:42 p.m."
    assert not here.at("16:52:10").said


# ------------------------------------------------------------------ owed


def said_five(here: Talk) -> None:
    told = here.sentence("16:52:10")
    assert told.times == (("ignition", at_ms("17:00")),)
    here.take("16:52:15", MarkSaid(told.twenty, told.times))


def test_a_time_made_false_is_owed_until_the_new_one_is_said(here: Talk) -> None:
    said_five(here)
    assert here.owed("16:53") == []
    here.take("16:55", Revise("ignition", at_ms("17:01:30")), "flight")
    assert here.owed("16:55:10") == [
        (
            "A few minutes ago we said five o'clock for the burn round the Moon. Mission control "
            "now gives five-oh-one."
        )
    ]
    owed = here.at("16:55:10").owed[0]
    here.take("16:55:20", MarkSaid(owed.line, owed.times))
    assert here.owed("16:55:25") == []


def test_a_change_within_the_rounding_owes_nothing(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Revise("ignition", at_ms("17:00:45")), "flight")
    assert here.owed("16:55:10") == []


def test_a_change_within_the_give_owes_nothing(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Revise("ignition", at_ms("16:59:45")), "flight")
    assert here.owed("16:55:10") == []


def test_a_waived_correction_is_owed_no_longer(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Revise("ignition", at_ms("17:01:30")), "flight")
    here.take("16:56", Waive(("ignition",)))
    assert here.owed("16:56:05") == []


def test_without_a_source_nobody_is_named(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Revise("ignition", at_ms("17:01:30")))
    assert here.owed("16:55:10") == [
        (
            "A few minutes ago we said five o'clock for the burn round the Moon. It is now "
            "expected at five-oh-one."
        )
    ]


def test_a_time_that_is_held_or_called_off_is_owed_too(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Hold("ignition", at_ms("16:55"), 300_000))
    assert here.owed("16:55:10") == [
        (
            "A few minutes ago we said five o'clock for the burn round the Moon. The count is "
            "holding, and there is no new time."
        )
    ]
    here.take("16:56", Scrub("ignition", Way.STAY), "flight")
    assert here.owed("16:56:10")[0].endswith(
        "Mission control has since said that it is called off."
    )


def test_what_is_said_of_a_hold_or_a_scrub_settles_what_was_owed(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Hold("ignition", at_ms("16:55"), 300_000))
    owed = here.at("16:55:10").owed[0]
    here.take("16:55:20", MarkSaid(owed.line, owed.times))
    assert here.owed("16:55:25") == []


def test_the_sentence_on_a_scrub_settles_it_too(here: Talk) -> None:
    said_five(here)
    here.take("16:55", Scrub("ignition", Way.STAY), "flight")
    first = here.sentence("16:55:10")
    here.take("16:55:20", MarkSaid(first.twenty, first.times))
    assert here.owed("16:55:25") == []


def test_what_was_told_for_an_outcome_that_has_not_come_is_not_owed(here: Talk) -> None:
    told = here.sentence("17:07:00")
    here.take("17:07:10", MarkSaid(told.twenty, told.times))
    here.take("17:24", Choose("burned"), "flight")
    assert here.owed("17:24:10") == []


def back_late(here: Talk) -> None:
    """Two times were said, and the signal was back after both."""
    told = here.sentence("17:07:00")
    here.take("17:07:10", MarkSaid(told.twenty, told.times))
    edge = here.session.schedule.edge("return")
    here.take("17:24:40", Observe("voice", Change.BACK, at_ms("17:24:40"), edge=edge))


def test_a_signal_that_is_back_is_the_news_and_settles_the_time_we_had_said(here: Talk) -> None:
    back_late(here)
    assert here.owed("17:24:45") == []
    news = here.sentence("17:24:45")
    assert news.twenty.startswith("We have voice again, since five twenty-four.")
    here.take("17:24:50", MarkSaid(news.twenty, news.times))
    assert here.owed("17:24:55") == []
    assert here.owed("17:35:00") == []


def test_a_signal_back_that_was_never_told_leaves_its_correction_owed(here: Talk) -> None:
    back_late(here)
    assert len(here.owed("17:29:00")) == 1


def test_an_outcome_named_is_said_before_a_correction_that_hung_on_it(here: Talk) -> None:
    back_late(here)
    here.take("17:25:00", Choose("burned"), "flight")
    assert here.owed("17:25:05") == []
    news = here.sentence("17:25:05")
    assert news.twenty.startswith("Mission control confirms the burn.")
    here.take("17:25:10", MarkSaid(news.twenty, news.times))
    assert here.owed("17:25:15") == [
        (
            "Signal back, after the burn: it was at five twenty-four. Earlier we said five "
            "twenty-three."
        )
    ]


def test_a_correction_of_something_else_still_goes_before_the_news(here: Talk) -> None:
    told = next(t for t in here.told("17:10:00") if t.times and t.times[0][0] == "school")
    here.take("17:10:10", MarkSaid(told.twenty, told.times))
    here.take("17:24:00", Revise("school", at_ms("18:05")), "flight")
    here.take("17:25:00", Choose("burned"), "flight")
    assert len(here.owed("17:25:05")) == 1


# ------------------------------------------------------------------ while away


def test_who_comes_back_is_told_what_has_changed(here: Talk) -> None:
    here.take("16:41", LeaveAir(at_ms("16:41")))
    here.take("16:43", Revise("school", at_ms("18:00:45")), "flight")
    here.take("16:45", TakeAir(at_ms("16:45")))
    assert here.at("16:45:05").away == (
        "Since we left: school call and supper are 45 seconds later; nothing else has changed."
    )
    assert here.at("16:51").away == ""


def test_that_nothing_has_changed_is_said_too_until_it_is_said(here: Talk) -> None:
    here.take("16:41", LeaveAir(at_ms("16:41")))
    here.take("16:45", TakeAir(at_ms("16:45")))
    line = here.at("16:45:05").away
    assert line == "Since we left: nothing has changed."
    here.take("16:45:20", MarkSaid(line))
    assert here.at("16:45:25").away == ""


def test_one_figure_that_moves_many_is_told_in_one_line(here: Talk) -> None:
    here.take("16:41", LeaveAir(at_ms("16:41")))
    here.take("16:43", Revise("ignition", at_ms("17:01:30")), "flight")
    here.take("16:44", Happened("go", at_ms("16:43:10")), "flight")
    here.take("16:45", TakeAir(at_ms("16:45")))
    line = here.at("16:45:05").away
    assert line.startswith(
        "Since we left: go for the burn has happened; the burn round the Moon is "
    )
    assert "1 minute 30 seconds later, and " in line


def test_a_junction_is_told_what_has_changed_since_the_one_before(tmp_path: Path) -> None:
    here = talk(tmp_path, SAID + AIR)
    here.take("16:43", Revise("school", at_ms("18:00:45")), "flight")
    assert here.at("16:59:59").away == ""
    assert here.at("17:00").away == (
        "Since three-thirty: school call and supper are 45 seconds later; nothing else has changed."
    )
    assert here.at("19:00").away == "Since five o'clock: nothing has changed."


def test_what_had_happened_before_they_left_has_not_happened_since(here: Talk) -> None:
    here.take("16:41", LeaveAir(at_ms("16:41")))
    here.take("16:44", Happened("go", at_ms("16:40:10")), "flight")
    here.take("16:45", TakeAir(at_ms("16:45")))
    assert "has happened" not in here.at("16:45:05").away


def test_no_more_than_three_things_are_told_to_who_comes_back(here: Talk) -> None:
    here.take("16:41", LeaveAir(at_ms("16:41")))
    for event in ("go", "loss", "ignition", "cutoff"):
        here.take("17:05", Happened(event, here.session.scene.brief(event).expected_ms or 0))
    here.take("17:05:30", Choose("burned"), "flight")
    here.take("17:06", TakeAir(at_ms("17:06")))
    assert here.at("17:06:05").away == (
        "Since we left: mission control confirms the burn; the moment Whimbrel goes behind the "
        "Moon and the burn round the Moon have happened; and more besides."
    )


# ------------------------------------------------------------------ a silence


def test_in_a_silence_one_says_behind_what_they_are_and_when_they_return(here: Talk) -> None:
    here.take("16:35", Choose("burned"), "flight")
    told = next(t for t in here.told("17:12:00") if t.subject is Subject.SILENCE)
    assert told.twenty == (
        "By the flight plan they are behind the Moon now, where nobody on Earth can hear them. "
        "Their signal should be back at five twenty-two Atlantic, three twenty-two Central."
    )
    assert Subject.SILENCE not in here.subjects("16:45:00")
    assert Subject.SILENCE not in here.subjects("17:26:00")


def test_what_is_due_in_the_silence_itself_goes_before_it(here: Talk) -> None:
    here.take("16:35", Choose("burned"), "flight")
    assert here.subjects("16:52:00")[:2] == [Subject.NEXT, Subject.SILENCE]


def test_with_two_returns_to_watch_for_no_end_of_the_silence_is_told(here: Talk) -> None:
    assert Subject.SILENCE not in here.subjects("17:07:00")


def test_nothing_is_promoted_that_begins_as_the_programme_ends(tmp_path: Path) -> None:
    ends = AIR.replace("23:00:00", "18:00:00")
    here = talk(tmp_path, SAID + ends)
    here.take("17:25", Choose("burned"), "flight")
    coming = [t.times[0][0] for t in here.told("17:45") if t.subject is Subject.NEXT]
    assert "school" not in coming
    later = talk(tmp_path, SAID + AIR)
    later.take("17:25", Choose("burned"), "flight")
    told = [event for t in later.told("17:45") for event, _ in t.times]
    assert "school" in told


def test_the_first_chance_of_word_is_never_said_above_the_countdown_to_it(here: Talk) -> None:
    back_ms = here.session.scene.brief("return-none").expected_ms or 0
    telling = here.telling(at_ms("17:00:05"))
    for now_ms in range(at_ms("17:00:05"), at_ms("17:11:00"), 1_000):
        for told in telling.told(now_ms):
            if told.subject is Subject.GAP:
                said = lengths(told.twenty)
                assert said
                assert all(length.ms <= back_ms - now_ms < length.ms + 70_000 for length in said)


# ------------------------------------------------------------------ grave


def test_grave_there_is_only_the_last_confirmed_word_with_its_source(here: Talk) -> None:
    here.take("16:50:10", Happened("loss", at_ms("16:50:05")), "flight")
    here.take("16:51", Revise("ignition", at_ms("17:01")), "flight")
    here.take("17:30", Grave(on=True))
    shown = here.at("17:31")
    assert shown.grave
    assert [each.twenty for each in shown.sentences] == [
        "The last word from mission control came at four-fifty Atlantic: loss of signal."
    ]
    assert shown.owed == ()
    assert shown.sentences[0].true_for == ""


def test_grave_their_own_words_are_quoted(here: Talk) -> None:
    here.take("17:29", Note("we have no data to share"), "flight")
    here.take("17:30", Grave(on=True))
    assert here.first("17:31") == (
        "At five twenty-nine Atlantic, mission control said: “We have no data to share.”"
    )


def test_grave_the_lines_passed_beforehand_come_in_their_time(tmp_path: Path) -> None:
    lines = """
[[grave]]
after = "10m"
text = "We are waiting, as they are."
"""
    here = talk(tmp_path, SAID + lines)
    here.take("17:30", Grave(on=True))
    assert here.at("17:32").sentences == ()
    assert [each.twenty for each in here.at("17:33").sentences] == ["We are waiting, as they are."]


def test_grave_an_outcome_is_told_as_confirmed(here: Talk) -> None:
    here.take("17:25", Choose("burned"), "flight")
    here.take("17:30", Grave(on=True))
    assert here.first("17:31") == (
        "The last word from mission control came at five twenty-five Atlantic: the burn, confirmed."
    )


def test_it_can_be_left_again(here: Talk) -> None:
    here.take("16:50", Grave(on=True))
    here.take("16:51", Grave(on=False))
    assert not here.at("16:52").grave
    assert here.at("16:52").sentences


def test_a_telling_without_times_says_nothing_of_what_changed(here: Talk) -> None:
    here.take("16:41", LeaveAir(at_ms("16:41")))
    here.take("16:45", TakeAir(at_ms("16:45")))
    session = here.session
    assert Telling(session.scene, session.standing).at(at_ms("16:45:05")).away == ""


def test_what_has_gone_by_unheard_is_told_with_an_if_too(tmp_path: Path) -> None:
    text = SAID.replace('name = "Burn, cutoff"', 'name = "Burn, cutoff"\nsay = "the end of it"')
    told = next(t for t in talk(tmp_path, text).told("17:07:00") if t.subject is Subject.GAP)
    assert told.twenty == (
        "If all has gone to plan, the end of it has come and gone. Behind the Moon, nobody on "
        "Earth could hear it. The first chance of any word is about five minutes away."
    )


def test_what_is_hours_off_waits_for_what_comes_before_it(here: Talk) -> None:
    here.take("17:25", Choose("burned"), "flight")
    assert here.first("18:05").startswith("Next on the flight plan: supper.")


def test_a_length_made_false_is_owed_as_another_time(here: Talk) -> None:
    told = here.sentence("16:42:12")
    here.take("16:42:20", MarkSaid(told.line, told.times))
    assert here.owed("16:42:40") == []
    edge = here.session.schedule.edge("loss")
    here.take("16:43", Revise("loss", at_ms("16:51:10"), edge=edge), "flight")
    (owed,) = here.owed("16:44")
    assert owed == (
        "An update to what we said a moment ago about the moment Whimbrel goes behind the Moon. "
        "Mission control now gives four fifty-one."
    )
