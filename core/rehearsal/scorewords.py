"""The score of a rehearsal in words: the same on the page, in the text and wherever it is told."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.plan.model import Plan
from core.rehearsal.answering import Answered
from core.rehearsal.losing import LostMoment
from core.rehearsal.model import Surprises
from core.rehearsal.score import OwedItem, Score
from core.rehearsal.wording import effect_words
from core.times.writing import (
    SECOND_MS,
    Hours,
    Style,
    clock_text,
    dated_clock_text,
    short_duration_words,
)


@dataclass(frozen=True, slots=True)
class Table:
    """One part of the score: its title, its heads, and its rows, or what is said without any."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    empty: str = ""


class ScoreWords:
    """Writes one score; clock times are in the desk's zone, with the day where it is another's."""

    def __init__(
        self, score: Score, day: Surprises, plan: Plan, hours: Hours = Hours.TWELVE
    ) -> None:
        self._score = score
        self._day = day
        self._plan = plan
        self._style = Style(plan.zones[0], hours)
        self._names = {
            **{outcome.id: outcome.name for outcome in plan.outcomes},
            **{each.id: each.name for each in plan.items},
            **{event.id: event.name for event in plan.events},
        }

    def name(self, of: str) -> str:
        """What the plan calls an event or an item; a surprise has its own id only."""
        return self._names.get(of, of)

    def clock(self, at_ms: int) -> str:
        """An instant."""
        return dated_clock_text(at_ms, self._style, self._day.begin_ms)

    def minute(self, at_ms: int) -> str:
        """An instant without its seconds."""
        return clock_text(at_ms, self._style, seconds=False)

    def by_trainer(self) -> tuple[str, ...]:
        """What a trainer did to the day, a line each."""
        return tuple(self._by_trainer())

    def figures(self) -> tuple[tuple[str, str], ...]:
        """The whole of it in a few figures."""
        return tuple(self._figures())

    def tables(self) -> tuple[Table, ...]:
        """All that the figures are made of."""
        return tuple(self._tables())

    def _by_trainer(self) -> Iterator[str]:
        score, told = self._score, {each.id: each for each in self._day.surprises}
        if score.attempt > 1:
            yield f"Attempt {score.attempt}; the earlier ones are left out"
        for word, names in (("Sprung", score.sprung), ("Added", score.added)):
            of = [effect_words(told[name], self._plan) for name in names if name in told]
            if of:
                yield f"{word} by the trainer: {'; '.join(of)}"

    # ------------------------------------------------------------ figures

    def _figures(self) -> Iterator[tuple[str, str]]:
        score = self._score
        asked = [each for each in score.reports if each.right is not None]
        early = sum(each.early_ms is not None for each in score.reports)
        cut_off = sum(each.cut_off for each in score.reports)
        right = [each for each in asked if each.right]
        wrong = [each for each in asked if not each.right and each.after_ms is not None]
        mended = sum(each.mended_ms is not None for each in wrong)
        to_enter = len(asked) + early + cut_off
        yield "Reports", f"{len(score.reports)}, of them {to_enter} to be entered"
        yield "Entered rightly", f"{len(right)}, of them {sum(e.in_time for e in right)} in time"
        yield "Entered wrongly", f"{len(wrong)}, of them {mended} mended"
        yield "Not entered", str(sum(each.after_ms is None for each in asked))
        if early:
            yield "Entered before it was reported", str(early)
        if cut_off:
            yield "The rehearsal ended before", str(cut_off)
        yield "Live moments lost to an item", self._lost_count(score.lost)
        wrong_words = short_duration_words(score.wrong_ms)
        yield "On the air", short_duration_words(score.on_air_ms)
        yield "With a wrong countdown", wrong_words
        yield "Corrections owed", f"{score.corrections_owed}, of them {score.corrections_said} said"
        items = score.owed_items
        ran = sum(each.ran for each in items)
        yield "Breaks and items owed", f"{len(items)}, of them {ran} run" if items else "none"

    def _lost_count(self, lost: Sequence[LostMoment]) -> str:
        if not lost:
            return "none"
        avoidable = sum(not each.unavoidable for each in lost)
        return f"{len(lost)}, of them {avoidable} that could have been kept"

    # ------------------------------------------------------------ tables

    def _tables(self) -> Iterator[Table]:
        score = self._score
        asked = ("Heard", "Report", "Seen after", "Entered after", "How")
        reports = tuple(self._report(each) for each in score.reports)
        yield Table("Reports", asked, reports, "Nothing was reported.")
        why = ("Moment", "Lost to", "For", "Why")
        lost = tuple(self._lost(each) for each in score.lost)
        yield Table("Live moments lost", why, lost, "None was lost to an item.")
        wrong = tuple(self._stretch(low, high) for low, high in score.wrong)
        title = "A wrong countdown on the air"
        yield Table(title, ("From", "Until", "For"), wrong, "There was none.")
        runs = tuple((self.name(e.item), *self._stretch(e.from_ms, e.to_ms)) for e in score.runs)
        yield Table("Items on the air", ("Item", "From", "Until", "For"), runs, "There was none.")
        still = tuple((self.name(event),) for event in score.still_owed)
        yield Table("Corrections still owed", ("Of",), still, "None.")
        owed = tuple(self._owed(each) for each in score.owed_items)
        yield Table("Breaks and items owed", ("Item", "Run", "Note"), owed, "None was owed.")
        if score.troubles:
            troubles = tuple((each,) for each in score.troubles)
            yield Table("What did not hold on the board", ("What",), troubles)

    def _stretch(self, from_ms: int, to_ms: int) -> tuple[str, ...]:
        return (self.clock(from_ms), self.clock(to_ms), _length(to_ms - from_ms))

    def _report(self, each: Answered) -> tuple[str, ...]:
        seen = "not seen" if each.seen_ms is None else _after(each.seen_ms)
        after = "" if each.after_ms is None else _after(each.after_ms)
        return (self.clock(each.at_ms), each.text, seen, after, how(each))

    def _lost(self, each: LostMoment) -> tuple[str, ...]:
        part = "" if each.itself else "before or after it: "
        return (self.name(each.event), self.name(each.item), _length(each.by_ms), part + each.proof)

    def _owed(self, each: OwedItem) -> tuple[str, ...]:
        short = f"{_length(each.short_ms)} short" if each.short_ms else ""
        return (self.name(each.item), "yes" if each.ran else "no", short or each.why)


def how(each: Answered) -> str:
    """How a report was entered: 'right', '1 min later than said; mended after 40 s'."""
    if each.early_ms is not None:
        return f"entered {_length(each.early_ms)} before it was reported"
    if each.cut_off:
        return "the rehearsal ended before"
    if each.right is None:
        return "nothing to enter"
    if each.after_ms is None:
        return "not entered before the next word on it" if each.overtaken else "not entered"
    if each.right:
        return "right" if each.in_time else "right, late"
    wrong = f"{_off(each.off_ms)} than said" if abs(each.off_ms) >= SECOND_MS else "not as said"
    mended = "" if each.mended_ms is None else f"; mended after {_length(each.mended_ms)}"
    return f"{wrong}{mended}"


def _off(by_ms: int) -> str:
    return f"{_length(abs(by_ms))} {'later' if by_ms > 0 else 'earlier'}"


def _length(length_ms: int) -> str:
    return short_duration_words(length_ms)


def _after(length_ms: int) -> str:
    return "at once" if length_ms < SECOND_MS else _length(length_ms)
