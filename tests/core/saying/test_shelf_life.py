"""At any second at which a sentence may still be begun, no word of it is wrong.

The words are read back by themselves, without what the sentence says of itself.
"""

from datetime import datetime
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.saying.audience import Audience
from core.saying.coming import coming
from core.saying.far import far_away
from core.saying.holding import holding
from core.saying.losing import losing
from core.saying.model import Reach, Told, speaking_ms
from core.saying.returns import two_returns
from core.saying.situations import (
    FarAway,
    Gap,
    Held,
    LaneLeft,
    LossAhead,
    Next,
    Return,
    TwoReturns,
)
from core.saying.unseen import unseen
from tests.core.saying.aloud import MINUTE_MS, Clock, Length, clocks, lengths
from tests.core.saying.scenes import ATLANTIC, BURN, ZONE, at_ms

NOW_MS = at_ms("16:41:12")
nows_ms = st.integers(0, 3_600).map(lambda s: NOW_MS + s * 1_000)
waits_ms = st.integers(20, 5_400).map(lambda s: s * 1_000)
gives_ms = st.sampled_from((0, 5_000, 20_000, 30_000, 60_000, 120_000, 300_000))


def dial(at: int, zone: str = ZONE) -> Clock:
    there = datetime.fromtimestamp(at / 1000, ZoneInfo(zone))
    return Clock((there.hour + 11) % 12 + 1, there.minute)


def minutes_of(clock: Clock) -> int:
    return clock.hour % 12 * 60 + clock.minute


def seconds_of_life(told: Told, now_ms: int) -> range:
    """Every second at which it may be begun, as far as three minutes on."""
    return range(now_ms, min(told.until_ms, now_ms + 180_000) + 1, 1_000)


def heard(told: Told, begun_ms: int) -> tuple[int, int]:
    """When its first and its last word are heard."""
    return begun_ms, begun_ms + speaking_ms(told.twenty)


@given(nows_ms, waits_ms, gives_ms)
def test_next_never_contradicts_its_countdown_nor_the_wall(
    now_ms: int, wait_ms: int, give_ms: int
) -> None:
    event_ms = now_ms + wait_ms
    told = coming(Next(BURN, event_ms, give_ms, Reach.OUT), ATLANTIC, now_ms)
    if told is None:
        assert wait_ms < MINUTE_MS
        return
    (clock,) = clocks(told.twenty)
    apart = abs(minutes_of(clock) - minutes_of(dial(event_ms)))
    assert min(apart, 720 - apart) <= max(1, give_ms // MINUTE_MS)
    if give_ms < 30_000:
        assert clock == dial(event_ms)
    for begun_ms in seconds_of_life(told, now_ms):
        for at in heard(told, begun_ms):
            for length in lengths(told.twenty):
                step = max(MINUTE_MS if length.ms >= 5 * MINUTE_MS else MINUTE_MS // 2, give_ms)
                assert abs(event_ms - at - length.ms) <= max(step // 2, give_ms)
        for length in lengths(told.twenty):
            wall = minutes_of(dial(heard(told, begun_ms)[1] - 1))
            assert (wall + length.ms / MINUTE_MS - minutes_of(clock)) % 720 == 0


@given(nows_ms, waits_ms)
def test_next_lives_until_the_last_minute_by_one_sentence_after_another(
    now_ms: int, wait_ms: int
) -> None:
    event_ms = now_ms + wait_ms
    while event_ms - now_ms >= MINUTE_MS:
        told = coming(Next(BURN, event_ms), ATLANTIC, now_ms)
        assert told is not None
        assert told.until_ms >= now_ms
        now_ms = told.until_ms + 1_000


@given(nows_ms, waits_ms, st.integers(1, 400).map(lambda s: s * 1_000))
def test_what_is_left_is_never_much_less_than_was_said(
    now_ms: int, left_ms: int, more_ms: int
) -> None:
    ends_ms = (now_ms + left_ms, now_ms + left_ms + more_ms)
    lanes = (LaneLeft("p", "pictures", ends_ms[0]), LaneLeft("v", "voice", ends_ms[1]))
    told = losing(LossAhead(lanes, "Petrel slips behind the Moon"), now_ms)
    if told is None:
        assert left_ms + more_ms < 70_000
        return
    ends = {"p": ends_ms[0], "v": ends_ms[1]}
    said = lengths(told.twenty)
    lost = [ends[each.event] for each in told.claims]
    if len(said) == 1:
        said *= len(lost)  # 'of pictures and voice'
    for begun_ms in seconds_of_life(told, now_ms):
        for length, end_ms in zip(said, lost, strict=True):
            first, last = heard(told, begun_ms)
            assert_chance(length, end_ms - first, end_ms - last)


def assert_chance(length: Length, first_ms: int, last_ms: int) -> None:
    """As it is when the first and the last word are heard."""
    if length.how == "just under":
        assert first_ms < length.ms
        assert last_ms >= length.ms - 45_000
        return
    if length.how == "more than":
        assert last_ms > length.ms
        assert first_ms <= length.ms + 40_000
        return
    assert last_ms >= length.ms - MINUTE_MS // 2
    assert first_ms <= length.ms + 30_000


@pytest.mark.parametrize("apart_s", [0, 7, 60, 111, 123])
def test_what_is_left_is_never_shown_far_off_and_stands_long_enough_to_be_begun(
    apart_s: int,
) -> None:
    """From nine minutes down, second by second, each sentence kept as long as it is true."""
    ends_ms = (at_ms("16:50"), at_ms("16:50") + apart_s * 1_000)
    lanes = (LaneLeft("p", "pictures", ends_ms[0]), LaneLeft("v", "voice", ends_ms[1]))
    told = None
    for now_ms in range(ends_ms[0] - 9 * MINUTE_MS, ends_ms[0] - 75_000, 1_000):
        if told is None or now_ms > told.until_ms:
            told = losing(LossAhead(lanes, "Petrel slips behind the Moon"), now_ms)
            assert told is not None
            assert told.until_ms - now_ms >= 3_000
        said = lengths(told.twenty)
        for length, end_ms in zip(said * (3 - len(said)), ends_ms, strict=True):
            if length.how == "about":
                assert -20_000 <= end_ms - now_ms - length.ms <= 30_000


@given(nows_ms, waits_ms, waits_ms, gives_ms, st.booleans())
def test_the_first_chance_of_word_is_no_later_than_was_said(
    now_ms: int, word_ms: int, ends_ms: int, give_ms: int, only: bool
) -> None:
    gap = Gap(
        BURN,
        "the engine is burning now",
        "behind the Moon",
        now_ms + word_ms,
        now_ms + ends_ms,
        give_ms,
        only,
    )
    told = unseen(gap, ATLANTIC, now_ms)
    for begun_ms in seconds_of_life(told, now_ms):
        _, last = heard(told, begun_ms)
        assert last <= now_ms + ends_ms
        for length in lengths(told.twenty):
            assert now_ms + word_ms - last >= length.ms - max(MINUTE_MS // 2, give_ms)
    assert all(clock == dial(now_ms + word_ms) for clock in clocks(told.twenty))


@given(nows_ms, waits_ms, waits_ms)
def test_of_two_returns_the_earlier_is_never_said_late(
    now_ms: int, first_ms: int, more_ms: int
) -> None:
    times_ms = now_ms + first_ms, now_ms + first_ms + more_ms
    first, second = (Return(BURN, at, "with no burn") for at in times_ms)
    told = two_returns(TwoReturns(first, second, quiet_hoped=True), ATLANTIC)
    if told is None:
        assert more_ms < 2 * MINUTE_MS
        return
    heard_first, heard_second, again = clocks(told.twenty)
    assert heard_first == again == dial(times_ms[0])
    assert heard_second in (dial(times_ms[1] - 30_000), dial(times_ms[1] + 30_000))
    assert not lengths(told.twenty)
    assert told.until_ms <= times_ms[0]


@given(nows_ms, st.integers(0, 4_000).map(lambda s: s * 1_000), st.integers(0, 4_000))
def test_a_hold_is_never_said_to_be_older_than_it_is(now_ms: int, ago_ms: int, left_s: int) -> None:
    told = holding(Held(BURN, left_s * 1_000, now_ms - ago_ms), ATLANTIC, now_ms)
    for begun_ms in seconds_of_life(told, now_ms):
        for length in lengths(told.twenty):
            assert length.how == "more than"
            assert begun_ms - (now_ms - ago_ms) > length.ms


@given(nows_ms, st.integers(60, 1_500).map(lambda s: s * 1_000), waits_ms)
def test_what_is_heard_and_when_it_happened_add_up(now_ms: int, way_ms: int, more_ms: int) -> None:
    heard_ms = now_ms + more_ms
    far = FarAway(BURN, "Mars", heard_ms - way_ms, heard_ms, way_ms)
    told = far_away(far, ATLANTIC, now_ms)
    if told is None:
        return
    said = [length.ms for length in lengths(told.twenty)]
    assert all(ms < way_ms for ms in said)
    for heard_at, there in pairwise(clocks(told.twenty)):
        assert (minutes_of(heard_at) - minutes_of(there)) % 720 * MINUTE_MS == said[0]


def test_two_zones_never_differ_in_what_they_tell() -> None:
    both = Audience((ZONE, "America/New_York"))
    told = coming(Next(BURN, at_ms("16:57:20")), both, at_ms("16:49:40"))
    assert told is not None
    heard_here, heard_there = clocks(told.twenty)
    assert (minutes_of(heard_here) - minutes_of(heard_there)) % 720 == 60
