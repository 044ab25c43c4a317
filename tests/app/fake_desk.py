"""A desk for widget tests: answers as it is told to, and remembers what it was asked."""

from dataclasses import dataclass, field, replace

from core.board.handing.model import HandPage
from core.board.model import EntryRow, Preview, View
from core.errors import PlanProblems
from core.plan.model import Plan
from core.session.model import Answer, Taken


@dataclass
class HandClock:
    """A simulated clock turned by hand: time goes on only when a test says so."""

    time_ms: int
    simulated: bool = True
    rate: float = 1.0
    paused: bool = False
    until_ms: float = float("inf")

    def now_ms(self) -> int:
        return self.time_ms

    def until_next_second_ms(self) -> float:
        return self.until_ms

    def until_next_tick_ms(self) -> float:
        return self.until_ms

    def watch(self) -> None:
        return None

    def pause(self) -> None:
        self.paused = True

    def go(self) -> None:
        self.paused = False

    def set_rate(self, rate: float) -> None:
        self.rate = rate

    def step(self, by_ms: int) -> None:
        self.time_ms += by_ms

    def jump(self, to_ms: int) -> None:
        self.time_ms = to_ms


@dataclass
class FakeDesk:
    """Stands for the desk: `shown` is the view it gives, at whatever second it is asked for."""

    clock: HandClock
    shown: View
    previews: dict[str, Preview] = field(default_factory=dict)
    answers: dict[str, Taken] = field(default_factory=dict)
    page: HandPage = field(default=HandPage())
    rows: list[EntryRow] = field(default_factory=list)
    asked: list[tuple[object, ...]] = field(default_factory=list)
    counted: dict[str, str] = field(default_factory=dict)

    def view(self, now_ms: int) -> View:
        return replace(self.shown, now_ms=now_ms)

    def preview(self, text: str, selected: str, now_ms: int, pick: int = 0) -> Preview:
        self.asked.append(("preview", text, selected, now_ms, pick))
        if not text:
            return Preview()
        found = self.previews.get(text, Preview(headline=f"read: {text}"))
        return replace(found, picked=pick)

    def enter(
        self, text: str, selected: str, now_ms: int, pick: int = 0, *, again: bool = False
    ) -> Taken:
        self.asked.append(("enter", text, selected, now_ms, pick, again))
        if not text:
            return Taken(Answer.NOTHING)
        answer = self.answers.get(text, Taken(Answer.DONE, f"taken: {text}"))
        if answer.answer is Answer.ASKS and again:
            return Taken(Answer.DONE, f"taken all the same: {text}")
        return answer

    def undo(self, now_ms: int) -> Taken:
        self.asked.append(("undo", now_ms))
        return Taken(Answer.DONE, "taken back")

    def redo(self, now_ms: int) -> Taken:
        self.asked.append(("redo", now_ms))
        return Taken(Answer.DONE, "brought back")

    def take_back(self, number: int, now_ms: int) -> Taken:
        self.asked.append(("take_back", number, now_ms))
        self._mark(number, taken_back=True)
        return Taken(Answer.DONE, f"{number} taken back")

    def bring_back(self, number: int, now_ms: int) -> Taken:
        self.asked.append(("bring_back", number, now_ms))
        self._mark(number, taken_back=False)
        return Taken(Answer.DONE, f"{number} brought back")

    def entries(self) -> tuple[EntryRow, ...]:
        return tuple(self.rows)

    def hand_page(self, now_ms: int) -> HandPage:
        self.asked.append(("hand_page", now_ms))
        return self.page

    def place_words(self, item: str, at_ms: int) -> str:
        return f"{item} at {at_ms}"

    def count_words(self, selected: str) -> str:
        return self.counted.get(selected, "")

    def confirm_due(self, now_ms: int) -> Taken:
        self.asked.append(("confirm_due", now_ms))
        return Taken(Answer.DONE, "confirmed")

    def plan_on_disk(self, plan: Plan | PlanProblems, now_ms: int) -> None:
        self.asked.append(("plan_on_disk", plan, now_ms))

    def clock_stepped(self, by_ms: int, slept: bool, now_ms: int) -> None:
        self.asked.append(("clock_stepped", by_ms, slept, now_ms))

    def of(self, what: str) -> list[tuple[object, ...]]:
        """What it was asked of one kind, in order."""
        return [asked for asked in self.asked if asked[0] == what]

    def _mark(self, number: int, *, taken_back: bool) -> None:
        self.rows = [
            replace(row, taken_back=taken_back) if row.number == number else row
            for row in self.rows
        ]
