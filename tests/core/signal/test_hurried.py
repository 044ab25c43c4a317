"""Answers within a frame: near contacts are exact at once, far ones once they are fetched."""

from dataclasses import dataclass, replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from core.plan.model import Course
from core.signal.computing import Branch, Spell, Times
from core.signal.hurried import Hurried, Question
from core.signal.seen import Hidden, Light, Seen, Sighting

H = 3_600_000
DAY = 24 * H
END = 240 * H
TURNING = Branch("arrival", "burned", ("ignition",), forked=True)
STEADY = Branch("arrival", "no-burn", ("ignition",), forked=True, steady=True)


@dataclass
class FarSky:
    """A contact each ten hours; the spacing grows with the turn, so that far ones bend."""

    long_h: int = 4
    whole: int = 0

    def branches(self, course: Course) -> tuple[Branch, ...]:
        del course
        return (TURNING, STEADY)

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        del branch, times, at_ms
        return None

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        self.whole += 1
        return None if times[-1] is None else self._cut(branch, times[-1], END)

    def near(self, branch: Branch, times: Times) -> Spell | None:
        if branch.steady or times[-1] is None:
            return None
        return self._cut(branch, times[-1], times[-1] + DAY)

    def _cut(self, branch: Branch, turn_ms: int, until_ms: int) -> Spell:
        start_ms = 0 if branch.steady else turn_ms
        every_ms = 10 * H + (0 if branch.steady else turn_ms // 100)
        whole = [
            (start_ms + n * every_ms, start_ms + n * every_ms + self.long_h * H) for n in range(22)
        ]
        seen = tuple(
            Sighting("tarn", a, min(b, until_ms), "limb", "limb" if b <= until_ms else "")
            for a, b in whole
            if a < until_ms
        )
        gaps = tuple(
            Hidden("tarn", a, min(b, until_ms), "limb")
            for (_, a), (b, _) in pairwise(whole)
            if a < until_ms
        )
        return Spell(Seen(seen, gaps), start_ms, until_ms)


def asked(skies: Hurried, turn_ms: int, branch: Branch = TURNING) -> Spell:
    found = skies.spell(branch, (turn_ms,))
    assert found is not None
    return found


def test_the_first_answer_is_whole_and_nothing_is_open() -> None:
    skies = Hurried(FarSky())
    assert asked(skies, 0) == FarSky().spell(TURNING, (0,))
    assert not skies.is_open(TURNING, (0,))


def test_after_a_slip_the_near_is_exact_and_the_far_moves_along() -> None:
    skies, slip_ms = Hurried(FarSky()), H
    before, after = asked(skies, 0), asked(skies, slip_ms)
    exact = FarSky().spell(TURNING, (slip_ms,))
    assert exact is not None
    assert after.seen.sightings[:2] == exact.seen.sightings[:2]
    assert after.seen.sightings[4].from_ms == before.seen.sightings[4].from_ms + slip_ms
    assert skies.is_open(TURNING, (slip_ms,))


def test_a_contact_across_the_seam_is_one_contact() -> None:
    skies = Hurried(FarSky(long_h=8))  # the third lasts from 20 h to 28 h after the turn
    asked(skies, 0)
    across = [s for s in asked(skies, H).seen.sightings if s.from_ms <= H + DAY <= s.to_ms]
    assert [(s.to_ms, s.to_cause) for s in across] == [(29 * H, "limb")]


def test_a_steady_branch_is_never_open() -> None:
    skies = Hurried(FarSky())
    asked(skies, 0, STEADY)
    asked(skies, H, STEADY)
    assert not skies.is_open(STEADY, (H,))


@given(turns=st.lists(st.integers(0, 6 * H), min_size=1, max_size=6))
def test_once_settled_everything_is_as_if_one_had_waited(turns: list[int]) -> None:
    skies, patient = Hurried(FarSky()), FarSky()
    for turn_ms in turns:
        asked(skies, turn_ms)
        if skies.is_open(TURNING, (turn_ms,)):
            skies.settle(Question(TURNING, (turn_ms,)), patient.spell(TURNING, (turn_ms,)))
        assert not skies.is_open(TURNING, (turn_ms,))
        assert asked(skies, turn_ms) == patient.spell(TURNING, (turn_ms,))


def test_where_all_of_a_branch_is_known_nothing_is_asked_up_to_an_end() -> None:
    sky = FarSky()
    skies = Hurried(sky)
    ended = replace(TURNING, events=("done", "ignition"))
    whole = skies.spell(ended, (None, 0))
    assert sky.whole == 1
    assert skies.spell(ended, (H, 0)) is whole
    assert sky.whole == 1
