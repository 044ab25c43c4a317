"""Every case of an independent solver: hand-made corners, published examples, random plans."""

from typing import Any

import pytest

from core.errors import EntryRefused
from core.plan.model import Plan
from core.schedule.model import Cause, Clash, Constraint, Effect, Kind
from core.schedule.schedule import Schedule
from tests.core.schedule.case_files import action_of, case_names, entry_of, read_case

_WORDS = {
    Kind.FACT: "actual",
    Kind.FIGURE: "typed",
    Kind.HOLD: "floor",
    Kind.PIN: "pin",
    Kind.LEAST: "min",
    Kind.MOST: "max",
    Kind.NOT_BEFORE: "not_before",
    Kind.NOT_AFTER: "not_after",
    Kind.PLANNED: "planned",
    Kind.EDGE: "snap",
}


def _member(constraint: Constraint) -> str:
    word = _WORDS[constraint.kind]
    ends = f"{constraint.of}>{constraint.to}" if constraint.to else constraint.of
    return f"{word}:{ends}"


def _drivers(  # noqa: PLR0911 - one for each word of the case files
    board: Schedule, event: str, cause: Cause
) -> set[str]:
    """How the case files may call a cause."""
    gap = f"{cause.of}>{event}"
    match cause.kind:
        case Kind.TIE:
            return {f"tie:{cause.of}", f"rigid:{gap}", f"min:{gap}"}
        case Kind.LEAST if cause.of in {tie.event for tie in board.event(event).ties}:
            return {f"min:{gap}"}
        case Kind.LEAST:
            return {"squeezed"}
        case Kind.MOST if event in {tie.event for tie in board.event(cause.of).ties}:
            return {f"max:{event}>{cause.of}"}
        case Kind.MOST:
            return {"squeezed", f"max:{event}>{cause.of}"}
        case Kind.NOT_AFTER:
            return {"squeezed", "not_after"}
        case kind:
            return {_WORDS[kind]}


def _squeezed(board: Schedule, gone: Any) -> list[dict[str, Any]]:
    return [
        {"tie": f"{s.before}>{s.after}", "nominal": s.offset_ms, "gap": s.gap_ms}
        for s in board.squeezed
        if s.after not in gone
    ]


def _check_times(board: Schedule, expect: dict[str, Any]) -> None:
    assert {name: board.expected_ms(name) for name in expect["times"]} == expect["times"]
    windows = {
        name: [board.line(name).earliest_ms, board.line(name).latest_ms]
        for name in expect["windows"]
    }
    assert windows == expect["windows"]
    key = lambda s: s["tie"]  # noqa: E731
    assert sorted(_squeezed(board, ()), key=key) == sorted(expect["squeezed"], key=key)


def _check_moves(board: Schedule, effect: Effect, expect: dict[str, Any]) -> None:
    moved = {m.event: m.new_ms - m.old_ms for m in effect.moves if m.new_ms and m.old_ms}
    assert {k: v for k, v in moved.items() if k in expect["times"]} == expect["moved"]
    assert list(effect.yielded) == expect["yielded"]
    for name, right in expect["drivers"].items():
        cause = board.line(name).cause
        assert cause is not None
        assert _drivers(board, name, cause) & set(right), (name, cause, right)


def _check_clash(clash: Clash | None, conflict: dict[str, Any]) -> None:
    assert clash is not None
    members = sorted(_member(c) for c in clash.set)
    assert members in [sorted(one) for one in conflict["any_of"]]
    assert clash.over_ms == conflict["over_by"][conflict["any_of"].index(members)]


@pytest.mark.parametrize("name", case_names())
def test_a_case_of_the_independent_solver_comes_out_the_same(name: str) -> None:
    case = read_case(name)
    board = Schedule(case.plan, case.edges, 0)
    plan: Plan = case.plan
    now_ms = 0
    _check_times(board, case.build)
    for number, step in enumerate(case.steps, start=1):
        expect = step["expect"]
        now_ms = step.get("now", now_ms)
        before = {event: board.expected_ms(event) for event in board.events}
        action = action_of(step, board, plan)
        if action is None:
            spent = board.spent
            board.tick(now_ms)
            assert bool(board.spent - spent) == bool(expect["yielded"])
            moved = {e: (board.expected_ms(e) or 0) - (before[e] or 0) for e in before}
            assert {e: ms for e, ms in moved.items() if ms} == expect["moved"]
            _check_times(board, expect)
        elif expect["status"] == "refused":
            with pytest.raises(EntryRefused):
                board.take(entry_of(number, action, now_ms), now_ms)
        else:
            effect = board.take(entry_of(number, action, now_ms), now_ms)
            if expect["status"] == "conflict":
                _check_clash(effect.clash, expect["conflict"])
                assert before == {event: board.expected_ms(event) for event in board.events}
                continue
            assert effect.clash is None
            _check_moves(board, effect, expect)
            _check_times(board, expect)
            plan = board.plan
        for conflict in expect.get("conflicts", []):
            _check_clash(board.clash, conflict)
        suspended = [_member(b.limit) for b in board.broken]
        assert suspended == expect.get("suspended", [])
