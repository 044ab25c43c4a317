import pytest

from core.air.conflict import conflict
from core.air.cutting import demand
from core.air.fitting import Fitting
from core.air.model import Against, Conflict, Day, Obstacle, Since
from core.plan.model import Item
from tests.core.air.days import draw, fitting_of, since_of
from tests.core.air.making import item, junction, moment, ms

SINCE = Since(0)


def why(day: Day, one: Item, *others: Item, placed: tuple[tuple[Item, int], ...] = ()) -> Conflict:
    demands = [demand(each, day, placed) for each in (one, *others)]
    fitting = Fitting(demands, day.item_gap_ms, day.break_gap_ms)
    return conflict(fitting, one, day, placed, SINCE)


@pytest.mark.parametrize(
    ("one", "obstacle"),
    [
        (item("a", 5, latest_ms=ms(4)), Obstacle(Against.WINDOW)),
        (item("a", 5, booked=((0, ms(4)),)), Obstacle(Against.BOOKED)),
        (item("a", 5, needs="voice"), Obstacle(Against.CONTACT)),
        (item("a", 5, latest_ms=ms(29), earliest_ms=ms(20)), Obstacle(Against.MOMENT, "m")),
        (item("a", 5, latest_ms=ms(49), earliest_ms=ms(42)), Obstacle(Against.JUNCTION, "j")),
        (item("a", 5, latest_ms=ms(59), earliest_ms=ms(52)), Obstacle(Against.AWAY)),
        (item("a", 5, earliest_ms=ms(66)), Obstacle(Against.OFF)),
    ],
)
def test_whatever_stands_alone_in_an_items_way_is_named(one: Item, obstacle: Obstacle) -> None:
    day = Day(
        off_ms=ms(70),
        moments=(moment("m", 24.5, guard=0, stay=0), junction("j", 45.5)),
        contact=(("voice", ((0, ms(4)),)),),
        away=((ms(55), ms(60)),),
    )
    told = why(day, one)
    assert told.items == ("a",)
    assert obstacle in told.obstacles
    window = () if one.earliest_ms is one.latest_ms else (Obstacle(Against.WINDOW),)
    assert set(told.obstacles) == {obstacle, *window}


def test_so_is_a_placed_item() -> None:
    block = item("b", 5)
    one = item("a", 5, latest_ms=ms(9))
    told = why(Day(off_ms=ms(70)), one, placed=((block, ms(3)),))
    assert told == Conflict(("a",), (Obstacle(Against.WINDOW), Obstacle(Against.ITEM, "b")))


def test_of_two_moments_in_the_way_neither_alone_is_to_blame() -> None:
    day = Day(moments=(moment("m", 10), moment("n", 12)))
    assert why(day, item("a", 15, earliest_ms=ms(5), latest_ms=ms(20))) == Conflict(
        ("a",), (Obstacle(Against.WINDOW),)
    )


def test_items_that_do_not_fit_together_are_named_and_no_others() -> None:
    day = Day(off_ms=ms(20))
    early = [item(name, 4, latest_ms=ms(9)) for name in "abc"]
    assert set(why(day, *early, item("late", 5)).items) == {"a", "b", "c"}


@pytest.mark.parametrize("seed", range(60))
def test_of_a_conflict_nothing_can_be_left_out(seed: int) -> None:
    trial = draw(30_000 + seed)
    fitting, since = fitting_of(trial), since_of(trial)
    masks = {each.id: 1 << number for number, each in enumerate(fitting.demands)}
    most = fitting.most(since)
    for one in trial.items:
        if not one.owed or most & masks[one.id]:
            continue
        told = conflict(fitting, one, trial.day, trial.placed, since)
        together = sum(masks[name] for name in told.items)
        assert told.items[0] == one.id
        assert not fitting.can(together, since)
        assert all(fitting.can(together & ~masks[name], since) for name in told.items[1:])
