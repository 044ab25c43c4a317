from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from core.air.cutting import demand
from core.air.fitting import Fitting
from core.air.model import Day, Demand, Fixed, Moment, Since
from core.air.placing import propose
from core.plan.model import Item
from tests.core.air.brute import Trial, agree, placements, tried
from tests.core.air.days import draw, fitting_of, since_of

MINUTE = 60_000


def item(name: str, minutes: float, **given: object) -> Item:
    made = Item(id=name, kind="tape", name=name, length_ms=round(minutes * MINUTE), owed=True)
    return replace(made, **given)  # type: ignore[arg-type] # a test's shorthand


def moment(name: str, minute: float, guard: float = 1, stay: float = 1) -> Moment:
    at = round(minute * MINUTE)
    back = at - round(guard * MINUTE)
    return Moment(name, name, at, back, at + round(stay * MINUTE), back)


def fitting(day: Day, *items: Item) -> Fitting:
    return Fitting([demand(each, day) for each in items], day.item_gap_ms, day.break_gap_ms)


def _check(trial: Trial) -> None:
    """What is proposed keeps every rule, and no heavier set would."""
    found = propose(fitting_of(trial), trial.now, since_of(trial))
    places = {each.item: each.from_ms for each in found.places}
    known = {each.id: each for each in trial.items}
    assert all(tried(trial, known[name], start) for name, start in places.items())
    assert agree(trial, places)
    assert found.proven
    owed = [each for each in trial.items if each.owed]
    heaviest = max(
        sum(each.weight for each in some)
        for count in range(len(owed) + 1)
        for some in combinations(owed, count)
        if any(True for _ in placements(trial, some, {}))
    )
    assert sum(known[name].weight for name in places if known[name].owed) == heaviest
    assert set(found.left) == {each.id for each in owed} - places.keys()


@pytest.mark.parametrize("seed", range(50))
def test_a_proposal_keeps_every_rule_and_none_could_carry_more_of_what_is_owed(seed: int) -> None:
    for number in range(5):
        _check(draw(20_000 + seed * 5 + number, items=4, end=22))


def test_what_is_owed_goes_before_what_is_heavier_and_not_owed() -> None:
    day = Day(on_ms=0, off_ms=5 * MINUTE)
    some = fitting(day, item("owed", 3), item("heavy", 4, owed=False, weight=9))
    assert [each.item for each in propose(some, 0, Since(0)).places] == ["owed"]


def test_of_what_is_not_owed_the_heaviest_set_goes_in_beside_it() -> None:
    day = Day(on_ms=0, off_ms=9 * MINUTE)
    small = [item(f"small-{n}", 2, owed=False, weight=2) for n in range(2)]
    some = fitting(day, item("owed", 3), item("large", 4, owed=False, weight=3), *small)
    placed = {each.item for each in propose(some, 0, Since(0)).places}
    assert placed == {"owed", "small-0", "small-1"}


def test_of_what_could_start_at_once_what_is_owed_goes_first() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE)
    some = fitting(day, item("light", 2, owed=False, latest_ms=30 * MINUTE), item("owed", 2))
    assert [each.item for each in propose(some, 0, Since(0)).places] == ["owed", "light"]


def test_a_tape_that_prefers_a_gap_waits_for_one() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE, quiet=((20 * MINUTE, 30 * MINUTE),))
    places = propose(fitting(day, item("tape", 5, prefers="gap")), 0, Since(0)).places
    assert [each.from_ms for each in places] == [20 * MINUTE]


def test_where_only_one_has_room_in_the_gap_the_heavier_gets_it() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE, quiet=((20 * MINUTE, 27 * MINUTE),))
    light, heavy = (item(name, 5, prefers="gap", weight=w) for name, w in (("l", 1), ("h", 2)))
    places = propose(fitting(day, light, heavy), 0, Since(0)).places
    assert {each.item: each.from_ms // MINUTE for each in places} == {"l": 1, "h": 20}


def test_a_gap_costs_nothing_that_is_owed_its_place() -> None:
    day = Day(on_ms=0, off_ms=30 * MINUTE, quiet=((20 * MINUTE, 30 * MINUTE),))
    late = item("late", 8, earliest_ms=21 * MINUTE)
    places = propose(fitting(day, item("tape", 5, prefers="gap"), late), 0, Since(0)).places
    assert {each.item: each.from_ms // MINUTE for each in places} == {"tape": 1, "late": 21}


def test_breaks_lie_further_apart_than_they_must_where_that_costs_nothing() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE, item_gap_ms=20_000, break_gap_ms=12 * MINUTE)
    breaks = [item(name, 2, kind="break") for name in "ab"]
    places = propose(fitting(day, *breaks), 0, Since(0)).places
    assert [each.from_ms // MINUTE for each in places] == [1, 27]
    pressed = [replace(each, latest_ms=24 * MINUTE) for each in breaks]
    places = propose(fitting(day, *pressed), 0, Since(0)).places
    assert [each.from_ms // MINUTE for each in places] == [1, 21]
    crowded = [replace(each, latest_ms=20 * MINUTE) for each in breaks]
    places = propose(fitting(day, *crowded), 0, Since(0)).places
    assert [each.from_ms // MINUTE for each in places] == [1, 15]


def test_a_proposal_stays_as_it_is_while_one_reads_it() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE, moments=(moment("m", 20),))
    some = fitting(day, item("a", 5), item("b", 5))
    offered = {
        tuple((each.item, each.from_ms) for each in propose(some, now, Since(now)).places)
        for now in range(31_000, 91_000, 1_000)
    }
    assert len(offered) == 1
    assert all(places[0][1] % MINUTE == 0 for places in offered)


def test_with_no_minute_to_spare_it_begins_at_once() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE, moments=(moment("m", 20, stay=40),))
    some = fitting(day, item("a", 18.9))
    places = propose(some, 5_000, Since(5_000)).places
    assert [each.from_ms for each in places] == [5_000]


def test_starts_are_written_on_ten_seconds_where_that_costs_nothing() -> None:
    day = Day(on_ms=0, off_ms=60 * MINUTE, moments=(moment("m", 5, stay=1 / 60),))
    some = fitting(day, item("a", 5, earliest_ms=5 * MINUTE - 1))
    assert [each.from_ms for each in propose(some, 0, Since(0)).places] == [5 * MINUTE + 10_000]


def test_placed_breaks_of_a_sponsor_are_kept_apart_by_anothers() -> None:
    demands = [
        Demand(name, 1, ((0, 40),), ((0, 40),), is_break=True, sponsor=sponsor, owed=True)
        for name, sponsor in (("a", "A"), ("b", "B"))
    ]
    cut = [replace(each, starts=((0, 9), (21, 40))) for each in demands]
    some = Fitting(cut, 0, 0, [Fixed("p", 10, 20, "A")])
    places = propose(some, 0, Since(0)).places
    row = sorted([*((each.from_ms, each.item) for each in places), (10, "p")])
    assert [name for _, name in row] in (["a", "b", "p"], ["p", "b", "a"])


def test_a_break_is_followed_by_one_of_another_sponsor_before_what_is_placed() -> None:
    starts = {"a": ((0, 0),), "b": ((1, 8), (11, 40)), "t": ((1, 2), (11, 30))}
    lengths, sponsors = {"a": 1, "b": 2, "t": 8}, {"a": "A", "b": "B", "t": ""}
    some = [
        Demand(
            name,
            lengths[name],
            spans,
            spans,
            is_break=name != "t",
            sponsor=sponsors[name],
            owed=True,
        )
        for name, spans in starts.items()
    ]
    places = propose(Fitting(some, 0, 0, [Fixed("p", 10, 11, "A")]), 0, Since(0)).places
    assert [(each.item, each.from_ms) for each in places] == [("a", 0), ("b", 1), ("t", 11)]


def test_more_items_than_can_be_tried_are_placed_all_the_same_and_that_is_said() -> None:
    day = Day(on_ms=0, off_ms=600 * MINUTE, item_gap_ms=MINUTE, break_gap_ms=3 * MINUTE)
    kinds = ("break", "tape")
    some = [item(f"i{n}", 2 + n / 10, kind=kinds[n % 2], owed=n < 8) for n in range(20)]
    found = propose(fitting(day, *some), 0, Since(0))
    assert not found.left
    assert not found.proven
    assert {each.item for each in found.places} >= {f"i{n}" for n in range(8)}


def test_of_many_that_do_not_all_fit_the_heavy_ones_are_placed_and_that_is_not_proven() -> None:
    day = Day(on_ms=0, off_ms=100 * MINUTE)
    some = [item(f"i{n}", 5 + n / 10, weight=1 + n % 3) for n in range(30)]
    found = propose(fitting(day, *some), 0, Since(0))
    assert not found.proven
    assert len(found.places) + len(found.left) == 30
    spans = [(each.from_ms, each.to_ms) for each in found.places]
    assert all(end <= begin for (_, end), (begin, _) in pairwise(spans))


def test_many_that_share_no_time_are_told_apart_even_if_some_have_no_place() -> None:
    day = Day(on_ms=0, off_ms=600 * MINUTE)
    some = [
        item(f"i{n}", 6, earliest_ms=n // 4 * 20 * MINUTE, latest_ms=(n // 4 + 1) * 20 * MINUTE)
        for n in range(28)
    ]
    found = propose(fitting(day, *some), 0, Since(0))
    assert (len(found.places), len(found.left)) == (21, 7)


def test_many_items_are_exact_where_few_share_their_time() -> None:
    day = Day(on_ms=0, off_ms=600 * MINUTE, item_gap_ms=MINUTE)
    some = [
        item(f"i{n}", 5, earliest_ms=n // 3 * 20 * MINUTE, latest_ms=(n // 3 + 1) * 20 * MINUTE)
        for n in range(30)
    ]
    found = propose(fitting(day, *some), 0, Since(0))
    assert found.proven
    assert len(found.places) == 30
