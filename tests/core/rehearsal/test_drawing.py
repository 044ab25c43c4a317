"""Drawn days: exactly repeatable, as heavy as wanted, from figures that a trainer can change."""

from collections import Counter
from dataclasses import replace

import pytest

from core.rehearsal.drawing import drawn_day
from core.rehearsal.draws import KINDS, Draw
from core.rehearsal.frame import frame_of
from core.rehearsal.model import Misheard, Moves, Surprise, Surprises, When
from core.rehearsal.truth import truth_of
from core.times.instants import ms_to_rfc3339
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day, drawn, draws, small, small_frame


def kinds(day: Surprises) -> Counter[str]:
    return Counter(one.id.rpartition("-")[0] for one in day.surprises)


def test_the_same_number_gives_the_same_day() -> None:
    assert drawn(7) == drawn(7)
    assert drawn(7) != drawn(8)
    assert drawn(7, 2) != drawn(7, 3)


def test_a_severer_day_has_more_in_it() -> None:
    light, heavy = (sum(len(drawn(n, s).surprises) for n in range(20)) for s in (1, 5))
    assert heavy > 3 * light > 0


def test_every_kind_that_ships_is_drawn_some_day() -> None:
    days = [drawn(number, 5) for number in range(60)]
    found = set().union(*(kinds(day) for day in days))
    assert found == set(KINDS) - {"again", "misheard"}
    every = [one for day in days for one in day.surprises]
    assert any(one.again_ms for one in every)
    assert any(one.misheard for one in every)


@pytest.mark.parametrize(("by_ms", "first"), [(180_000, "30 min later"), (-180_000, "3 min later")])
def test_what_is_misheard_is_told_as_the_ground_tells_it_with_a_wrong_figure(
    by_ms: int, first: str
) -> None:
    # Half an hour earlier would be over before anybody could put it right.
    one = Surprise("one", When(at_ms("16:45")), Moves("ignition", by_ms), source="flight")
    told = truth_of(small(), day(replace(one, misheard=Misheard("", "", 120_000)))).reports
    wrong, right = (each for each in told if each.surprise)
    name = "Burn, ignition"
    assert wrong.text == f"{name}: {first}."
    assert right.text == f"Correction. {name}: 3 min {'later' if by_ms > 0 else 'earlier'}."
    wrong_ms = small_frame().times_ms["ignition"] + {180_000: 1_800_000, -180_000: 180_000}[by_ms]
    assert wrong.lines == (f"ignition {ms_to_rfc3339(wrong_ms)} per flight",)
    assert right.at_ms - wrong.at_ms == 120_000


def test_nothing_that_reaches_the_desk_on_a_drawn_day_says_that_it_was_misheard() -> None:
    for number in range(20):
        reports = truth_of(small(), drawn(number, 5)).reports
        assert all(report.text and "isheard" not in report.text for report in reports)


def test_sizes_lie_within_their_ends_and_small_ones_are_commoner() -> None:
    late = [
        one.what.by_ms
        for number in range(60)
        for one in drawn(number, 5).surprises
        if one.id.startswith("late-") and isinstance(one.what, Moves)
    ]
    low, high = draws()["late"].size_ms
    assert all(low - 1_000 <= by_ms <= high for by_ms in late)
    assert sum(by_ms < (low + high) / 2 for by_ms in late) > len(late) * 2 / 3


def test_a_kind_that_is_changed_or_left_out_changes_nothing_of_the_others() -> None:
    none = {kind: draw for kind, draw in draws().items() if kind != "late"}
    more = {**draws(), "late": Draw(20.0, (15_000, 20_000), (30_000, 60_000))}
    usual = [one for one in drawn(7).surprises if not one.id.startswith("late-")]
    for changed in (none, more):
        day = drawn_day(small(), changed, small_frame(), 7, 3)
        assert [one for one in day.surprises if not one.id.startswith("late-")] == usual


def test_it_lasts_from_before_the_first_event_to_the_end_of_the_programme() -> None:
    frame = frame_of(small())
    assert (frame.begin_ms, frame.end_ms) == (at_ms("16:30"), at_ms("19:00"))
    assert "liftoff" not in frame.times_ms
    assert "sleep" not in frame.times_ms


def test_without_a_programme_it_ends_after_the_last_event_but_within_six_hours() -> None:
    frame = frame_of(replace(small(), air=None, items=()))
    assert frame.hours == 6


@pytest.mark.parametrize("severity", [0, 6])
def test_a_severity_out_of_range_is_refused(severity: int) -> None:
    with pytest.raises(ValueError, match="outside 1 to 5"):
        drawn(1, severity)
