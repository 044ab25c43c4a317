"""Random plans and entries for the engine's properties."""

from collections.abc import Sequence

from hypothesis import strategies as st

from core.entries.model import (
    Action,
    Add,
    Choose,
    Entry,
    Free,
    Give,
    Happened,
    Hold,
    Note,
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
from core.plan.model import Change, EdgeRef, Event, Limit, Outcome, Plan, Tie, Window
from tests.core.schedule.signal_fake import FakeEdges, Series

MINUTE = 60_000
DAY = 100 * MINUTE

EDGES = FakeEdges({"voice": Series("e0", -5 * MINUTE, 12 * MINUTE, 8)})


def minutes(low: int, high: int) -> st.SearchStrategy[int]:
    """A whole number of minutes, in milliseconds."""
    return st.integers(low, high).map(lambda m: m * MINUTE)


@st.composite
def ties(draw: st.DrawFn, before: int) -> Tie:
    """A tie to one of the events before."""
    to = f"e{draw(st.integers(0, before - 1))}"
    kind = draw(st.integers(0, 9))
    if kind == 0:
        back_ms = draw(minutes(-6, -1))
        return Tie(to, back_ms, None, draw(st.sampled_from([0, back_ms // 2])))
    if kind == 1:
        return Tie(to, None, draw(minutes(0, 6)), None)
    offset_ms = draw(minutes(0, 12))
    if kind == 2:
        return Tie(to, offset_ms, offset_ms, offset_ms)
    least_ms = draw(st.integers(0, offset_ms // MINUTE)) * MINUTE
    most_ms = draw(st.one_of(st.none(), minutes(0, 10).map(lambda more: offset_ms + more)))
    return Tie(to, offset_ms, least_ms, most_ms)


@st.composite
def events(draw: st.DrawFn, at: int, *, edges: bool) -> Event:
    """The event of that number."""
    name = f"e{at}"
    if at == 0:
        return Event(name, name, at_ms=DAY, pinned=draw(st.integers(0, 5)) == 0)
    if edges and draw(st.integers(0, 5)) == 0:
        after = f"e{draw(st.integers(0, at - 1))}"
        offset_ms = draw(minutes(-5, 5))
        return Event(name, name, edge=EdgeRef("voice", Change.BACK, after, None, offset_ms))
    its = tuple(draw(ties(at)) for _ in range(draw(st.sampled_from([1, 1, 1, 2, 3]))))
    about_ms = DAY + draw(minutes(0, 60))
    window = None
    if draw(st.integers(0, 6)) == 0:
        window = Window(
            draw(st.one_of(st.none(), st.just(about_ms - 20 * MINUTE))),
            draw(st.one_of(st.none(), st.just(about_ms + 20 * MINUTE))),
        )
    return Event(
        name,
        name,
        at_ms=about_ms if draw(st.integers(0, 3)) == 0 else None,
        pinned=draw(st.integers(0, 3)) == 0,
        ties=its,
        window=window,
        only_if=draw(st.sampled_from([None, None, None, "well", "ill"])) if at > 2 else None,
    )


@st.composite
def plans(draw: st.DrawFn, *, edges: bool = True, most: int = 9) -> Plan:
    """A plan of up to `most` events.

    No limit ends at an edge of the signal: it could make what the edge depends on wait for the
    edge, and such a circle has more than one answer.
    """
    count = draw(st.integers(2, most))
    its = tuple(draw(events(at, edges=edges)) for at in range(count))
    limits = []
    for _ in range(draw(st.integers(0, 2))):
        first = draw(st.integers(0, count - 2))
        last = draw(st.integers(first + 1, count - 1))
        most_ms = draw(minutes(1, 40))
        if its[last].edge is None:
            limits.append(Limit(f"e{first}", f"e{last}", None, most_ms))
    outcomes = (Outcome("well", "e1", "well"), Outcome("ill", "e1", "ill"))
    return Plan("random", ("UTC",), events=its, limits=tuple(limits), outcomes=outcomes)


def figures(count: int) -> st.SearchStrategy[Action]:
    """Revisions, facts, frees and pins."""
    name = st.integers(0, count - 1).map(lambda at: f"e{at}")
    time = minutes(80, 180)
    return st.one_of(
        st.builds(Revise, name, time),
        st.builds(Revise, name, time),
        st.builds(Happened, name, time),
        st.builds(Free, name),
        st.builds(Pin, name, time),
    )


def actions(plan: Plan) -> st.SearchStrategy[Action]:
    """Entries of every kind that the schedule knows."""
    count = len(plan.events)
    name = st.integers(0, count - 1).map(lambda at: f"e{at}")
    return st.one_of(
        figures(count),
        figures(count),
        figures(count),
        st.builds(Hold, name, st.just(0), minutes(0, 9)),
        st.builds(Resume, name, minutes(80, 150)),
        st.builds(Scrub, name, st.sampled_from(Way)),
        st.builds(Choose, st.sampled_from(["well", "ill"])),
        st.builds(Undecide, st.sampled_from(["well", "ill"])),
        st.builds(Give, name, minutes(0, 2)),
        st.builds(Note, st.just("quiet")),
        st.builds(Replan),
        st.builds(
            Observe,
            st.just("voice"),
            st.just(Change.BACK),
            minutes(90, 150),
            edge=st.sampled_from(["", "voice.1.back", "voice.2.back"]),
        ),
        ties(count).map(lambda tie: Add(Event(f"new-{tie.event}", "New", ties=(tie,)))),
        plans(most=6).map(TakePlan),
    )


@st.composite
def days(draw: st.DrawFn, *, kinds: str = "all") -> tuple[Plan, Sequence[Entry]]:
    """A plan and what was typed on the day."""
    plan = draw(plans(edges=kinds == "all"))
    drawn = actions(plan) if kinds == "all" else figures(len(plan.events))
    now_ms = 80 * MINUTE
    entries = []
    for number in range(1, draw(st.integers(1, 7)) + 1):
        action = draw(drawn)
        now_ms += draw(st.integers(0, 200)) * 1000
        if isinstance(action, Hold):
            action = Hold(action.event, now_ms, action.left_ms)
        entries.append(Entry(number, now_ms, "", action, forced=draw(st.integers(0, 2)) == 0))
    return plan, entries
