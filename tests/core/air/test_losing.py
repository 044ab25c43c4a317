import pytest

from core.air.losing import losses
from core.air.model import Against, Day, Loss, Way
from core.air.running import Programme
from core.entries.airing import Begin, Finish, Place
from core.plan.model import Item
from tests.core.air.making import item, junction, moment, ms, programme

DAY = Day(off_ms=ms(60), item_gap_ms=ms(0.5), break_gap_ms=ms(5), moments=(moment("m", 20),))


def found(some: Programme, minute: float, day: Day = DAY, to: int | None = None) -> list[Loss]:
    return list(losses(some.items, day, ms(minute), lambda _: to))


def begun(one: Item, minute: float) -> Programme:
    return programme(one, after=(Begin(one.id, ms(minute)),))


def placed(*items: tuple[Item, float]) -> Programme:
    at = tuple((one.id, ms(minute)) for one, minute in items)
    return programme(*(one for one, _ in items), after=(Place(at),))


def test_nothing_is_lost_by_what_is_over_in_time() -> None:
    assert not found(begun(item("a", 2), 17), 18)
    assert not found(placed((item("a", 2), 17)), 10)


def test_what_can_be_cut_is_to_end_so_that_the_presenter_is_back() -> None:
    running = begun(item("a", 4, turnaround_ms=ms(0.5)), 17)
    assert found(running, 18) == [Loss("a", Against.MOMENT, "m", ms(2.5), ((Way.END, ms(18.5)),))]


def test_what_should_be_over_already_is_to_end_now() -> None:
    running = begun(item("a", 4, turnaround_ms=ms(0.5)), 17)
    assert found(running, 18.75)[0].ways == ((Way.END, ms(18.75)),)


def test_from_what_cannot_be_cut_one_rejoins_after_it() -> None:
    running = begun(item("a", 4, turnaround_ms=ms(0.5), can_cut=False), 17)
    assert found(running, 18)[0].ways == ((Way.REJOIN, ms(21.5)),)


def test_past_its_length_it_can_be_ended_whatever_it_is() -> None:
    running = begun(item("a", 2, can_cut=False), 17)
    (loss,) = found(running, 19.5)
    assert (loss.by_ms, loss.ways) == (ms(0.5), ((Way.END, ms(19.5)),))


def test_a_moment_that_is_past_is_lost_no_more() -> None:
    assert not found(begun(item("a", 9), 17), 21)


def test_a_placed_item_moves_or_has_no_place() -> None:
    late = placed((item("a", 2), 18))
    assert found(late, 10, to=ms(21)) == [
        Loss("a", Against.MOMENT, "m", ms(1), ((Way.MOVE, ms(21)),))
    ]
    assert found(late, 10)[0].ways == ((Way.NONE, None),)


def test_by_how_much_is_the_nearer_way_out_of_a_moment() -> None:
    assert found(placed((item("a", 5), 20.9)), 10)[0].by_ms == ms(0.1)


@pytest.mark.parametrize(
    ("one", "minute", "against", "of", "by"),
    [
        (item("a", 2), 59, Against.OFF, "", 1),
        (item("a", 2), 29.5, Against.JUNCTION, "j", 0.5),
        (item("a", 4), 38, Against.AWAY, "", 2),
        (item("a", 2, latest_ms=ms(31)), 30, Against.LATE, "", 1),
        (item("a", 2, earliest_ms=ms(31)), 30, Against.EARLY, "", 1),
        (item("a", 2, needs="voice"), 34, Against.CONTACT, "voice", 1),
        (item("a", 2, booked=((ms(30), ms(33)),)), 32, Against.BOOKED, "", 1),
    ],
)
def test_whatever_a_placed_item_loses_is_told_with_how_much(
    one: Item, minute: float, against: Against, of: str, by: float
) -> None:
    day = Day(
        off_ms=ms(60),
        moments=(junction("j", 31),) if against is Against.JUNCTION else (),
        away=((ms(40), ms(45)),),
        contact=(("voice", ((0, ms(35)),)),),
    )
    told = [(loss.against, loss.of, loss.by_ms) for loss in found(placed((one, minute)), 10, day)]
    assert told == [(against, of, ms(by))]


def test_of_items_too_near_to_each_other_the_later_is_told() -> None:
    tapes = placed((item("a", 2), 30), (item("b", 2), 32.25))
    breaks = placed((item("a", 2, kind="break"), 30), (item("b", 2, kind="break"), 35))
    assert [(each.item, each.of, each.by_ms) for each in found(tapes, 10)] == [("b", "a", ms(0.25))]
    assert [(each.item, each.of, each.by_ms) for each in found(breaks, 10)] == [("b", "a", ms(2))]


def test_so_is_one_placed_too_soon_after_what_has_run() -> None:
    first, second = (item(name, 2, kind="break") for name in "ab")
    entries = (Begin("a", ms(5)), Finish("a", ms(7)), Place((("b", ms(10)),)))
    (loss,) = found(programme(first, second, after=entries), 9, to=ms(12))
    assert (loss.item, loss.of, loss.by_ms) == ("b", "a", ms(2))
    assert loss.ways == ((Way.MOVE, ms(12)),)


def test_what_runs_over_into_what_is_placed_is_to_end_in_time_for_that() -> None:
    entries = (Begin("a", ms(5)), Place((("b", ms(8)),)))
    row = programme(item("a", 2), item("b", 2), after=entries)
    assert not found(row, 7.5)
    assert found(row, 7.6) == [Loss("a", Against.ITEM, "b", ms(0.1), ((Way.END, ms(7.6)),))]


def test_the_same_sponsor_twice_running_is_told_of_the_later_break() -> None:
    first, second = (item(name, 2, kind="break", sponsor="A") for name in "ab")
    between = item("c", 2, kind="break", sponsor="B")
    row = placed((first, 30), (second, 40))
    assert [(each.item, each.against) for each in found(row, 10)] == [("b", Against.SPONSOR)]
    assert not found(placed((first, 30), (between, 40), (second, 50)), 10)


def test_a_sponsored_break_beside_a_live_moment_is_told() -> None:
    beside = placed((item("a", 2, kind="break", sponsor="A"), 17))
    assert [each.by_ms for each in found(beside, 10)] == [ms(0.5)]


def test_an_item_whose_time_has_come_and_gone_is_told() -> None:
    (loss,) = found(placed((item("a", 2), 9)), 10, to=ms(12))
    assert (loss.against, loss.by_ms, loss.ways) == (Against.PAST, ms(1), ((Way.MOVE, ms(12)),))
