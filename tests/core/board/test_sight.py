"""What can be heard, in every way the day may still turn out."""

from core.board.sight import LaneSight, Sight
from core.signal.model import Contact, Fill, Stretch
from tests.core.board.lanes import lane_signal

MINUTE = 60_000

# Behind the Moon from minute 10; back at 20 if there was no burn, at 30 after one. After the burn
# they are lost again at 60, and a second burn behind the Moon decides when they are back.
WORLDS = (
    frozenset({"burned", "lowered"}),
    frozenset({"burned", "high"}),
    frozenset({"no-burn"}),
)


def contact(from_min: int | None, to_min: int | None, outcome: str | None = None) -> Contact:
    from_ms = None if from_min is None else from_min * MINUTE
    to_ms = None if to_min is None else to_min * MINUTE
    return Contact("voice", "tarn", from_ms, to_ms, "course", outcome)


def stretch(from_min: int | None, to_min: int | None, fill: Fill) -> Stretch:
    from_ms = None if from_min is None else from_min * MINUTE
    to_ms = None if to_min is None else to_min * MINUTE
    return Stretch("voice", from_ms, to_ms, fill)


VOICE = lane_signal(
    lane="voice",
    contacts=(
        contact(None, 10),
        contact(20, None, "no-burn"),
        contact(30, 60, "burned"),
        contact(85, None, "high"),
        contact(88, None, "lowered"),
    ),
    stretches=(
        stretch(None, 10, Fill.CONTACT),
        stretch(10, 20, Fill.GAP),
        stretch(20, 30, Fill.EITHER),
        stretch(30, 60, Fill.CONTACT),
        stretch(60, 88, Fill.EITHER),
        stretch(88, None, Fill.CONTACT),
    ),
)


def lane() -> LaneSight:
    return LaneSight(VOICE, WORLDS)


def gap_min(from_min: int, outcome: str | None = None) -> tuple[list[int], bool]:
    lengths_ms, sure = lane().gap_ms(from_min * MINUTE, outcome)
    return [length_ms // MINUTE for length_ms in lengths_ms], sure


def test_each_way_the_day_may_turn_out_has_one_first_contact() -> None:
    assert gap_min(10) == ([10, 20], True)


def test_a_later_outcome_adds_nothing_to_a_wait_that_is_over_before_it() -> None:
    assert 75 not in gap_min(10)[0]


def test_under_an_outcome_only_what_can_come_then_counts() -> None:
    assert gap_min(10, "burned") == ([20], True)
    assert gap_min(10, "no-burn") == ([10], True)
    assert gap_min(10, "lowered") == ([20], True)


def test_an_outcome_still_open_under_another_gives_both_its_returns() -> None:
    assert gap_min(60, "burned") == ([25, 28], True)
    assert gap_min(60, "high") == ([25], True)


def test_a_wait_is_unsure_where_one_outcome_has_no_return() -> None:
    voice = LaneSight(lane_signal("voice", VOICE.contacts[:2], VOICE.stretches), WORLDS)
    assert voice.gap_ms(10 * MINUTE) == ((10 * MINUTE,), False)


def test_in_contact_there_is_no_wait() -> None:
    assert gap_min(5) == ([], True)


def test_either_is_settled_under_an_outcome_unless_another_is_open_in_it() -> None:
    assert lane().fill(25 * MINUTE) is Fill.EITHER
    assert lane().fill(25 * MINUTE, "burned") is Fill.GAP
    assert lane().fill(25 * MINUTE, "no-burn") is Fill.CONTACT
    assert lane().fill(86 * MINUTE, "burned") is Fill.EITHER
    assert lane().fill(86 * MINUTE, "lowered") is Fill.GAP
    assert lane().fill(86 * MINUTE, "high") is Fill.CONTACT


def test_the_first_word_comes_over_whichever_lane_is_back_first() -> None:
    picture = lane_signal(
        "picture", (contact(25, None, "burned"),), (stretch(None, None, Fill.EITHER),)
    )
    sight = Sight((VOICE, picture), WORLDS)
    assert sight.word_from(10 * MINUTE) == (20 * MINUTE, 25 * MINUTE)


def test_data_alone_brings_no_word() -> None:
    data = lane_signal("data", (contact(None, None),), (stretch(None, None, Fill.CONTACT),))
    assert Sight((data,), WORLDS).word_from(0) == ()
