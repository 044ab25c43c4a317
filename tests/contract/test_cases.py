"""The independent solver's cases through the plan file and the command, as an outsider would."""

import json
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest

from app.cli import main
from core.times.instants import rfc3339_to_ms
from tests.contract.converting import HANDS, PLAIN, Day, Hand, plan_text

_CASES = Path(__file__).parents[1] / "core" / "schedule" / "cases"
_NAMES = sorted(path.stem for path in _CASES.glob("*.json"))
_KINDS = {
    "figure": "typed",
    "fact": "actual",
    "least": "min",
    "most": "max",
    "hold": "floor",
    "edge": "snap",
}

Answer = tuple[int, Any]
"""The exit status, and the JSON; what was complained of where there is none."""

Ask = Callable[[Day, Hand | Path], Answer]
"""The plan is written as the hand writes, or stands in a file already."""


@pytest.fixture
def ask(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Ask:
    """Runs `times` on a day: in a folder of its own."""

    def run(day: Day, written: Hand | Path) -> Answer:
        path = tmp_path / "trial.toml" if isinstance(written, Hand) else written
        if isinstance(written, Hand):
            path.write_text(plan_text(day.plan, written))
        status = main(["times", str(path), "--json", *day.arguments()])
        out, err = capsys.readouterr()
        return status, json.loads(out) if out else err

    return run


def _case(name: str) -> Any:
    return json.loads((_CASES / f"{name}.json").read_text())


def _times(told: Any, key: str = "expected") -> dict[str, int | None]:
    """One time of every event, in milliseconds."""
    return {e["id"]: None if e[key] is None else rfc3339_to_ms(e[key]) for e in told["events"]}


def _check_times(told: Any, expect: Mapping[str, Any]) -> None:
    times, earliest, latest = _times(told), _times(told, "earliest"), _times(told, "latest")
    assert {name: times[name] for name in expect["times"]} == expect["times"]
    windows = {name: [earliest[name], latest[name]] for name in expect["windows"]}
    assert windows == expect["windows"]


def _check_moved(told: Any, before: Any, expect: Mapping[str, Any]) -> None:
    new, old = _times(told), _times(before)
    moved = {name: (new[name] or 0) - (old[name] or 0) for name in expect["times"]}
    assert {name: by_ms for name, by_ms in moved.items() if by_ms} == expect["moved"]


def _check_yielded(told: Any, before: Any, expect: Mapping[str, Any]) -> None:
    gave_way = [name for name in told["yielded"] if name not in before["yielded"]]
    assert gave_way == expect["yielded"]


def _check_causes(told: Any, plan: Mapping[str, Any], expect: Mapping[str, Any]) -> None:
    causes = {event["id"]: event["cause"] for event in told["events"]}
    for name, right in expect["drivers"].items():
        called = _called(name, causes[name], plan)
        assert called & set(right), (name, causes[name], right)


def _called(event: str, cause: Any, plan: Mapping[str, Any]) -> set[str]:
    """How a case may call a cause."""
    kind, of = cause["kind"], cause["of"]
    match kind:
        case "tie":
            return {f"tie:{of}", f"rigid:{of}>{event}", f"min:{of}>{event}"}
        case "least":
            return {f"min:{of}>{event}", *(() if _tied(plan, event, of) else ("squeezed",))}
        case "most":
            return {f"max:{event}>{of}", *(() if _tied(plan, of, event) else ("squeezed",))}
        case "not_after":
            return {"squeezed", "not_after"}
        case _:
            return {_KINDS.get(kind, kind)}


def _tied(plan: Mapping[str, Any], after: str, before: str) -> bool:
    events = {event["id"]: event for event in plan["events"]}
    ties = events[after].get("after", ()) if after in events else ()
    return any(tie["event"] == before for tie in ties)


def _check_clash(told: Any, line: str | None, expect: Mapping[str, Any]) -> None:
    clash = told["clash"]
    assert clash is not None
    members = sorted(_member(bound) for bound in clash["set"])
    right = [sorted(one) for one in expect["any_of"]]
    assert members in right
    assert clash["over_s"] * 1000 == expect["over_by"][right.index(members)]
    assert clash["entry"] == line


def _member(bound: Mapping[str, Any]) -> str:
    ends = bound["of"] if bound["to"] is None else f"{bound['of']}>{bound['to']}"
    return f"{_KINDS.get(bound['kind'], bound['kind'])}:{ends}"


@pytest.mark.parametrize("name", _NAMES)
def test_each_step_of_a_case_comes_out_as_the_solver_says(name: str, ask: Ask) -> None:
    case = _case(name)
    day = Day(case["plan"])
    status, before = ask(day, PLAIN)
    assert status == 0, before
    _check_times(before, case["expect_build"])
    for step in case["steps"]:
        expect, next_day = step["expect"], day.then(step)
        status, told = ask(next_day, PLAIN)
        if expect["status"] == "refused":
            assert status == 2
            assert "has happened" in told
        elif expect["status"] == "conflict":
            assert status == 1
            _check_clash(told, next_day.lines[-1], expect["conflict"])
            assert _times(told) == _times(before)  # those before it are taken, it is not
        else:
            conflicts: Sequence[Any] = expect.get("conflicts", ())
            assert status == (1 if conflicts else 0), told
            for conflict in conflicts:
                _check_clash(told, next_day.lines[-1], conflict)
            _check_times(told, expect)
            _check_moved(told, before, expect)
            _check_yielded(told, before, expect)
            _check_causes(told, next_day.plan, expect)
            broken = [_member(one["limit"]) for one in told["broken"]]
            assert broken == expect.get("suspended", [])
            day, before = next_day, told


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("name", _NAMES)
def test_a_plan_means_the_same_in_whatever_way_it_is_written(
    name: str, hand: Hand, ask: Ask
) -> None:
    case = _case(name)
    _status, told = ask(Day(case["plan"]), hand)
    _check_times(told, case["expect_build"])


def test_a_hold_told_anew_at_each_look_changes_nothing(ask: Ask) -> None:
    """The hold may be entered again at each step instead of being known to stand."""
    case = _case("c15")
    day, held = Day(case["plan"]), "RELEASE hold"
    for step in case["steps"]:
        day = day.then(step)
        if step["op"] == "hold" and day.lines[-1] != held:
            day = Day(day.plan, (*day.lines, held), day.now_ms)
        status, told = ask(day, PLAIN)
        assert status == 0, told
        _check_times(told, step["expect"])


@pytest.mark.parametrize("hand", HANDS)
def test_a_series_may_be_edges_of_a_table_of_contacts(hand: Hand, ask: Ask, tmp_path: Path) -> None:
    """The members as 'the nth return or loss after the anchor', not as ties of fixed length."""
    case = _case("c10")
    plan = case["plan"]
    events = [event for event in plan["events"] if event["id"] != "REPORT"]
    text = plan_text({**plan, "events": events, "series": []}, hand)
    for change, name in (("lost", "LOS"), ("back", "AOS")):
        for nth in range(1, 4):
            edge = f'lane = "voice", change = "{change}", after = "INSERT", nth = {nth}'
            text += f'[[event]]\nid = "{name}#{nth}"\nedge = {{ {edge} }}\n'
    lost, back = (series["first"] for series in plan["series"])
    rows = [(back + (k - 1) * 7_200_000, lost + k * 7_200_000) for k in range(4)]
    rows[0] = (-60_000, rows[0][1])
    text += '[[course]]\nid = "far-side"\nkind = "passes"\nfollows = "INSERT"\ntimes = "offset"\n'
    each = (
        f'{{ lane = "voice", back = {hand.length(b)}, lost = {hand.length(e)} }}' for b, e in rows
    )
    path = tmp_path / "edges.toml"
    path.write_text(f"{text}rows = [ {', '.join(each)} ]\n")
    _check_edges(path, ask, case)


def _check_edges(path: Path, ask: Ask, case: Any) -> None:
    day = Day(case["plan"])
    for step in case["steps"]:
        day = day.then(step)
        status, told = ask(day, path)
        assert status == 0, told
        right = step["expect"]["times"]
        assert _times(told) == {name: right[name] for name in right if name != "REPORT"}
