from dataclasses import replace

import pytest

from core.entries.model import (
    Action,
    Add,
    Choose,
    Free,
    Give,
    Happened,
    Hold,
    Note,
    Observe,
    Pin,
    Replan,
    Resume,
    Revise,
    Scrub,
    Shift,
    Shut,
    TakePlan,
    Undecide,
    Way,
)
from core.entries.reading import read
from core.entries.readings import (
    ClockCommand,
    ClockGo,
    ClockJump,
    ClockMove,
    ClockPause,
    ClockRate,
    Reading,
)
from core.plan.model import Change, Event, Plan, Tie
from core.times.instants import rfc3339_to_ms
from tests.core.entries.at_the_desk import AtTheDesk, at

DESK = AtTheDesk()
NOW = DESK.now_ms
IGN = at("16:57:20")
LIFTOFF = at("13:28:32", 11)
S, MIN, H, D = 1_000, 60_000, 3_600_000, 86_400_000


def revise(clock: str, give_ms: int | None = None, day: int = 14) -> Revise:
    return Revise("ignition", at(clock, day), give_ms)


def only(text: str, desk: AtTheDesk = DESK) -> Reading:
    readings = read(text, desk)
    assert len(readings) == 1, [reading.how for reading in readings]
    return readings[0]


def actions(text: str, desk: AtTheDesk = DESK) -> list[Action | ClockCommand]:
    return [reading.action for reading in read(text, desk)]


@pytest.mark.parametrize(
    ("typed", "action"),
    [
        # a clock time in the desk's zone
        ("ignition 4:58:05p", revise("16:58:05")),
        ("ignition 4:58:05 p", revise("16:58:05")),
        ("ignition 4:58:05pm", revise("16:58:05")),
        ("ignition 4:58:05 p.m.", revise("16:58:05")),
        ("IGNITION 4:58:05 P.M.", revise("16:58:05")),
        ("  ignition   4:58:05p  ", revise("16:58:05")),
        ("ign 16:58:05", revise("16:58:05")),
        ("ign 16:58", revise("16:58:00")),
        ("ign 1658", revise("16:58:00")),
        ("ign 165805", revise("16:58:05")),
        ("ign 0458p", revise("16:58:00")),
        ("ign 4p", revise("16:00:00")),
        ("ign 16:58:05.25", revise("16:58:05.250")),
        ("ign 04:58", revise("04:58:00")),
        ("ign 12:05a", revise("00:05:00", day=15)),
        ("ign 12:05p", revise("12:05:00")),
        ("ign 0:05", revise("00:05:00", day=15)),
        ("16:58:05", revise("16:58:05")),
        ("1658", revise("16:58:00")),
        # with a date
        ("ign 15 May 4:58p", revise("16:58:00", day=15)),
        ("ign 15 may 2031 4:58p", revise("16:58:00", day=15)),
        ("ign May 15 16:58", revise("16:58:00", day=15)),
        ("ign May 15, 16:58", revise("16:58:00", day=15)),
        ("ign 15 May 1658", revise("16:58:00", day=15)),
        ("ign 15 May 2031", revise("20:31:00", day=15)),
        ("ign Thu 4:58p", revise("16:58:00", day=15)),
        ("ign tuesday 4:58p", revise("16:58:00", day=13)),
        ("ign 2031-05-15T16:58", revise("16:58:00", day=15)),
        ("ign 2031-05-15 16:58", revise("16:58:00", day=15)),
        ("ign 2031-05-15 4:58p", revise("16:58:00", day=15)),
        ("ign 2031-05-15t16:58:05", revise("16:58:05", day=15)),
        ("ign 2031-05-15T19:58:05.250Z", revise("16:58:05.250", day=15)),
        ("ign 2031-05-15T20:58:05+01:00", revise("16:58:05", day=15)),
        # another zone
        ("ign 19:58:05z", revise("16:58:05")),
        ("ign 195805 Z", revise("16:58:05")),
        ("ign 1958 utc", revise("16:58:00")),
        ("ign 7:58pm z", revise("16:58:00")),
        ("ign 9:58z", revise("06:58:00")),
        ("ign 3:58p eastern", revise("16:58:00")),
        ("ign 2:58p Central", revise("16:58:00")),
        ("ign 2:58p central time", revise("16:58:00")),
        ("ign 1458 chicago", revise("16:58:00")),
        ("ign 3:58p America/New_York", revise("16:58:00")),
        ("ign 15 May 3:58p eastern", revise("16:58:00", day=15)),
        ("ign 2031-05-15T15:58 eastern", revise("16:58:00", day=15)),
        # relative, from now, elapsed
        ("ign +45s", revise("16:58:05")),
        ("ign + 45s", revise("16:58:05")),
        ("ign -2m", revise("16:55:20")),
        ("ign −2m", revise("16:55:20")),
        ("ign +1:12", revise("16:58:32")),
        ("ign +2 min", revise("16:59:20")),
        ("ign +1m 12s", revise("16:58:32")),
        ("ign +1m12s", revise("16:58:32")),
        ("ign +0:00:12", revise("16:57:32")),
        ("+45S", revise("16:58:05")),
        ("ign in 4m", revise("16:45:12")),
        ("ign in 4:30", revise("16:45:42")),
        ("in 4m", revise("16:45:12")),
        ("ign elapsed 3d 03:29:33", revise("16:58:05")),
        ("ign elapsed 3 d 03:29:33", revise("16:58:05")),
        ("ign elapsed 75:29:33", revise("16:58:05")),
        ("elapsed 75h 29m 33s", revise("16:58:05")),
        # give
        ("ign about 4:58p", revise("16:58:00", 30_000)),
        ("ign about 1658", revise("16:58:00", 30_000)),
        ("ign about +45s", revise("16:58:05", 30_000)),
        ("ign about in 4m", revise("16:45:12", 30_000)),
        ("ign 4:58p +-45s", revise("16:58:00", 45_000)),
        ("ign 4:58p+-45s", revise("16:58:00", 45_000)),
        ("ign 4:58p ±45s", revise("16:58:00", 45_000)),
        ("ign 4:58p +/- 1:30", revise("16:58:00", 90_000)),
        ("ign about 4:58p +-2m", revise("16:58:00", 120_000)),
        ("ign +45s +-30s", revise("16:58:05", 30_000)),
        ("ign +-30s", Give("ignition", 30_000)),
        ("+-2m", Give("ignition", 120_000)),
        ("ign +-0s", Give("ignition", 0)),
        # it has happened
        ("ign now", Happened("ignition", NOW)),
        ("Ign NOW", Happened("ignition", NOW)),
        ("now", Happened("ignition", NOW)),
        ("ign now-12s", Happened("ignition", NOW - 12 * S)),
        ("ign now - 12s", Happened("ignition", NOW - 12 * S)),
        ("ign now-1:12", Happened("ignition", NOW - 72 * S)),
        ("ign happened 4:40:02p", Happened("ignition", at("16:40:02"))),
        ("ign happened now", Happened("ignition", NOW)),
        ("ign happened now-3s", Happened("ignition", NOW - 3 * S)),
        ("happened 164002", Happened("ignition", at("16:40:02"))),
        ("ign happened elapsed 75:11:30", Happened("ignition", at("16:40:02"))),
        ("liftoff happened 1:28:33p", Happened("liftoff", LIFTOFF + S)),
        # holds
        ("ign hold", Hold("ignition", NOW, IGN - NOW)),
        ("hold", Hold("ignition", NOW, IGN - NOW)),
        ("ign hold now-12s", Hold("ignition", NOW - 12 * S, IGN - NOW + 12 * S)),
        ("ign hold 4:41:00p", Hold("ignition", at("16:41:00"), IGN - at("16:41:00"))),
        ("relay count resume", Resume("relay", NOW)),
        ("relay count resume now", Resume("relay", NOW)),
        ("relay count resume 5:10p", Resume("relay", at("17:10:00"))),
        ("relay count resume in 4m", Resume("relay", NOW + 4 * MIN)),
        # called off, pinned, free
        ("ign scrub with", Scrub("ignition", Way.WITH)),
        ("scrub bridge", Scrub("ignition", Way.BRIDGE)),
        ("Scrub STAY", Scrub("ignition", Way.STAY)),
        ("ign pin", Pin("ignition", IGN)),
        ("ign free", Free("ignition")),
        # outcomes
        ("burned", Choose("burned")),
        ("Burned", Choose("burned")),
        ("no-burn", Choose("no-burn")),
        ("no burn", Choose("no-burn")),
        ("burned undecided", Undecide("burned")),
        # lanes
        (
            "voice lost 4:51:10p",
            Observe("voice", Change.LOST, at("16:51:10"), edge="far-side/voice/0/lost"),
        ),
        ("voice lost now", Observe("voice", Change.LOST, NOW)),
        ("VOICE Lost Now", Observe("voice", Change.LOST, NOW)),
        ("voi back now-12s", Observe("voice", Change.BACK, NOW - 12 * S)),
        ("picture back now alone", Observe("picture", Change.BACK, NOW, Shift.ALONE)),
        (
            "picture back 1651 shift",
            Observe("picture", Change.BACK, at("16:51:00"), Shift.SHIFT, "far-side/picture/0/back"),
        ),
        ("voice closed", Shut("voice", shut=True, at_ms=NOW)),
        ("voice open", Shut("voice", shut=False, at_ms=NOW)),
        ("voice closed 4:40p", Shut("voice", shut=True, at_ms=at("16:40:00"))),
        # the board
        ("note line to the hall is noisy", Note("line to the hall is noisy")),
        ("NOTE Line to the Hall", Note("Line to the Hall")),
        ("replan", Replan()),
        # an event that stands for an edge
        ("back 5:22p", Revise("back", at("17:22:00"), None, "far-side/voice/1/back")),
        ("back now", Happened("back", NOW, "far-side/voice/1/back")),
        # ids that look like figures, or have signs
        ("T-9 happened 1:19:30p", Happened("T-9", at("13:19:30", 11))),
        ("t-9 now", Happened("T-9", NOW)),
        ("AOS#1 1912", Revise("AOS#1", at("19:12:00"))),
        ("x1 +1m", Revise("X1", at("20:01:00"))),
        ("E13 now", Happened("E13", NOW)),
        ("LOS-2 8:41p", Revise("LOS-2", at("20:41:00"))),
        ("los 2 2041", Revise("LOS-2", at("20:41:00"))),
        # names: whole words, beginnings, in their order
        ("insertion ignition +45s", revise("16:58:05")),
        ("insertion burn, ignition +45s", revise("16:58:05")),
        ("sch +1m", Revise("school", at("18:06:00"))),
        ("school call now", Happened("school", NOW)),
        ("first pic now", Happened("photo", NOW)),
        ("crew sleeps 11:40p", Revise("E13", at("23:40:00"))),
        # the simulated clock
        ("clock pause", ClockPause()),
        ("Clock GO", ClockGo()),
        ("clock rate 60", ClockRate(60.0)),
        ("clock rate 60x", ClockRate(60.0)),
        ("clock rate 1/10", ClockRate(0.1)),
        ("clock rate 0.5", ClockRate(0.5)),
        ("clock step 30s", ClockMove(30_000)),
        ("clock step +1:30", ClockMove(90_000)),
        ("clock step -30s", ClockMove(-30_000)),
        ("clock 4:30p", ClockJump(at("16:30:00"))),
        ("clock 15 May 1630", ClockJump(at("16:30:00", 15))),
        ("clock next", ClockJump(IGN - MIN)),
    ],
)
def test_a_line_is_read(typed: str, action: Action | ClockCommand) -> None:
    assert only(typed).action == action


# ------------------------------------------------------------------ who said so


@pytest.mark.parametrize(
    ("typed", "source"),
    [
        ("ign 4:58p per flight", "flight"),
        ("ign now PER Flight", "flight"),
        ("burned per agency", "agency"),
        ("voice lost now alone per pool", "pool"),
        ("ign hold per flight", "flight"),
        ('new "Trim" 6:10p per flight', "flight"),
        ("note the line is noisy per desk", "desk"),
        ("ign 4:58p", ""),
    ],
)
def test_a_source_is_named_after_any_form(typed: str, source: str) -> None:
    assert only(typed).source == source


def test_a_note_keeps_a_per_that_names_no_source() -> None:
    reading = only("note forty people per bus")
    assert (reading.action, reading.source) == (Note("forty people per bus"), "")
    assert only("note noisy per desk").action == Note("noisy")


def test_a_note_is_kept_to_the_letter() -> None:
    assert only("note “stand by” – 30 s ±5").action == Note("“stand by” – 30 s ±5")


def test_where_the_plan_lists_no_sources_any_word_is_one() -> None:
    assert only("ign now per Galley", replace(DESK, sources=())).source == "Galley"


# ------------------------------------------------------------------ two readings


def test_without_a_half_of_the_day_both_are_read_the_nearer_first() -> None:
    assert actions("ign 4:58") == [revise("16:58:00"), revise("04:58:00")]
    afternoon, morning = read("ign 4:58", DESK)
    assert "read as p.m." in afternoon.how
    assert "read as a.m." in morning.how


def test_something_that_has_been_is_looked_for_near_now_where_it_is_expected_later() -> None:
    desk = AtTheDesk(now_ms=at("03:00:00", 15)).with_event("E13", expected_ms=at("10:00:00", 15))
    assert only("E13 happened 22:30", desk).action == Happened("E13", at("22:30:00"))
    assert actions("E13 happened 2:30", desk) == [
        Happened("E13", at("02:30:00", 15)),
        Happened("E13", at("14:30:00", 15)),
    ]
    assert actions("voice lost 5:30")[0] == Observe("voice", Change.LOST, at("17:30:00"))


def test_the_day_is_the_nearest_to_expected() -> None:
    assert only("E13 12:20a").action == Revise("E13", at("00:20:00", 15))
    assert only("E13 23:50").action == Revise("E13", at("23:50:00"))


def test_what_two_things_are_called_is_listed_and_asked() -> None:
    readings = read("burn 4:58p", DESK)
    assert [reading.action for reading in readings] == [
        Revise("ignition", at("16:58:00")),
        Revise("cutoff", at("16:58:00")),
        Revise("back", at("16:58:00"), None, "far-side/voice/1/back"),
        Revise("X1", at("16:58:00")),
    ]
    assert readings[1].asks[0] == (
        "it takes Insertion burn, cutoff; "
        "'burn' is also Insertion burn, ignition, Signal back, after the burn, Trim burn"
    )


def test_an_event_that_has_happened_gives_way_to_one_that_has_not() -> None:
    assert actions("far side 19:11") == [
        Revise("AOS#1", at("19:11:00")),
        Revise("LOS-2", at("19:11:00")),
    ]
    desk = DESK.with_event("AOS#1", happened=True)
    assert only("far side 19:11", desk).action == Revise("LOS-2", at("19:11:00"))


def test_an_exact_id_in_its_own_letters_comes_before_one_in_others() -> None:
    desk = AtTheDesk(events=(*DESK.events, replace(DESK.events[8], id="x1", name="Ullage")))
    assert only("X1 now", desk).action == Happened("X1", NOW)
    assert only("x1 now", desk).action == Happened("x1", NOW)


def test_an_exact_id_comes_before_a_name() -> None:
    assert only("back now").action == Happened("back", NOW, "far-side/voice/1/back")


def test_a_longer_run_of_words_comes_before_a_shorter_one() -> None:
    lost = replace(DESK.events[8], id="v-lost", name="Voice lost")
    desk = AtTheDesk(events=(*DESK.events, lost))
    assert actions("voice lost now", desk) == [
        Happened("v-lost", NOW),
        Observe("voice", Change.LOST, NOW),
    ]


def test_what_has_happened_gets_no_new_time_where_the_line_can_mean_another_thing() -> None:
    lost = replace(DESK.events[8], id="v-lost", name="Voice lost", happened=True)
    desk = AtTheDesk(events=(*DESK.events, lost))
    assert actions("voice lost 16:40", desk) == [
        Observe("voice", Change.LOST, at("16:40:00")),
        Revise("v-lost", at("16:40:00")),
    ]


def test_a_word_of_the_bar_is_not_taken_for_the_beginning_of_a_name() -> None:
    held = replace(DESK.events[8], id="d5", name="Hold point")
    desk = AtTheDesk(events=(*DESK.events, held))
    assert actions("hold now", desk) == [Hold("ignition", NOW, IGN - NOW), Happened("d5", NOW)]
    noted = replace(DESK.events[8], id="d6", name="Notebook read")
    assert actions("note now", AtTheDesk(events=(*DESK.events, noted)))[0] == Note("now")


def test_off_without_a_way_shows_all_three_and_takes_none_at_once() -> None:
    readings = read("ign scrub", DESK)
    assert [reading.action for reading in readings] == [Scrub("ignition", way) for way in Way]
    assert all(reading.asks for reading in readings)
    assert not only("ign scrub with").asks


# ------------------------------------------------------------------ clocks put forward and back

AUTUMN = AtTheDesk(now_ms=rfc3339_to_ms("2031-11-02T03:00:00Z")).with_event(
    "ignition", expected_ms=rfc3339_to_ms("2031-11-02T04:00:00Z")
)
SPRING = AtTheDesk(now_ms=rfc3339_to_ms("2031-03-09T05:00:00Z")).with_event(
    "ignition", expected_ms=rfc3339_to_ms("2031-03-09T06:05:00Z")
)


def test_a_time_that_comes_twice_is_read_both_ways() -> None:
    first, second = read("ign 01:30", AUTUMN)
    assert first.action == Revise("ignition", rfc3339_to_ms("2031-11-02T04:30:00Z"))
    assert second.action == Revise("ignition", rfc3339_to_ms("2031-11-02T05:30:00Z"))
    assert "the first of two" in first.how
    assert "the second of two" in second.how


def test_of_two_halves_one_that_the_clocks_skip_is_left_out() -> None:
    assert actions("ign 2:30", SPRING) == [
        Revise("ignition", rfc3339_to_ms("2031-03-09T17:30:00Z"))
    ]


# ------------------------------------------------------------------ what is asked

DESK_WITH_POLL = DESK.with_event("T-9", happened=False, expected_ms=at("16:42:00"))


@pytest.mark.parametrize(
    ("typed", "asks"),
    [
        ("poll 4:40p", "4:40:00 p.m. is 1 min 12 s ago"),
        ("poll 16:41:11", "4:41:11 p.m. is 1 s ago"),
        ("poll now-20m", "That is 20 min 48 earlier than now expected"),
        ("ign happened 4:58p", "4:58:00 p.m. is still 16 min 48 s away"),
        ("voice lost 4:51:10p", "4:51:10 p.m. is still 9 min 58 s away"),
        ("ign 5:13p", "That is 15 min 40 later than now expected"),
        ("cutoff 17:18:34", "That is 15 min later than now expected"),
        ("relay count resume 7:10p", "That is 45 min later than now expected"),
        ('new "Trim" 14 May 3:00p', "3:00:00 p.m. is 1 h 41 min 12 s ago"),
    ],
)
def test_enter_is_asked_for_once_more(typed: str, asks: str) -> None:
    assert only(typed, DESK_WITH_POLL).asks == (asks,)


@pytest.mark.parametrize(
    "typed",
    [
        "poll 16:41:12",
        "poll now",
        "poll now-12s",
        "ign 5:12p",
        "cutoff 17:18:33",
        "ign 4:58p",
        "hold",
        "burned",
        "gone 9:30p",
        'new "Trim" 6:10p',
    ],
)
def test_nothing_is_asked_about_an_everyday_line(typed: str) -> None:
    assert only(typed, DESK_WITH_POLL).asks == ()


def test_a_far_move_is_not_asked_about_within_ten_times_the_give() -> None:
    assert only("ign 5:13p", DESK.with_event("ignition", give_ms=120_000)).asks == ()


def test_several_reasons_are_all_told() -> None:
    assert only("ign 3:30p").asks == (
        "3:30:00 p.m. is 1 h 11 min 12 s ago",
        "That is 1 h 27 min 20 s earlier than now expected",
    )


# ------------------------------------------------------------------ an event added


def added(typed: str, desk: AtTheDesk = DESK) -> Event:
    action = only(typed, desk).action
    assert isinstance(action, Add)
    return action.event


def test_a_new_event_stands_at_a_clock_time() -> None:
    assert added('new "Correction burn" 6:10p') == Event(
        "correction-burn", "Correction burn", at_ms=at("18:10:00")
    )
    assert added("NEW “Correction burn” in 10m").at_ms == NOW + 10 * MIN
    assert added('new "Trim" elapsed 4d 2h').at_ms == LIFTOFF + 4 * D + 2 * H
    assert added('new "Trim" about 6:10p').give_ms == 30_000
    assert added('new "Trim" 6:10p +-2m').give_ms == 120_000


def test_a_new_event_is_the_next_such_time_not_the_nearest() -> None:
    assert added('new "Trim" 4:30p').at_ms == at("16:30:00", 15)
    assert [reading.action for reading in read('new "Trim" 6:10', DESK)] == [
        Add(Event("trim", "Trim", at_ms=at("18:10:00"))),
        Add(Event("trim", "Trim", at_ms=at("06:10:00", 15))),
    ]


def test_a_new_event_may_be_tied() -> None:
    assert added('new "Crew wakes" ign +4h').ties == (Tie("ignition", 4 * H, 0, None),)
    assert added('new "Crew wakes" E13 +8:00:00 +-5m') == Event(
        "crew-wakes", "Crew wakes", ties=(Tie("E13", 8 * H, 0, None),), give_ms=300_000
    )
    assert added('new "Poll" school -10m').ties == (Tie("school", -10 * MIN, None, 0),)
    assert added('new "Poll" insertion burn cutoff about +10m').give_ms == 30_000
    assert added('new "Poll" +10m').ties == (Tie("ignition", 10 * MIN, 0, None),)


def test_a_new_id_is_taken_by_nothing_else() -> None:
    assert added('new "Ignition" 6:10p').id == "ignition-2"
    assert added('new "VOICE" 6:10p').id == "voice-2"
    assert added('new "Hold" 6:10p').id == "hold-2"
    assert added('new "Manœuvre n° 2 — été!" 6:10p').id == "manuvre-n-2-ete"
    assert added('new "打ち上げ" 6:10p').id == "event"


# ------------------------------------------------------------------ how it was read


@pytest.mark.parametrize(
    ("typed", "how"),
    [
        ("ign 4:58:05p", "Insertion burn, ignition at 4:58:05 p.m. Atlantic"),
        ("ign 15 May 4:58p", "Insertion burn, ignition at Thu 4:58:00 p.m. Atlantic"),
        ("ign 3:58p eastern", "Insertion burn, ignition at 4:58:00 p.m. Atlantic (Eastern)"),
        (
            "ign +45s",
            "Insertion burn, ignition at 4:58:05 p.m. Atlantic (45 s later than before)",
        ),
        ("ign +-30s", "Insertion burn, ignition give or take 30 s"),
        ("hold", "Insertion burn, ignition is held with 16 min 08 s"),
        (
            "relay count resume 5:10p",
            "Relay count goes on at 5:10:00 p.m. Atlantic with 5 min 00 s left",
        ),
        ("voice lost now", "VOICE lost at 4:41:12 p.m. Atlantic, not in the plan"),
        ("clock rate 1/10", "The clock runs at 1/10 times the real one"),
    ],
)
def test_it_says_how_it_was_read(typed: str, how: str) -> None:
    assert only(typed).how == how


def test_the_target_keeps_the_words_that_named_it() -> None:
    named = only("insertion ign +45s").target
    assert named is not None
    assert (named.id, named.words) == ("ignition", "insertion ign")
    selected = only("+45s").target
    assert selected is not None
    assert (selected.id, selected.words) == ("ignition", "")


def test_a_plan_changed_on_disk_is_taken_by_its_word() -> None:
    plan = Plan("Petrel 4", ("UTC",))
    assert only("plan", replace(DESK, plan_waiting=plan)).action == TakePlan(plan)


def test_a_count_held_again_keeps_what_is_left_and_asks_first() -> None:
    again = only("relay count hold")
    assert again.action == Hold("relay", NOW, 300_000)
    assert again.asks == ("It is held already; to let it go: 'relay count resume'",)
