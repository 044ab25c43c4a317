"""What the presenter sees, out of the same view as the desk."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given

from core.board.model import View
from core.board.presenting.presenter import presenter
from core.board.programme import (
    AirBox,
    AirLane,
    FactLine,
    ItemState,
    LiveSpan,
    PresenterView,
    Sentence,
    ToSay,
)
from core.plan.model import Plan
from tests import strategies as drawn
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat, seat_on, shown

AIR = """
[[item]]
id = "break-1"
kind = "break"
name = "Break 1"
length = "3m"
turnaround = "10s"

[[item]]
id = "talk"
kind = "studio"
name = "Studio talk"
length = "3m"
turnaround = "10s"

[[grave]]
after = "5m"
text = "We have not heard from Whimbrel."

[[grave]]
after = "15m"
text = "We still have not heard from Whimbrel."
"""


def presented(desk: Seat, **other: object) -> PresenterView:
    """The presenter's view, with other parts of the desk's in place of its own."""
    scene = desk.desk._session.scene
    view: View = replace(desk.view, **other)  # type: ignore[arg-type]  # as the table has it
    return presenter(view, scene)


def box(item: str, kind: str, begin: str, end: str, state: ItemState = ItemState.ON_AIR) -> AirBox:
    return AirBox(item, item.capitalize(), kind, at_ms(begin), at_ms(end), state)


def sentence(line: str, twenty: str = "") -> Sentence:
    return Sentence(line, twenty, twenty, "2 min", at_ms("17:00"))


def gravely(desk: Seat) -> tuple[str, ...]:
    """The lines of the presenter's window."""
    view = desk.view.presenter
    assert view is not None
    return view.lines


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path, text=FLIGHT + AIR)


# ------------------------------------------------------------------ the countdown


def test_it_shows_the_event_of_the_big_card(desk: Seat) -> None:
    told = presented(desk)
    assert (told.name, shown(told.figure)) == ("Loss of signal", "8 min 48 s")
    assert told.at == "4:50 p.m. Atlantic"
    assert told.clock == "4:41:12 p.m."
    assert not told.change.text


def test_a_change_is_said_as_one_says_it(desk: Seat) -> None:
    desk.take("ignition +60s per flight")
    desk.go_to("16:51")
    told = presented(desk)
    assert told.name == "Burn, ignition"
    assert told.change.text == "about a minute later than planned"


def test_under_half_a_minute_is_on_time(desk: Seat) -> None:
    desk.take("ignition +25s per flight")
    desk.go_to("16:51")
    assert not presented(desk).change.text


def test_a_time_that_is_only_about_known_says_so_and_has_no_seconds(desk: Seat) -> None:
    desk.take("school +-2m")
    desk.take("burned per flight")
    desk.go_to("17:40")
    told = presented(desk)
    assert shown(told.figure) == "≈ 20 min"
    assert told.at == "about 6:00 p.m. Atlantic"


def test_another_day_is_named(desk: Seat) -> None:
    desk.take("school 15 may 6p", "")
    desk.take("burned per flight")
    desk.go_to("23:50")
    told = presented(desk)
    assert told.at == "Thursday, 6:00 p.m. Atlantic"


def test_a_held_count_has_no_clock_time(desk: Seat) -> None:
    desk.go_to("16:51")
    desk.take("ignition hold")
    told = presented(desk)
    assert told.name == "Burn, ignition"
    assert told.at == "on the clock, and the count is holding"
    assert shown(told.figure) == "9 min 00 s"


def test_ten_hours_are_told_without_seconds_as_the_digits_must_be_large(tmp_path: Path) -> None:
    desk = seat(tmp_path, "06:50:00.5")
    assert shown(presented(desk).figure) == "10 h 00 min"
    desk.go_to("06:50:01")
    assert shown(presented(desk).figure) == "9 h 59 min 59 s"


def test_days_are_told_without_minutes(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.clock.jump(at_ms("16:41:12", "2031-05-12"))  # type: ignore[union-attr]  # it is simulated
    assert shown(presented(desk).figure) == "2 d 00 h"


def test_countdown_and_clock_are_those_of_the_card(desk: Seat) -> None:
    for clock in ("16:41:12", "16:49:59", "16:55:01"):
        desk.go_to(clock)
        view = desk.view
        assert view.big_index is not None
        card = view.cards[view.big_index]
        told = presented(desk)
        assert (told.name, told.figure) == (card.name, card.figure)
        assert told.clock == view.header.clock


def test_with_nothing_ahead_there_is_the_clock_alone(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    desk.take("burned per flight")
    desk.clock.jump(at_ms("16:41:12", "2031-05-20"))  # type: ignore[union-attr]  # it is simulated
    told = presented(desk)
    assert (told.name, told.figure, told.then) == ("", None, ())
    assert told.clock == "4:41:12 p.m."


@given(drawn.plans(), drawn.instants_ms)
def test_on_any_plan_it_counts_as_the_card_and_the_lanes_do(plan: Plan, now_ms: int) -> None:
    view = seat_on(plan, now_ms).view
    told = view.presenter
    assert told is not None
    figure = None if view.big_index is None else view.cards[view.big_index].figure
    counted = next((each for _, each in told.second[-1:]), None) if told.lead else told.figure
    ends = "Off the air in" in (told.name, *(name for name, _ in told.second))
    assert ends or (counted is None) == (figure is None)
    if not ends and counted is not None and figure is not None:
        assert counted.parts == figure.parts[: len(counted.parts)]
        assert counted.about == figure.about
    for lane, desk in zip(told.lanes, view.contact.lanes, strict=True):
        if lane.figure is not None and desk.figure is not None:
            assert lane.figure.parts == desk.figure.parts[: len(lane.figure.parts)]


# ------------------------------------------------------------------ contact and back


def test_a_lane_says_what_is_left_or_when_it_is_back(desk: Seat) -> None:
    voice, picture = presented(desk).lanes
    assert (voice.name, shown(voice.figure), voice.word) == ("voice", "8 min 48 s", "")
    assert (picture.name, shown(picture.figure)) == ("picture", "6 min 48 s")
    desk.go_to("16:55")
    voice = presented(desk).lanes[0]
    assert (voice.name, shown(voice.figure), voice.word) == (
        "voice back in",
        "17 min 30 s",
        "or 28 min",
    )


def test_by_when_to_be_back_is_never_later_than_the_truth(desk: Seat) -> None:
    air = AirLane(live=(LiveSpan("loss", at_ms("16:46:40"), at_ms("16:51")),))
    told = presented(desk, air=air)
    assert (told.back_word, told.back) == ("be back", "by 4:46 p.m.")
    desk.go_to("16:46:10")
    assert presented(desk, air=air).back == "by 4:46:40 p.m."
    desk.go_to("16:46:40")
    told = presented(desk, air=air)
    assert (told.back_word, told.back) == ("live", "until 4:51 p.m.")
    desk.go_to("16:51")
    assert presented(desk, air=air, clear=None).back == ""


def test_a_junction_is_something_to_be_back_for(desk: Seat) -> None:
    air = AirLane(
        live=(LiveSpan("loss", at_ms("16:47"), at_ms("16:51")),),
        junctions=((at_ms("16:44"), "the West joins"),),
    )
    assert presented(desk, air=air).back == "by 4:44 p.m."


# ------------------------------------------------------------------ then


def test_live_moments_come_then_and_outcomes_of_one_event_together(desk: Seat) -> None:
    told = [f"{then.figure} {then.name}" for then in presented(desk).then]
    assert told == [
        "19 min burn, ignition, out of contact",
        "31 or 42 min signal back",
        "1 h 19 min school call, no pictures",
    ]


def test_of_two_outcomes_the_one_still_ahead_is_told_with_its_condition(desk: Seat) -> None:
    desk.go_to("17:05")
    told = presented(desk)
    assert told.name == "Signal back, if no burn"
    assert told.then[0].name == "signal back, after the burn"


def test_without_live_moments_the_next_events_come_then(desk: Seat) -> None:
    desk.take("burned per flight")
    desk.go_to("18:01")
    told = [f"{then.figure} {then.name}" for then in presented(desk).then]
    assert told[0].startswith("35 min voice lost")


def test_names_keep_the_capitals_that_are_theirs(tmp_path: Path) -> None:
    text = FLIGHT.replace('name = "School call"', 'name = "Whimbrel calls the school"')
    names = [then.name for then in presented(seat(tmp_path, text=text)).then]
    assert names[-1] == "Whimbrel calls the school, no pictures"


# ------------------------------------------------------------------ to say


def test_the_sentence_comes_in_two_lengths(desk: Seat) -> None:
    told = presented(desk, to_say=ToSay((sentence("Short.", "Longer, it is."),)))
    assert (told.sentence, told.shorter) == ("“Longer, it is.”", "“Short.”")
    told = presented(desk, to_say=ToSay((sentence("Only this."),)))
    assert told.sentence == told.shorter == "“Only this.”"


def test_how_names_sound_goes_with_the_sentence(desk: Seat) -> None:
    both = ("WIM-brul", "TARN")
    heard = replace(sentence("Whimbrel is back."), sounds=both, line_sounds=both[:1])
    told = presented(desk, to_say=ToSay((heard,)))
    assert (told.sounds, told.shorter_sounds) == ("WIM-brul · TARN", "WIM-brul")
    assert presented(desk, to_say=ToSay()).sentence == ""


def test_a_correction_owed_goes_first(desk: Seat) -> None:
    told = presented(desk, to_say=ToSay((sentence("Next."),), owed=(sentence("We said four."),)))
    assert told.sentence == "“We said four.”"


def test_a_fact_is_shown_only_when_asked_for_and_never_before_its_time(desk: Seat) -> None:
    scene, view = desk.desk._session.scene, desk.view
    assert presenter(view, scene).fact == ""
    assert presenter(view, scene, fact=FactLine("One engine.")).fact == "One engine."
    held = FactLine("It worked.", held="when it is confirmed")
    assert presenter(view, scene, fact=held).fact == ""


# ------------------------------------------------------------------ in a break


def test_in_a_break_it_is_back_in_then_the_wrap_then_the_event(desk: Seat) -> None:
    air = AirLane((box("break-1", "break", "16:39:14", "16:42:14"),))
    told = presented(desk, air=air)
    assert (told.lead, told.name, shown(told.figure)) == ("back in", "Break-1", "1 min 12 s")
    assert [(label, shown(figure)) for label, figure in told.second] == [
        ("wrap", "1 min 02 s"),
        ("Loss of signal", "8 min 48 s"),
    ]
    assert told.at == "4:42:24 p.m."
    assert not told.change.text


def test_once_it_wraps_one_is_counted_in(desk: Seat) -> None:
    air = AirLane((box("break-1", "break", "16:38:07", "16:41:12"),))
    told = presented(desk, air=air)
    assert shown(told.figure) == "5 s"
    assert [label for label, _ in told.second] == ["Loss of signal"]


def test_a_break_that_runs_over_counts_up(desk: Seat) -> None:
    air = AirLane((box("break-1", "break", "16:37:50", "16:41:12"),))
    told = presented(desk, air=air)
    assert (told.lead, shown(told.figure), told.at) == ("over by", "22 s", "4:40:50 p.m.")


def test_who_talks_in_the_studio_is_not_in_a_break(desk: Seat) -> None:
    air = AirLane((box("talk", "studio", "16:39:14", "16:42:14"),))
    assert presented(desk, air=air).lead == ""
    air = AirLane((box("break-1", "break", "16:43", "16:46", ItemState.PLACED),))
    assert presented(desk, air=air).lead == ""


def test_in_a_break_within_a_live_moment_one_must_be_back_now(desk: Seat) -> None:
    air = AirLane(
        (box("break-1", "break", "16:39:14", "16:42:14"),),
        (LiveSpan("loss", at_ms("16:41"), at_ms("16:51")),),
    )
    told = presented(desk, air=air)
    assert (told.back_word, told.back) == ("be back", "now")


def test_the_desk_and_the_presenter_read_the_same_countdown_of_a_break(desk: Seat) -> None:
    desk.take("break-1 now")
    for clock in ("16:41:12", "16:44:10", "16:44:22", "16:44:23", "16:45:01"):
        desk.go_to(clock)
        view = desk.view
        assert view.presenter is not None
        assert view.clear is not None
        assert view.presenter.figure == view.clear.figure, clock
        assert view.presenter.lead == view.clear.lead, clock


def test_while_the_network_has_the_air_it_is_back_in_too(desk: Seat) -> None:
    desk.take("air off until 4:45p")
    told = desk.view.presenter
    assert told is not None
    assert (told.lead, told.name, shown(told.figure)) == (
        "back in",
        "the network has it",
        "3 min 48 s",
    )
    assert told.at == "4:45:00 p.m."
    assert [label for label, _ in told.second] == ["Loss of signal"]
    desk.go_to("16:45")
    told = desk.view.presenter
    assert told is not None
    assert (told.lead, told.name) == ("", "Loss of signal")


def test_a_live_moment_that_may_yet_come_lasts_until_there_is_word(desk: Seat) -> None:
    desk.take("school +-2m")
    desk.go_to("18:00:30")
    told = desk.view.presenter
    assert told is not None
    assert (told.back_word, told.back) == ("live", "until there is word")


# ------------------------------------------------------------------ grave


def test_grave_there_are_the_clock_and_the_lines_of_the_desk_and_nothing_else(desk: Seat) -> None:
    desk.go_to("16:50:03")
    desk.take("loss now per flight")
    desk.go_to("17:30")
    desk.take("grave")
    view = desk.view
    assert view.to_say is not None
    assert view.presenter == PresenterView(
        clock="Wednesday, 5:30:00 p.m. Atlantic",
        grave=True,
        lines=(
            "The last word from mission control came at four-fifty Atlantic: loss of signal.",
            "We have not heard from Whimbrel.",
        ),
    )
    assert view.presenter.lines == tuple(each.twenty for each in view.to_say.sentences)


def test_the_latest_line_passed_stands_alone(desk: Seat) -> None:
    desk.take("grave")
    desk.go_to("17:27:49")
    assert gravely(desk) == ()
    desk.go_to("17:27:50")
    assert gravely(desk) == ("We have not heard from Whimbrel.",)
    desk.go_to("17:40")
    assert gravely(desk) == ("We still have not heard from Whimbrel.",)


def test_what_nobody_has_confirmed_is_not_shown_as_confirmed(desk: Seat) -> None:
    desk.take("ignition +60s per flight")
    desk.go_to("16:50")
    desk.take("loss now")
    desk.take("grave")
    assert gravely(desk) == ()


# ------------------------------------------------------------------ never on it


def test_nothing_that_is_typed_noted_or_noticed_comes_in(desk: Seat) -> None:
    desk.take("note the hall is noisy")
    desk.desk.clock_stepped(-3000, slept=False, now_ms=desk.now_ms)
    assert desk.view.notices
    told = repr(presented(desk))
    assert "noisy" not in told
    assert all(said.text not in told for said in desk.view.notices)


def test_until_when_one_is_live_is_never_later_than_the_truth_either(desk: Seat) -> None:
    air = AirLane(live=(LiveSpan("loss", at_ms("16:46:40"), at_ms("16:50:03")),))
    desk.go_to("16:47")
    assert presented(desk, air=air).back == "until 4:50 p.m."
    desk.go_to("16:50")
    assert presented(desk, air=air, clear=None).back == "until 4:50:03 p.m."
