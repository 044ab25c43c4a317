from core.entries.aired import Aired, Away, Ran, aired
from core.entries.airing import (
    Begin,
    Count,
    Drop,
    Finish,
    Grave,
    LeaveAir,
    Place,
    TakeAir,
    Unplace,
)
from core.entries.model import Action, Entry, Note


def after(*actions: Action) -> Aired:
    return aired(Entry(n, 0, "", action) for n, action in enumerate(actions, 1))


def test_nothing_entered_is_nothing_said() -> None:
    assert after() == Aired()
    assert after(Note("noisy")).ran("break-3") == Ran()


def test_an_item_is_placed_begins_and_is_over() -> None:
    told = after(Place((("a", 10), ("b", 20))), Begin("a", 11), Finish("a", 19))
    assert told.ran("a") == Ran(10, 11, 19)
    assert told.ran("b") == Ran(20)


def test_the_last_word_on_a_beginning_and_on_an_end_counts() -> None:
    told = after(Begin("a", 11), Begin("a", 12), Finish("a", 19), Finish("a", 18))
    assert told.ran("a") == Ran(begun_ms=12, over_ms=18)


def test_what_was_dropped_runs_again_once_it_is_placed_begun_or_freed() -> None:
    placed = Place((("a", 10),))
    assert after(placed, Drop("a")).ran("a") == Ran(10, dropped=True)
    assert after(placed, Drop("a"), Unplace("a")).ran("a") == Ran()
    assert after(Drop("a"), placed).ran("a") == Ran(10)
    assert after(Drop("a"), Begin("a", 11)).ran("a") == Ran(begun_ms=11)


def test_one_item_is_on_the_air_until_it_is_over_or_something_else_is() -> None:
    assert after(Place((("a", 10),))).on_air == ""
    assert after(Begin("a", 11)).on_air == "a"
    assert after(Begin("a", 11), Finish("a", 19)).on_air == ""
    both = after(Begin("a", 11), Begin("b", 20))
    assert (both.on_air, both.has_run("a"), both.has_run("b")) == ("b", True, False)
    taken = after(Begin("a", 11), LeaveAir(15, 20))
    assert (taken.on_air, taken.has_run("a")) == ("", True)
    assert after(LeaveAir(5, 8), Begin("a", 11)).on_air == "a"
    assert not after(Place((("a", 10),))).has_run("a")
    assert after(Finish("a", 19)).has_run("a")


def test_the_air_goes_and_comes_back() -> None:
    assert after(LeaveAir(10)).away == (Away(10),)
    assert after(LeaveAir(10, 20)).away == (Away(10, 20),)
    assert after(LeaveAir(10), TakeAir(15)).away == (Away(10, 15),)
    assert after(LeaveAir(10, 20), TakeAir(22)).away == (Away(10, 22),)
    assert after(TakeAir(15)).away == ()


def test_while_it_is_gone_a_later_word_says_until_when() -> None:
    assert after(LeaveAir(10), LeaveAir(12, 20)).away == (Away(10, 20),)
    assert after(LeaveAir(10, 20), LeaveAir(15, 30)).away == (Away(10, 30),)
    assert after(LeaveAir(10), LeaveAir(8)).away == (Away(8),)
    assert after(LeaveAir(10, 20), LeaveAir(25)).away == (Away(10, 20), Away(25))


def test_counts_and_a_grave_board_are_as_last_said() -> None:
    told = after(Count("clamps", 3), Grave(on=True), Count("clamps", 4, (1, 2, 3, 4)))
    assert told.counts == {"clamps": Count("clamps", 4, (1, 2, 3, 4))}
    assert told.grave
    assert not after(Grave(on=True), Grave(on=False)).grave
