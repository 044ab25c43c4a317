"""Scripted desks: how soon they enter what they hear, how often they mistype it or forget."""

import random
import re
from dataclasses import dataclass

from core.times.instants import ms_to_rfc3339, rfc3339_to_ms
from core.times.writing import SECOND_MS, Hours, Style, clock_text

_INSTANT = re.compile(r"\d{4}-\d\d-\d\dT[\d:.]+Z")
_SLIPS_MS = (-600_000, -60_000, -10_000, 10_000, 60_000, 600_000, 3_600_000)
"""By how much a mistyped time is off: a digit beside the right one."""


@dataclass(frozen=True, slots=True)
class Habits:
    """How one desk works. Shares are of 1.

    `hears_ms`: from a report to its entry; `notices_ms`: from a slip to its correction;
    `acts_ms`: from when an item is due to its entry; `says_every_ms`: between two sentences.
    """

    name: str
    hears_ms: tuple[int, int] = (0, 0)
    notices_ms: tuple[int, int] = (0, 0)
    acts_ms: int = 0
    mistypes: float = 0.0
    forgets: float = 0.0
    repeats: float = 0.0
    """How often a report heard twice is entered twice."""
    confirms: bool = False
    """Whether what is due is confirmed with one key, as it was expected."""
    says_every_ms: int = 120_000


DESKS = {
    desk.name: desk
    for desk in (
        Habits("perfect"),
        Habits(
            "slow", (8_000, 45_000), (30_000, 120_000), 3_000, 0.03, 0.02, says_every_ms=240_000
        ),
        Habits(
            "careless",
            (5_000, 120_000),
            (60_000, 400_000),
            8_000,
            mistypes=0.2,
            forgets=0.15,
            repeats=0.3,
            confirms=True,
            says_every_ms=300_000,
        ),
    )
}
"""The desks by name."""


class Hand:
    """One desk's hand on the keyboard; the same number gives the same day."""

    def __init__(self, habits: Habits, number: int) -> None:
        self.habits = habits
        self._dice = random.Random(number)  # noqa: S311 - a rehearsal is no secret

    def hears_ms(self) -> int:
        """How long from a report to its entry."""
        return self._between(self.habits.hears_ms)

    def notices_ms(self) -> int:
        """How long from a slip to its correction."""
        return self._between(self.habits.notices_ms)

    def mistypes(self) -> bool:
        """Whether this line goes wrong."""
        return self._dice.random() < self.habits.mistypes

    def forgets(self) -> bool:
        """Whether this report is forgotten."""
        return self._dice.random() < self.habits.forgets

    def repeats(self) -> bool:
        """Whether this report is entered once more."""
        return self._dice.random() < self.habits.repeats

    def wrong(self, line: str) -> str:
        """The line with a slip in its time; a line without one stays."""
        by_ms = self._dice.choice(_SLIPS_MS)
        return _INSTANT.sub(lambda at: ms_to_rfc3339(rfc3339_to_ms(at[0]) + by_ms), line)

    def typed(self, line: str, zone: str, now_ms: int, expected_ms: int | None) -> str:
        """The line as a hand types it: a clock time, or so much later, where that says it all."""
        found = _INSTANT.search(line)
        if found is None:
            return line
        at_ms = rfc3339_to_ms(found[0])
        whole = at_ms % SECOND_MS == 0 and abs(at_ms - now_ms) < 6 * 3_600 * SECOND_MS
        new = " happened " not in line and not line.startswith(("voice ", "picture ", "data "))
        ways = [found[0]]
        if whole:
            ways.append(clock_text(at_ms, Style(zone, Hours.TWENTY_FOUR)))
            ways.append(clock_text(at_ms, Style(zone)).replace(" ", "").replace(".", "")[:-1])
        if new and expected_ms is not None and (at_ms - expected_ms) % SECOND_MS == 0:
            ways.append(_apart(at_ms - expected_ms))
        return line.replace(found[0], self._dice.choice([way for way in ways if way]))

    def _between(self, ends_ms: tuple[int, int]) -> int:
        return self._dice.randint(*ends_ms)


def _apart(by_ms: int) -> str:
    """'+3m', '-1:12', '+45s'; empty for nothing."""
    minutes, seconds = divmod(abs(by_ms) // SECOND_MS, 60)
    sign = "-" if by_ms < 0 else "+"
    if not by_ms or minutes >= 60:
        return ""
    if not minutes:
        return f"{sign}{seconds}s"
    return f"{sign}{minutes}:{seconds:02d}" if seconds else f"{sign}{minutes}m"
