from dataclasses import replace

import pytest

from core.entries.airing import Begin, Drop, Finish, Place, Unplace
from core.entries.model import Action, Happened, Revise
from core.entries.reading import read
from core.entries.readings import Reading, TargetKind
from core.errors import EntryProblem
from core.plan.model import Item
from core.times.instants import rfc3339_to_ms
from tests.core.entries.at_the_desk import AtTheDesk, at

DESK = AtTheDesk()
NOW = DESK.now_ms
S, MIN = 1_000, 60_000
PLACED = Place((("break-3", at("16:50:00")),))
BEGUN = Begin("break-3", at("16:40:00"))
OVER = Finish("break-3", at("16:42:10"))
OFF = Drop("break-3")


def place(clock: str, day: int = 14, item: str = "break-3") -> Place:
    return Place(((item, at(clock, day)),))


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
        # on the air
        ("break 3 now", (), Begin("break-3", NOW)),
        ("BREAK-3 NOW", (), Begin("break-3", NOW)),
        ("break 3 now-12s", (), Begin("break-3", NOW - 12 * S)),
        ("break 3 now-1:12", (PLACED,), Begin("break-3", NOW - 72 * S)),
        ("break 3 now-5s", (BEGUN,), Begin("break-3", NOW - 5 * S)),
        ("walk now", (), Begin("walk", NOW)),
        ("hall now", (), Begin("walk", NOW)),
        # placed
        ("break 3 at 4:46p", (), place("16:46:00")),
        ("break 3 at 4:46:30p", (), place("16:46:30")),
        ("break 3 4:46p", (), place("16:46:00")),
        ("break 3 at 1646", (), place("16:46:00")),
        ("break 3 164630", (), place("16:46:30")),
        ("break 3 at 19:46z", (), place("16:46:00")),
        ("break 3 at 3:46p eastern", (), place("16:46:00")),
        ("break 3 at 15 May 4:46p", (), place("16:46:00", day=15)),
        ("break 3 at 2031-05-14T16:46", (), place("16:46:00")),
        ("break 3 in 4m", (), place("16:45:12")),
        ("break 3 at in 4m", (), place("16:45:12")),
        ("break 3 elapsed 75:20:00", (), place("16:48:32")),
        ("break 3 +2m", (PLACED,), place("16:52:00")),
        ("break 3 -30s", (PLACED,), place("16:49:30")),
        ("break 3 at +1:12", (PLACED,), place("16:51:12")),
        ("walk +2m", (), place("17:12:00", item="walk")),
        ("walk -2m", (place("17:20:00", item="walk"),), place("17:18:00", item="walk")),
        ("break 3 at 4:46p", (OFF,), place("16:46:00")),
        # over, off, free
        ("break 3 over", (BEGUN,), Finish("break-3", NOW)),
        ("break 3 over now", (BEGUN,), Finish("break-3", NOW)),
        ("break 3 over now-5s", (BEGUN,), Finish("break-3", NOW - 5 * S)),
        ("break 3 over 4:42:10p", (BEGUN,), Finish("break-3", at("16:42:10"))),
        (
            "break 3 over 4:42:10p",
            (BEGUN, Begin("walk", at("16:41:00"))),
            Finish("break-3", at("16:42:10")),
        ),
        ("break 3 over 4:42:10", (BEGUN,), Finish("break-3", at("16:42:10"))),
        ("break 3 over 4:41:50p", (BEGUN, OVER), Finish("break-3", at("16:41:50"))),
        ("break 3 off", (), Drop("break-3")),
        ("break 3 off", (PLACED,), Drop("break-3")),
        ("break 3 free", (PLACED,), Unplace("break-3")),
        ("break 3 free", (OFF,), Unplace("break-3")),
    ],
)
def test_a_line_about_an_item_is_read(
    typed: str, before: tuple[Action, ...], action: Action
) -> None:
    reading = read(typed, DESK.after(*before))[0]
    assert reading.action == action
    assert reading.target is not None
    assert reading.target.kind is TargetKind.ITEM


@pytest.mark.parametrize(
    ("typed", "before", "how"),
    [
        ("break 3 now", (), "Break 3 on the air at 4:41:12 p.m. Atlantic, over at 4:43:22 p.m."),
        ("break 3 at 4:46p", (), "Break 3 placed at 4:46:00 p.m. Atlantic, over at 4:48:10 p.m."),
        (
            "break 3 +2m",
            (PLACED,),
            (
                "Break 3 placed at 4:52:00 p.m. Atlantic (2 min later than placed),"
                " over at 4:54:10 p.m."
            ),
        ),
        ("break 3 over", (BEGUN,), "Break 3 over at 4:41:12 p.m. Atlantic"),
        ("break 3 off", (), "Break 3 will not run"),
        ("break 3 free", (PLACED,), "Break 3 floats again"),
        ("break 3 free", (OFF,), "Break 3 may run again"),
        (
            "walk free",
            (place("17:20:00", item="walk"),),
            "Walk through the hall is back at 5:10:00 p.m.",
        ),
    ],
)
def test_it_says_how_it_was_read(typed: str, before: tuple[Action, ...], how: str) -> None:
    assert only(typed, DESK.after(*before)).how == how


@pytest.mark.parametrize(
    ("typed", "before", "asks"),
    [
        ("break 3 now", (), ()),
        ("break 3 now", (Begin("break-2", at("16:40:00")),), ("Break 2 is still on the air",)),
        ("break 3 now", (OFF,), ("It was said that it will not run",)),
        ("break 3 at 4:46p", (OFF,), ("It was said that it will not run",)),
        ("break 3 at 4:40p", (), ("4:40:00 p.m. is 1 min 12 s ago",)),
        ("break 3 over", (BEGUN,), ("It cannot be cut, and has 58 s to run",)),
        ("break 3 over 4:42:09p", (BEGUN,), ("4:42:09 p.m. is still 57 s away",)),
        ("break 2 over", (Begin("break-2", at("16:40:00")),), ()),
        ("break 3 off", (), ("It is owed, and would have to be made good",)),
        ("tape-x off", (), ()),
    ],
)
def test_enter_is_asked_for_once_more(
    typed: str, before: tuple[Action, ...], asks: tuple[str, ...]
) -> None:
    assert only(typed, DESK.after(*before)).asks[: len(asks) or 1] == asks


def test_what_cannot_be_cut_may_be_over_once_its_length_has_passed() -> None:
    late = replace(DESK, now_ms=at("16:42:10"))
    assert only("break 3 over", late.after(BEGUN)).asks == ()
    assert only("break 3 over now-2s", late.after(BEGUN)).asks == (
        "It cannot be cut, and has 2 s to run",
    )


@pytest.mark.parametrize("part_ms", [0, 1, 400, 999])
def test_an_end_typed_at_the_second_shown_or_one_before_is_the_end_of_what_cannot_be_cut(
    part_ms: int,
) -> None:
    begun = Begin("break-3", at("16:40:00") + part_ms)
    late = replace(DESK, now_ms=at("16:42:30")).after(begun)
    for clock in ("4:42:09p", "4:42:10p", "4:42:11p"):
        assert only(f"break 3 over {clock}", late).asks == ()
    (asked,) = only("break 3 over 4:42:08p", late).asks
    assert asked == "It cannot be cut, and has 2 s to run"


@pytest.mark.parametrize(
    ("typed", "before", "what", "hint"),
    [
        ("break 3", (), "What of Break 3?", "'break 3 now', 'break 3 at 4:46p'"),
        ("break 3 noow", (), "'noow' is nothing that is read for Break 3", "'break 3 now'"),
        ("break 3 offf", (), "'offf' is nothing that is read", "'break 3 off'"),
        ("break 3 at", (), "'at' is nothing that is read for Break 3", "'break 3 at 4:46p'"),
        ("break 3 at soon", (), "'at soon' is nothing", "'break 3 at 4:46p'"),
        ("break 3 now+5s", (), "'now+5s' is nothing", ""),
        ("break 3 off now", (), "'now' is too much after 'off'", "'break 3 off'"),
        ("break 3 free at 4:46p", (PLACED,), "too much after 'free'", "'break 3 free'"),
        ("break 3 over soon", (BEGUN,), "'soon' is not when it was over", "over 4:48:10p"),
        ("break 3 +2m", (), "no time now that '+2m' could count from", "clock time"),
        ("break 3 about 4:46p", (), "Break 3 is placed to the second", "'break 3 at 4:46p'"),
        ("break 3 over", (), "Break 3 is not on the air", "'break 3 now'"),
        ("break 3 over", (PLACED,), "Break 3 is not on the air", ""),
        ("break 3 over", (BEGUN, OVER), "Break 3 was over at 4:42:10 p.m.", "over 4:48:10p"),
        ("break 3 over 4:39p", (BEGUN,), "Break 3 began at 4:40:00 p.m.", "before that"),
        ("break 3 at 4:46p", (BEGUN,), "Break 3 is on the air", "'break 3 over' ends it"),
        ("break 3 +2m", (PLACED, BEGUN), "Break 3 is on the air", ""),
        ("break 3 off", (BEGUN,), "Break 3 is on the air", "'break 3 over'"),
        ("break 3 free", (PLACED, BEGUN), "Break 3 is on the air", ""),
        ("break 3 now", (BEGUN, OVER), "Break 3 has run, until 4:42:10 p.m.", "Take back"),
        ("break 3 at 4:46p", (BEGUN, OVER), "Break 3 has run", ""),
        ("break 3 off", (BEGUN, OVER), "Break 3 has run", ""),
        ("break 3 free", (PLACED, BEGUN, OVER), "Break 3 has run", ""),
        (
            "break 3 now",
            (BEGUN, Begin("break-2", at("16:41:00"))),
            "Break 3 has run: something else went on the air after it",
            "'break 3 over 4:48:10p'",
        ),
        ("break 3 off", (OFF,), "Break 3 is off already", "'break 3 free'"),
        ("break 3 free", (), "Break 3 was given no place here", "'break 3 at 4:46p'"),
    ],
)
def test_what_cannot_be_said_of_an_item_is_refused_with_what_can(
    typed: str, before: tuple[Action, ...], what: str, hint: str
) -> None:
    problem = refused(typed, DESK.after(*before))
    assert what in problem.what
    assert hint in problem.hint


def test_a_clock_time_is_near_where_the_item_may_be() -> None:
    assert only("tape-x 6:20").action == place("18:20:00", item="tape-x")
    late = replace(DESK, now_ms=at("23:50:00"))
    assert only("break 3 at 1:10", late).action == place("01:10:00", day=15)


def test_a_place_that_comes_twice_as_clocks_go_back_is_read_both_ways() -> None:
    autumn = replace(DESK, now_ms=rfc3339_to_ms("2031-11-02T04:00:00Z"))
    first, second = read("break 3 at 1:30", autumn)
    assert "the first of two" in first.how
    assert "the second of two" in second.how


def test_an_item_that_has_run_gives_way_to_one_that_has_not() -> None:
    assert len(read("break now", DESK)) == 2
    after = DESK.after(BEGUN, OVER)
    assert only("break now", after).action == Begin("break-2", NOW)
    assert only("break now", DESK.after(Drop("break-2"))).action == Begin("break-3", NOW)


def test_an_item_whose_name_begins_like_an_event_gives_both_readings() -> None:
    tape = Item("ignition-tape", "tape", "Ignition tape", 60_000)
    desk = replace(DESK, items=(*DESK.items, tape))
    readings = read("ign now", desk)
    assert [reading.action for reading in readings] == [
        Happened("ignition", NOW),
        Begin("ignition-tape", NOW),
    ]
    assert readings[0].asks[0].endswith("; 'ign' is also Ignition tape")
    assert only("ignition now", desk).action == Happened("ignition", NOW)
    assert only("ign tape now", desk).action == Begin("ignition-tape", NOW)
    assert [each.action for each in read("ign 4:58p", desk)] == [
        Revise("ignition", at("16:58:00")),
        place("16:58:00", item="ignition-tape"),
    ]


def test_items_called_off_and_on_are_read_by_their_own_forms() -> None:
    odd = (Item("off", "tape", "Off the record", 60_000), Item("on", "tape", "On the hill", 60_000))
    desk = replace(DESK, items=odd)
    assert only("off now", desk).action == Begin("off", NOW)
    assert only("off off", desk).action == Drop("off")
    assert only("on at 4:46p", desk).action == place("16:46:00", item="on")
    assert refused("air off off", desk).what


def test_an_item_not_of_the_plan_any_more_has_no_name() -> None:
    assert refused("break 9 now", replace(DESK, items=())).part == "break"
