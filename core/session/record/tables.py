"""The record as tables of words, a subject each; text, HTML and paper are laid out from them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from core.session.record.happenings import tellings
from core.session.record.model import ClockRow, DayRecord, How, Move
from core.session.record.words import (
    HOW,
    against,
    clock,
    edge_words,
    joined,
    off_words,
    ran_words,
    stood,
)
from core.times.writing import apart_ms, difference_words, short_duration_words

Rows = Sequence[Sequence[str]]


@dataclass(frozen=True, slots=True)
class Part:
    """A table under its title; no row and no heading is longer or shorter than the others.

    A column that has no text in any row is left out. Clock times are held together by spaces that
    do not break.
    """

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def firm(self) -> tuple[bool, ...]:
        """Which columns have clock times that are better not broken."""
        return tuple(any(FIRM in row[at] for row in self.rows) for at in range(len(self.head)))


FIRM = "\N{NO-BREAK SPACE}"
"""Holds a clock time together where a cell wraps."""


def parts(record: DayRecord) -> tuple[Part, ...]:
    """All tables in which there is anything to tell."""
    writer = _Writer(record)
    found = (_part(title, rows) for title, rows in writer.all())
    return tuple(part for part in found if part is not None)


def _part(title: str, rows: Rows) -> Part | None:
    head, *others = rows
    if not others:
        return None
    used = [at for at in range(len(head)) if any(row[at] for row in others)]
    return Part(
        title,
        tuple(head[at] for at in used),
        tuple(tuple(row[at] for at in used) for row in others),
    )


class _Writer:
    """Writes the tables, each with its heading row first."""

    def __init__(self, record: DayRecord) -> None:
        self._record = record

    def all(self) -> Iterator[tuple[str, Rows]]:
        """Every table under its title, in the order of the record."""
        yield "Events", self._events()
        yield "How times moved", self._moves()
        yield "Times told to the audience", self._told()
        yield "Corrections", self._corrections()
        yield "Signal", self._edges()
        yield "On the air", self._items()
        yield "The network had the air", self._away()
        yield "Outcomes", self._outcomes()
        yield "Check-offs", self._checks()
        yield "Promises to the audience", self._promises()
        yield "Notes", self._notes()
        yield "Taken back", self._turned()
        yield "The machine's clock", self._clocks()
        yield "All entries", self._log()

    def _at(self, at_ms: int | None, otherwise: str = "") -> str:
        return clock(self._record, at_ms, otherwise).replace(" ", FIRM)

    def _events(self) -> Rows:
        head = ("Event", "Planned", "Expected", "Said", "Happened", "Against plan", "Per", "By")
        rows = [
            (
                row.name,
                self._at(row.planned_ms),
                self._at(row.expected_ms),
                self._at(row.said_ms),
                self._at(row.happened_ms),
                joined((against(row), stood(row))),
                row.credit.source,
                row.credit.by,
            )
            for row in self._record.events
        ]
        return [head, *rows]

    def _moves(self) -> Rows:
        head = ("Typed", "Event", "From", "To", "Moved", "How", "Per", "By")
        rows: list[Sequence[str]] = [head]
        for _, group in groupby(
            self._record.moves, key=lambda m: (m.credit.number, m.credit.at_ms)
        ):
            rows += self._of_one(list(group))
        return rows

    def _of_one(self, moves: Sequence[Move]) -> Iterator[Sequence[str]]:
        """What one entry moved: what was typed first, of what followed alike one for all."""
        own = [move for move in moves if move.how is not How.FOLLOWS]
        yield from (self._move(move, HOW[move.how]) for move in own)
        alike: dict[str, list[Move]] = {}
        for move in moves:
            if move.how is How.FOLLOWS:
                alike.setdefault(_moved(move), []).append(move)
        for group in alike.values():
            more = f"followed, with {len(group) - 1} more" if len(group) > 1 else "followed"
            yield self._move(group[0], more)

    def _move(self, move: Move, how: str) -> Sequence[str]:
        return (
            self._at(move.credit.at_ms),
            self._record.name(move.event),
            self._at(move.from_ms, "no time"),
            self._at(move.to_ms, "no time"),
            _moved(move),
            how,
            move.credit.source,
            move.credit.by,
        )

    def _told(self) -> Rows:
        rows = [
            (
                self._at(each.credit.at_ms),
                self._record.name(each.event),
                self._at(each.told_ms, "no time"),
                "" if each.stands else "taken back",
                each.credit.by,
            )
            for each in tellings(self._record.events)
        ]
        return [("Said at", "Event", "Told", "", "By"), *rows]

    def _corrections(self) -> Rows:
        rows = [
            (
                self._at(row.owed.at_ms),
                row.name,
                self._at(row.told_ms),
                self._at(row.now_ms, row.why or "no time"),
                str(row.closed),
                self._at(None if row.closing is None else row.closing.at_ms),
                "" if row.closing is None else row.closing.by,
            )
            for row in self._record.corrections
        ]
        return [("Owed from", "Event", "Had been told", "Was", "Became", "At", "By"), *rows]

    def _edges(self) -> Rows:
        names = {lane.id: lane.name for lane in self._record.lanes}
        rows = [
            (
                names.get(row.lane, row.lane),
                edge_words(row),
                self._at(row.computed_ms),
                self._at(row.given_ms),
                self._at(row.observed_ms),
                off_words(row),
                row.cause,
                row.outcome,
                row.credit.source,
                row.credit.by,
            )
            for row in self._record.edges
        ]
        head = (
            *("Lane", "Edge", "Computed", "Given", "Observed", "Difference"),
            *("Cause", "Outcome", "Per", "By"),
        )
        return [head, *rows]

    def _items(self) -> Rows:
        rows = [
            (
                row.name,
                row.kind,
                row.sponsor,
                short_duration_words(row.length_ms),
                self._at(row.from_ms),
                self._at(row.to_ms),
                ran_words(row),
                short_duration_words(row.make_good_ms) if row.make_good_ms else "",
                row.credit.by,
            )
            for row in self._record.items
        ]
        head = (
            "Item", "Kind", "Sponsor", "Length", "From", "To", "How it went", "Make good", "By"
        )  # fmt: skip
        return [head, *rows]

    def _away(self) -> Rows:
        rows = [(self._at(a.from_ms), self._at(a.until_ms, "open")) for a in self._record.away]
        return [("From", "Until"), *rows]

    def _outcomes(self) -> Rows:
        rows = [
            (
                self._at(row.credit.at_ms),
                row.of,
                "open again" if row.open_again else row.outcome,
                "" if row.stands else "taken back",
                row.credit.source,
                row.credit.by,
            )
            for row in self._record.outcomes
        ]
        return [("Typed", "Event", "Outcome named", "", "Per", "By"), *rows]

    def _checks(self) -> Rows:
        rows = [
            (self._at(row.credit.at_ms), row.words, row.credit.source, row.credit.by)
            for row in self._record.checks
        ]
        return [("Last heard", "Check-off", "Per", "By"), *rows]

    def _promises(self) -> Rows:
        rows = [
            (
                self._at(row.credit.at_ms),
                row.text,
                self._at(row.kept_ms, "not kept"),
                row.credit.by,
            )
            for row in self._record.promises
        ]
        return [("Promised", "What", "Kept", "By"), *rows]

    def _notes(self) -> Rows:
        rows = [
            (
                self._at(row.credit.at_ms),
                row.words,
                "" if row.stands else "taken back",
                row.credit.source,
                row.credit.by,
            )
            for row in self._record.notes
        ]
        return [("Typed", "Note", "", "Per", "By"), *rows]

    def _turned(self) -> Rows:
        rows = [
            (
                self._at(row.credit.at_ms),
                "brought back" if row.back_again else "taken back",
                str(row.number),
                row.words,
                row.credit.by,
            )
            for row in self._record.turned
        ]
        return [("At", "", "Entry", "What it said", "By"), *rows]

    def _clocks(self) -> Rows:
        rows = [
            (
                self._at(row.credit.at_ms),
                _clock_words(row),
            )
            for row in self._record.clock
        ]
        return [("At", "What it did"), *rows]

    def _log(self) -> Rows:
        rows = [
            (
                str(row.credit.number),
                self._at(row.credit.at_ms),
                row.typed,
                row.words,
                joined(("" if row.stands else "taken back", "set anyway" if row.forced else "")),
                row.credit.source,
                row.credit.by,
            )
            for row in self._record.log
        ]
        return [("No", "At", "Typed", "Read as", "", "Per", "By"), *rows]


def _clock_words(row: ClockRow) -> str:
    by = short_duration_words(row.by_ms)
    if row.slept:
        return f"slept for {by}"
    return f"put {'forward' if row.by_ms > 0 else 'back'} by {by}"


def _entry(move: Move) -> tuple[int, int | None]:
    return move.credit.number, move.credit.at_ms


def _moved(move: Move) -> str:
    """By how much; a time that came or went says so."""
    if move.from_ms is None:
        return "has a time"
    if move.to_ms is None:
        return "no time any more"
    return difference_words(apart_ms(move.to_ms, move.from_ms))
