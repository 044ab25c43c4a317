"""Corrections of the day: from which entry on each was owed to the audience, and what became of it.

Whether one is owed is asked of the board itself, after each entry.
"""

from dataclasses import replace

from core.entries.airing import MarkSaid, Waive
from core.entries.model import Entry
from core.saying.situations import Correction
from core.session.record.happenings import credit_of
from core.session.record.model import Closed, CorrectionRow
from core.session.record.replay import Step


class Corrections:
    """Follows the steps of a day."""

    def __init__(self) -> None:
        self._open: dict[str, CorrectionRow] = {}
        self._closed: list[CorrectionRow] = []

    def follow(self, step: Step) -> None:
        """Take one more step."""
        now = {each.named.event: each for each in step.owed}
        for event in [name for name in self._open if name not in now]:
            row = self._open.pop(event)
            credit = credit_of(step.entry)
            self._closed.append(replace(row, closed=_closed(step.entry, event), closing=credit))
        for event, owed in now.items():
            known = self._open.get(event)
            if known is None:
                self._open[event] = _row(owed, step.entry)
            else:
                self._open[event] = replace(known, now_ms=owed.now_at_ms, why=owed.why)

    def rows(self) -> tuple[CorrectionRow, ...]:
        """All of them, in the order in which they came to be owed."""
        found = [*self._closed, *self._open.values()]
        return tuple(sorted(found, key=lambda row: row.owed.number))


def _row(owed: Correction, entry: Entry) -> CorrectionRow:
    named = owed.named
    return CorrectionRow(
        named.event,
        named.name,
        owed.said_at_ms,
        owed.now_at_ms,
        owed.why,
        credit_of(entry),
        Closed.OWED,
    )


def _closed(entry: Entry, event: str) -> Closed:
    match entry.action:
        case MarkSaid(times=times) if any(told == event for told, _ in times):
            return Closed.SAID
        case Waive(events) if event in events:
            return Closed.WAIVED
        case _:
            return Closed.LAPSED
