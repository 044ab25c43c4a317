"""A card is kept from look to look but for its count: it is always the card written anew."""

from pathlib import Path

import pytest

from core.board.model import Card
from core.session.desk import Desk
from core.session.model import Answer
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat

FACTS = 'facts = [ { text = "One engine.", not_before = 2031-05-14T17:00:00 } ]\n'
LOOKS = (
    *("16:41:12", "16:41:13", "16:45:00", "16:50:00", "16:50:01", "16:59:59", "17:00:00"),
    *("17:01:00", "17:12:29", "17:12:31", "17:23:00", "17:23:31", "17:40:00", "18:00:00"),
    *("16:41:12", "17:05:00"),
)


def cards(seat: Seat) -> tuple[Card, ...]:
    return tuple(seat.view.cards)


def anew(seat: Seat) -> tuple[Card, ...]:
    """The cards of a board made just now from what has been entered."""
    other = Desk(seat.desk.plan, seat.clock, seat.desk._session.store)
    return tuple(other.view(seat.now_ms).cards)


LINES = {
    "held": ("ignition hold", "cutoff +30s", "ignition resume", "go +2m"),
    "went": ("go happened 4:40:02p", "voice lost 4:49:40p", "burned", "return happened 5:23:40p"),
    "moved": ("ignition +45s", "cutoff +30s", "no-burn", "burned undecided", "replan", "go +2m"),
    "planned": ("rehearsed 5:59p", "school 6:05p", "supper pin", "supper free", "voice closed"),
}


@pytest.mark.parametrize("lines", LINES.values(), ids=LINES)
def test_from_look_to_look_and_entry_to_entry_it_is_the_card_written_anew(
    tmp_path: Path, lines: tuple[str, ...]
) -> None:
    desk = seat(tmp_path, text=FLIGHT.replace('id = "cutoff"\n', f'id = "cutoff"\n{FACTS}'))
    entries = iter(lines)
    for clock in LOOKS:
        desk.go_to(clock)
        assert cards(desk) == anew(desk), clock
        line = next(entries, "")
        if desk.enter(line).answer is Answer.ASKS:
            desk.enter(line, again=True)
        assert cards(desk) == anew(desk), f"{line} at {clock}"
        if line and clock.endswith("0"):
            desk.desk.undo(desk.now_ms)
            assert cards(desk) == anew(desk), f"{line} taken back"
            desk.desk.redo(desk.now_ms)


def test_its_clock_gains_the_day_at_midnight(tmp_path: Path) -> None:
    desk = seat(tmp_path, "23:59:59")
    before = desk.card("supper").clock
    desk.clock.jump(at_ms("00:00:00", "2031-05-15"))  # type: ignore[union-attr]
    assert desk.card("supper").clock == f"Wed {before}"


def test_what_is_entered_beside_the_times_shows_at_once(tmp_path: Path) -> None:
    desk = seat(tmp_path)
    before = cards(desk)
    desk.take("grave")
    assert cards(desk) == anew(desk)
    desk.take("picture lost 4:41p")
    assert cards(desk) == anew(desk)
    assert len(before) == len(cards(desk))


def test_of_a_card_that_stands_nothing_is_made_anew(tmp_path: Path) -> None:
    desk = seat(tmp_path, "18:30:00")
    first = desk.card("liftoff")
    desk.go_to("18:30:01")
    assert desk.card("liftoff") is first
    desk.take("supper +5m")  # of that, it knows nothing
    assert desk.card("liftoff") is first
