"""What was typed, line by line, and what of it stands in lists of its own."""

from collections.abc import Sequence

from core.board.checkoffs import check_words
from core.board.words import Names
from core.entries.airing import Count
from core.entries.at_desk import turns
from core.entries.model import (
    BringBack,
    Choose,
    ClockStep,
    Entry,
    Note,
    TakeBack,
    Undecide,
)
from core.entries.promised import promised
from core.plan.model import Plan
from core.session.record.happenings import credit_of
from core.session.record.model import (
    CheckRow,
    ClockRow,
    Credit,
    LogRow,
    OutcomeRow,
    PromiseRow,
    Sitting,
    TurnedRow,
)
from core.session.record.words import in_one_line
from core.session.turning import told_as
from core.times.writing import Style


class Typed:
    """The entries of a day, with those of them that stand at its end."""

    def __init__(
        self, entries: Sequence[Entry], standing: Sequence[Entry], names: Names, style: Style
    ) -> None:
        self._entries = entries
        self._standing = standing
        self._stand = {entry.number for entry in standing}
        self._names = names
        self._style = style

    def log(self) -> tuple[LogRow, ...]:
        """Every entry. What only takes one back, or brings one back, stands too."""
        return tuple(
            LogRow(
                in_one_line(entry.typed),
                self._words(entry),
                entry.number in self._stand or isinstance(entry.action, TakeBack | BringBack),
                entry.forced,
                isinstance(entry.action, Note),
                credit_of(entry),
            )
            for entry in self._entries
        )

    def turned(self) -> tuple[TurnedRow, ...]:
        """What was taken back, and brought back."""
        return tuple(
            TurnedRow(
                entry.action.number,
                self._words(entry).partition(": ")[2],
                isinstance(entry.action, BringBack),
                credit_of(entry),
            )
            for entry in self._entries
            if isinstance(entry.action, TakeBack | BringBack)
        )

    def clock(self) -> tuple[ClockRow, ...]:
        """Steps and sleeps of the machine's clock."""
        return tuple(
            ClockRow(entry.action.by_ms, entry.action.slept, credit_of(entry))
            for entry in self._entries
            if isinstance(entry.action, ClockStep)
        )

    def outcomes(self, plan: Plan) -> tuple[OutcomeRow, ...]:
        """What sources named, in order; what was taken back since is marked."""
        of = {outcome.id: outcome.of for outcome in plan.outcomes}
        named = {outcome.id: outcome.name for outcome in plan.outcomes}
        return tuple(
            OutcomeRow(
                named.get(entry.action.outcome, entry.action.outcome),
                self._names(of.get(entry.action.outcome, "")),
                isinstance(entry.action, Undecide),
                entry.number in self._stand,
                credit_of(entry),
            )
            for entry in self._entries
            if isinstance(entry.action, Choose | Undecide)
        )

    def checks(self, plan: Plan) -> tuple[CheckRow, ...]:
        """The plan's check-offs that were heard of, as they stand."""
        last = {
            entry.action.checkoff: (entry, entry.action)
            for entry in self._standing
            if isinstance(entry.action, Count)
        }
        return tuple(
            CheckRow(
                each.id,
                each.name,
                last[each.id][1].count,
                each.count,
                each.enough,
                check_words(each, last[each.id][1]).text,
                credit_of(last[each.id][0]),
            )
            for each in plan.checkoffs
            if each.id in last
        )

    def promises(self) -> tuple[PromiseRow, ...]:
        """What was promised to the audience, in order."""
        return tuple(
            PromiseRow(p.text, p.kept_ms, Credit(p.number, p.at_ms, by=p.by))
            for p in promised(self._standing)
        )

    def sittings(self) -> tuple[Sitting, ...]:
        """Who was at the desk, as far as they signed in."""
        return tuple(Sitting(t.who, t.from_ms, t.until_ms) for t in turns(self._standing))

    def _words(self, entry: Entry) -> str:
        return told_as(entry, self._entries, self._names, self._style)
