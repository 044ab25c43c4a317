"""Drawn days: surprises from a number and a severity. The same two give the same day, always."""

import math
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from core.plan.model import Change, Plan
from core.rehearsal.draws import Draw, Draws
from core.rehearsal.frame import Frame
from core.rehearsal.model import (
    CameraOn,
    Closes,
    Edges,
    LineFails,
    Misheard,
    Moves,
    NetworkTakes,
    Steps,
    Surprise,
    Surprises,
    Turns,
    What,
    When,
)
from core.times.writing import HOUR_MS, SECOND_MS

LIGHTEST, HEAVIEST = 1, 5
"""The severities."""


def drawn_day(plan: Plan, draws: Draws, frame: Frame, number: int, severity: int) -> Surprises:
    """The day of that number; ValueError for a severity out of range."""
    if not LIGHTEST <= severity <= HEAVIEST:
        raise ValueError(f"a severity of {severity} is outside {LIGHTEST} to {HEAVIEST}")
    return _Drawing(plan, draws, frame, number, severity).day()


class _Drawing:
    """One day being drawn. Kinds are drawn in a fixed order, each with dice of its own.

    So a trainer who changes one kind's figures changes nothing of the others.
    """

    def __init__(self, plan: Plan, draws: Draws, frame: Frame, number: int, severity: int) -> None:
        self._plan = plan
        self._draws = draws
        self._frame = frame
        self._number = number
        self._severity = severity
        self._dice = random.Random()  # noqa: S311 - a rehearsal is no secret

    def day(self) -> Surprises:
        """All of it, in order of kind; the run takes them by their times."""
        kinds: dict[str, Callable[[Draw], Iterator[tuple[When, What]]]] = {
            "late": self._late,
            "early": self._early,
            "slip": self._slip,
            "drop": self._drop,
            "lost-early": self._lost_early,
            "back-late": self._back_late,
            "back-never": self._back_never,
            "outcome": self._outcome,
            "line": self._line,
            "clock": self._clock,
            "closed": self._closed,
            "network": self._network,
            "camera": self._camera,
        }
        found: list[Surprise] = []
        for kind, make in kinds.items():
            draw = self._draws.get(kind)
            if draw is None:
                continue
            self._dice.seed(f"{self._number}/{self._severity}/{kind}")
            for number, (when, what) in enumerate(make(draw), 1):
                found.append(self._told(kind, number, when, what))
        title = f"Drawn day {self._number}, severity {self._severity}"
        return Surprises(title, self._frame.begin_ms, self._frame.end_ms, tuple(found))

    def _told(self, kind: str, number: int, when: When, what: What) -> Surprise:
        source = self._dice.choice(self._plan.sources) if self._plan.sources else ""
        quiet = kind == "slip"
        one = Surprise(f"{kind}-{number}", when, what, source=source, quiet=quiet)
        if isinstance(what, Moves) and not quiet:
            one = self._misheard(one, what)
            again = self._draws.get("again")
            if again is not None and self._happens(again.often):
                one = replace(one, again_ms=self._size_ms(again))
        return one

    def _misheard(self, one: Surprise, what: Moves) -> Surprise:
        draw = self._draws.get("misheard")
        if draw is None or what.event not in self._frame.times_ms or not self._happens(draw.often):
            return one
        return replace(one, misheard=Misheard("", "", self._size_ms(draw)))

    # ------------------------------------------------------------ dice

    def _happens(self, chance: float) -> bool:
        return self._dice.random() < min(1.0, chance * self._severity)

    def _many(self, draw: Draw) -> Iterator[int]:
        """The instants at which something of that kind comes, at random over the rehearsal."""
        often = draw.often * self._severity
        at_ms = float(self._frame.begin_ms)
        while often > 0:
            at_ms += self._dice.expovariate(often) * HOUR_MS
            if at_ms >= self._frame.end_ms:
                return
            yield math.floor(at_ms) // SECOND_MS * SECOND_MS

    def _size_ms(self, draw: Draw) -> int:
        """A size, small ones more often, in whole seconds."""
        return self._between(draw.size_ms)

    def _between(self, ends_ms: tuple[int, int]) -> int:
        low, high = (math.log(max(SECOND_MS, each)) for each in ends_ms)
        return math.floor(math.exp(self._dice.uniform(low, high))) // SECOND_MS * SECOND_MS

    def _pick(self, among: Sequence[str]) -> str:
        return self._dice.choice(among) if among else ""

    # ------------------------------------------------------------ kinds

    def _moved(self, draw: Draw, sign: int) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            known = sorted(self._frame.times_ms.items())
            event = self._pick([name for name, planned_ms in known if planned_ms > at_ms])
            if event:
                ahead_ms = self._between(draw.ahead_ms)
                yield When(event=event, by_ms=-ahead_ms), Moves(event, sign * self._size_ms(draw))

    def _late(self, draw: Draw) -> Iterator[tuple[When, What]]:
        return self._moved(draw, 1)

    def _early(self, draw: Draw) -> Iterator[tuple[When, What]]:
        return self._moved(draw, -1)

    def _slip(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for _ in self._many(draw):
            event = self._pick(sorted(self._frame.times_ms))
            if event:
                sign = self._dice.choice((1, 1, 1, -1))
                yield When(event=event), Moves(event, sign * self._size_ms(draw))

    def _lane(self) -> str:
        return self._pick([lane.id for lane in self._plan.lanes])

    def _drop(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            lane = self._lane()
            if lane:
                yield When(at_ms), Edges(lane, Change.LOST, for_ms=self._size_ms(draw))

    def _lost_early(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            lane = self._lane()
            if lane:
                yield When(at_ms), Edges(lane, Change.LOST, -self._size_ms(draw))

    def _back_late(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            lane = self._lane()
            if lane:
                yield When(at_ms), Edges(lane, Change.BACK, self._size_ms(draw))

    def _back_never(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for lane in self._plan.lanes:
            if self._happens(draw.often):
                at_ms = self._dice.randint(self._frame.begin_ms, self._frame.end_ms)
                yield When(at_ms), Edges(lane.id, Change.BACK, never=True)

    def _outcome(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for of in dict.fromkeys(outcome.of for outcome in self._plan.outcomes):
            others = [outcome.id for outcome in self._plan.outcomes if outcome.of == of][1:]
            if others and of in self._frame.times_ms and self._happens(draw.often):
                when = When(event=of, by_ms=self._between((60_000, 1_800_000)))
                yield when, Turns(self._pick(others), (of, *rigid_to(self._plan, of)))

    def _line(self, draw: Draw) -> Iterator[tuple[When, What]]:
        remotes = [item.id for item in self._plan.items if item.kind == "remote"]
        for at_ms in self._many(draw):
            if remotes:
                yield When(at_ms), LineFails(self._pick(remotes))

    def _clock(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            yield When(at_ms), Steps(self._dice.choice((1, -1)) * self._size_ms(draw))

    def _closed(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            lane = self._lane()
            if lane:
                yield When(at_ms), Closes(lane, self._size_ms(draw))

    def _network(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for at_ms in self._many(draw):
            if self._plan.air is not None:
                yield When(at_ms), NetworkTakes(self._size_ms(draw))

    def _camera(self, draw: Draw) -> Iterator[tuple[When, What]]:
        for item in self._plan.items:
            if not item.can_cut and item.ran is None and self._happens(draw.often):
                yield When(item=item.id, by_ms=self._size_ms(draw)), CameraOn(90 * SECOND_MS)


def rigid_to(plan: Plan, of: str) -> list[str]:
    """The events that go with one whatever happens: without it they do not happen either."""
    return [
        event.id
        for event in plan.events
        for tie in event.ties
        if tie.event == of and tie.least_ms == tie.most_ms
    ]
