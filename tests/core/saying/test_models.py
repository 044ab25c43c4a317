"""The model sentences, word for word, out of the situations they stand for."""

from dataclasses import replace

import pytest

from core.plan.model import Usage
from core.saying.audience import Audience
from core.saying.calling_off import calling_off
from core.saying.coming import coming
from core.saying.correcting import correcting
from core.saying.far import far_away
from core.saying.holding import holding
from core.saying.lateness import lateness
from core.saying.losing import losing
from core.saying.model import Named, Reach, Told, speaking_ms
from core.saying.rejoining import rejoining
from core.saying.returns import two_returns
from core.saying.silent import silent
from core.saying.situations import (
    CalledOff,
    Correction,
    FarAway,
    Gap,
    Held,
    LaneLeft,
    Late,
    LossAhead,
    Moved,
    Next,
    Return,
    Silence,
    TwoReturns,
    WhileAway,
)
from core.saying.unseen import unseen
from tests.core.saying.scenes import ATLANTIC, BURN, ZONE, at_ms

NOTHING_ELSE = "; nothing else has changed."
LIFTOFF = Named("liftoff", "liftoff")


def said(told: Told | None) -> str:
    assert told is not None
    return told.twenty


def test_next() -> None:
    situation = Next(BURN, at_ms("16:57:20"), 20_000, Reach.OUT)
    assert said(coming(situation, ATLANTIC, at_ms("16:49:12"))) == (
        "Next, the firing meant to put Petrel into orbit around the Moon. It is due in about eight "
        "minutes, at four fifty-seven Atlantic. We will not hear it."
    )


def test_loss_ahead() -> None:
    situation = LossAhead(
        (
            LaneLeft("picture-lost", "pictures", at_ms("16:47:00")),
            LaneLeft("loss", "voice", at_ms("16:49:00")),
        ),
        then="Petrel slips behind the Moon",
    )
    assert said(losing(situation, at_ms("16:41:12"))) == (
        "We have about five and a half minutes of pictures left, and just under eight of voice. "
        "Then Petrel slips behind the Moon."
    )


def test_gap() -> None:
    situation = Gap(
        BURN,
        "the engine is burning now",
        "behind the Moon",
        at_ms("17:12:34"),
        at_ms("17:03:34"),
    )
    assert said(unseen(situation, ATLANTIC, at_ms("17:00:20"))) == (
        "If all is going to plan, the engine is burning now, behind the Moon, where nobody on "
        "Earth can hear it. The first chance of any word is about twelve minutes away."
    )


@pytest.mark.parametrize(
    ("cause", "words"),
    [
        ("antenna swap", "We are out of contact for now: antenna swap."),
        ("", "We are out of contact for now."),
    ],
)
def test_a_silence_behind_nothing_has_its_cause(cause: str, words: str) -> None:
    told = silent(Silence("back", cause, at_ms("17:12:34")), ATLANTIC, at_ms("17:00"))
    assert told.twenty == f"{words} Their signal should be back at five-twelve Atlantic."


def test_two_returns() -> None:
    situation = TwoReturns(
        Return(Named("return-none", ""), at_ms("17:12:30"), "with no burn"),
        Return(Named("return", ""), at_ms("17:22:50"), "after a full one"),
        quiet_hoped=True,
    )
    assert said(two_returns(situation, ATLANTIC)) == (
        "Two times to watch. With no burn, their signal is expected at about five-twelve; after a "
        "full one, about five twenty-three. So at five-twelve, quiet is what they hope for here."
    )


def test_late() -> None:
    assert said(lateness(Late("ignition", 78_000, unexplained=True), at_ms("16:40"))) == (
        "They are running a little over a minute behind the flight plan. Mission control has not "
        "said why."
    )


def test_hold() -> None:
    situation = Held(LIFTOFF, 540_000, at_ms("16:04:10"), launch=True)
    assert said(holding(situation, ATLANTIC, at_ms("16:10:20"))) == (
        "The count is holding, with nine minutes left on it. It stopped more than six minutes ago. "
        "There is no new launch time yet."
    )


def test_scrub() -> None:
    again_ms = at_ms("16:31", "2031-05-15")
    situation = CalledOff(
        LIFTOFF, at_ms("16:52:10"), "flight", launch=True, again="again", again_ms=again_ms
    )
    assert said(calling_off(situation, ATLANTIC, at_ms("16:54"))) == (
        "There will be no launch today. Mission control called it off at four fifty-two. The next "
        "attempt they have named is tomorrow, Thursday, at four thirty-one in the afternoon, "
        "Atlantic time."
    )


def test_anything_but_a_launch_is_called_off() -> None:
    situation = CalledOff(Named("walk", "the walk outside"), at_ms("16:52:10"), "flight")
    assert said(calling_off(situation, ATLANTIC, at_ms("16:54"))) == (
        "The walk outside is called off. Mission control said so at four fifty-two. There is no "
        "new time yet."
    )


def test_far_away() -> None:
    zone = "America/New_York"
    heard_ms = at_ms("15:55:10", "2031-10-21", zone)
    landing = Named("landing", "the moment it stands on Mars")
    situation = FarAway(landing, "Mars", heard_ms - 682_000, heard_ms, 682_000)
    told = far_away(situation, Audience((zone,)), at_ms("15:46", "2031-10-21", zone))
    assert said(told) == (
        "On Mars it is already over, one way or the other. The signal takes more than eleven "
        "minutes to get here. What we hear at about three fifty-five Eastern will have happened at "
        "about three forty-four."
    )


def test_correction() -> None:
    situation = Correction(BURN, at_ms("16:57:20"), at_ms("16:45"), at_ms("16:58:05"), "flight")
    told = correcting(situation, ATLANTIC, at_ms("16:50"))
    assert told.line == (
        "A few minutes ago we said four fifty-seven for the firing meant to put Petrel into orbit "
        "around the Moon. Mission control now gives four fifty-eight."
    )
    assert told.twenty.startswith(told.line)


def test_a_time_corrected_to_this_very_minute_is_any_moment_now() -> None:
    situation = Correction(BURN, at_ms("16:49:30"), at_ms("16:45"), at_ms("16:48:50"), "flight")
    told = correcting(situation, ATLANTIC, at_ms("16:48:07"))
    assert told.twenty.endswith("Mission control now gives four forty-eight, so any moment now.")
    before = correcting(situation, ATLANTIC, at_ms("16:47:50"))
    assert before.twenty.endswith("Mission control now gives four forty-eight.")
    assert before.until_ms < at_ms("16:48:00")


def test_of_what_has_come_a_correction_tells_that_it_has_before_what_we_had_said() -> None:
    situation = Correction(
        BURN, at_ms("16:57:20"), at_ms("16:45"), at_ms("16:58:05"), "flight", happened=True
    )
    told = "The firing meant to put Petrel into orbit around the Moon: mission control has it at "
    assert correcting(situation, ATLANTIC, at_ms("17:00")).line == (
        f"{told}four fifty-eight. Earlier we said four fifty-seven."
    )
    length = replace(situation, by_clock=False)
    assert correcting(length, ATLANTIC, at_ms("16:50")).line == (
        f"{told}four fifty-eight. That is an update to what we said a few minutes ago."
    )


def test_what_is_corrected_now_gives_its_time_only_until_that_has_come() -> None:
    situation = Correction(BURN, at_ms("16:48:20"), at_ms("16:45"), at_ms("16:49:03"), "flight")
    told = correcting(situation, ATLANTIC, at_ms("16:48:07"))
    assert told.twenty.endswith("Mission control now gives four forty-nine.")
    assert told.until_ms <= at_ms("16:49:03")
    after = correcting(situation, ATLANTIC, at_ms("16:49:53"))
    assert after.twenty.endswith("Mission control has since given four forty-nine.")


def test_while_away() -> None:
    away = WhileAway(None, (Moved(("ignition",), 45_000),))
    assert rejoining(away, ATLANTIC) == (
        "Since we left: ignition is 45 seconds later; nothing else has changed."
    )


@pytest.mark.parametrize(
    ("usage", "clock"),
    [
        (Usage.AMERICAN, "four fifty-seven Atlantic, three fifty-seven Eastern"),
        (Usage.BRITISH, "three minutes to five Atlantic, three minutes to four Eastern"),
        (Usage.HOURS_24, "sixteen fifty-seven Atlantic, fifteen fifty-seven Eastern"),
    ],
)
def test_the_clock_is_spoken_as_the_audience_is_used_to(usage: Usage, clock: str) -> None:
    audience = Audience((ZONE, "America/New_York"), usage)
    told = coming(Next(BURN, at_ms("16:57:20")), audience, at_ms("16:49:12"))
    assert f"It is due in about eight minutes, at {clock}." in said(told)


def test_minutes_and_clock_that_do_not_add_up_are_not_both_said() -> None:
    told = coming(Next(BURN, at_ms("16:57:20")), ATLANTIC, at_ms("16:49:55"))
    assert said(told) == (
        "Next, the firing meant to put Petrel into orbit around the Moon. It is due at four "
        "fifty-seven Atlantic."
    )


def test_a_time_less_sure_says_about_and_the_clock_no_finer() -> None:
    told = coming(Next(BURN, at_ms("17:44:22"), 300_000), ATLANTIC, at_ms("17:20"))
    assert "at about five forty-five Atlantic" in said(told)


def test_what_runs_late_says_so_after_its_time() -> None:
    told = coming(Next(BURN, at_ms("16:57:20"), change_ms=78_000), ATLANTIC, at_ms("16:49:12"))
    assert said(told).endswith("Its time is now a little over a minute later than planned.")


def test_word_from_far_away_takes_its_time() -> None:
    told = coming(Next(BURN, at_ms("16:57:20"), way_ms=682_000), ATLANTIC, at_ms("16:49:12"))
    assert said(told).endswith("Word of it needs more than eleven minutes to get here.")


def test_what_the_plan_has_no_words_for_is_told_by_its_name() -> None:
    bare = Named("supper", "crew's first meal in orbit", described=False)
    told = coming(Next(bare, at_ms("16:57:20")), ATLANTIC, at_ms("16:49:12"))
    assert said(told).startswith("Next on the flight plan: crew's first meal in orbit. ")


def test_heard_and_happened_that_do_not_add_up_are_not_both_told() -> None:
    heard_ms = at_ms("15:55:20")
    situation = FarAway(BURN, "Mars", heard_ms - 715_000, heard_ms, 715_000)
    told = said(far_away(situation, ATLANTIC, at_ms("15:46")))
    assert told.endswith(
        "What we hear at about three fifty-five Atlantic will by then be more than eleven minutes "
        "old."
    )


def test_of_several_things_far_away_one_has_come_if_nothing_is_amiss() -> None:
    entry = Named("entry", "the moment it meets the air of Mars")
    heard_ms = at_ms("15:55:10")
    situation = FarAway(entry, "Mars", heard_ms - 682_000, heard_ms, 682_000, last=False)
    assert said(far_away(situation, ATLANTIC, at_ms("15:46"))).startswith(
        "On Mars, if all is going to plan, the moment it meets the air of Mars has already come."
    )


def test_a_published_limit_is_exact_and_has_its_source() -> None:
    situation = Held(LIFTOFF, 540_000, at_ms("16:04"), limit_ms=at_ms("17:15"))
    told = holding(situation, ATLANTIC, at_ms("16:10:20"))
    assert "By the flight plan it can be no later than five-fifteen Atlantic." in told.long


def test_the_age_of_what_was_said_is_told_as_one_says_it() -> None:
    situation = Correction(BURN, at_ms("16:57:20"), at_ms("16:45"), at_ms("16:58:05"))
    for clock, words in (
        ("16:46", "A moment ago"),
        ("16:50", "A few minutes ago"),
        ("17:05", "Earlier"),
    ):
        assert correcting(situation, ATLANTIC, at_ms(clock)).line.startswith(f"{words} we said")


def test_lanes_lost_together_are_told_together() -> None:
    lost_ms = at_ms("16:49")
    lanes = (LaneLeft("p", "pictures", lost_ms), LaneLeft("v", "voice", lost_ms))
    assert said(losing(LossAhead(lanes), at_ms("16:41:12"))) == (
        "We have just under eight minutes of pictures and voice left."
    )


def test_a_loss_between_two_seconds_is_reckoned_by_the_second_that_is_shown() -> None:
    now_ms = at_ms("16:40:00")
    lanes = (
        LaneLeft("p", "pictures", at_ms("16:47:01") + 266),
        LaneLeft("v", "voice", at_ms("16:49:03") + 66),
    )
    told = losing(LossAhead(lanes), now_ms)
    assert told is not None
    heard_ms = told.until_ms + speaking_ms(told.twenty)
    for claim, clock in zip(told.claims, ("16:47:01", "16:49:03"), strict=True):
        assert claim.low_ms <= at_ms(clock) - heard_ms


def test_a_lane_that_stays_is_told_too() -> None:
    situation = LossAhead((LaneLeft("p", "pictures", at_ms("16:49")),), stays="voice")
    assert said(losing(situation, at_ms("16:41:12"))).endswith("We will still have voice.")


@pytest.mark.parametrize(
    ("away", "line"),
    [
        (WhileAway(None), "Since we left: nothing has changed."),
        (
            WhileAway(None, (Moved(("a",), -60_000),), along=1),
            f"Since we left: a is 1 minute earlier, and 1 other has moved with it{NOTHING_ELSE}",
        ),
        (
            WhileAway(at_ms("17:00"), (), happened=("a",), other=("b is called off",)),
            "Since five o'clock: b is called off; a has happened; nothing else has changed.",
        ),
    ],
)
def test_what_changed_is_told_in_one_line(away: WhileAway, line: str) -> None:
    assert rejoining(away, ATLANTIC) == line
