from collections.abc import Sequence
from itertools import combinations

import pytest

from core.board.rings import evenly_spread, is_sure, lacking


def is_even(positions: Sequence[int], count: int) -> bool:
    """By the gaps between neighbours alone, the last to the first included."""
    gaps = {
        (after - before) % count or count
        for before, after in zip(positions, (*positions[1:], positions[0]), strict=True)
    }
    return len(gaps) == 1


def spread_by_trying(positions: Sequence[int], count: int, enough: int) -> bool:
    return any(
        is_even(some, count)
        for many in range(enough, len(positions) + 1)
        for some in combinations(positions, many)
    )


RINGS = [(count, enough) for count in range(1, 9) for enough in range(1, count + 1)]


@pytest.mark.parametrize(("count", "enough"), RINGS)
def test_every_set_of_positions_is_judged_as_by_trying(count: int, enough: int) -> None:
    for many in range(count + 1):
        for positions in combinations(range(1, count + 1), many):
            found = evenly_spread(positions, count, enough)
            assert bool(found) == spread_by_trying(positions, count, enough), positions
            assert set(found) <= set(positions)
            assert not found or (is_even(found, count) and len(found) >= enough)


@pytest.mark.parametrize(
    ("count", "enough"),
    [*RINGS, *((count, enough) for count in (9, 10, 12) for enough in range(1, count + 1))],
)
def test_a_bare_number_proves_what_every_set_of_that_size_has(count: int, enough: int) -> None:
    for heard in range(count + 1):
        sets = list(combinations(range(1, count + 1), heard))
        spread = [bool(evenly_spread(positions, count, enough)) for positions in sets]
        assert is_sure(heard, count, enough) == all(spread)
        least = lacking((), count, enough)
        assert (least is not None and heard >= least) == any(spread)


def test_what_is_lacking_is_found_as_by_trying() -> None:
    for many in range(9):
        for positions in combinations(range(1, 9), many):
            others = [place for place in range(1, 9) if place not in positions]
            least = next(
                more
                for more in range(9 - many)
                for added in combinations(others, more)
                if evenly_spread((*positions, *added), 8, 3)
            )
            assert lacking(positions, 8, 3) == least


# Common practice, no source: any three of twelve a third of a turn apart are enough.
@pytest.mark.parametrize("first", [1, 2, 3, 4])
def test_of_twelve_any_three_a_third_of_a_turn_apart_are_enough(first: int) -> None:
    third = (first, first + 4, first + 8)
    assert evenly_spread(third, 12, 3) == third
    assert not evenly_spread((first, first + 4, first + 7), 12, 3)


def test_of_eight_any_four_round_the_ring_are_enough_and_four_in_a_row_are_not() -> None:
    assert evenly_spread((1, 3, 5, 7), 8, 4) == (1, 3, 5, 7)
    assert evenly_spread((2, 4, 6, 8), 8, 4) == (2, 4, 6, 8)
    assert evenly_spread((1, 2, 3, 4), 8, 4) == ()
    assert evenly_spread((1, 2, 3, 5, 7, 8), 8, 4) == (1, 3, 5, 7)


def test_more_than_enough_is_enough_where_enough_itself_cannot_be_spread() -> None:
    assert evenly_spread((1, 3, 5, 7, 9), 10, 4) == (1, 3, 5, 7, 9)
    assert lacking((1, 3, 5, 7), 10, 4) == 1
    assert lacking((), 10, 11) is None


def test_a_ring_of_ten_thousand_is_judged_at_once() -> None:
    every_second = range(1, 10_001, 2)
    assert len(evenly_spread(every_second, 10_000, 3)) == 4
    assert evenly_spread(range(1, 2_501), 10_000, 4) == ()
    assert is_sure(7_501, 10_000, 4)
    assert not is_sure(7_500, 10_000, 4)
