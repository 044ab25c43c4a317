"""TO SAY: which sentence is the one of this moment, what else may be said, and what is owed."""

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from core.board.programme import Sentence, ToSay
from core.board.scene import Scene
from core.board.telling.gravely import passed_lines
from core.board.telling.moments import situations
from core.board.telling.owing import is_of_news, owed
from core.board.telling.reported import REPORTS, last_word
from core.board.telling.running import is_overdue, late
from core.board.telling.sentences import is_of, shown
from core.board.telling.whileaway import Back, TimesAt, away_line, back_at, handed_back
from core.entries.airing import Grave, MarkSaid
from core.entries.model import Entry
from core.saying.audience import Audience
from core.saying.model import Told
from core.saying.outcomes import passed_line
from core.saying.sentences import Situation, sentence
from core.saying.situations import Correction, Late
from core.times.writing import (
    dated_clock_text,
    floor_second_ms,
)

MOST = 4
"""So many sentences are offered: the one of the moment, and others."""


_Before = dict[tuple[int, tuple[int, ...]], Mapping[str, int | None]]


@dataclass(frozen=True, slots=True)
class Kept:
    """A sentence, the situation it was made from, and when."""

    situation: Situation
    told: Told
    made_ms: int

    def holds(self, situation: Situation, now_ms: int) -> bool:
        """Whether it may be begun now: a clock turned back is before it, too."""
        return self.situation == situation and self.made_ms <= now_ms <= self.told.until_ms


class Telling:
    """What may be said in one scene after some entries, at any second.

    A sentence is kept, word for word, until it is no longer true or its situation is another.
    `entries` are those that stand. `times_at` gives the board's times as they were at an instant;
    without it nothing is told of what changed while somebody was away. `earlier` is the telling of
    the scene before: its sentences are taken over as long as they hold.
    """

    def __init__(
        self,
        scene: Scene,
        entries: Sequence[Entry],
        times_at: TimesAt | None = None,
        earlier: "Telling | None" = None,
    ) -> None:
        self._scene = scene
        self._entries = tuple(entries)
        self._reports = tuple(e for e in self._entries if isinstance(e.action, REPORTS))
        self._said_then = tuple(e for e in self._entries if isinstance(e.action, MarkSaid))
        self._times_at = times_at
        self._audience = Audience.of(scene.plan)
        self._kept: dict[str, Kept] = {} if earlier is None else dict(earlier.kept)
        self._away: dict[Back, str] = {}
        self._before: _Before = {} if earlier is None else earlier.before
        self._late: tuple[object, Late | None] | None = None
        self._told: tuple[int, tuple[Told, ...]] | None = None
        self._shows: tuple[int, ToSay] | None = None

    @property
    def kept(self) -> Mapping[str, Kept]:
        """The sentences made last, by what they are about."""
        return self._kept

    @property
    def before(self) -> "_Before":
        """The board's times as they were, by the instant and the entries that stood then."""
        return self._before

    def at(self, now_ms: int) -> ToSay:
        """Everything TO SAY shows at that second."""
        now_ms = floor_second_ms(now_ms)
        if self._shows is None or self._shows[0] != now_ms:
            self._shows = (now_ms, self._to_say(now_ms))
        return self._shows[1]

    def _to_say(self, now_ms: int) -> ToSay:
        if self.grave:
            return ToSay(self._shown(self._gravely(now_ms), now_ms), grave=True)
        told = self.told(now_ms)
        return ToSay(
            self._shown(told, now_ms),
            self._shown(self.owed(now_ms), now_ms),
            self._away_line(now_ms),
            self._said(told[0], now_ms) if told else "",
        )

    def _shown(self, told: Iterable[Told], now_ms: int) -> tuple[Sentence, ...]:
        return tuple(shown(each, now_ms, self._scene.roll.soundings) for each in told)

    def told(self, now_ms: int) -> tuple[Told, ...]:
        """The sentence of this moment and others that may be said after it."""
        if self._told is None or self._told[0] != now_ms:
            self._told = (now_ms, self._at(now_ms))
        return self._told[1]

    def _at(self, now_ms: int) -> tuple[Told, ...]:
        found: list[Told] = []
        late_ = self._how_late(now_ms)
        for about, situation in situations(self._scene, self._reports, now_ms, late_):
            told = self._sentence(about, situation, now_ms)
            if told is not None and len(found) < MOST:
                found.append(told)
        return tuple(found)

    def owed(self, now_ms: int) -> tuple[Told, ...]:
        """Corrections owed to the audience, the soonest first; one of the news comes after it."""
        news = self._news(now_ms)
        first = [c for c in self._owed if news is None or not is_of_news(self._scene, news, c)]
        made = (self._sentence(f"owed {c.named.event}", c, now_ms) for c in first)
        return tuple(told for told in made if told is not None)

    def _news(self, now_ms: int) -> Told | None:
        """The sentence of this moment, if it has not been said."""
        told = self.told(now_ms)[:1]
        return next((each for each in told if not self._said(each, now_ms)), None)

    @cached_property
    def grave(self) -> bool:
        """Whether the board is grave."""
        turns = [e.action.on for e in self._entries if isinstance(e.action, Grave)]
        return bool(turns) and turns[-1]

    def _sentence(self, about: str, situation: Situation, now_ms: int) -> Told | None:
        """The one kept, if it still holds, else a new one."""
        kept = self._kept.get(about)
        if kept is not None and kept.holds(situation, now_ms):
            return kept.told
        told = sentence(situation, self._audience, now_ms)
        if told is None or told.until_ms < now_ms:
            self._kept.pop(about, None)
            return None
        self._kept[about] = Kept(situation, told, now_ms)
        return told

    @cached_property
    def _owed(self) -> tuple[Correction, ...]:
        return owed(self._scene, self._entries)

    def _how_late(self, now_ms: int) -> Late | None:
        """How it all runs, looked at again only when another event has passed.

        It is not on time while something is overdue.
        """
        key = bisect_right(self._scene.times_ms, now_ms)
        if self._late is None or self._late[0] != key:
            self._late = (key, late(self._scene, self._entries, now_ms))
        told = self._late[1]
        holds = told is None or not told.on_time or not is_overdue(self._scene, now_ms)
        return told if holds else None

    def _gravely(self, now_ms: int) -> list[Told]:
        """The last confirmed words with their source, and the lines passed beforehand."""
        word = last_word(self._scene, self._entries)
        told = None if word is None else self._sentence("last word", word, now_ms)
        lines = [passed_line(text, now_ms) for text in passed_lines(self._scene, now_ms)]
        return [*([] if told is None else [told]), *lines]

    @property
    def corrections(self) -> tuple[Correction, ...]:
        """What the audience was told that is false now, as data, the soonest first."""
        return self._owed

    @property
    def since_handed_over(self) -> str:
        """What has changed since whoever is at the desk was there before; '' if never."""
        return self._since(handed_back(self._entries))

    def _away_line(self, now_ms: int) -> str:
        return self._since(back_at(self._scene, self._entries, now_ms))

    def _since(self, back: Back | None) -> str:
        """What has changed since somebody left, worked out once."""
        if back is None or self._times_at is None:
            return ""
        if back not in self._away:
            before = self._times_before(self._times_at, back.since_ms)
            self._away[back] = away_line(self._scene, self._entries, back, before, self._audience)
        return self._away[back]

    def _times_before(self, times_at: TimesAt, since_ms: int) -> Mapping[str, int | None]:
        """Worked out once for all scenes: it takes a schedule from scratch."""
        stood = tuple(entry.number for entry in self._entries if entry.at_ms <= since_ms)
        if (since_ms, stood) not in self._before:
            self._before[since_ms, stood] = times_at(since_ms)
        return self._before[since_ms, stood]

    def _said(self, told: Told, now_ms: int) -> str:
        """'said 4:41 p.m.': when it was said last."""
        for entry in reversed(self._said_then):
            action = entry.action
            if isinstance(action, MarkSaid) and is_of(action, told):
                clock = dated_clock_text(entry.at_ms, self._scene.style, now_ms, seconds=False)
                return f"said {clock}"
        return ""
