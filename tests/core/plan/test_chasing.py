"""Chains of offsets that would chase themselves: found, named, and found only where they are."""

from hypothesis import given
from hypothesis import strategies as st

from core.plan.chasing import chase, stopped_chase
from core.plan.circles import in_order
from core.plan.model import Change, EdgeRef, Event, Limit, Plan, Tie, Window

MINUTE_MS = 60_000


def _chain(most_ms: int, *middle: Event) -> Plan:
    first, last = Event("a", "a", at_ms=0), Event("c", "c", ties=(Tie("b", MINUTE_MS, 0, None),))
    events = middle or (Event("b", "b", ties=(Tie("a", MINUTE_MS, 0, None),)),)
    return Plan(
        "t", ("UTC",), events=(first, *events, last), limits=(Limit("a", "c", None, most_ms),)
    )


def test_a_millisecond_too_long_is_a_chase_that_names_the_ties() -> None:
    plan = _chain(2 * MINUTE_MS - 1)
    found = chase(plan, in_order(plan))
    assert found is not None
    assert "0.001s too long" in found.what
    for said in ("offset 1m from 'a' to 'b'", "offset 1m from 'b' to 'c'", "most 1m 59.999s"):
        assert said in found.what


def test_offsets_as_long_as_the_most_are_none() -> None:
    plan = _chain(2 * MINUTE_MS)
    assert chase(plan, in_order(plan)) is None


def test_a_pinned_or_happened_event_or_an_edge_cuts_it() -> None:
    tie = (Tie("a", MINUTE_MS, 0, None),)
    for middle in (
        Event("b", "b", at_ms=0, pinned=True, ties=tie),
        Event("b", "b", happened_ms=0, ties=tie),
        Event("b", "b", edge=EdgeRef("voice", Change.BACK), ties=tie),
    ):
        plan = _chain(MINUTE_MS, middle)
        assert chase(plan, in_order(plan)) is None


def test_a_window_stops_it_and_then_it_is_only_odd() -> None:
    window = Window(None, 10 * MINUTE_MS)
    plan = _chain(MINUTE_MS)
    ends = Plan("t", ("UTC",), events=(*plan.events, _tied("d", "c", window)), limits=plan.limits)
    assert chase(ends, in_order(ends)) is None
    found = stopped_chase(ends, in_order(ends))
    assert found is not None
    assert "until a pin or a window stops them" in found.what


def _tied(name: str, to: str, window: Window) -> Event:
    return Event(name, name, ties=(Tie(to, 0, 0, None),), window=window)


def test_leasts_that_cannot_be_met_are_a_clash_and_no_chase() -> None:
    plan = _chain(MINUTE_MS, Event("b", "b", ties=(Tie("a", MINUTE_MS, MINUTE_MS, None),)))
    tight = Plan("t", ("UTC",), events=plan.events, limits=(Limit("a", "b", None, MINUTE_MS - 1),))
    assert chase(tight, in_order(tight)) is None


@st.composite
def _networks(draw: st.DrawFn) -> Plan:
    count = draw(st.integers(2, 6))
    small = st.integers(-4, 6)
    events = [Event("e0", "e0", at_ms=0)]
    for at in range(1, count):
        tied = draw(st.lists(st.integers(0, at - 1), min_size=1, max_size=2, unique=True))
        ties = tuple(Tie(f"e{to}", draw(small), -9, draw(st.none() | small)) for to in tied)
        happened_ms = draw(st.sampled_from((None, None, None, 0)))
        events.append(Event(f"e{at}", f"e{at}", ties=ties, happened_ms=happened_ms))
    return Plan("t", ("UTC",), events=tuple(events))


@given(_networks())
def test_it_is_found_exactly_where_plain_relaxation_never_ends(plan: Plan) -> None:
    order = in_order(plan)
    for stopped, found in ((True, stopped_chase(plan, order)), (False, chase(plan, order))):
        latest = {} if stopped else _latest(plan)
        assert (found is not None) == (
            _never_ends(plan, latest, soft=True) and not _never_ends(plan, {}, soft=False)
        )


_ROUNDS = 300
"""More than any of these small networks needs to come to its end, if it does."""


def _latest(plan: Plan) -> dict[str, int]:
    """The latest time of each event that has one, by relaxing the hard limits alone."""
    latest = {event.id: 0 for event in plan.events if event.happened_ms is not None}
    for _ in plan.events:
        for event in plan.events:
            for tie in event.ties:
                if event.id in latest and tie.least_ms is not None:
                    bound_ms = latest[event.id] - tie.least_ms
                    latest[tie.event] = min(latest.get(tie.event, bound_ms), bound_ms)
                if tie.event in latest and tie.most_ms is not None:
                    bound_ms = latest[tie.event] + tie.most_ms
                    latest[event.id] = min(latest.get(event.id, bound_ms), bound_ms)
    return latest


def _never_ends(plan: Plan, latest: dict[str, int], *, soft: bool) -> bool:
    """Whether pushing all events on, as often as can be needed and more, still moves one."""
    time_ms = {event.id: 0 for event in plan.events}
    stands = {event.id for event in plan.events if event.happened_ms is not None}
    for _ in range(_ROUNDS if latest else len(time_ms) + 1):
        before = dict(time_ms)
        for event in plan.events:
            for tie in event.ties:
                by_ms = max(tie.offset_ms or 0, tie.least_ms or 0) if soft else tie.least_ms or 0
                pushes = [(tie.event, event.id, by_ms)]
                if tie.most_ms is not None:
                    pushes.append((event.id, tie.event, -tie.most_ms))
                for start, to, push_ms in pushes:
                    if to not in stands:
                        pushed_ms = min(time_ms[start] + push_ms, latest.get(to, 1 << 60))
                        time_ms[to] = max(time_ms[to], pushed_ms)
        if time_ms == before:
            return False
    return True


@given(st.integers(2, 40), st.integers(1, MINUTE_MS))
def test_a_long_chain_of_ties_is_followed_to_its_end(count: int, over_ms: int) -> None:
    events = [Event("e0", "e0", at_ms=0)]
    events += [
        Event(f"e{at}", "e", ties=(Tie(f"e{at - 1}", MINUTE_MS, 0, None),))
        for at in range(1, count)
    ]
    most_ms = (count - 1) * MINUTE_MS
    for limit_ms, chases in ((most_ms, False), (most_ms - over_ms, True)):
        limits = (Limit("e0", f"e{count - 1}", None, limit_ms),)
        plan = Plan("t", ("UTC",), events=tuple(events[::-1]), limits=limits)
        assert (chase(plan, in_order(plan)) is not None) is chases
