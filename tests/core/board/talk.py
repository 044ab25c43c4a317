"""A session without a screen, and what may be said in it."""

from dataclasses import dataclass
from pathlib import Path

from core.board.programme import Sentence, ToSay
from core.board.telling.telling import Telling
from core.entries.model import Action, Entry
from core.plan.model import Plan
from core.saying.model import Subject, Told
from core.session.ground import make_ready
from core.session.session import Session
from core.session.store import MemoryStore
from core.times.writing import Hours
from tests.core.board.boards import FLIGHT, at_ms, plan_of


def no_skies(_plan: Plan) -> None:
    """The flight's contacts are printed."""


@dataclass
class Talk:
    """Entries are taken as if typed; what is said is asked for at a clock time."""

    session: Session

    def take(self, clock: str, action: Action, source: str = "") -> None:
        self.take_at(at_ms(clock), action, source)

    def take_at(self, now_ms: int, action: Action, source: str = "") -> None:
        number = len(self.session.store.entries) + 1
        entry = Entry(number, now_ms, "", action, source, forced=True)
        self.session.schedule.take(entry, now_ms)
        self.session.keep(entry)

    def telling(self, now_ms: int, earlier: Telling | None = None) -> Telling:
        self.session.schedule.tick(now_ms)
        scene, standing = self.session.scene, self.session.standing
        return Telling(scene, standing, self.times_at, earlier)

    def times_at(self, then_ms: int) -> dict[str, int | None]:
        """The board's times as they were."""
        ground = make_ready(self.session.plan, no_skies)
        stood = tuple(entry for entry in self.session.standing if entry.at_ms <= then_ms)
        return ground.schedule(then_ms, stood).expected()

    def at(self, clock: str) -> ToSay:
        return self.telling(at_ms(clock)).at(at_ms(clock))

    def told(self, clock: str) -> tuple[Told, ...]:
        return self.telling(at_ms(clock)).told(at_ms(clock))

    def first(self, clock: str) -> str:
        """The sentence of that moment."""
        return self.at(clock).sentences[0].twenty

    def subjects(self, clock: str) -> list[Subject]:
        return [each.subject for each in self.told(clock)]

    def owed(self, clock: str) -> list[str]:
        return [each.line for each in self.at(clock).owed]

    def sentence(self, clock: str) -> Sentence:
        return self.at(clock).sentences[0]


def talk_on(plan: Plan, now_ms: int) -> Talk:
    """A session on a plan."""
    return Talk(Session(plan, now_ms, MemoryStore(), Hours.TWELVE, no_skies))


def talk(folder: Path, text: str = FLIGHT, clock: str = "16:30") -> Talk:
    """A session on the small flight, or on another text."""
    return talk_on(plan_of(folder, text), at_ms(clock))
