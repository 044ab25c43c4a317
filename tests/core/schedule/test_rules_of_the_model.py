"""The rules that the table takes for granted, and the table's rows about a real signal."""

import pytest

from core.entries.model import Entry, Free, Happened, Hold, Pin, Revise, Scrub, Way
from core.plan.model import Event, Limit, Window
from core.schedule.model import State
from tests.core.schedule.desk import Desk, at, clash_set, clock, event, length, m, plan, tie
from tests.core.schedule.test_rules_by_example import countdown, flight, to_the_pin


def test_an_offset_into_a_revised_event_has_no_pull_but_its_least_and_most_bind() -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10, 5, 20))))
    desk.type(Revise("B", at("10:17")))
    assert desk.times("A B") == "10:00 10:17"
    assert clash_set(desk.type(Revise("B", at("10:04")))) == {"planned A", "least A B", "figure B"}
    effect = desk.type(Revise("B", at("10:25")))
    assert effect.clash is None
    assert desk.moves(effect)[1:] == ["A 10:00>10:05 upstream most B"]


def test_a_burn_has_its_length_whichever_end_is_revised() -> None:
    desk = Desk(plan(event("ignite", planned="10:00"), event("cut", tie("ignite", 6, 6, 6))))
    desk.type(Revise("ignite", at("10:02")))
    assert desk.times("ignite cut") == "10:02 10:08"
    desk.type(Free("ignite"))
    effect = desk.type(Revise("cut", at("10:07")))
    assert desk.moves(effect) == [
        "cut 10:06>10:07 typed figure cut",
        "ignite 10:00>10:01 upstream most cut",
    ]


def test_what_must_come_before_another_moves_with_it_and_may_come_no_later() -> None:
    desk = Desk(plan(event("live", planned="10:00"), event("seat", tie("live", -5, None, 0))))
    assert desk.times("seat") == "09:55"
    desk.type(Revise("live", at("10:10")))
    assert desk.times("seat") == "10:05"
    desk.type(Revise("seat", at("10:10")))
    effect = desk.type(Revise("seat", at("10:12")))
    assert clash_set(effect) == {"figure live", "most live seat", "figure seat"}
    assert effect.clash is not None
    assert clock(effect.clash.fits_until_ms) == "10:10"
    effect = desk.type(Revise("seat", at("10:12")), again=True)
    assert effect.yielded == ("live",)
    assert desk.times("live seat") == "10:12 10:12"


def test_a_limit_across_events_that_are_not_tied_binds_too() -> None:
    desk = Desk(
        plan(
            event("A", planned="10:00"),
            event("B", planned="10:20"),
            limits=(Limit("A", "B", m(15), m(30)),),
        )
    )
    effect = desk.type(Revise("A", at("10:10")))
    assert desk.moves(effect)[1:] == ["B 10:20>10:25 follows least A"]
    effect = desk.type(Revise("B", at("10:45")))
    assert effect.clash is not None
    assert clash_set(effect) == {"figure A", "most A B", "figure B"}
    effect = desk.type(Revise("B", at("10:45")), again=True)
    assert effect.yielded == ("A",)
    assert desk.times("A B") == "10:15 10:45"


@pytest.mark.parametrize(
    ("way", "told"),
    [
        (Way.WITH, {"B", "C", "D"}),
        (Way.BRIDGE, {"B"}),
        (Way.STAY, {"B"}),
    ],
)
def test_the_preview_of_a_scrub_tells_who_goes_and_changes_nothing(
    way: Way, told: set[str]
) -> None:
    desk = Desk(flight())
    before = desk.times("A B C D P Q")
    effect = desk.shown(Scrub("B", way))
    assert {move.event for move in effect.moves if move.new_ms is None} == told
    assert desk.times("A B C D P Q") == before
    assert desk.board.line("B").state is State.AHEAD


def test_a_happened_follower_stays_when_what_it_hung_on_is_called_off_with_the_rest() -> None:
    desk = Desk(flight())
    desk.type(Happened("C", at("08:44")))
    desk.type(Scrub("B", Way.WITH))
    assert desk.times("B C D") == "- 08:44 08:54"


def test_the_desks_pin_goes_at_once_and_the_plans_own_only_on_a_second_enter() -> None:
    desk = Desk(to_the_pin())
    desk.type(Pin("P", at("10:35")))
    assert desk.times("P") == "10:35"
    assert not desk.type(Free("P")).asks
    assert desk.times("P") == "10:30"
    assert desk.type(Free("P")).asks
    assert not desk.type(Free("P"), again=True).asks
    assert not desk.board.line("P").pinned


def test_a_hold_into_the_windows_end_names_the_hold_and_the_window() -> None:
    fuel, arm, liftoff, orbit = countdown().events
    window = Window(None, at("16:05"))
    timed = Event("liftoff", "liftoff", ties=liftoff.ties, window=window)
    desk = Desk(plan(fuel, arm, timed, orbit), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.pass_to("16:01")
    clash = desk.board.clash
    assert clash is not None
    assert [f"{c.kind} {c.of}" for c in clash.set] == ["hold liftoff", "not_after liftoff"]
    assert length(clash.over_ms) == "1:00"
    desk.undo(1)
    assert (desk.board.clashes, desk.times("liftoff")) == ((), "16:00")


def test_undo_of_a_forced_figure_gives_back_what_yielded_and_what_broke() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("B", at("10:12")))
    effect = desk.type(Revise("A", at("10:16")), again=True)
    assert effect.yielded == ("B",)
    assert desk.broken() == ["least C P 1:00"]
    desk.undo(2)
    assert (desk.times("A B C P"), desk.broken()) == ("10:00 10:12 10:22 10:30", [])
    assert desk.board.spent == frozenset()


@pytest.mark.parametrize("loose", ["B", "C", "P", "pin"])
def test_a_clash_is_irreducible_without_any_member_it_holds(loose: str) -> None:
    def least(name: str) -> int | None:
        return None if name == loose else 5

    desk = Desk(
        plan(
            event("A", planned="10:00"),
            event("B", tie("A", 10, least("B"))),
            event("C", tie("B", 10, least("C"))),
            event("P", tie("C", 10, least("P")), pin="" if loose == "pin" else "10:30"),
        )
    )
    assert desk.type(Revise("A", at("10:16"))).clash is None


def test_a_look_sees_the_times_as_an_entry_would_leave_them_and_nothing_stays() -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10))))
    seen: list[int | None] = []
    desk.board.preview(
        Entry(1, desk.now_ms, "", Revise("A", at("10:05"))),
        desk.now_ms,
        lambda: seen.append(desk.board.expected_ms("B")),
    )
    assert seen == [at("10:15")]
    assert desk.times("A B") == "10:00 10:10"
