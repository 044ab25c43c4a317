"""Whatever was typed and taken back: the view is as if built anew from the entries that stand."""

import tempfile
from dataclasses import replace
from functools import cache
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from core.board.model import View
from core.entries.model import TakeBack
from core.plan.model import Plan
from core.session.desk import Desk
from core.session.store import MemoryStore
from tests.core.board.boards import Seat, at_ms, plan_of
from tests.fakes import HandMachine

LINES = (
    "ignition +45s",
    "ignition 5:04p per flight",
    "go happened 4:41p",
    "go +2m",
    "cutoff +30s",
    "rehearsed 5:59p",
    "school 6:05p",
    "supper pin",
    "supper free",
    "checks scrub with",
    "checks scrub bridge",
    "burned",
    "no-burn",
    "burned undecided",
    "ignition hold",
    "ignition resume",
    "voice lost 4:49:40p",
    "voice back 5:24p",
    "voice lost 6:37p alone",
    "voice closed",
    "voice open",
    "return +3m",
    "return happened 5:23:40p",
    'new "Wave" ignition +4m',
    'new "Bell" 5:40p',
    "ignition +-40s",
    "note quiet",
    "replan",
)
STEPS = st.lists(
    st.sampled_from((*LINES, *LINES, "undo", "undo", "redo", "confirm", "wait", "wait")),
    max_size=9,
)


@cache
def plan() -> Plan:
    with tempfile.TemporaryDirectory() as folder:
        return plan_of(Path(folder))


def do(desk: Seat, step: str) -> None:
    match step:
        case "undo":
            desk.desk.undo(desk.now_ms)
        case "redo":
            desk.desk.redo(desk.now_ms)
        case "confirm":
            desk.desk.confirm_due(desk.now_ms)
        case "wait":
            desk.clock.step(400_000)  # type: ignore[union-attr]
        case _:
            desk.enter(step)
            desk.enter(step, again=True)


def written(view: View) -> View:
    """The view with all its cards written out, but for what the last entry did.

    And but for the sentences: one that still holds stands word for word, however old it is.
    """
    bare = replace(view, to_say=None, presenter=None, unsaved=0)
    return replace(bare, cards=tuple(view.cards), last_change=None)


@settings(max_examples=40)
@given(STEPS)
def test_the_view_after_any_day_is_the_view_from_scratch(steps: list[str]) -> None:
    store = MemoryStore()
    clock = HandMachine.at(0).sim_clock(at_ms("16:41:12"))
    desk = Seat(Desk(plan(), clock, store), clock)
    for step in steps:
        do(desk, step)
        desk.view  # noqa: B018 - a window looks each second
    fresh = Seat(Desk(plan(), clock, store), clock)
    assert written(desk.view) == written(fresh.view)
    assert desk.desk.entries() == fresh.desk.entries()


@settings(max_examples=25)
@given(STEPS)
def test_taking_everything_back_leaves_the_board_as_it_was(steps: list[str]) -> None:
    store = MemoryStore()
    clock = HandMachine.at(0).sim_clock(at_ms("16:41:12"))
    desk = Seat(Desk(plan(), clock, store), clock)
    for step in steps:
        do(desk, step)
    while desk.desk.undo(desk.now_ms).number is not None:
        pass
    untouched = Seat(Desk(plan(), clock), clock)
    assert written(desk.view) == written(untouched.view)
    turned = [entry for entry in store.entries if isinstance(entry.action, TakeBack)]
    assert len(turned) >= sum(row.taken_back for row in desk.desk.entries())


def test_totals_do_not_depend_on_when_in_the_minute_one_first_looked() -> None:
    store = MemoryStore()
    clock = HandMachine.at(0).sim_clock(at_ms("16:40:40"))
    desk = Seat(Desk(plan(), clock, store), clock)
    desk.enter("voice lost now alone")
    clock.jump(at_ms("16:41:00"))
    desk.view  # noqa: B018 - a window looks each second
    clock.jump(at_ms("16:41:59"))
    fresh = Seat(Desk(plan(), clock, store), clock)
    assert desk.view.contact.totals == fresh.view.contact.totals
