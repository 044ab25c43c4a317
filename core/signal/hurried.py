"""Answers within a frame: the next day of contacts at once, what lies beyond when it is fetched.

Until then what lies beyond is as it was last known, moved along with the branch's turn.
"""

from dataclasses import replace
from typing import NamedTuple, Protocol

from core.plan.model import Course
from core.signal.computing import Branch, Skies, Spell, Times
from core.signal.recent import Recent
from core.signal.seen import Hidden, Light, Seen, Sighting

MOST = 64
"""So many answers are kept."""


class Question(NamedTuple):
    """A branch, with its events at those times."""

    branch: Branch
    times: Times


class NearSkies(Skies, Protocol):
    """Who can compute the next day alone, where that is quicker than all of it."""

    def near(self, branch: Branch, times: Times) -> Spell | None:
        """The same as `spell`, but known only as far as a day after the branch's turn.

        None where all of it is worked out as quickly.
        """


class Hurried:
    """Skies that answer at once, and remember what is still to be fetched."""

    def __init__(self, skies: NearSkies) -> None:
        self._skies = skies
        self._kept = Recent[Question, Spell | None](MOST)
        self._open: dict[Question, None] = {}
        self._last: dict[Branch, tuple[Times, Spell]] = {}

    def branches(self, course: Course) -> tuple[Branch, ...]:
        """The branches of a computed course."""
        return self._skies.branches(course)

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        """When a branch is seen: all of it, or what is near with what was last known beyond."""
        question = Question(branch, times)
        if question not in self._kept:
            self._kept[question] = self._answer(question)
            if len(self._open) > MOST:
                self._open = dict.fromkeys(each for each in self._open if each in self._kept)
        return self._kept[question]

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        """How far away the craft of a branch is; None where the branch says nothing of then."""
        return self._skies.light(branch, times, at_ms)

    def is_open(self, branch: Branch, times: Times) -> bool:
        """Whether the whole answer to a question is still to be fetched."""
        self.spell(branch, times)
        return Question(branch, times) in self._open

    def settle(self, question: Question, spell: Spell | None) -> None:
        """The whole answer to a question."""
        self._open.pop(question, None)
        self._settled(question, spell)
        self._kept[question] = spell

    def _answer(self, question: Question) -> Spell | None:
        branch, times = question
        last = self._last.get(branch)
        if last is not None and _holds(last[0], times):
            return last[1]
        near = None if last is None else self._skies.near(branch, times)
        if near is None or last is None:
            spell = self._skies.spell(branch, times)
            self._settled(question, spell)
            return spell
        self._open[question] = None
        return continued(near, last[1], _slip_ms(branch, last[0], times))

    def _settled(self, question: Question, spell: Spell | None) -> None:
        if spell is not None:
            self._last[question.branch] = (question.times, spell)


def _holds(known: Times, asked: Times) -> bool:
    """Whether an answer for some times, with an end left open, is also one for these."""
    return all(was in (None, now) for was, now in zip(known, asked, strict=True))


def continued(near: Spell, last: Spell, slip_ms: int) -> Spell:
    """What is known near, with what was last known, so much later, beyond it."""
    seam_ms = near.to_ms
    beyond = [
        _later(each, slip_ms) for each in last.seen.sightings if each.to_ms + slip_ms > seam_ms
    ]
    sightings = list(near.seen.sightings)
    for each in beyond:
        same = next((s for s in sightings if s.ground == each.ground and _reaches(s, each)), None)
        if same is None:
            sightings.append(replace(each, from_ms=max(each.from_ms, seam_ms)))
        else:
            at = sightings.index(same)
            sightings[at] = replace(
                same, to_ms=each.to_ms, to_cause=each.to_cause, to_give_ms=each.to_give_ms
            )
    hidden = [
        *near.seen.hidden,
        *(
            Hidden(
                each.ground, max(each.from_ms + slip_ms, seam_ms), each.to_ms + slip_ms, each.cause
            )
            for each in last.seen.hidden
            if each.to_ms + slip_ms > seam_ms
        ),
    ]
    return Spell(
        Seen(
            tuple(sorted(sightings, key=lambda each: each.from_ms)),
            tuple(sorted(hidden, key=lambda each: each.from_ms)),
        ),
        near.from_ms,
        max(near.to_ms, last.to_ms + slip_ms),
    )


def _later(each: Sighting, slip_ms: int) -> Sighting:
    return replace(each, from_ms=each.from_ms + slip_ms, to_ms=each.to_ms + slip_ms)


def _reaches(near: Sighting, beyond: Sighting) -> bool:
    """Whether a contact cut off at the end of what is near goes on in one beyond."""
    return not near.to_cause and beyond.from_ms <= near.to_ms


def _slip_ms(branch: Branch, before: Times, now: Times) -> int:
    if branch.steady or not now or now[-1] is None or before[-1] is None:
        return 0
    return now[-1] - before[-1]
