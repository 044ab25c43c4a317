"""Drawn plans: every one is good, small, and uses a bit of everything the plan file knows.

`plans()` is what most properties want; its parts are there for those that want less.
"""

from hypothesis import assume
from hypothesis import strategies as st

from core.plan.chasing import chase
from core.plan.circles import in_order
from core.plan.model import (
    Air,
    Blackout,
    Bound,
    Change,
    CheckOff,
    Course,
    CourseKind,
    EdgeRef,
    Event,
    Fact,
    GraveLine,
    Ground,
    Item,
    Junction,
    Lane,
    Limit,
    Outcome,
    Pass,
    Plan,
    Tie,
    Usage,
    Window,
)
from core.times.instants import rfc3339_to_ms

FROM_MS = rfc3339_to_ms("2031-03-01T00:00:00Z")
UNTIL_MS = rfc3339_to_ms("2031-12-01T00:00:00Z")
"""Both changes of the clocks lie in between, in the zones that have any."""

HOUR_MS = 3_600_000
ZONES = ("America/Halifax", "America/New_York", "Europe/Dublin", "Australia/Sydney", "UTC")

instants_ms = st.integers(FROM_MS, UNTIL_MS)
lengths_ms = st.integers(0, 6 * HOUR_MS)
offsets_ms = st.integers(-HOUR_MS, 6 * HOUR_MS)
texts = st.text(st.characters(exclude_categories=("Cc", "Cs")), max_size=20)
names = texts.filter(lambda text: bool(text.strip()))


@st.composite
def ties(draw: st.DrawFn, to: str) -> Tie:
    """A tie to an event, with bounds wide enough to be met mostly."""
    offset_ms = draw(st.none() | offsets_ms)
    if offset_ms is not None and draw(st.booleans()):
        return Tie(to, offset_ms, offset_ms, offset_ms)
    middle_ms = offset_ms or 0
    least_ms = draw(st.none() | st.just(0) | lengths_ms.map(lambda ms: middle_ms - ms))
    most_ms = draw(st.none() | st.just(0) | lengths_ms.map(lambda ms: middle_ms + ms))
    assume(least_ms is None or most_ms is None or least_ms <= most_ms)
    return Tie(to, offset_ms, least_ms, most_ms)


@st.composite
def windows(draw: st.DrawFn) -> Window:
    """A window, open at one end at most."""
    first, last = sorted((draw(instants_ms), draw(instants_ms)))
    which = draw(st.integers(0, 2))
    return Window(None if which == 1 else first, None if which == 2 else last)


@st.composite
def edges(draw: st.DrawFn, lanes: tuple[str, ...], before: tuple[str, ...]) -> EdgeRef:
    """An edge of one of the lanes, counted from one of the events before, or from none."""
    lane, change = draw(st.sampled_from(lanes)), draw(st.sampled_from(Change))
    nth = draw(st.integers(1, 3))
    start = draw(st.none() | st.sampled_from(before))
    if start is None:
        return EdgeRef(lane, change, nth=nth)
    offset_ms = draw(offsets_ms)
    if draw(st.booleans()):
        return EdgeRef(lane, change, after=start, offset_ms=offset_ms, nth=nth)
    return EdgeRef(lane, change, before=start, offset_ms=offset_ms, nth=nth)


@st.composite
def events(draw: st.DrawFn, lanes: tuple[str, ...]) -> tuple[Event, ...]:
    """Up to seven events. The first has a clock time; the others look back only."""
    count = draw(st.integers(1, 7))
    found = [Event("start", draw(names), at_ms=draw(instants_ms))]
    for at in range(1, count):
        found.append(draw(_event(f"event-{at}", tuple(one.id for one in found), lanes)))
    return tuple(found)


@st.composite
def _event(draw: st.DrawFn, name: str, before: tuple[str, ...], lanes: tuple[str, ...]) -> Event:
    at_ms, happened_ms, edge, window = None, None, None, None
    tied: tuple[Tie, ...] = ()
    how = draw(st.sampled_from(("at", "tie", "both", "window", *(("edge",) if lanes else ()))))
    if how in ("at", "both"):
        at_ms = draw(instants_ms)
    if how in ("tie", "both"):
        to = draw(st.lists(st.sampled_from(before), min_size=1, max_size=2, unique=True))
        tied = tuple(draw(ties(one)) for one in to)
    if how == "window":
        window = draw(windows())
    if how == "edge":
        edge = draw(edges(lanes, before))
    if how != "edge":
        happened_ms = draw(st.none() | instants_ms)
    live = draw(st.booleans())
    return Event(
        id=name,
        name=draw(names),
        at_ms=at_ms,
        happened_ms=happened_ms,
        ties=tied,
        edge=edge,
        window=window,
        pinned=at_ms is not None and draw(st.booleans()),
        give_ms=draw(lengths_ms),
        live=live,
        guard_ms=draw(lengths_ms),
        stay_ms=draw(lengths_ms),
        live_with=draw(st.none() | st.sampled_from(lanes)) if live and lanes else None,
        at_craft=draw(st.booleans()),
        say=draw(texts),
        sounds=draw(st.sampled_from(("", "PET-rul", "LAN-tern KOHV"))),
        facts=draw(st.lists(_facts, max_size=2).map(tuple)),
    )


_facts = st.builds(
    Fact,
    text=names,
    after_confirmed=st.booleans(),
    not_before_ms=st.none() | instants_ms,
    source=st.just("") | names,
    date=st.sampled_from(("", "1969", "2031-02", "2031-02-28")),
)


@st.composite
def stretches(draw: st.DrawFn, most: int) -> tuple[tuple[int, int], ...]:
    """Stretches of time, in order and apart."""
    ends = draw(st.lists(instants_ms, max_size=2 * most, unique=True).map(sorted))
    return tuple(zip(ends[::2], ends[1::2], strict=False))


@st.composite
def grounds(draw: st.DrawFn, lanes: tuple[str, ...]) -> tuple[Ground, ...]:
    """Two ground stations, the first of which carries every lane."""
    degrees = st.floats(-90, 90)
    first = Ground("tarn", draw(names), lanes, open=draw(stretches(2)))
    second = Ground(
        id="kestrel",
        name=draw(names),
        lanes=lanes[:1],
        latitude_deg=draw(degrees),
        longitude_deg=draw(degrees),
        height_m=draw(st.floats(0, 5_000)),
        mask_deg=draw(st.none() | st.floats(0, 45)),
    )
    return (first, second)


@st.composite
def courses(
    draw: st.DrawFn, lanes: tuple[str, ...], elapsed_ms: int | None, only_if: tuple[str, ...]
) -> tuple[Course, ...]:
    """Up to three tables of contacts that end for good, fixed or following the first event."""
    ways = ["clock", "offset"] + (["elapsed"] if elapsed_ms is not None else [])
    found = []
    for at in range(draw(st.integers(0, 3))):
        times = draw(st.sampled_from(ways))
        base_ms = 0 if times != "offset" else FROM_MS
        rows = tuple(
            Pass(lane, ground, first - base_ms, last - base_ms)
            for lane in lanes
            for ground in draw(st.lists(st.sampled_from((None, "tarn")), max_size=2, unique=True))
            for first, last in draw(stretches(3))
        )
        if not rows:
            continue
        follows = "start" if times == "offset" or draw(st.booleans()) else None
        found.append(
            Course(
                id=f"table-{at}",
                kind=CourseKind.PASSES,
                follows=follows,
                only_if=draw(st.none() | st.sampled_from(only_if)) if only_if else None,
                times=times,
                gap=draw(st.just("") | names),
                rows=rows,
                ends=Bound(at_ms=UNTIL_MS + 400 * 24 * HOUR_MS),
            )
        )
    return tuple(found)


@st.composite
def items(draw: st.DrawFn, lanes: tuple[str, ...]) -> tuple[Item, ...]:
    """Up to two items."""
    found = []
    for at in range(draw(st.integers(0, 2))):
        first, last = sorted((draw(instants_ms), draw(instants_ms)))
        found.append(
            Item(
                id=f"item-{at}",
                kind=draw(st.sampled_from(("break", "remote", "tape", "studio"))),
                name=draw(names),
                length_ms=draw(st.integers(1, HOUR_MS)),
                turnaround_ms=draw(lengths_ms),
                owed=draw(st.booleans()),
                sponsor=draw(texts),
                can_cut=draw(st.booleans()),
                earliest_ms=draw(st.none() | st.just(first)),
                latest_ms=draw(st.none() | st.just(last)),
                at_ms=draw(st.none() | instants_ms),
                needs=draw(st.none() | st.sampled_from(lanes)) if lanes else None,
                prefers=draw(st.none() | st.just("gap")),
                booked=draw(stretches(2)),
                weight=draw(st.integers(1, 9)),
                ran=next(iter(draw(stretches(1))), None),
            )
        )
    return tuple(found)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A good plan: no circle, no chase, nothing unknown. It may well be impossible to meet."""
    lanes = draw(st.sampled_from(((), ("voice",), ("voice", "picture"))))
    planned = draw(events(lanes))
    outcomes: tuple[Outcome, ...] = ()
    if draw(st.booleans()):
        outcomes = tuple(Outcome(name, "start", draw(names)) for name in ("burned", "no-burn"))
        last = planned[-1]
        if last.id != "start":
            planned = (*planned[:-1], _under(last, draw(st.sampled_from(outcomes)).id))
    counts = draw(st.booleans())
    ids = tuple(event.id for event in planned)
    plan = Plan(
        title=draw(names),
        zones=tuple(draw(st.lists(st.sampled_from(ZONES), min_size=1, max_size=2, unique=True))),
        subtitle=draw(texts),
        elapsed_from="start" if counts else None,
        auto_edges=lanes[:1] if draw(st.booleans()) else (),
        sources=draw(st.sampled_from(((), ("flight",), ("flight", "desk")))),
        events=planned,
        limits=draw(limits(ids)),
        outcomes=outcomes,
        grounds=draw(grounds(lanes)) if lanes else (),
        lanes=tuple(Lane(lane, draw(names), draw(lengths_ms), draw(lengths_ms)) for lane in lanes),
        courses=draw(
            courses(lanes, planned[0].at_ms if counts else None, tuple(o.id for o in outcomes))
        ),
        blackouts=draw(blackouts(lanes)),
        air=draw(airs()),
        junctions=draw(st.lists(st.builds(Junction, instants_ms, names), max_size=2).map(tuple)),
        items=draw(items(lanes)),
        checkoffs=(CheckOff("clamps", draw(names), "start", 8, draw(st.integers(1, 8))),),
        grave=draw(st.lists(st.builds(GraveLine, lengths_ms, names), max_size=2).map(tuple)),
        usage=draw(st.sampled_from(Usage)),
        light_time=draw(st.booleans()),
    )
    assume(chase(plan, in_order(plan)) is None)
    return plan


def _under(event: Event, outcome: str) -> Event:
    """The event as it hangs on an outcome."""
    values = {name: getattr(event, name) for name in Event.__slots__}
    return Event(**values | {"only_if": outcome})


@st.composite
def limits(draw: st.DrawFn, ids: tuple[str, ...]) -> tuple[Limit, ...]:
    """At most one limit between two events."""
    if len(ids) < 2 or draw(st.booleans()):
        return ()
    least_ms, most_ms = sorted((draw(offsets_ms), draw(offsets_ms)))
    which = draw(st.integers(0, 2))
    before, after = draw(st.permutations(ids))[:2]
    return (
        Limit(before, after, None if which == 1 else least_ms, None if which == 2 else most_ms),
    )


@st.composite
def blackouts(draw: st.DrawFn, lanes: tuple[str, ...]) -> tuple[Blackout, ...]:
    """At most one blackout, after the first event."""
    if not lanes or draw(st.booleans()):
        return ()
    from_ms = draw(offsets_ms)
    return (Blackout("start", from_ms, from_ms + 1 + draw(lengths_ms), lanes, draw(names)),)


@st.composite
def airs(draw: st.DrawFn) -> Air | None:
    """Programme hours, or none."""
    first, last = sorted((draw(instants_ms), draw(instants_ms)))
    if first == last:
        return None
    on_ms, off_ms = draw(st.none() | st.just(first)), draw(st.none() | st.just(last))
    return Air(on_ms, off_ms, draw(lengths_ms), draw(lengths_ms), draw(lengths_ms))
