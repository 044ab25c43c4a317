from app.desk.card_cursor import Cursor, near
from tests.app.views import LazyCards, card, day_view, view_of


def cursor(count: int = 50, past: int = 10) -> Cursor:
    made = Cursor()
    made.take(day_view(count, past=past))
    return made


def test_from_nothing_down_selects_the_first_in_sight_and_up_the_last() -> None:
    one = cursor()
    one.step(1, [10, 11, 12])
    assert one.chosen_id == "e10"
    other = cursor()
    other.step(-1, [10, 11, 12])
    assert other.chosen_id == "e12"


def test_selection_stops_at_both_ends() -> None:
    one = cursor(3, 0)
    one.choose(2)
    one.step(1, [0, 1, 2])
    assert one.chosen_id == "e2"
    one.choose(0)
    one.step(-1, [0, 1, 2])
    assert one.chosen_id == "e0"


def test_an_unknown_id_lets_go() -> None:
    one = cursor()
    one.choose_by_id("e12")
    assert one.chosen_id == "e12"
    one.choose_by_id("nobody")
    assert one.chosen is None
    assert not one.chosen_id


def test_the_selection_stays_with_its_card_when_the_order_changes() -> None:
    first, second, third = (card(name, name, 60_000) for name in ("a", "b", "c"))
    one = Cursor()
    one.take(view_of((first, second, third), big_index=0))
    one.choose_by_id("a")
    one.take(view_of((second, third, first), big_index=0))
    assert one.chosen_id == "a"
    one.take(view_of((second, third), big_index=0))
    assert one.chosen is None


def test_scrolled_it_stays_with_its_card_while_time_goes_on() -> None:
    one = cursor(50, 10)
    one.scroll_by(5)
    assert one.first == 15
    one.take(day_view(50, past=12))
    assert one.first == 15


def test_scrolling_back_to_the_next_card_is_standing_at_now() -> None:
    one = cursor()
    one.scroll_by(3)
    one.scroll_by(-3)
    assert one.first is None


def test_when_now_comes_up_to_where_it_is_scrolled_it_stands_at_now() -> None:
    one = cursor(50, 10)
    one.scroll_by(2)
    one.take(day_view(50, past=12))
    assert one.first is None


def test_scrolling_stops_at_both_ends() -> None:
    one = cursor(20, 5)
    one.scroll_by(100)
    assert one.first == 19
    one.scroll_by(-100)
    assert one.first == 0


def test_a_selected_card_beyond_the_last_in_sight_comes_into_sight() -> None:
    one = cursor()
    one.choose(30)
    assert one.follow(list(range(10, 17)))
    assert one.first is not None
    assert one.first <= 30 < one.first + 7
    assert not one.follow(list(range(one.first, one.first + 7)))


def test_looking_for_a_card_near_by_makes_few_of_a_thousand() -> None:
    cards = LazyCards(1000, lambda i: card(f"e{i}", "x", 1000))
    assert near(cards, "e502", 500) == 502
    assert len(cards.made) <= 5
    assert near(cards, "gone", 500) is None
