"""Events and outcomes of a plan, from their tables."""

from core.plan.facts import read_facts, sounds
from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import Change, EdgeRef, Event, Outcome, Window
from core.plan.positions import Trail
from core.plan.ties import read_ties
from core.plan.values import (
    NONE,
    Page,
    choice,
    duration,
    flag,
    instant,
    length,
    reference,
    whole,
)

_event = reference(Named.EVENT)
_lane = reference(Named.LANE)
_outcome = reference(Named.OUTCOME)
_change = choice(*Change)

_OPEN = (NONE, "")
"""What is written for an end of a window that is open."""

NEEDS_ONE = ("at", "after", "edge", "window", "happened")
"""An event that has happened needs no planned time, though it mostly has one."""


def read_events(top: Fields) -> tuple[Event, ...]:
    """Every event, in the file's order."""
    events = (_one(fields) for fields in top.tables("event"))
    return tuple(event for event in events if event is not None)


def _one(fields: Fields) -> Event | None:
    identity = fields.define(Named.EVENT)
    event = Event(
        id=identity or "",
        name=fields.named(identity),
        at_ms=fields.get("at", instant),
        happened_ms=fields.get("happened", instant),
        ties=read_ties(fields),
        edge=_edge(fields),
        window=fields.get("window", _window),
        only_if=fields.get("only_if", _outcome),
        pinned=fields.get("pinned", flag, default=False),
        give_ms=fields.get("give", length, default=0),
        live=fields.get("live", flag, default=False),
        guard_ms=fields.get("guard", length, default=0),
        stay_ms=fields.get("stay", length, default=0),
        live_with=fields.get("live_with", _lane),
        at_craft=fields.get("at_craft", flag, default=False),
        say=fields.words("say"),
        sounds=fields.get("sounds", sounds, default=""),
        facts=read_facts(fields),
    )
    _check(fields)
    fields.close()
    return event if identity is not None else None


def _check(fields: Fields) -> None:
    if not any(key in fields for key in NEEDS_ONE):
        fields.problem(
            "this event has no time", "Give it at, after, edge or window: one of them at least"
        )
    if "pinned" in fields and fields.raw("pinned") is True and "at" not in fields:
        fields.page.problem(
            fields.at("pinned"), "a pinned event needs a clock time", "Add at = a date and time"
        )
    if "live_with" in fields and fields.raw("live") is not True:
        fields.page.problem(
            fields.at("live_with"),
            "only a live moment goes with a lane",
            "Add live = true, or take live_with out",
            key=True,
        )


def _edge(event: Fields) -> EdgeRef | None:
    fields = event.table("edge")
    if fields is None:
        return None
    lane = fields.need("lane", _lane, '"voice"')
    change = fields.need("change", _change, '"back" or "lost"')
    after = fields.get("after", _event)
    before = fields.get("before", _event)
    offset_ms = fields.get("offset", duration, default=0)
    nth = fields.get("nth", whole(1, 10_000), default=1)
    if "after" in fields and "before" in fields:
        fields.page.problem(
            fields.at("before"),
            "an edge counts after or before, not both",
            "Take one out",
            key=True,
        )
    if "offset" in fields and "after" not in fields and "before" not in fields:
        fields.page.problem(
            fields.at("offset"), "an offset from nothing", "Add after or before", key=True
        )
    fields.close()
    if lane is None or change is None:
        return None
    return EdgeRef(lane, Change(change), after, before, offset_ms, nth)


def _window(page: Page, where: Trail, value: object) -> Window | None:
    example = 'Like ["2031-05-14T17:50:00", "2031-05-14T18:20:00"]; "none" for an open end'
    if not isinstance(value, list) or len(value) != 2:
        page.problem(where, "a window is two times in a list", example)
        return None
    first, last = (_end(page, (*where, at), one) for at, one in enumerate(value))
    if all(one in _OPEN for one in value):
        page.problem(where, "a window open at both ends is none", "Give it a time, or take it out")
        return None
    if first is not None and last is not None and last < first:
        page.problem(where, "this window ends before it begins", "Put the earlier time first")
    return Window(first, last)


def _end(page: Page, where: Trail, value: object) -> int | None:
    """An end of a window; None where it is open, or no time."""
    return None if value in _OPEN else instant(page, where, value)


def read_outcomes(top: Fields) -> tuple[Outcome, ...]:
    """Every outcome, in the file's order; one alone of an event is told."""
    found: list[tuple[Outcome, Fields]] = []
    for fields in top.tables("outcome"):
        identity = fields.define(Named.OUTCOME)
        of = fields.need("of", _event, '"the id of an event"')
        title = fields.named(identity)
        fields.close()
        if identity is not None and of is not None:
            found.append((Outcome(identity, of, title), fields))
    count: dict[str, int] = {}
    for outcome, _ in found:
        count[outcome.of] = count.get(outcome.of, 0) + 1
    for outcome, fields in found:
        if count[outcome.of] == 1:
            fields.problem(
                f"'{outcome.id}' is the only outcome of '{outcome.of}'",
                "Add the other ways it may turn out, or take this one out",
            )
    return tuple(outcome for outcome, _ in found)
