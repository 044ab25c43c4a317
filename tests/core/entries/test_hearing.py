from dataclasses import replace

import pytest

from core.entries.airing import Begin, LaneDelay
from core.entries.model import Action, Happened, Observe, Revise, Shut
from core.entries.reading import read
from core.entries.readings import Reading
from core.errors import EntryProblem
from core.plan.model import Change, Lane
from tests.core.entries.at_the_desk import AtTheDesk, at

LANES = (
    Lane("voice", "VOICE", delay_ms=2_000),
    Lane("picture", "Picture", delay_ms=9_000),
    Lane("data", "DATA"),
)
DESK = AtTheDesk(lanes=LANES).with_event("back", lane="voice")
NOW = DESK.now_ms
BACK = "far-side/voice/1/back"


def only(text: str, desk: AtTheDesk = DESK) -> Reading:
    (reading,) = read(text, desk)
    return reading


@pytest.mark.parametrize(
    ("typed", "up", "action"),
    [
        # heard on the lane that is named
        ("ign now on picture", "", Happened("ignition", NOW - 9_000, "", NOW, "picture")),
        ("ign now on pic", "", Happened("ignition", NOW - 9_000, "", NOW, "picture")),
        ("ign now on VOICE", "", Happened("ignition", NOW - 2_000, "", NOW, "voice")),
        (
            "ign now-12s on voice",
            "picture",
            Happened("ignition", NOW - 14_000, "", NOW - 12_000, "voice"),
        ),
        ("ign happened now on voice", "", Happened("ignition", NOW - 2_000, "", NOW, "voice")),
        ("now on picture", "", Happened("ignition", NOW - 9_000, "", NOW, "picture")),
        # else on that of the edge the event stands for, else on the first that is in contact
        ("back now", "picture", Happened("back", NOW - 2_000, BACK, NOW, "voice")),
        ("ign now", "picture", Happened("ignition", NOW - 9_000, "", NOW, "picture")),
        ("ign now-3s", "voice", Happened("ignition", NOW - 5_000, "", NOW - 3_000, "voice")),
        # else nothing is corrected
        ("ign now", "", Happened("ignition", NOW)),
        ("ign now", "data", Happened("ignition", NOW)),
        ("ign now on data", "picture", Happened("ignition", NOW)),
        ("ign happened 4:40:02p", "picture", Happened("ignition", at("16:40:02"))),
        ("ign 4:58p", "picture", Revise("ignition", at("16:58:00"))),
        ("ign in 4m", "picture", Revise("ignition", NOW + 240_000)),
        ("break 3 now", "picture", Begin("break-3", NOW)),
        # edges as observed
        ("voice lost now", "", Observe("voice", Change.LOST, NOW - 2_000, heard_ms=NOW)),
        (
            "picture back now-12s",
            "",
            Observe("picture", Change.BACK, NOW - 21_000, heard_ms=NOW - 12_000),
        ),
        ("data lost now", "", Observe("data", Change.LOST, NOW)),
        ("voice lost 4:40p", "", Observe("voice", Change.LOST, at("16:40:00"))),
        ("voice closed now", "", Shut("voice", shut=True, at_ms=NOW)),
    ],
)
def test_now_is_put_earlier_by_the_delay_of_the_lane(typed: str, up: str, action: Action) -> None:
    assert only(typed, replace(DESK, up=up)).action == action


def test_the_edge_observed_is_the_one_near_the_corrected_time() -> None:
    desk = replace(DESK, now_ms=at("16:53:05"))
    action = only("picture lost now", desk).action
    assert action == Observe(
        "picture", Change.LOST, at("16:52:56"), edge="far-side/picture/0/lost", heard_ms=desk.now_ms
    )
    assert only("data lost now", desk).how.endswith("not in the plan")


def test_it_says_when_it_was_and_when_it_was_heard() -> None:
    desk = replace(DESK, now_ms=at("16:57:20"))
    assert only("ign now on picture", desk).how == (
        "Insertion burn, ignition happened at 4:57:11 p.m. Atlantic,"
        " heard 4:57:20 p.m. on Picture (9 s)"
    )
    assert only("voice lost now", desk).how == (
        "VOICE lost at 4:57:18 p.m. Atlantic, heard 4:57:20 p.m. on voice (2 s), not in the plan"
    )
    assert "heard" not in only("ign now", desk).how


@pytest.mark.parametrize(
    ("typed", "what", "hint"),
    [
        ("ign now on radio", "'radio' is no lane of this plan", "The lanes are: voice, picture"),
        ("ign now on picture voice", "'picture voice' is no lane", ""),
        ("ign happened 4:40p on picture", "A clock time is kept as it is typed", "'now on picture"),
        ("ign now on", "'now on' is not when something happened", "'ign now'"),
    ],
)
def test_a_lane_that_cannot_be_meant_is_refused(typed: str, what: str, hint: str) -> None:
    with pytest.raises(EntryProblem) as caught:
        read(typed, DESK)
    assert what in caught.value.what
    assert hint in caught.value.hint


def test_in_a_plan_without_lanes_nothing_is_heard_on_any() -> None:
    with pytest.raises(EntryProblem) as caught:
        read("ign now on picture", replace(DESK, lanes=()))
    assert caught.value.hint == "This plan has no lanes"


# ------------------------------------------------------------------ a delay found at the desk


def test_a_delay_found_at_the_desk_is_taken_off_instead_of_the_plans() -> None:
    desk = DESK.after(LaneDelay("picture", 15_000))
    assert only("picture lost now", desk).action == Observe(
        "picture", Change.LOST, NOW - 15_000, heard_ms=NOW
    )
    assert only("voice lost now", desk).action == only("voice lost now").action
    nothing = DESK.after(LaneDelay("picture", 0))
    assert only("picture lost now", nothing).action == Observe("picture", Change.LOST, NOW)


@pytest.mark.parametrize(
    ("typed", "delay_ms", "how"),
    [
        ("picture delay 15s", 15_000, "Picture comes 15 s late, and not 9 s"),
        ("picture delay 9s", 9_000, "Picture comes 9 s late as before"),
        ("pic delay 0:04", 4_000, "Picture comes 4 s late, and not 9 s"),
        ("data delay 1.5s", 1_500, "DATA comes 1 s late, and not 0 s"),
    ],
)
def test_a_lanes_delay_is_typed_as_a_length(typed: str, delay_ms: int, how: str) -> None:
    reading = only(typed)
    assert reading.action == LaneDelay(reading.target.id if reading.target else "", delay_ms)
    assert (reading.how, reading.asks) == (how, ())


def test_a_delay_beyond_a_minute_asks_once_more() -> None:
    assert only("picture delay 2m").asks


@pytest.mark.parametrize("typed", ["picture delay", "picture delay -9s", "picture delay 9"])
def test_a_delay_without_its_length_is_told(typed: str) -> None:
    with pytest.raises(EntryProblem) as refused:
        read(typed, DESK)
    assert refused.value.hint
