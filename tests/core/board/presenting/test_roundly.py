import pytest

from core.board.presenting.roundly import by_clock, either_until_words, nearest_minutes, until_words
from core.times.writing import Style
from tests.core.board.boards import ZONE, at_ms

STYLE = Style(ZONE)
NOON_MS = at_ms("12:00")
MINUTE_MS = 60_000


def in_ms(minutes: float) -> int:
    return NOON_MS + round(minutes * MINUTE_MS)


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0.7, "42 s"),
        (1, "1 min"),
        (16.9, "17 min"),
        (17.95, "18 min"),
        (42.99, "43 min"),
        (17.4, "17 min"),
        (59.9, "1 h"),
        (0.99, "59 s"),
        (60, "1 h"),
        (65.4, "1 h 05 min"),
        (24 * 60, "1 d"),
        (50 * 60 + 59, "2 d 2 h"),
    ],
)
def test_how_long_until_then_is_told_to_the_nearest_minute(minutes: float, words: str) -> None:
    assert until_words(in_ms(minutes), 0, NOON_MS) == words


def test_what_is_only_about_known_has_the_nearest_minute() -> None:
    assert until_words(in_ms(49.6), 120_000, NOON_MS) == "about 50 min"
    assert until_words(in_ms(0.2), 120_000, NOON_MS) == "about 1 min"
    assert nearest_minutes(90_000) == "2 min"


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        ((31.9, 41.6), "31 or 42 min"),
        ((41.6, 31.9), "31 or 42 min"),
        ((31.9, 32.2), "31 or 32 min"),
        ((32.0, 32.2), "32 min"),
        ((58.0, 65.0), "58 min or 1 h 05 min"),
        ((0.5, 9.0), "30 s or 9 min"),
        ((5.0, 15.0, 25.0), "5 or 15 or 25 min"),
    ],
)
def test_the_earlier_is_rounded_down_and_a_later_to_the_nearest(
    minutes: tuple[float, ...], words: str
) -> None:
    assert either_until_words(tuple(map(in_ms, minutes)), NOON_MS) == words


def test_a_time_to_be_back_by_is_told_to_the_minute_until_its_last_minute() -> None:
    at = at_ms("16:46:40")
    assert by_clock(at, STYLE, at_ms("16:45:59")) == "4:46 p.m."
    assert by_clock(at, STYLE, at_ms("16:46:00")) == "4:46:40 p.m."
    assert by_clock(at_ms("16:46"), STYLE, at_ms("16:45:59")) == "4:46 p.m."
    assert by_clock(at_ms("16:46", "2031-05-15"), STYLE, at) == "Thu 4:46 p.m."
