"""What no order can put right is told without trying one."""

from itertools import permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.fitting import Fitting
from core.air.model import Demand, Since
from core.air.room import Room
from core.air.subsets import heaviest

GAP_MS, BREAK_GAP_MS = 3, 11


@st.composite
def demands(draw: st.DrawFn) -> list[Demand]:
    """Up to five items in one or two stretches each, some of them breaks of two sponsors."""
    found = []
    for number in range(draw(st.integers(1, 5))):
        length = draw(st.integers(1, 12))
        lows = sorted(draw(st.lists(st.integers(0, 90), min_size=1, max_size=2, unique=True)))
        highs = [low + draw(st.integers(0, 20)) for low in lows]
        if len(lows) == 2 and highs[0] >= lows[1]:
            lows, highs = lows[:1], highs[:1]
        sponsor = draw(st.sampled_from(("", "", "A", "B")))
        found.append(
            Demand(
                f"i{number}",
                length,
                tuple(zip(lows, highs, strict=True)),
                (),
                is_break=bool(sponsor),
                sponsor=sponsor,
                owed=True,
                weight=draw(st.integers(1, 3)),
            )
        )
    return found


@given(demands())
@settings(max_examples=120, deadline=None)
def test_what_it_says_has_no_place_has_none_in_any_order(found: list[Demand]) -> None:
    room = Room(found, GAP_MS)
    every = (1 << len(found)) - 1
    if room.is_too_much(every) or room.must_repeat(every):
        assert not any(_runs(order) for order in permutations(found))


def _runs(order: tuple[Demand, ...]) -> bool:
    item_ms, break_ms, sponsor = 0, 0, ""
    for each in order:
        from_ms = max(item_ms, break_ms) if each.is_break else item_ms
        starts = [max(low, from_ms) for low, high in each.starts if high >= from_ms]
        if not starts or (each.is_break and each.sponsor == sponsor):
            return False
        item_ms = starts[0] + each.length_ms + GAP_MS
        if each.is_break:
            break_ms, sponsor = starts[0] + each.length_ms + BREAK_GAP_MS, each.sponsor
    return True


def break_of(number: int, sponsor: str, length: int = 10) -> Demand:
    return Demand(f"b{number}", length, ((0, 1000),), (), is_break=True, sponsor=sponsor, owed=True)


def test_three_breaks_of_one_sponsor_need_two_others_between() -> None:
    own = [break_of(number, "A") for number in range(3)]
    assert Room(own, GAP_MS).must_repeat(0b111)
    between = [*own, break_of(3, "B"), break_of(4, "")]
    room = Room(between, GAP_MS)
    assert not room.must_repeat(0b11111)
    assert room.must_repeat(0b01111)


def test_what_takes_more_than_there_is_says_by_how_much() -> None:
    room = Room([Demand(f"i{n}", 300, ((0, 700),), ()) for n in range(4)], GAP_MS)
    assert room.over_ms(0b1111) == 4 * 300 + 3 * GAP_MS - 1000
    assert room.is_too_much(0b1111)
    assert not room.is_too_much(0b0111)


def test_sets_that_plainly_have_no_place_are_not_looked_at() -> None:
    own = [break_of(number, "A", 10 + number) for number in range(10)]
    fitting = Fitting(own, GAP_MS, BREAK_GAP_MS)
    assert fitting.latest_first(fitting.owed, Since(0)) is None
    assert fitting.sets.looked_at <= 2


@given(demands())
@settings(max_examples=80, deadline=None)
def test_the_heaviest_sets_come_in_order_each_once(found: list[Demand]) -> None:
    every = (1 << len(found)) - 1
    told = list(heaviest(found, every))
    keys = [
        (
            -sum(found[n].weight for n in range(len(found)) if mask >> n & 1),
            -mask.bit_count(),
            mask,
        )
        for mask in told
    ]
    assert keys == sorted(keys)
    assert len(set(told)) == len(told) == 1 << len(found)
