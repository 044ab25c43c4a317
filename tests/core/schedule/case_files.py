"""Plans and steps out of the case files, as the engine takes them."""

import json
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from core.entries.model import (
    Action,
    Entry,
    Free,
    Happened,
    Hold,
    Replan,
    Revise,
    Scrub,
    TakePlan,
    Way,
)
from core.plan.model import Change, EdgeRef, Event, Limit, Plan, Tie, Window
from core.schedule.schedule import Schedule
from tests.core.schedule.signal_fake import FakeEdges, Series

CASES = Path(__file__).parent / "cases"


@dataclass(frozen=True)
class Case:
    """One case file."""

    name: str
    plan: Plan
    edges: FakeEdges
    rigid: frozenset[str]
    build: dict[str, Any]
    steps: tuple[dict[str, Any], ...]


def case_names() -> list[str]:
    """Every case file's name."""
    return sorted(path.stem for path in CASES.glob("*.json"))


def read_case(name: str) -> Case:
    """The case of that name."""
    told = json.loads((CASES / f"{name}.json").read_text())
    plan = told["plan"]
    series = plan.get("series", [])
    rigid = [_member(s, k) for s in series for k in range(s["count"])]
    events = tuple(_event(event) for event in plan["events"])
    limits = tuple(Limit(x["from"], x["to"], x["min"], x["max"]) for x in plan.get("limits", []))
    return Case(
        name,
        Plan(name, ("UTC",), events=events + tuple(rigid), limits=limits),
        FakeEdges(
            {s["id"]: Series(s["anchor"], s["first"], s["period"], s["count"]) for s in series}
        ),
        frozenset(event.id for event in rigid),
        told["expect_build"],
        tuple(told["steps"]),
    )


def _member(series: dict[str, Any], k: int) -> Event:
    offset_ms = series["first"] + k * series["period"]
    name = f"{series['id']}#{k + 1}"
    return Event(name, name, ties=(Tie(series["anchor"], offset_ms, offset_ms, offset_ms),))


def _event(told: dict[str, Any]) -> Event:
    name = told["id"]
    pin = told.get("pin")
    ties = tuple(
        Tie(tie["event"], tie["nominal"], tie["min"], tie["max"]) for tie in told.get("after", [])
    )
    window = None
    if "not_before" in told or "not_after" in told:
        window = Window(told.get("not_before"), told.get("not_after"))
    edge = None
    if "snap" in told:
        after = told["snap"]["after"]
        edge = EdgeRef(
            told["snap"]["series"], Change.BACK, after=after["event"], offset_ms=after["offset"]
        )
    return Event(
        name,
        name,
        at_ms=told.get("planned") if pin is None else pin,
        pinned=pin is not None,
        happened_ms=told.get("actual"),
        ties=ties,
        window=window,
        edge=edge,
    )


def action_of(  # noqa: PLR0911 - one for each word of the case files
    step: dict[str, Any], board: Schedule, plan: Plan
) -> Action | None:
    """What the step enters; None for a hold that goes on, which is only time passing."""
    event = step.get("event", "")
    match step["op"]:
        case "revise":
            return Revise(event, step["time"])
        case "actual":
            return Happened(event, step["time"])
        case "clear":
            return Free(event)
        case "hold":
            if board.line(event).held_ms is not None:
                return None
            left_ms = max(0, (board.expected_ms(event) or 0) - step["now"])
            return Hold(event, step["now"], left_ms)
        case "scrub":
            return Scrub(event, Way(step["followers"]))
        case "rebase":
            return Replan()
        case "retie" | "limit":
            return TakePlan(changed(plan, step))
        case other:
            raise ValueError(other)


def changed(plan: Plan, step: dict[str, Any]) -> Plan:
    """The plan with one tie's offset, or one limit, written anew."""
    if step["op"] == "limit":
        limit = Limit(step["from"], step["to"], step.get("min"), step.get("max"))
        others = [x for x in plan.limits if (x.before, x.after) != (limit.before, limit.after)]
        return replace(plan, limits=(*others, limit))
    events = tuple(
        replace(event, ties=tuple(_retied(tie, step) for tie in event.ties))
        if event.id == step["event"]
        else event
        for event in plan.events
    )
    return replace(plan, events=events)


def _retied(tie: Tie, step: dict[str, Any]) -> Tie:
    return replace(tie, offset_ms=step["nominal"]) if tie.event == step["after"] else tie


def entry_of(number: int, action: Action, now_ms: int, *, forced: bool = False) -> Entry:
    """An entry typed at an instant."""
    return Entry(number, now_ms, "", action, forced=forced)
