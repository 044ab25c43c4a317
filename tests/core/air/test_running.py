from core.air.running import Stands
from core.entries.airing import Begin, Drop, Finish, LeaveAir, Place, TakeAir
from tests.core.air.making import item, ms, programme

NEVER = 2**62


def test_an_item_floats_until_the_plan_or_the_desk_places_it() -> None:
    day = programme(item("a"), item("b", at_ms=ms(5)), item("c"), after=(Place((("c", ms(9)),)),))
    assert [each.stands for each in day.items] == [Stands.FLOATING, Stands.PLACED, Stands.PLACED]
    assert [each.item.id for each in day.placed()] == ["b", "c"]


def test_a_placed_item_ends_its_length_later() -> None:
    day = programme(item("a", 3), after=(Place((("a", ms(5)),)),))
    assert day.item("a").end_ms(ms(1)) == ms(8)


def test_on_the_air_it_ends_by_its_length_and_running_over_it_ends_now() -> None:
    on_air = programme(item("a", 3), after=(Begin("a", ms(5)),)).on_air
    assert on_air is not None
    assert [on_air.end_ms(ms(at)) for at in (6, 8, 9)] == [ms(8), ms(8), ms(9)]
    assert [on_air.over_ms(ms(at)) for at in (6, 8, 9)] == [ms(-2), 0, ms(1)]


def test_over_it_has_run_and_says_by_how_much_over_or_under() -> None:
    day = programme(item("a", 3), after=(Begin("a", ms(5)), Finish("a", ms(7))))
    ran = day.item("a")
    assert (ran.stands, ran.from_ms, ran.to_ms) == (Stands.RUN, ms(5), ms(7))
    assert ran.over_ms(ms(30)) == ms(-1)
    assert day.on_air is None


def test_it_is_over_as_soon_as_something_else_is_on_the_air() -> None:
    day = programme(item("a"), item("b"), after=(Begin("a", ms(5)), Begin("b", ms(9))))
    assert day.item("a").to_ms == ms(9)
    assert day.on_air is not None
    assert day.on_air.item.id == "b"


def test_it_is_over_when_the_network_takes_the_air() -> None:
    day = programme(item("a", 9), after=(Begin("a", ms(5)), LeaveAir(ms(7))))
    assert day.item("a").to_ms == ms(7)


def test_what_nobody_saw_begin_began_its_length_before_it_was_over() -> None:
    day = programme(item("a", 3), after=(Finish("a", ms(7)),))
    assert day.item("a").from_ms == ms(4)


def test_what_begins_after_it_was_over_is_on_the_air_again() -> None:
    day = programme(item("a", 3), after=(Finish("a", ms(7)), Begin("a", ms(9))))
    assert day.item("a").stands is Stands.ON_AIR


def test_what_has_run_before_anything_was_typed_is_over() -> None:
    ran = programme(item("a", 3, ran=(ms(1), ms(5)))).item("a")
    assert (ran.stands, ran.from_ms, ran.to_ms) == (Stands.RUN, ms(1), ms(5))


def test_a_dropped_item_has_no_place() -> None:
    day = programme(item("a", at_ms=ms(5)), after=(Drop("a"),))
    assert day.item("a").stands is Stands.DROPPED
    assert not day.placed()


def test_the_last_item_and_the_last_break_are_told_apart() -> None:
    entries = (Begin("b", ms(1)), Finish("b", ms(3)), Begin("t", ms(5)), Finish("t", ms(7)))
    day = programme(item("b", kind="break"), item("t"), after=entries)
    last, last_break = day.last(ms(9)), day.last_break(ms(9))
    assert last is not None
    assert last_break is not None
    assert (last.item.id, last_break.item.id) == ("t", "b")


def test_the_air_is_away_until_it_is_taken_back_or_until_what_was_said() -> None:
    assert programme(after=(LeaveAir(ms(5)),)).away == ((ms(5), NEVER),)
    assert programme(after=(LeaveAir(ms(5), ms(9)),)).away == ((ms(5), ms(9)),)
    assert programme(after=(LeaveAir(ms(5)), TakeAir(ms(8)))).away == ((ms(5), ms(8)),)
