"""What the panel promises holds: tried by doing what it says, and by doing it a second too late."""

import random
from pathlib import Path

import pytest

from core.air.model import Fits
from core.board.onair.now import OnAir
from core.entries.airing import Begin, Place
from core.entries.model import Entry
from tests.core.board.boards import Seat, at_ms
from tests.core.board.programmes import on_the_air

_FIGURES = ("ignition +2m", "ignition -3m", "loss 4:49p", "school 5:52p")


@pytest.fixture(params=range(20))
def looked(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Seat, int]:
    """A desk at some second of the programme, after some figures from the ground."""
    chance = random.Random(request.param)
    taken = on_the_air(tmp_path, "16:30")
    for line in chance.sample(_FIGURES, request.param % 3):
        taken.take(line)
    return taken, at_ms("16:30") + chance.randrange(3600) * 1000


def begun(taken: Seat, item: str, at: int) -> OnAir:
    """The programme if the item went on the air then."""
    return OnAir(taken.desk._session.scene, [Entry(1, at, "", Begin(item, at))])


def promised(fit: Fits, now_ms: int) -> bool:
    """Whether the panel says by when to leave for it."""
    soon = fit.first_start_ms is not None and fit.first_start_ms <= now_ms
    return soon and fit.owed_by_ms is not None


def test_whoever_leaves_by_the_time_told_loses_nothing(looked: tuple[Seat, int]) -> None:
    taken, now_ms = looked
    before = taken.desk.on_air(now_ms)
    for fit in before.fits:
        if not promised(fit, now_ms) or fit.owed_by_ms is None:
            continue
        for at in (now_ms, fit.owed_by_ms // 1000 * 1000):
            after = begun(taken, fit.item, at).at(at)
            assert not after.broken
            assert set(before.figures.most) - {fit.item} <= set(after.figures.most)


def test_whoever_leaves_a_second_later_loses_something(looked: tuple[Seat, int]) -> None:
    taken, now_ms = looked
    before = taken.desk.on_air(now_ms)
    for fit in before.fits:
        if not promised(fit, now_ms) or fit.owed_by_ms is None:
            continue
        at = fit.owed_by_ms // 1000 * 1000 + 1000
        after = begun(taken, fit.item, at).at(at)
        homeless = set(before.figures.most) - {fit.item} - set(after.figures.most)
        assert after.broken or homeless


def test_a_proposal_once_taken_loses_nothing_and_leaves_nothing_owed_without_place(
    looked: tuple[Seat, int],
) -> None:
    taken, now_ms = looked
    before = taken.desk.on_air(now_ms)
    found = taken.desk.proposed(now_ms)
    places = tuple((each.item, each.from_ms) for each in found.places)
    after = OnAir(taken.desk._session.scene, [Entry(1, now_ms, "", Place(places))]).at(now_ms)
    assert not after.broken
    assert {name for name, _ in places} >= set(before.figures.most)
