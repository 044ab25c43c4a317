from dataclasses import replace

import pytest

from core.entries.airing import (
    Grave,
    LeaveAir,
    MarkSaid,
    PictureClock,
    Place,
    TakeAir,
    Waive,
)
from core.entries.model import Action, Happened
from core.entries.reading import read
from core.entries.readings import Reading
from core.errors import EntryProblem
from tests.core.entries.at_the_desk import AtTheDesk, at

DESK = AtTheDesk()
NOW = DESK.now_ms
LEFT = LeaveAir(at("16:40:00"))


def only(text: str, desk: AtTheDesk = DESK) -> Reading:
    readings = read(text, desk)
    assert len(readings) == 1, [reading.how for reading in readings]
    return readings[0]


def refused(text: str, desk: AtTheDesk = DESK) -> EntryProblem:
    with pytest.raises(EntryProblem) as caught:
        read(text, desk)
    return caught.value


@pytest.mark.parametrize(
    ("typed", "before", "action"),
    [
        ("air off", (), LeaveAir(NOW)),
        ("AIR OFF", (), LeaveAir(NOW)),
        ("air off now", (), LeaveAir(NOW)),
        ("air off now-30s", (), LeaveAir(NOW - 30_000)),
        ("air off until 5:10p", (), LeaveAir(NOW, at("17:10:00"))),
        ("air off until 5:10", (), LeaveAir(NOW, at("17:10:00"))),
        ("air off until 1710", (), LeaveAir(NOW, at("17:10:00"))),
        ("air off until in 5m", (), LeaveAir(NOW, NOW + 300_000)),
        ("air off 11m", (), LeaveAir(NOW, NOW + 660_000)),
        ("air off 1h 5m", (), LeaveAir(NOW, NOW + 3_900_000)),
        ("air on", (LEFT,), TakeAir(NOW)),
        ("air on now-10s", (LEFT,), TakeAir(NOW - 10_000)),
        ("air on 5:12p", (LEFT,), TakeAir(at("17:12:00"))),
        ("air on in 3m", (LEFT,), TakeAir(NOW + 180_000)),
        ("air on 4:41:00p", (LEFT, TakeAir(NOW)), TakeAir(at("16:41:00"))),
        ("place", (), Place((("break-3", at("16:46:00")), ("walk", at("17:10:00"))))),
        ("said", (), MarkSaid("The burn is at 4:57.", (("ignition", at("16:57:20")),))),
        ("waive", (), Waive(("ignition", "photo"))),
        ("grave", (), Grave(on=True)),
        ("grave over", (Grave(on=True),), Grave(on=False)),
        ("picture clock 4:41:03p", (), PictureClock("picture", at("16:41:03"), NOW)),
        ("picture clock 164103", (), PictureClock("picture", at("16:41:03"), NOW)),
        ("picture clock 19:41:03z", (), PictureClock("picture", at("16:41:03"), NOW)),
        ("pic clock elapsed 75:12:31", (), PictureClock("picture", at("16:41:03"), NOW)),
        ("voice clock 4:41:03p", (), PictureClock("voice", at("16:41:03"), NOW)),
    ],
)
def test_a_line_about_the_programme_is_read(
    typed: str, before: tuple[Action, ...], action: Action
) -> None:
    assert read(typed, DESK.after(*before))[0].action == action


@pytest.mark.parametrize(
    ("typed", "before", "how"),
    [
        ("air off", (), "The network has the air from 4:41:12 p.m. Atlantic"),
        ("air off 11m", (), "The network has the air from now until 4:52:12 p.m. Atlantic"),
        ("air on 5:12p", (LEFT,), "On the air again at 5:12:00 p.m. Atlantic"),
        ("place", (), "Placed: Break 3 at 4:46:00 p.m., and 1 more"),
        ("said", (), "Said on the air: The burn is at 4:57."),
        (
            "waive",
            (),
            "Not to be corrected on the air: Insertion burn, ignition; First picture from orbit",
        ),
        (
            "picture clock 4:41:03p",
            (),
            "The clock in PICTURE shows 4:41:03 p.m. Atlantic: 9 s behind the board",
        ),
        (
            "picture clock 4:41:15p",
            (),
            "The clock in PICTURE shows 4:41:15 p.m. Atlantic: 3 s before the board",
        ),
        ("picture clock 4:41:12p", (), "The clock in PICTURE shows 4:41:12 p.m. Atlantic"),
    ],
)
def test_it_says_how_it_was_read(typed: str, before: tuple[Action, ...], how: str) -> None:
    assert only(typed, DESK.after(*before)).how == how


def test_a_grave_board_asks_for_enter_once_more_both_ways() -> None:
    assert only("grave").asks == (
        (
            "The presenter window keeps the clock, the last confirmed words and lines passed; "
            "breaks, tapes and facts are not proposed"
        ),
    )
    assert only("grave over", DESK.after(Grave(on=True))).asks == (
        "The presenter window is as before; breaks, tapes and facts are proposed again",
    )


@pytest.mark.parametrize("typed", ["air off", "air off 11m", "place", "said", "waive"])
def test_nothing_else_is_asked(typed: str) -> None:
    assert only(typed).asks == ()


def test_a_clock_in_the_picture_that_is_far_off_is_asked_about() -> None:
    assert only("picture clock 4:43:00").asks == ()
    assert only("picture clock 4:48:00").asks == ("That is 6 min 48 s from the board's time",)


@pytest.mark.parametrize(
    ("typed", "before", "what", "hint"),
    [
        ("air", (), "Who has the air?", "air off"),
        ("air of", (), "'of' does not say who has the air", "air off"),
        ("air off until", (), "Until when?", "'air off'"),
        ("air off until soon", (), "'soon' is no time that is read here", "'air off'"),
        ("air off until 4:30p", (), "4:30:00 p.m. is past", "a time to come"),
        ("air off 5:10", (), "'5:10' may be a clock time or a length", "air off until 5:10"),
        ("air off 11", (), "'11' has no unit", "11m"),
        ("air off soon", (), "'soon' is no length of time", ""),
        ("air on", (), "The network has not taken the air", "air off"),
        ("air on 5:12p", (), "The network has not taken the air", "air off"),
        ("air on 4:30p", (LEFT,), "The network took the air at 4:40:00 p.m.", "after that"),
        ("air on soon", (LEFT,), "'soon' is no time", ""),
        ("place break 3", (), "'break 3' is too much after 'place'", "Write place"),
        ("said 4:57p", (), "'4:57p' is too much after 'said'", "Write said"),
        ("waive all", (), "'all' is too much after 'waive'", "Write waive"),
        ("grave now", (), "'now' is too much after 'grave'", "Write grave, or grave over"),
        ("grave", (Grave(on=True),), "The board is grave already", "grave over"),
        ("grave over", (), "The board is not grave", ""),
        ("picture clock", (), "When was it?", "'picture clock 4:41:03p'"),
        ("picture clock now", (), "is typed as a clock time", "'picture clock 4:41:03p'"),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_be_read(
    typed: str, before: tuple[Action, ...], what: str, hint: str
) -> None:
    problem = refused(typed, DESK.after(*before))
    assert what in problem.what
    assert hint in problem.hint


def test_what_cannot_be_placed_is_told_with_the_most_that_can() -> None:
    why = "Break 3 and Break 4 do not both fit before 5:00:00 p.m."
    problem = refused("place", replace(DESK, placing=f"{why}\nThe most that can: Break 3"))
    assert (problem.what, problem.hint) == (why, "The most that can: Break 3")
    assert refused("place", replace(DESK, placing="There is nothing to place")).hint == ""
    assert refused("place", replace(DESK, placing=())).what == "There is nothing to place"


def test_without_a_sentence_or_a_correction_there_is_nothing_to_mark() -> None:
    assert refused("said", replace(DESK, sentence=None)).what == "There is nothing to say now"
    owed = refused("waive", replace(DESK, due=()))
    assert owed.what == "No correction is owed to the audience"


def test_an_event_called_like_a_word_of_the_air_keeps_its_forms() -> None:
    lock = replace(DESK.events[8], id="d1", name="Air lock shut")
    desk = replace(DESK, events=(*DESK.events, lock))
    assert only("air lock now", desk).action == Happened("d1", NOW)
    assert only("air off", desk).action == LeaveAir(NOW)
    assert only("air now", desk).action == Happened("d1", NOW)
