"""The rounding rules, each by its table."""

import pytest

from core.saying.against import against_words, is_on_time
from core.saying.clocks import down_minute_ms, said_minute_ms
from core.saying.lengths import exact_words, rounded_words
from core.saying.rounding import at_least, chance, wait
from tests.core.saying.scenes import at_ms

S = 1_000
M = 60 * S


def words(rounded: object) -> str:
    return "" if rounded is None else rounded_words(rounded)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("left_ms", "told"),
    [
        (12 * M + 20 * S, "about twelve minutes"),
        (12 * M + 50 * S, "just under thirteen minutes"),
        (7 * M + 48 * S, "just under eight minutes"),
        (7 * M + 10 * S, "about seven minutes"),
        (6 * M + 20 * S, "about six minutes"),
        (5 * M + 48 * S, "about five and a half minutes"),
        (8 * M + 20 * S, "about eight minutes"),
        (8 * M + 25 * S, "more than eight minutes"),
        (6 * M + 1 * S, "about six minutes"),
        (5 * M + 30 * S, "about five and a half minutes"),
        (2 * M + 57 * S, "just under three minutes"),
        (2 * M + 40 * S, "about two and a half minutes"),
        (1 * M + 23 * S, "just under a minute and a half"),
        (1 * M + 50 * S, "about a minute and a half"),
        (1 * M + 15 * S, "about a minute"),
        (1 * M + 5 * S, ""),
        (59 * S, ""),
    ],
)
def test_a_chance_left_rounds_down(left_ms: int, told: str) -> None:
    assert words(chance(left_ms)) == told


@pytest.mark.parametrize("left_s", range(60, 1_800, 7))
def test_a_chance_is_never_said_to_be_more_than_it_is_while_it_can_still_be_seized(
    left_s: int,
) -> None:
    rounded = chance(left_s * S)
    if rounded is None:
        return
    assert rounded.low_ms <= left_s * S <= rounded.high_ms
    if rounded.under:
        assert left_s * S < rounded.said_ms <= left_s * S + M
    else:
        assert rounded.said_ms <= left_s * S
    if not rounded.under and not rounded.over:
        assert left_s * S - rounded.said_ms <= 20 * S


@pytest.mark.parametrize(
    ("left_ms", "give_ms", "told"),
    [
        (8 * M + 8 * S, 0, "about eight minutes"),
        (8 * M + 31 * S, 0, "about nine minutes"),
        (5 * M + 20 * S, 0, "about five minutes"),
        (4 * M + 20 * S, 0, "about four and a half minutes"),
        (4 * M + 10 * S, 0, "about four minutes"),
        (4 * M + 20 * S, 45 * S, "about four minutes"),
        (1 * M + 20 * S, 0, "about a minute and a half"),
        (59 * S, 0, ""),
        (32 * M, 5 * M, "about thirty minutes"),
        (33 * M, 2 * M, "about thirty-four minutes"),
        (70 * M, 0, "about an hour and ten minutes"),
        (120 * M, 0, "about two hours"),
    ],
)
def test_a_wait_rounds_to_the_nearest_and_never_finer_than_its_give(
    left_ms: int, give_ms: int, told: str
) -> None:
    assert words(wait(left_ms, give_ms)) == told


@pytest.mark.parametrize(
    ("length_ms", "said_ms"),
    [(6 * M + 10 * S, 6 * M), (11 * M + 22 * S, 11 * M), (2 * M + 40 * S, 150 * S), (6 * M, 5 * M)],
)
def test_more_than_rounds_down_and_is_truly_more(length_ms: int, said_ms: int) -> None:
    rounded = at_least(length_ms)
    assert rounded is not None
    assert rounded.said_ms == said_ms < length_ms


def test_under_a_minute_nothing_is_more_than_a_length() -> None:
    assert at_least(59 * S) is None


@pytest.mark.parametrize(
    ("by_ms", "give_ms", "told"),
    [
        (0, 0, ""),
        (29 * S, 0, ""),
        (-29 * S, 0, ""),
        (50 * S, 60 * S, ""),
        (30 * S, 0, "about a minute"),
        (74 * S, 0, "about a minute"),
        (78 * S, 0, "a little over a minute"),
        (-119 * S, 0, "a little over a minute"),
        (120 * S, 0, "about two minutes"),
        (7 * M + 31 * S, 0, "about eight minutes"),
        (12 * M, 5 * M, "about ten minutes"),
    ],
)
def test_against_the_plan_it_is_never_one_eighteen(by_ms: int, give_ms: int, told: str) -> None:
    assert against_words(by_ms, give_ms) == told
    assert is_on_time(by_ms, give_ms) is not bool(told)


def test_a_said_clock_is_what_clocks_show_and_an_uncertain_one_the_nearest() -> None:
    assert said_minute_ms(at_ms("16:57:50"), 20 * S) == at_ms("16:57")
    assert said_minute_ms(at_ms("16:57:50"), 30 * S) == at_ms("16:58")
    assert said_minute_ms(at_ms("17:44:22"), 5 * M) == at_ms("17:45")


def test_the_earlier_of_two_returns_rounds_down() -> None:
    assert down_minute_ms(at_ms("17:12:59")) == at_ms("17:12")


@pytest.mark.parametrize(
    ("length_ms", "told"),
    [
        (9 * M, "nine minutes"),
        (4 * M + 21 * S, "four minutes and twenty-one seconds"),
        (60 * M + M + S, "one hour, one minute and one second"),
    ],
)
def test_a_held_count_is_exact(length_ms: int, told: str) -> None:
    assert exact_words(length_ms) == told
