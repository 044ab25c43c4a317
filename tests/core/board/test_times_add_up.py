"""On any plan: the clock on the wall and a countdown are the shown time, to the second."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from core.board.model import Card, CardState, Figure, View
from core.plan.model import Plan
from core.times.writing import Hours
from tests import strategies as drawn
from tests.core.board.boards import seat_on

UNITS_S = {"d": 86_400, "h": 3_600, "min": 60, "s": 1}


def seconds(figure: Figure) -> int:
    return sum(int(digits) * UNITS_S[unit] for digits, unit in figure.parts)


def wall(view: View) -> datetime:
    """The instant on the wall, from what the header writes alone, and the day."""
    hour, minute, second = map(int, view.header.utc.split(":"))
    day = datetime.fromtimestamp(view.now_ms / 1000, UTC)
    return day.replace(hour=hour, minute=minute, second=second, microsecond=0)


def exact(card: Card) -> bool:
    return card.figure is not None and not card.figure.about and bool(card.clock)


@given(drawn.plans(), drawn.instants_ms, st.sampled_from(drawn.ZONES))
def test_wall_and_countdown_are_the_shown_time(plan: Plan, now_ms: int, zone: str) -> None:
    values = {name: getattr(plan, name) for name in Plan.__slots__}
    desk = seat_on(Plan(**values | {"zones": (zone,)}), now_ms, Hours.TWENTY_FOUR)
    view = desk.view
    here = wall(view).astimezone(ZoneInfo(zone))
    assert view.header.clock == f"{here:%H:%M:%S}"
    for card in filter(exact, view.cards):
        assert card.figure is not None
        way = -1 if card.state is CardState.DUE else 1
        shown_s = wall(view).timestamp() + way * seconds(card.figure)
        there = datetime.fromtimestamp(shown_s, UTC).astimezone(ZoneInfo(zone))
        assert card.clock.endswith(f"{there:%H:%M:%S}")
        assert card.figure.past is (card.state is CardState.DUE)


@given(drawn.plans(), drawn.instants_ms)
def test_every_event_with_a_time_has_its_card_and_they_stand_in_order(
    plan: Plan, now_ms: int
) -> None:
    desk = seat_on(plan, now_ms)
    view = desk.view
    cards = list(view.cards)
    assert len({card.id for card in cards}) == len(cards)
    for event in plan.events:
        if desk.desk.schedule.expected_ms(event.id) is not None:
            assert event.id in {card.id for card in cards}
    coming_s = [card.at_ms // 1000 for card in cards[view.next_index :] if card.at_ms is not None]
    assert coming_s == sorted(coming_s)
    states = {card.state for card in cards[: view.next_index]}
    assert states <= {CardState.HAPPENED, CardState.DUE}
    assert view.big_index is None or view.big_index >= view.next_index
