"""Laws of intervals, against a sampler that asks every second of a short day by itself."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from hypothesis import given
from hypothesis import strategies as st

from core.entries.model import Action, Choose, Observe, Shift, Shut
from core.plan.model import Change, Course, EdgeRef, Ground, Outcome, Pass, Plan
from core.signal.model import Fill, LaneSignal
from core.signal.tables import Tables
from tests.core.signal.days import S, at, blackout, course, event, ground, lane_of, plan, typed

END_S = 200
GROUNDS = ("tarn", "kestrel", "hollow")
GROUPS = {"ignition": ("burned", "no-burn"), "descent": ("low", "high")}
WORLDS = tuple(frozenset({a, b}) for a in GROUPS["ignition"] for b in GROUPS["descent"])

# Everything lies on even seconds: no two contacts are a second apart, and so 'touch' by grace.
even = st.integers(0, END_S // 2 - 1).map(lambda half: 2 * half)
spans = st.tuples(even, st.integers(1, 30).map(lambda half: 2 * half))


@st.composite
def rows(draw: st.DrawFn) -> Pass:
    begin_s, length_s = draw(spans)
    return Pass("voice", draw(st.sampled_from(GROUNDS)), begin_s * S, (begin_s + length_s) * S)


@st.composite
def courses(draw: st.DrawFn, number: int) -> Course:
    return course(
        f"c{number}",
        *draw(st.lists(rows(), min_size=1, max_size=4)),
        follows=draw(st.sampled_from([None, "closest"])),
        only_if=draw(st.sampled_from([None, None, "burned", "no-burn", "low", "high"])),
        gap=draw(st.sampled_from(["", "behind the Moon"])),
    )


@st.composite
def days(draw: st.DrawFn) -> Plan:
    number = draw(st.integers(1, 4))
    hours = draw(st.lists(spans, max_size=2))
    darks = draw(st.lists(spans, max_size=2))
    return plan(
        *(draw(courses(n)) for n in range(number)),
        events=[event("closest", 50), event("ignition", 60), event("descent", 80)],
        outcomes=[Outcome(o, of, o) for of, outcomes in GROUPS.items() for o in outcomes],
        grounds=[
            ground("tarn", *((begin, begin + length) for begin, length in sorted(hours))),
            ground("kestrel"),
            ground("hollow"),
        ],
        blackouts=[blackout("closest", b - 50, b - 50 + n, "plasma") for b, n in darks],
    )


@dataclass(frozen=True)
class Sampler:
    """The day asked second by second, straight from the plan."""

    plan: Plan
    late_s: int

    def reaches(self, station: str, second: int, world: frozenset[str]) -> bool:
        """Whether a station's rows hold in that second, blackouts apart."""
        home = next(g for g in self.plan.grounds if g.id == station)
        return _is_open(home, second) and any(
            row.back_ms + late_ms <= second * S < row.lost_ms + late_ms
            for one in self.plan.courses
            if one.only_if is None or one.only_if in world
            for late_ms in [self.late_s * S if one.follows else 0]
            for row in one.rows
            if row.ground == station
        )

    def dark(self, second: int) -> bool:
        after_ms = (50 + self.late_s) * S
        return any(
            after_ms + b.from_ms <= second * S < after_ms + b.to_ms for b in self.plan.blackouts
        )

    def contact(self, second: int, world: frozenset[str]) -> bool:
        return not self.dark(second) and any(
            self.reaches(station, second, world) for station in GROUNDS
        )


def _is_open(home: Ground, second: int) -> bool:
    return not home.open or any(b <= second * S < e for b, e in home.open)


def in_world(outcome: str | None, world: frozenset[str]) -> bool:
    return outcome is None or outcome in world


def holds(from_ms: int | None, to_ms: int | None, second: int) -> bool:
    begun = from_ms is None or from_ms <= second * S
    return begun and (to_ms is None or second * S < to_ms)


def expected_for(late_s: int) -> Callable[[str], int | None]:
    return at(closest=50 + late_s, ignition=60, descent=80)


lateness = st.integers(-10, 10).map(lambda half: 2 * half)
SECONDS = range(-30, END_S + 100)


@given(days(), lateness)
def test_stretches_are_what_the_sampler_says_in_every_second(day: Plan, late_s: int) -> None:
    lane = lane_of(Tables(day).signal(expected_for(late_s)))
    sampler = Sampler(day, late_s)
    check_tiling(lane)
    for second in SECONDS:
        stretch = next(s for s in lane.stretches if holds(s.from_ms, s.to_ms, second))
        heard = {sampler.contact(second, world) for world in WORLDS}
        fill = Fill.EITHER if len(heard) > 1 else Fill.CONTACT if heard == {True} else Fill.GAP
        assert stretch.fill is fill, second
        if stretch.ground is not None:
            assert all(sampler.reaches(stretch.ground, second, world) for world in WORLDS)


@given(days(), lateness, st.sampled_from(GROUPS["ignition"]), st.sampled_from(GROUPS["descent"]))
def test_once_all_is_decided_contacts_and_gaps_are_plain_and_cover_the_day(
    day: Plan, late_s: int, first: str, second_one: str
) -> None:
    tables = Tables(day).told(typed(Choose(first), Choose(second_one)))
    lane = lane_of(tables.signal(expected_for(late_s)))
    sampler, world = Sampler(day, late_s), frozenset({first, second_one})
    check_tiling(lane)
    for found in (lane.contacts, lane.gaps, lane.edges):
        assert all(one.outcome is None for one in found)
    for second in SECONDS:
        contacts = [c for c in lane.contacts if holds(c.from_ms, c.to_ms, second)]
        gaps = [g for g in lane.gaps if holds(g.from_ms, g.to_ms, second)]
        assert len(contacts) + len(gaps) == 1
        assert bool(contacts) == sampler.contact(second, world)
        for contact in contacts:
            assert contact.ground is not None
            assert sampler.reaches(contact.ground, second, world)
        assert not any(g.cause == "plasma" and not sampler.dark(second) for g in gaps)
    heard = [sampler.contact(second, world) for second in SECONDS]
    changes = [s for s, a, b in zip(SECONDS[1:], heard, heard[1:], strict=False) if a != b]
    assert [edge.time_ms // S for edge in lane.edges] == changes
    for hand_over in lane.hand_overs:
        assert not sampler.reaches(hand_over.from_ground, hand_over.time_ms // S, world)


@given(days(), lateness)
def test_each_worlds_contacts_lie_apart_and_each_edge_is_told_once(day: Plan, late_s: int) -> None:
    lane = lane_of(Tables(day).signal(expected_for(late_s)))
    for world in WORLDS:
        ends = [(c.from_ms or 0, c.to_ms or 0) for c in lane.contacts if in_world(c.outcome, world)]
        sampler = Sampler(day, late_s)
        for second in SECONDS:
            if sampler.contact(second, world):
                assert any(begin <= second * S < end for begin, end in ends)
    keys = [(e.id, e.time_ms, e.ground, e.cause, e.outcome) for e in lane.edges]
    assert len(keys) == len(set(keys))


@given(days(), lateness, st.sampled_from(Change), st.integers(0, END_S), st.integers(1, 3))
def test_finding_counts_the_sampled_edges(
    day: Plan, late_s: int, change: Change, from_s: int, nth: int
) -> None:
    tables, sampler = Tables(day), Sampler(day, late_s)
    world = frozenset({"burned", "low"})  # named first in the plan
    heard = {second: sampler.contact(second, world) for second in SECONDS}
    all_s = [
        s for s in SECONDS[1:] if heard[s] != heard[s - 1] and heard[s] == (change is Change.BACK)
    ]
    after = [s for s in all_s if s >= from_s]
    before = [s for s in reversed(all_s) if s <= from_s]
    for ref, wanted in (
        (EdgeRef("voice", change, after="x", nth=nth), after),
        (EdgeRef("voice", change, before="x", nth=nth), before),
        (EdgeRef("voice", change, nth=nth), all_s),
    ):
        found = tables.find(ref, "e", from_s * S, expected_for(late_s))
        found_s = None if found is None else found.time_ms // S
        assert found_s == (wanted[nth - 1] if len(wanted) >= nth else None)


words = st.one_of(
    st.builds(
        Observe,
        st.just("voice"),
        st.sampled_from(Change),
        even.map(lambda second: second * S),
        st.sampled_from(Shift),
    ),
    st.builds(Choose, st.sampled_from(["burned", "no-burn", "low", "high"])),
)


@given(days(), lateness, st.lists(words, max_size=4))
def test_whatever_is_told_tiles_the_day_and_stands_where_it_was_observed(
    day: Plan, late_s: int, actions: list[Action]
) -> None:
    expected = expected_for(late_s)
    tables = Tables(day)
    matched: list[Action] = []
    for action in actions:
        if isinstance(action, Observe):
            so_far = tables.told(typed(*matched))
            edge = so_far.near("voice", action.change, action.time_ms, expected)
            matched.append(replace(action, edge=edge))
        else:
            matched.append(action)
    told = tables.told(typed(*matched))
    lane = lane_of(told.signal(expected))
    check_tiling(lane)
    observed = [a.time_ms for a in matched if isinstance(a, Observe)]
    assert all(edge.time_ms in observed for edge in lane.edges if edge.observed)
    last = matched[-1] if matched else None
    # With more than one, a second return may say only what is so anyway; a loss told at the very
    # end of a blackout leaves no contact to lose.
    alone = len(observed) == 1 and not day.blackouts
    if isinstance(last, Observe) and last.edge and alone:
        stands = [e for e in lane.edges if e.time_ms == last.time_ms]
        heard_so = [
            c
            for c in lane.contacts
            if (c.from_ms if last.change is Change.BACK else c.to_ms) == last.time_ms
        ]
        assert stands or heard_so
    # Taken back, it is as if it had never been said; and said anew it is the same.
    assert told.told(()).signal(expected) == tables.signal(expected)
    assert Tables(day).told(typed(*matched)).signal(expected) == told.signal(expected)


@given(days(), lateness, st.sampled_from(Change), even)
def test_what_was_observed_is_so_whatever_the_outcome(
    day: Plan, late_s: int, change: Change, time_s: int
) -> None:
    expected, tables = expected_for(late_s), Tables(day)
    edge = tables.near("voice", change, time_s * S, expected)
    seen = Observe("voice", change, time_s * S, edge=edge)
    lane = lane_of(tables.told(typed(seen)).signal(expected))
    fill = Fill.CONTACT if change is Change.BACK else Fill.GAP
    here = next(s for s in lane.stretches if holds(s.from_ms, s.to_ms, time_s))
    assert here.fill is fill
    check_tiling(lane)


@given(days(), lateness, st.lists(st.tuples(st.booleans(), even), max_size=4))
def test_a_closed_lane_changes_only_what_is_drawn(
    day: Plan, late_s: int, typed_shut: list[tuple[bool, int]]
) -> None:
    tables, expected = Tables(day), expected_for(late_s)
    plain = lane_of(tables.signal(expected))
    shut = [Shut("voice", is_shut, second * S) for is_shut, second in typed_shut]
    lane = lane_of(tables.signal(expected, shut))
    check_tiling(lane)
    assert (lane.contacts, lane.gaps, lane.edges) == (plain.contacts, plain.gaps, plain.edges)
    for second in SECONDS:
        was = next(s for s in plain.stretches if holds(s.from_ms, s.to_ms, second))
        now = next(s for s in lane.stretches if holds(s.from_ms, s.to_ms, second))
        spoken = [w for w in sorted(shut, key=lambda w: w.at_ms) if w.at_ms <= second * S]
        if was.fill is not Fill.GAP and spoken and spoken[-1].shut:
            assert now.fill is Fill.CLOSED
        else:
            assert (now.fill, now.ground, now.cause) == (was.fill, was.ground, was.cause)


@given(days(), lateness)
def test_totals_add_up_to_the_seconds_without_signal(day: Plan, late_s: int) -> None:
    tables = Tables(day).told(typed(Choose("burned"), Choose("low")))
    lane = lane_of(tables.signal(expected_for(late_s)))
    (total,) = tables.totals([lane], 0, END_S * S)
    sampler, world = Sampler(day, late_s), frozenset({"burned", "low"})
    silent = [not sampler.contact(second, world) for second in range(END_S)]
    assert total.out_ms == sum(silent) * S
    begun = [a and not b for a, b in zip(silent, [False, *silent], strict=False)]
    assert total.gaps == sum(begun)


def check_tiling(lane: LaneSignal) -> None:
    """Stretches cover all of time, meet, and no two neighbours are alike."""
    assert lane.stretches[0].from_ms is None
    assert lane.stretches[-1].to_ms is None
    for before, after in zip(lane.stretches, lane.stretches[1:], strict=False):
        assert before.to_ms == after.from_ms
        assert (before.fill, before.ground, before.cause) != (
            after.fill,
            after.ground,
            after.cause,
        )
    for found in (lane.contacts, lane.gaps):
        begins = [-(10**9) if one.from_ms is None else one.from_ms for one in found]
        assert begins == sorted(begins)
    times = [edge.time_ms for edge in lane.edges]
    assert times == sorted(times)
