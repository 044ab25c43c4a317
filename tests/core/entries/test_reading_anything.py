from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from core.board.words import event_clock_text
from core.entries.airing import Begin, Grave, LeaveAir, Place, Promise
from core.entries.forms import catalogue, nearest_form
from core.entries.formshape import About
from core.entries.model import Action, Revise
from core.entries.on_board import BOARD_WORDS
from core.entries.reading import read
from core.entries.signing import SignIn
from core.errors import EntryProblem
from core.plan.model import Plan
from core.times.spoken import spoken_zone
from core.times.writing import Hours, Style, dated_clock_text
from tests.core.entries.at_the_desk import ZONES, AtTheDesk, at

DESK = AtTheDesk(plan_waiting=Plan("Petrel 4", ("UTC",)))
WORDS = [
    *("ign", "voice", "burned", "T-9", "school", "note", "new", '"Trim"', "clock", "plan"),
    *("now", "now-12s", "happened", "hold", "resume", "scrub", "with", "pin", "free", "undecided"),
    *(
        "lost",
        "back",
        "alone",
        "shift",
        "closed",
        "open",
        "in",
        "about",
        "elapsed",
        "per",
        "flight",
    ),
    *(
        "4:58",
        "4:58:05p",
        "1658",
        "165805",
        "3d",
        "03:29:33",
        "+45s",
        "-2m",
        "+1:12",
        "+-30s",
        "4m",
    ),
    *("15", "May", "2031", "Thu", "2031-05-15T16:58", "z", "central", "eastern", "+-", "+", "-"),
    *("break 3", "walk", "clamps", "at", "over", "off", "on", "until", "air", "place", "said"),
    *("waive", "grave", "picture", "6", "1 3 5 7", "+1", "11m", "5:10p"),
    *("rate", "step", "next", "1/10", "60", "²", "٣", "İ", "0000-00-00", "9999-12-31T23:59:59Z"),
]
lines = st.lists(st.sampled_from(WORDS), max_size=7).map(" ".join)


@given(text=st.one_of(st.text(max_size=40), lines))
@example("ign 9999-12-31T23:59:59-23:59")
@example("ign 0001-01-01T00:00+23:59")
@example("ign elapsed -3d 03:00:00")
@example('new "x" elapsed -99999999:00:00')
@example("ign 4:58p +-99999999999999999999s")
@example("ign in ٣m")
@example("per")
@example("per flight")
@example('new "\x00" 4:58p')
def test_any_text_is_read_or_refused_and_nothing_else(text: str) -> None:
    try:
        readings = read(text, DESK)
    except EntryProblem:
        return
    assert readings
    assert all(reading.how for reading in readings)
    actions = [reading.action for reading in readings]
    assert all(action not in actions[:index] for index, action in enumerate(actions))


@given(
    at_ms=st.integers(at("00:00:00", 10), at("23:59:59", 18)).map(lambda ms: ms // 1000 * 1000),
    hours=st.sampled_from(Hours),
    zone=st.sampled_from(ZONES),
)
def test_a_clock_time_as_the_screens_write_it_is_read_as_that_instant(
    at_ms: int, hours: Hours, zone: str
) -> None:
    style = Style(zone, hours)
    desk = replace(DESK, style=style, zones=(zone, *(each for each in ZONES if each != zone)))
    near = desk.with_event("ignition", expected_ms=at_ms + 3_600_000)
    written = dated_clock_text(at_ms, style, desk.now_ms)
    assert read(f"ign {written}", near)[0].action == Revise("ignition", at_ms)
    spoken = spoken_zone(zone)
    assert read(f"ign {written} {spoken}", near)[0].action == Revise("ignition", at_ms)


@given(
    at_ms=st.integers(at("00:00:00", 10), at("23:59:00", 18)).map(lambda ms: ms // 60000 * 60000)
)
def test_a_time_with_about_is_read_back_with_its_give(at_ms: int) -> None:
    near = DESK.with_event("ignition", expected_ms=at_ms)
    written = event_clock_text(at_ms, 30_000, DESK.style, DESK.now_ms)
    assert read(f"ign {written}", near)[0].action == Revise("ignition", at_ms, 30_000)


# ------------------------------------------------------------------ the catalogue

PLACED = (Place((("break-3", at("16:50:00")),)),)
NEEDED: dict[str, tuple[Action, ...]] = {
    "break 3 +2m": PLACED,
    "break 3 -30s": PLACED,
    "break 3 free": PLACED,
    "break 3 over": (Begin("break-3", at("16:40:00")),),
    "break 3 over 4:48:10p": (Begin("break-3", at("16:40:00")),),
    "air on": (LeaveAir(at("16:40:00")),),
    "air on 5:12p": (LeaveAir(at("16:40:00")),),
    "grave over": (Grave(on=True),),
    "sign out": (SignIn("AB"),),
    "kept": (Promise("back to the hall"),),
    "kept hall": (Promise("back to the hall"),),
}
"""What was entered before, where a form makes sense only then."""


@pytest.mark.parametrize(
    "typed",
    [
        typed
        for form in catalogue(zones=["Central"])
        for typed in form.typed
        if form.about is not About.ANY
    ],
)
def test_every_example_of_the_help_sheet_is_read(typed: str) -> None:
    desk = DESK.with_event("liftoff", happened=False, left_ms=None)
    if "resume" in typed:
        desk = desk.with_event("liftoff", left_ms=60_000)
    desk = desk.after(*NEEDED.get(typed, ()))
    assert read(typed, desk)
    if not typed.startswith(BOARD_WORDS):
        assert read(f"{typed} per flight", desk)[0].source == "flight"


def test_the_clocks_forms_are_shown_only_where_it_is_simulated() -> None:
    assert all(form.about is not About.CLOCK for form in catalogue(simulated=False))
    assert any(form.about is About.CLOCK for form in catalogue())


def test_a_zone_of_the_plan_stands_in_the_example() -> None:
    assert any("ign 3:58p eastern" in form.typed for form in catalogue(zones=["Eastern"]))
    assert not any("3:58p" in typed for form in catalogue() for typed in form.typed)


@given(about=st.sampled_from(list(About)), rest=st.text(max_size=20))
def test_there_is_always_a_hint(about: About, rest: str) -> None:
    assert nearest_form(about, "ign", rest)
