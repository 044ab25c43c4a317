"""The rules, by example: each row of the table, worked by hand."""

from dataclasses import replace

import pytest

from core.entries.model import (
    Add,
    Choose,
    Free,
    Happened,
    Hold,
    Observe,
    Pin,
    Replan,
    Resume,
    Revise,
    Scrub,
    TakePlan,
    Undecide,
    Way,
)
from core.errors import EntryRefused
from core.plan.model import Change, EdgeRef, Event, Outcome, Plan, Window
from core.schedule.model import Kind, State
from tests.core.schedule.desk import Desk, at, clash_set, clock, event, length, m, plan, tie
from tests.core.schedule.signal_fake import FakeEdges, Series


def to_the_pin() -> Plan:
    return plan(
        event("A", planned="10:00"),
        event("B", tie("A", 10, 5)),
        event("C", tie("B", 10, 5)),
        event("P", tie("C", 10, 5), pin="10:30"),
    )


def test_a_chain_follows_and_each_move_names_the_tie_that_made_it() -> None:
    desk = Desk(
        plan(event("A", planned="10:00"), event("B", tie("A", 10)), event("C", tie("B", 30)))
    )
    effect = desk.type(Revise("A", at("10:05")))
    assert desk.moves(effect) == [
        "A 10:00>10:05 typed figure A",
        "B 10:10>10:15 follows tie A",
        "C 10:40>10:45 follows tie B",
    ]
    assert effect.chains is not None
    assert [(x.event, length(x.moved_ms)) for x in effect.chains.chain("C")] == [
        ("A", "5:00"),
        ("B", "5:00"),
        ("C", "5:00"),
    ]


def test_an_event_with_two_ties_waits_for_the_later_and_says_which() -> None:
    desk = Desk(
        plan(
            event("crew", planned="09:00"),
            event("fuel", planned="09:20"),
            event("go", tie("crew", 40), tie("fuel", 15)),
        )
    )
    assert desk.times("go") == "09:40"
    effect = desk.type(Revise("fuel", at("09:24")))
    assert desk.stays(effect) == ["go None 1:00"]
    effect = desk.type(Revise("fuel", at("09:31")))
    assert desk.moves(effect)[1:] == ["go 09:40>09:46 follows tie fuel"]


def test_before_a_pin_the_last_gaps_shrink_first_and_the_pin_says_what_is_left() -> None:
    desk = Desk(to_the_pin())
    assert length(desk.board.line("P").slack_ms) == "15:00"
    effect = desk.type(Revise("A", at("10:10")))
    assert desk.times("A B C P") == "10:10 10:20 10:25 10:30"
    assert length(desk.board.line("P").slack_ms) == "5:00"
    assert desk.stays(effect) == ["P pin 0:00"]
    assert [(s.before, s.after, length(s.gap_ms)) for s in effect.squeezed] == [
        ("B", "C", "5:00"),
        ("C", "P", "5:00"),
    ]


def test_past_the_leasts_it_is_a_clash_and_forced_the_last_tie_is_too_close() -> None:
    desk = Desk(to_the_pin())
    effect = desk.type(Revise("A", at("10:16")))
    assert clash_set(effect) == {"figure A", "least A B", "least B C", "least C P", "pin P"}
    desk.type(Revise("A", at("10:16")), again=True)
    assert desk.times("A B C P") == "10:16 10:21 10:26 10:30"
    assert desk.broken() == ["least C P 1:00"]


def test_a_revision_of_a_tied_event_frees_it_from_its_offset() -> None:
    desk = Desk(
        plan(
            event("A", planned="14:00"),
            event("B", tie("A", 10, 5, 30)),
            event("C", tie("B", 30, 20)),
        )
    )
    effect = desk.type(Revise("B", at("14:17")))
    assert desk.moves(effect)[1:] == ["C 14:40>14:47 follows tie B"]
    effect = desk.type(Revise("A", at("14:06")))
    assert desk.times("A B C") == "14:06 14:17 14:47"
    assert desk.stays(effect) == ["B figure 6:00"]


def test_an_older_figure_downstream_yields_and_only_undo_brings_it_back() -> None:
    desk = Desk(
        plan(event("A", planned="14:00"), event("B", tie("A", 10, 5)), event("C", tie("B", 30, 20)))
    )
    desk.type(Revise("B", at("14:12")))
    effect = desk.type(Revise("A", at("14:09")))
    assert effect.yielded == ("B",)
    assert desk.times("A B C") == "14:09 14:19 14:49"
    desk.type(Revise("A", at("14:02")))
    assert desk.times("A B C") == "14:02 14:12 14:42"
    assert desk.board.line("B").figure_ms is None
    assert desk.board.spent == {1}
    desk.undo(3)
    desk.undo(2)
    assert clock(desk.board.line("B").figure_ms) == "14:12"


def test_against_an_older_figure_upstream_it_is_a_clash_and_forced_the_older_yields() -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10, 5))))
    desk.type(Revise("A", at("10:12")))
    assert clash_set(desk.type(Revise("B", at("10:15")))) == {
        "figure A",
        "least A B",
        "figure B",
    }
    effect = desk.type(Revise("B", at("10:15")), again=True)
    assert effect.yielded == ("A",)
    assert desk.times("A B") == "10:00 10:15"


def test_free_predecessors_come_forward_to_their_least() -> None:
    desk = Desk(
        plan(event("Q", planned="14:00"), event("P", tie("Q", 20, 10)), event("E", tie("P", 10, 5)))
    )
    effect = desk.type(Revise("E", at("14:22")))
    assert desk.moves(effect) == [
        "E 14:30>14:22 typed figure E",
        "P 14:20>14:17 upstream least E",
    ]
    assert clash_set(desk.type(Revise("E", at("14:14")))) == {
        "planned Q",
        "least Q P",
        "least P E",
        "figure E",
    }


def test_what_must_be_followed_within_a_most_waits_too_and_is_listed_first() -> None:
    desk = Desk(
        plan(
            event("gyro", planned="19:45"),
            event("lamp", planned="20:00"),
            event("burn", tie("lamp", 10, 5, 15), tie("gyro", 20, 10)),
            event("talk", tie("burn", 5)),
        )
    )
    effect = desk.type(Revise("gyro", at("20:00")))
    assert desk.moves(effect) == [
        "gyro 19:45>20:00 typed figure gyro",
        "lamp 20:00>20:05 upstream most burn",
        "burn 20:10>20:20 follows tie gyro",
        "talk 20:15>20:25 follows tie burn",
    ]


@pytest.mark.parametrize(("fact", "then"), [("10:03", "10:13"), ("09:58", "10:08")])
def test_a_fact_late_or_early_stands_and_followers_move(fact: str, then: str) -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10))))
    desk.type(Happened("A", at(fact)))
    assert desk.times("A B") == f"{fact} {then}"
    assert desk.board.line("A").state is State.HAPPENED


def test_a_revision_of_what_has_happened_is_refused_with_the_form_that_corrects() -> None:
    desk = Desk(plan(event("A", planned="10:00")))
    desk.type(Happened("A", at("10:03")))
    with pytest.raises(EntryRefused) as refused:
        desk.type(Revise("A", at("10:05")))
    assert "A happened" in refused.value.hint
    desk.type(Happened("A", at("10:02")))
    assert desk.times("A") == "10:02"


def test_the_board_invents_no_slip() -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10))))
    desk.pass_to("10:07")
    assert desk.times("A B") == "10:00 10:10"


def countdown() -> Plan:
    return plan(
        event("fuel", planned="15:50"),
        event("arm", tie("fuel", 7)),
        event("liftoff", tie("arm", 3)),
        event("orbit", tie("liftoff", 9)),
    )


def test_a_hold_freezes_the_count_and_all_of_it_still_to_come() -> None:
    desk = Desk(countdown(), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    lines = {name: desk.board.line(name) for name in ("fuel", "arm", "liftoff", "orbit")}
    assert {k: length(v.left_ms) for k, v in lines.items()} == {
        "fuel": "-",
        "arm": "2:00",
        "liftoff": "5:00",
        "orbit": "-",
    }
    assert lines["liftoff"].state is State.HELD
    assert clock(lines["liftoff"].held_ms) == "15:55"
    assert desk.times("fuel arm liftoff orbit") == "15:50 15:57 16:00 16:09"


def test_while_held_the_count_slides_once_a_second_and_followers_with_it() -> None:
    desk = Desk(countdown(), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.pass_to("15:57:30")
    assert desk.times("fuel arm liftoff orbit") == "15:50 15:59:30 16:02:30 16:11:30"
    assert not desk.board.tick(at("15:57:30") + 999)
    assert desk.board.tick(at("15:57:31"))


def test_resume_goes_on_with_what_was_left() -> None:
    desk = Desk(countdown(), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.type(Resume("liftoff", at("16:10")), now="15:58")
    assert desk.times("arm liftoff orbit") == "16:12 16:15 16:24"
    assert desk.board.line("liftoff").state is State.AHEAD


def test_after_resume_the_cause_is_the_count_that_goes_on_and_not_a_hold() -> None:
    desk = Desk(countdown(), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    effect = desk.type(Resume("liftoff", at("16:10")), now="15:58")
    assert desk.moves(effect) == [
        "liftoff 16:03>16:15 typed resumed liftoff",
        "arm 16:00>16:12 upstream resumed arm",
        "orbit 16:12>16:24 follows tie liftoff",
    ]
    cause = desk.board.line("liftoff").cause
    assert cause is not None
    assert (cause.kind, cause.of) == (Kind.RESUMED, "liftoff")


def test_a_time_typed_after_resume_is_the_newer_word() -> None:
    desk = Desk(countdown(), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.type(Resume("liftoff", at("16:10")), now="15:58")
    desk.type(Revise("liftoff", at("16:13")))
    assert desk.times("arm liftoff orbit") == "16:12 16:13 16:22"
    assert clash_set(desk.type(Revise("liftoff", at("16:11")))) == {
        "resumed arm",
        "least arm liftoff",
        "figure liftoff",
    }
    desk.type(Revise("liftoff", at("16:11")), again=True)
    assert desk.times("arm liftoff orbit") == "16:11 16:11 16:20"
    assert (desk.broken(), desk.board.clashes) == ([], ())


def test_after_resume_those_later_in_the_count_come_forward_with_an_earlier_figure() -> None:
    desk = Desk(
        plan(
            event("arm", planned="15:57"),
            event("burn", tie("arm", 1)),
            event("cutoff", tie("burn", 1, 1, 1)),
            event("liftoff", tie("cutoff", 1)),
        ),
        now="15:55",
    )
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.type(Resume("liftoff", at("16:10")), now="15:58")
    assert desk.times("arm burn cutoff liftoff") == "16:12 16:13 16:14 16:15"
    effect = desk.type(Revise("burn", at("16:12:30")))
    assert effect.clash is None
    assert desk.times("arm burn cutoff liftoff") == "16:12 16:12:30 16:13:30 16:15"


def test_a_hold_tells_who_is_held_with_it_and_that_followers_slide() -> None:
    desk = Desk(countdown(), now="15:55")
    assert desk.shown(Hold("liftoff", at("15:55"), m(5))).notes == (
        "held with it: arm",
        "what is tied after it slides, a second each second",
    )
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    assert desk.shown(Resume("liftoff", at("16:10"))).notes == ("going on with it: arm",)


def test_a_time_typed_while_held_keeps_the_hold_and_sets_when() -> None:
    desk = Desk(countdown(), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.type(Revise("liftoff", at("16:15")), now="15:58")
    line = desk.board.line("liftoff")
    assert (desk.times("liftoff orbit"), line.state) == ("16:15 16:24", State.HELD)
    desk.pass_to("16:10")
    assert desk.times("liftoff") == "16:15"
    desk.pass_to("16:11")
    assert desk.times("liftoff") == "16:16"
    assert desk.board.spent == {2}


def test_a_hold_into_the_windows_end_stands_and_the_window_is_broken() -> None:
    events = list(countdown().events)
    events[2] = replace(events[2], window=Window(None, at("16:05")))
    desk = Desk(plan(*events), now="15:55")
    desk.type(Hold("liftoff", at("15:55"), m(5)))
    desk.pass_to("16:00")
    assert desk.broken() == []
    desk.pass_to("16:01")
    assert desk.times("liftoff") == "16:06"
    assert desk.broken() == ["not_after liftoff 1:00"]


def flight() -> Plan:
    return plan(
        event("A", planned="08:00"),
        event("B", tie("A", 30, 20)),
        event("C", tie("B", 15, 10), tie("A", 20, 5)),
        event("D", tie("C", 10, 5)),
        event("P", tie("B", 60, 30), pin="09:45"),
        event("Q", tie("P", 10)),
    )


@pytest.mark.parametrize(
    ("way", "first", "then"),
    [
        (Way.WITH, "08:00 - - - 09:45 09:55", "08:10 - - - 09:45 09:55"),
        (Way.BRIDGE, "08:00 - 08:45 08:55 09:45 09:55", "08:10 - 08:55 09:05 09:45 09:55"),
        (Way.STAY, "08:00 - 08:45 08:55 09:45 09:55", "08:10 - 08:45 08:55 09:45 09:55"),
    ],
)
def test_a_scrub_leaves_followers_as_was_said(way: Way, first: str, then: str) -> None:
    desk = Desk(flight())
    assert desk.board.goes_with("B") == ("C", "D")
    desk.type(Scrub("B", way))
    assert desk.times("A B C D P Q") == first
    assert desk.board.line("B").state is State.SCRUBBED
    desk.type(Revise("A", at("08:10")))
    assert desk.times("A B C D P Q") == then


@pytest.mark.parametrize("way", list(Way))
def test_a_time_typed_on_a_scrubbed_event_restores_it(way: Way) -> None:
    desk = Desk(flight())
    desk.type(Scrub("B", way))
    desk.type(Revise("B", at("08:32")))
    assert desk.times("B C D") == "08:32 08:47 08:57"


def signal(first: str = "10:10", count: int = 3) -> FakeEdges:
    """Every half hour, rigid to the event 'burn' at 10:00."""
    return FakeEdges({"voice": Series("burn", at(first) - at("10:00"), m(30), count)})


def on_edge(name: str, after: str | None, offset: float = 0, nth: int = 1) -> Event:
    return Event(name, name, edge=EdgeRef("voice", Change.BACK, after, None, m(offset), nth))


def test_what_hangs_on_the_edge_of_a_scrubbed_event_is_unknown_not_wrong() -> None:
    desk = Desk(
        plan(
            event("burn", planned="10:00"),
            on_edge("back", "burn"),
            event("talk", tie("back", 5)),
            event("call", pin="11:00"),
        ),
        signal(),
    )
    assert desk.times("back talk") == "10:10 10:15"
    desk.type(Scrub("burn", Way.BRIDGE))
    assert desk.times("back talk call") == "- - 11:00"
    assert desk.board.line("talk").state is State.UNKNOWN
    desk.type(Revise("burn", at("10:01")))
    assert desk.times("back talk") == "10:11 10:16"


def test_an_edge_observed_is_a_fact_of_what_stands_for_it() -> None:
    desk = Desk(
        plan(
            event("burn", planned="10:00"), on_edge("back", "burn"), event("talk", tie("back", 5))
        ),
        signal(),
    )
    edge = desk.board.line("back").edge
    desk.type(Observe("voice", Change.BACK, at("10:11"), edge=""))
    assert desk.times("back talk") == "10:10 10:15"
    desk.type(Observe("voice", Change.BACK, at("10:11"), edge=edge))
    assert desk.times("back talk") == "10:11 10:16"
    assert desk.board.line("back").state is State.HAPPENED
    assert isinstance(desk.board.edges, FakeEdges)
    assert len(desk.board.edges.heard) == 2


def test_an_edge_event_revised_moves_nothing_upstream() -> None:
    desk = Desk(
        plan(
            event("burn", planned="10:00"), on_edge("back", "burn"), event("talk", tie("back", 5))
        ),
        signal(),
    )
    effect = desk.type(Revise("back", at("10:14"), edge=desk.board.line("back").edge))
    assert desk.moves(effect) == [
        "back 10:10>10:14 typed figure back",
        "talk 10:15>10:19 follows tie back",
    ]


def test_a_later_anchor_may_bring_an_earlier_contact() -> None:
    desk = Desk(
        plan(
            event("burn", planned="10:00"), event("ready", planned="10:11"), on_edge("x", "ready")
        ),
        signal(),
    )
    assert desk.times("x") == "10:40"
    desk.type(Revise("burn", at("10:02")))
    assert desk.times("x") == "10:12"


def test_no_contact_left_is_a_clash_that_names_the_figure() -> None:
    desk = Desk(
        plan(
            event("burn", planned="10:00"), event("ready", planned="10:30"), on_edge("x", "ready")
        ),
        signal(),
    )
    effect = desk.type(Revise("ready", at("11:20")))
    assert clash_set(effect) == {"figure ready", "edge x"}
    assert desk.times("ready x") == "10:30 10:40"
    desk.type(Revise("ready", at("11:20")), again=True)
    assert desk.times("ready x") == "11:20 -"
    desk.type(Revise("ready", at("11:00")))
    assert desk.times("ready x") == "11:00 11:10"


def burn_or_not() -> Plan:
    return plan(
        event("burn", planned="10:00"),
        replace(event("back", tie("burn", 30)), only_if="burned"),
        replace(event("still", tie("burn", 20)), only_if="no-burn"),
        event("photo", tie("back", 8)),
        event("report", tie("back", 5), tie("still", 5)),
        outcomes=(Outcome("burned", "burn", "burned"), Outcome("no-burn", "burn", "no burn")),
    )


def test_both_outcomes_are_timed_until_one_is_named_and_then_the_other_drops() -> None:
    desk = Desk(burn_or_not())
    desk.type(Revise("burn", at("10:02")))
    assert desk.times("back still photo report") == "10:32 10:22 10:40 10:37"
    assert desk.board.line("photo").outcome == "burned"
    desk.type(Choose("no-burn"))
    assert desk.times("back still photo report") == "- 10:22 - 10:27"
    assert desk.board.line("photo").state is State.DROPPED
    desk.type(Undecide("no-burn"))
    assert desk.times("back still photo report") == "10:32 10:22 10:40 10:37"
    desk.type(Choose("burned"))
    assert desk.times("back still photo report") == "10:32 - 10:40 10:37"
    desk.undo(4)
    assert desk.times("back still") == "10:32 10:22"


def test_the_clock_never_decides() -> None:
    desk = Desk(burn_or_not())
    desk.pass_to("12:00")
    assert desk.times("back still") == "10:30 10:20"


def test_pin_holds_to_the_present_time_and_free_lets_go() -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10, 5))))
    desk.type(Pin("B", at("10:10")))
    desk.type(Revise("A", at("10:04")))
    assert desk.times("A B") == "10:04 10:10"
    assert desk.board.line("B").pinned
    desk.type(Free("B"))
    assert desk.times("A B") == "10:04 10:14"
    desk.type(Free("A"))
    assert desk.times("A B") == "10:00 10:10"


def test_a_revision_of_a_pinned_event_moves_its_pin_and_free_puts_it_back() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("P", at("10:40")))
    assert desk.times("P") == "10:40"
    assert desk.board.line("P").pinned
    desk.type(Free("P"))
    assert desk.times("P") == "10:30"


def test_the_plans_own_pin_goes_only_on_a_second_enter() -> None:
    desk = Desk(to_the_pin())
    desk.type(Revise("A", at("10:10")))
    effect = desk.type(Free("P"))
    assert effect.asks
    assert desk.times("P") == "10:30"
    desk.type(Free("P"), again=True)
    assert desk.times("A B C P") == "10:10 10:20 10:30 10:40"


def test_a_new_reference_keeps_the_old_and_moves_nothing() -> None:
    desk = Desk(plan(event("A", planned="10:00"), event("B", tie("A", 10))))
    desk.type(Revise("A", at("10:05")))
    effect = desk.type(Replan())
    line = desk.board.line("B")
    assert not effect.moves
    assert (clock(line.planned_ms), clock(line.plan_ms)) == ("10:15", "10:10")
    desk.type(Revise("A", at("10:06")))
    assert clock(desk.board.line("B").planned_ms) == "10:15"
    desk.undo(2)
    assert clock(desk.board.line("B").planned_ms) == "10:10"


def test_undo_takes_back_any_entry_also_a_fact_as_if_never_typed() -> None:
    desk = Desk(to_the_pin())
    desk.type(Happened("A", at("10:03")))
    desk.type(Revise("B", at("10:20")))
    desk.undo(1)
    other = Desk(to_the_pin())
    other.type(Revise("B", at("10:20")))
    names = desk.board.events
    assert [desk.board.line(n) for n in names] == [other.board.line(n) for n in names]


def test_a_plan_taken_over_keeps_entries_on_vanished_events_and_lists_them() -> None:
    desk = Desk(
        plan(event("A", planned="10:00"), event("B", tie("A", 10)), event("C", tie("A", 3)))
    )
    desk.type(Revise("A", at("10:05")))
    desk.type(Revise("C", at("10:09")))
    new = plan(event("A", planned="10:00"), event("B", tie("A", 12)))
    effect = desk.type(TakePlan(new))
    assert desk.moves(effect) == ["B 10:15>10:17 follows tie A", "C 10:09>- follows"]
    assert len(effect.notes) == 1
    assert "'C'" in effect.notes[0]
    desk.type(TakePlan(desk.plan))
    assert desk.times("A B C") == "10:05 10:15 10:09"


def test_an_event_added_at_the_desk_follows_its_tie() -> None:
    desk = Desk(plan(event("A", planned="10:00")))
    effect = desk.type(Add(event("new", tie("A", 240))))
    assert desk.moves(effect) == ["new ->14:00 typed tie A"]
    desk.type(Revise("A", at("10:05")))
    assert desk.times("new") == "14:05"
    with pytest.raises(EntryRefused):
        desk.type(Add(event("new", tie("A", 1))))


def test_an_event_that_only_knows_its_latest_is_put_there_and_leaks_no_bound() -> None:
    late = replace(event("X"), window=Window(None, at("12:00")))
    desk = Desk(plan(event("A", planned="10:00"), late))
    line = desk.board.line("X")
    assert (clock(line.expected_ms), line.earliest_ms) == ("12:00", None)
    assert desk.board.line("A").latest_ms is None


def test_a_chase_at_the_desk_lets_the_offset_go_and_says_so() -> None:
    desk = Desk(
        plan(
            event("A", pin="10:00"),
            event("B", tie("A", 20, 0)),
            event("C", tie("B", 10, 0), tie("A", 10, 0, 25)),
        )
    )
    assert desk.times("A B C") == "10:00 10:20 10:25"
    effect = desk.type(Free("A"), again=True)
    assert desk.board.chasing
    assert "let go" in effect.notes[0]
    assert desk.times("A") == "10:00"
    desk.type(Pin("A", at("10:00")))
    assert not desk.board.chasing
    assert desk.times("A B C") == "10:00 10:20 10:25"
