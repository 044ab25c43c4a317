"""A clash never stops the desk: each sentence of it, worked by hand."""

from dataclasses import replace

from core.entries.model import Happened, Hold, Revise
from core.plan.model import Change, EdgeRef, Event, Plan, Window
from core.schedule.lost import lost
from tests.core.schedule.desk import Desk, at, clash_set, clock, event, m, plan, tie
from tests.core.schedule.signal_fake import FakeEdges, Series


def to_the_pin() -> Plan:
    return plan(
        event("A", planned="10:00"),
        event("B", tie("A", 10, 5)),
        event("C", tie("B", 10, 5)),
        event("P", tie("C", 10, 5), pin="10:30"),
        event("X", tie("B", 3)),
    )


def test_the_grounds_word_stands_only_after_a_second_enter() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("A", at("10:16")))
    assert desk.times("A B C P") == "10:00 10:10 10:20 10:30"
    desk.type(Revise("A", at("10:16")), again=True)
    assert desk.times("A B C P") == "10:16 10:21 10:26 10:30"


def test_the_clash_names_its_set_the_excess_and_what_would_fit() -> None:
    desk = Desk(to_the_pin())
    effect = desk.shown(Revise("A", at("10:16")))
    assert clash_set(effect) == {"figure A", "least A B", "least B C", "least C P", "pin P"}
    assert effect.clash is not None
    assert effect.clash.over_ms == m(1)
    assert clock(effect.clash.fits_until_ms) == "10:15"
    assert effect.clash.fits_from_ms is None


def test_between_a_fact_and_a_pin_both_ends_of_what_fits_are_told() -> None:
    desk = Desk(to_the_pin())
    desk.type(Happened("A", at("10:02")))
    effect = desk.shown(Revise("B", at("10:21")))
    assert effect.clash is not None
    fits = (clock(effect.clash.fits_from_ms), clock(effect.clash.fits_until_ms))
    assert fits == ("10:07", "10:20")


def test_an_older_figure_yields_first() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("A", at("10:12")))
    effect = desk.type(Revise("B", at("10:15")))
    assert clash_set(effect) == {"figure A", "least A B", "figure B"}
    assert clock(effect.clash.fits_from_ms if effect.clash else None) == "10:17"
    effect = desk.type(Revise("B", at("10:15")), again=True)
    assert effect.yielded == ("A",)
    assert desk.board.spent == {1}
    assert desk.times("A B C P") == "10:00 10:15 10:25 10:30"
    assert desk.broken() == []


def test_then_a_planned_time_is_pulled_earlier() -> None:
    desk = Desk(
        plan(event("Q", planned="14:00"), event("P", tie("Q", 20, 10)), event("E", tie("P", 10, 5)))
    )
    effect = desk.type(Revise("E", at("14:14")))
    assert clash_set(effect) == {"planned Q", "least Q P", "least P E", "figure E"}
    effect = desk.type(Revise("E", at("14:14")), again=True)
    assert desk.times("Q P E") == "13:59 14:09 14:14"
    assert desk.moves(effect) == [
        "E 14:30>14:14 typed figure E",
        "Q 14:00>13:59 upstream least P",
        "P 14:20>14:09 upstream least E",
    ]


def test_a_planned_time_pulled_earlier_by_force_is_neither_broken_nor_a_clash() -> None:
    desk = Desk(
        plan(event("Q", planned="14:00"), event("P", tie("Q", 20, 10)), event("E", tie("P", 10, 5)))
    )
    effect = desk.type(Revise("E", at("14:14")), again=True)
    assert effect.broken == ()
    assert desk.broken() == []
    assert desk.board.clashes == ()
    desk.type(Revise("E", at("14:20")))
    assert desk.times("Q P E") == "14:00 14:15 14:20"


def contacts() -> Desk:
    """Every two hours from ten minutes after INSERT, four times; TALK at the first from READY."""
    edges = FakeEdges({"voice": Series("INSERT", m(10), m(120), 4)})
    ref = EdgeRef("voice", Change.BACK, "READY", None, 0)
    return Desk(
        plan(
            event("INSERT", planned="06:00"),
            event("READY", planned="08:11"),
            Event("TALK", "TALK", edge=ref),
            event("end", tie("TALK", 20)),
        ),
        edges,
        now="05:00",
    )


def test_no_contact_left_says_by_how_much_and_until_when_a_figure_would_fit() -> None:
    desk = contacts()
    effect = desk.type(Revise("READY", at("12:11")))
    assert clash_set(effect) == {"figure READY", "edge TALK"}
    assert effect.clash is not None
    assert effect.clash.over_ms == m(1)
    assert effect.clash.fits_from_ms is None
    assert clock(effect.clash.fits_until_ms) == "12:10"
    assert desk.type(Revise("READY", at("12:10"))).clash is None
    assert desk.times("TALK end") == "12:10 12:30"


def test_no_contact_left_names_both_figures_that_make_it_so() -> None:
    desk = contacts()
    desk.type(Revise("READY", at("12:05")))
    effect = desk.type(Revise("INSERT", at("05:50")))
    assert clash_set(effect) == {"figure READY", "figure INSERT", "edge TALK"}
    assert effect.clash is not None
    assert effect.clash.over_ms == m(5)
    assert clock(effect.clash.fits_from_ms) == "05:55"
    assert effect.clash.fits_until_ms is None
    assert desk.type(Revise("INSERT", at("05:55"))).clash is None


def test_no_contact_left_is_told_as_long_as_it_lasts_when_forced() -> None:
    desk = contacts()
    desk.type(Revise("READY", at("12:11")), again=True)
    assert desk.times("READY TALK end") == "12:11 - -"
    clash = desk.board.clash
    assert clash is not None
    assert (clash.event, clash.over_ms) == ("TALK", m(1))
    assert [f"{c.kind} {c.of}" for c in clash.set] == ["figure READY", "edge TALK"]
    assert desk.type(Revise("READY", at("12:12"))).clash is not None
    desk.type(Revise("INSERT", at("06:01")))
    assert desk.times("TALK") == "12:11"
    assert desk.board.clashes == ()
    desk.type(Revise("INSERT", at("06:00")), again=True)
    assert desk.board.clash is not None
    desk.undo(1)
    assert desk.board.clashes == ()


def test_asked_of_one_event_only_that_is_told_in_which_it_has_a_part() -> None:
    desk = contacts()
    desk.type(Revise("READY", at("12:05")))
    desk.type(Revise("INSERT", at("05:50")), again=True)
    works = desk.board._works
    every = lost(works)
    assert [one.event for one in every] == ["TALK"]
    for name in ("READY", "INSERT", "TALK", "end"):
        has_part = tuple(one for one in every if one.must_rise(name) is not None)
        assert (
            tuple(one for one in lost(works, name) if one.must_rise(name) is not None) == has_part
        )
    assert lost(works, "READY") == every
    assert lost(works, "end") == ()


def test_no_contact_left_for_a_fact_is_told_and_needs_no_second_enter() -> None:
    desk = contacts()
    effect = desk.type(Happened("READY", at("12:13")))
    assert effect.clash is None
    assert desk.board.clash is not None
    assert desk.board.clash.over_ms == m(3)


def test_a_planned_time_that_the_plans_own_pin_pulls_earlier_is_told() -> None:
    desk = Desk(plan(event("Q", planned="14:00"), event("P", tie("Q", 20, 10), pin="14:08")))
    assert desk.times("Q P") == "13:58 14:08"
    assert desk.broken() == ["planned Q 2:00"]
    assert desk.board.clash is not None


def test_then_a_window() -> None:
    late = replace(event("X", tie("A", 10, 5)), window=Window(None, at("10:20")))
    desk = Desk(plan(event("A", planned="10:00"), late))
    assert clash_set(desk.type(Revise("A", at("10:16")))) == {
        "figure A",
        "least A X",
        "not_after X",
    }
    desk.type(Revise("A", at("10:16")), again=True)
    assert desk.times("A X") == "10:16 10:26"
    assert desk.broken() == ["not_after X 6:00"]


def test_then_the_tie_nearest_the_obstacle_is_broken_with_its_shortfall() -> None:
    desk = Desk(to_the_pin())
    effect = desk.type(Revise("A", at("10:16")), again=True)
    assert desk.broken() == ["least C P 1:00"]
    assert effect.broken == desk.board.broken


def test_a_pin_does_not_move_for_it() -> None:
    desk = Desk(plan(event("R", pin="14:10"), event("F", tie("R", 30, 15))))
    assert clash_set(desk.type(Revise("F", at("14:24")))) == {"pin R", "least R F", "figure F"}
    desk.type(Revise("F", at("14:24")), again=True)
    assert desk.times("R F") == "14:10 14:24"
    assert desk.broken() == ["least R F 1:00"]


def test_nothing_else_moves_that_need_not() -> None:
    desk = Desk(to_the_pin())
    effect = desk.type(Revise("A", at("10:16")), again=True)
    assert desk.moves(effect) == [
        "A 10:00>10:16 typed figure A",
        "B 10:10>10:21 follows least A",
        "C 10:20>10:26 follows least B",
        "X 10:13>10:24 follows tie B",
    ]


def test_a_broken_limit_holds_again_when_there_is_room() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("A", at("10:16")), again=True)
    desk.type(Revise("A", at("10:14")))
    assert desk.broken() == []
    assert desk.times("A B C P") == "10:14 10:20 10:25 10:30"
    assert desk.board.clash is None
    effect = desk.type(Revise("A", at("10:16")))
    assert effect.clash is not None


def test_a_newer_figure_against_a_broken_limit_is_a_clash_of_its_own() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("A", at("10:16")), again=True)
    effect = desk.type(Revise("B", at("10:22")))
    assert clash_set(effect) == {"figure B", "least B C", "least C P", "pin P"}
    assert effect.clash is not None
    assert effect.clash.over_ms == m(2)


def test_a_fact_needs_no_second_enter() -> None:
    desk = Desk(to_the_pin())
    effect = desk.type(Happened("A", at("10:16")))
    assert effect.clash is None
    assert desk.times("A B C P") == "10:16 10:21 10:26 10:30"
    assert desk.broken() == ["least C P 1:00"]
    assert desk.board.clash is not None
    assert desk.board.clash.over_ms == m(1)


def test_a_fact_before_what_is_tied_before_it_pulls_a_planned_time_earlier() -> None:
    desk = Desk(to_the_pin())
    effect = desk.type(Happened("B", at("10:03")))
    assert desk.times("A B C P") == "09:58 10:03 10:13 10:30"
    assert desk.moves(effect)[:2] == [
        "B 10:10>10:03 typed fact B",
        "A 10:00>09:58 upstream least B",
    ]
    assert (desk.broken(), desk.board.clashes) == ([], ())
    desk.type(Happened("A", at("09:59")))
    assert desk.broken() == []


def test_a_hold_needs_no_second_enter() -> None:
    desk = Desk(to_the_pin(), now="09:58")
    desk.type(Hold("A", at("09:58"), m(2)))
    desk.pass_to("10:14")
    assert desk.times("A B C P") == "10:16 10:21 10:26 10:30"
    assert desk.broken() == ["least C P 1:00"]


def test_a_plan_that_cannot_be_met_still_gives_times_and_says_so() -> None:
    desk = Desk(plan(event("A", pin="10:00"), event("B", tie("A", 10, 5), pin="10:03")))
    assert desk.times("A B") == "10:00 10:03"
    assert desk.broken() == ["least A B 2:00"]
    assert desk.board.clash is not None
    assert desk.board.clash.over_ms == m(2)
    effect = desk.type(Revise("B", at("10:06")))
    assert effect.clash is None
    assert desk.board.clash is None


def test_limits_that_contradict_each_other_by_themselves_are_told_too() -> None:
    desk = Desk(
        plan(
            event("A", planned="10:00"),
            event("B", tie("A", 10, 10, 20)),
            event("C", tie("B", 10, 10), tie("A", 5, 0, 15)),
        )
    )
    assert desk.board.clash is not None
    assert desk.board.clash.over_ms == m(5)
    assert len(desk.board.clash.set) == 3
    assert desk.times("A B") == "10:00 10:10"
