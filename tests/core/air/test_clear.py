import pytest

from core.air.clear import Clear, Phase, clear_time
from core.air.model import Day
from core.entries.airing import Begin
from tests.core.air.making import item, junction, moment, ms, programme

NEVER = 2**62
DAY = Day(off_ms=ms(60), moments=(moment("m", 20, guard=2, stay=3), junction("j", 40)))


def at(minute: float, day: Day = DAY, **given: tuple[str, ...]) -> Clear:
    return clear_time(day, None, ms(minute), **given)


def test_clear_is_until_back_by_of_the_next_live_moment() -> None:
    clear = at(10)
    assert (clear.phase, clear.until_ms, clear.back_by_ms) == (Phase.CLEAR, ms(18), ms(18))
    assert clear.moment is not None
    assert clear.moment.id == "m"


@pytest.mark.parametrize(
    ("minute", "phase"),
    [(17.999, Phase.CLEAR), (18, Phase.LIVE), (22.999, Phase.LIVE), (23, Phase.CLEAR)],
)
def test_from_back_by_to_the_end_of_its_stay_the_presenter_is_live(
    minute: float, phase: Phase
) -> None:
    assert at(minute).phase is phase


def test_of_stretches_that_overlap_the_last_end_counts() -> None:
    day = Day(moments=(moment("a", 20), moment("b", 20.5, stay=4)))
    assert at(20, day).until_ms == ms(24.5)


def test_a_junction_is_to_be_back_by_to_the_second() -> None:
    assert at(30).until_ms == ms(40)


def test_after_the_last_moment_it_is_the_hard_end_that_counts() -> None:
    clear = at(45)
    assert (clear.phase, clear.until_ms, clear.moment) == (Phase.CLEAR, ms(60), None)


def test_without_an_end_nothing_calls_the_presenter_back() -> None:
    assert at(45, Day()).until_ms is None


def test_a_moment_that_waits_for_word_lasts() -> None:
    clear = at(30, waiting=("m",))
    assert (clear.phase, clear.until_ms) == (Phase.LIVE, None)


def test_the_hours_of_the_programme_and_the_networks_story_are_no_clear_time() -> None:
    day = Day(on_ms=ms(5), off_ms=ms(60), away=((ms(30), ms(35)), (ms(50), NEVER)))
    assert (at(4, day).phase, at(4, day).until_ms) == (Phase.BEFORE, ms(5))
    assert (at(31, day).phase, at(31, day).until_ms) == (Phase.AWAY, ms(35))
    assert (at(51, day).phase, at(51, day).until_ms) == (Phase.AWAY, None)
    assert at(61, Day(off_ms=ms(60))).phase is Phase.AFTER


def on_item(minute: float, begun: float) -> Clear:
    runs = programme(item("b", 3, turnaround_ms=ms(0.5)), after=(Begin("b", ms(begun)),))
    return clear_time(DAY, runs.on_air, ms(minute))


def test_an_item_on_the_air_ends_clear_time_when_the_presenter_is_back_after_it() -> None:
    clear = on_item(12, begun=11)
    assert (clear.phase, clear.until_ms, clear.on_air) == (Phase.ITEM, ms(14.5), "b")
    assert clear.back_in_time


def test_it_is_told_whether_the_presenter_is_back_in_time() -> None:
    assert on_item(15, begun=14.5).back_in_time
    assert not on_item(15, begun=14.51).back_in_time


def test_an_item_running_over_is_late_as_soon_as_now_says_so() -> None:
    assert on_item(17.5, begun=13).back_in_time
    late = on_item(17.6, begun=13)
    assert (late.over_ms, late.back_in_time) == (ms(1.6), False)
