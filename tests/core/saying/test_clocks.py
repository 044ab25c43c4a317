"""Clock times as they are spoken: by three usages, in every zone, with the day where it differs."""

import re
from datetime import datetime

import pytest

from core.plan.model import Usage
from core.saying.audience import Audience
from core.saying.clocks import clock_words
from core.saying.numbers import cardinal, ordinal
from tests.core.saying.aloud import NUMBERS, Clock, clocks
from tests.core.saying.scenes import ATLANTIC, BOTH, at_ms


@pytest.mark.parametrize(
    ("clock", "american", "british", "by_24"),
    [
        ("16:57", "four fifty-seven", "three minutes to five", "sixteen fifty-seven"),
        ("17:12", "five-twelve", "twelve minutes past five", "seventeen twelve"),
        ("17:23", "five twenty-three", "twenty-three minutes past five", "seventeen twenty-three"),
        ("17:30", "five-thirty", "half past five", "seventeen thirty"),
        ("17:45", "five forty-five", "a quarter to six", "seventeen forty-five"),
        ("17:05", "five-oh-five", "five past five", "seventeen oh-five"),
        ("17:00", "five o'clock", "five o'clock", "seventeen hundred"),
        ("09:15", "nine-fifteen", "a quarter past nine", "oh-nine fifteen"),
        ("12:59", "twelve fifty-nine", "one minute to one", "twelve fifty-nine"),
        ("00:10", "twelve-ten", "ten past twelve", "zero ten"),
        ("12:00", "noon", "noon", "twelve hundred"),
        ("00:00", "midnight", "midnight", "midnight"),
    ],
)
def test_each_usage_has_its_way(clock: str, american: str, british: str, by_24: str) -> None:
    there = datetime.fromisoformat(f"2031-05-14T{clock}")
    assert clock_words(there, Usage.AMERICAN) == american
    assert clock_words(there, Usage.BRITISH) == british
    assert clock_words(there, Usage.HOURS_24) == by_24


def test_every_minute_of_the_day_is_heard_as_it_was_meant() -> None:
    for minute in range(24 * 60):
        there = datetime(2031, 5, 14, minute // 60, minute % 60)
        heard = clocks(clock_words(there, Usage.AMERICAN))
        assert heard == [Clock((minute // 60 + 11) % 12 + 1, minute % 60)]


def british(words: str) -> tuple[int, int]:
    """What a British clock time means, on a dial of twelve hours."""
    if words in ("noon", "midnight"):
        return 12, 0
    if words.endswith(" o'clock"):
        return NUMBERS[words.removesuffix(" o'clock")], 0
    minutes, side, hour = re.fullmatch(r"(.*) (past|to) (.*)", words).groups()  # type: ignore[union-attr]
    short = {"half": 30, "a quarter": 15}
    minute = short[minutes] if minutes in short else NUMBERS[minutes.split()[0]]
    if side == "past":
        return NUMBERS[hour], minute
    return (NUMBERS[hour] - 2) % 12 + 1, 60 - minute


def by_24(words: str) -> tuple[int, int]:
    """What a time of twenty-four hours means."""
    if words == "midnight":
        return 0, 0
    first, _, rest = words.partition(" ")
    minute = 0 if rest == "hundred" else NUMBERS[rest.removeprefix("oh-")]
    return NUMBERS[first.removeprefix("oh-")], minute


def test_the_other_usages_are_heard_as_they_were_meant_too() -> None:
    for minute in range(24 * 60):
        there = datetime(2031, 5, 14, minute // 60, minute % 60)
        hour = (there.hour + 11) % 12 + 1
        assert british(clock_words(there, Usage.BRITISH)) == (hour, there.minute)
        assert by_24(clock_words(there, Usage.HOURS_24)) == (there.hour, there.minute)


def test_numbers_are_words() -> None:
    assert all(cardinal(number) == word for word, number in NUMBERS.items())
    assert ordinal(22) == "twenty-second"


def test_zones_are_spoken_each_with_its_time() -> None:
    now_ms = at_ms("16:49")
    assert (
        BOTH.all(at_ms("16:57"), now_ms) == "four fifty-seven Atlantic, three fifty-seven Eastern"
    )
    assert BOTH.one(at_ms("16:57"), now_ms) == "four fifty-seven Atlantic"
    assert BOTH.bare(at_ms("16:57")) == "four fifty-seven"


def test_the_weekday_is_said_where_the_date_differs() -> None:
    late_ms = at_ms("23:50")
    assert BOTH.all(at_ms("00:10", "2031-05-15"), late_ms) == (
        "twelve-ten Atlantic on Thursday, eleven-ten Eastern on Wednesday"
    )
    assert ATLANTIC.all(at_ms("16:31", "2031-05-15"), late_ms) == (
        "four thirty-one Atlantic on Thursday"
    )
    assert ATLANTIC.all(at_ms("16:31", "2031-06-22"), late_ms) == (
        "four thirty-one Atlantic on the twenty-second of June"
    )


def test_two_zones_of_one_name_are_said_once() -> None:
    audience = Audience(("America/New_York", "America/Toronto"))
    assert audience.all(at_ms("16:57"), at_ms("16:49")) == "three fifty-seven Eastern"


@pytest.mark.parametrize(
    ("clock", "day", "told"),
    [
        ("16:31", "2031-05-15", "tomorrow, Thursday, at four thirty-one in the afternoon"),
        ("09:05", "2031-05-17", "Saturday, at nine-oh-five in the morning"),
        ("21:00", "2031-05-14", "today at nine o'clock in the evening"),
        ("12:00", "2031-06-02", "Monday the second of June, at noon"),
    ],
)
def test_a_day_that_is_not_today_is_named(clock: str, day: str, told: str) -> None:
    assert ATLANTIC.dated(at_ms(clock, day), at_ms("16:54")) == f"{told}, Atlantic time"


def test_today_ends_at_the_midnight_of_the_desk() -> None:
    assert ATLANTIC.midnight_ms(at_ms("16:54")) == at_ms("00:00", "2031-05-15")
