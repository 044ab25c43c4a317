from core.board.previewing import moved_words
from core.schedule.model import Move, MoveKind
from core.times.writing import Hours, Style

STYLE = Style("UTC", Hours.TWENTY_FOUR)
NOON_MS = 12 * 3_600_000


def test_a_move_is_the_difference_of_the_two_times_as_they_are_shown() -> None:
    """By 127.7 s, yet from 12:02:08 to 12:00:01 is 2 min 07, and 2 min 08 would not add up."""
    old_ms = NOON_MS + 128_900
    move = Move("return", old_ms, old_ms - 127_700, MoveKind.FOLLOWS, None)
    assert moved_words(move, STYLE, NOON_MS) == "12:02:08 → 12:00:01   2 min 07 earlier"
