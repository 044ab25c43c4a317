"""The record as plain text, for the desk's own file: at most a hundred characters a line."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from core.session.record.columns import paragraph, table
from core.session.record.happenings import tellings
from core.session.record.model import DayRecord, How, Move
from core.session.record.words import (
    HOW,
    REHEARSAL,
    about_lines,
    against,
    clock,
    edge_words,
    heading,
    joined,
    off_words,
    ran_words,
    stood,
)
from core.times.writing import apart_ms, difference_words, short_duration_words

WIDTH = 100

_FIRM = "\N{NO-BREAK SPACE}"
"""Holds a clock time together where a cell wraps."""

Rows = Sequence[Sequence[str]]


def record_text(record: DayRecord) -> str:
    """The whole record. Of a rehearsal every line says so."""
    mark = f"{REHEARSAL}  " if record.rehearsal else ""
    lines = _Writer(record, WIDTH - len(mark)).lines()
    return "".join(f"{mark}{line}".rstrip().replace(_FIRM, " ") + "\n" for line in lines)


class _Writer:
    def __init__(self, record: DayRecord, width: int) -> None:
        self._record = record
        self._width = width

    def lines(self) -> Iterator[str]:
        yield from paragraph(heading(self._record), self._width)
        for line in about_lines(self._record):
            yield from paragraph(line, self._width)
        yield from self._part("EVENTS", self._events())
        yield from self._part("HOW TIMES MOVED", self._moves())
        yield from self._part("TIMES TOLD TO THE AUDIENCE", self._told())
        yield from self._part("CORRECTIONS", self._corrections())
        yield from self._part("SIGNAL", self._edges())
        yield from self._part("ON THE AIR", self._items())
        yield from self._part("THE NETWORK HAD THE AIR", self._away())
        yield from self._part("OUTCOMES", self._outcomes())
        yield from self._part("CHECK-OFFS", self._checks())
        yield from self._part("NOTES", self._notes())
        yield from self._part("TAKEN BACK", self._turned())
        yield from self._part("THE MACHINE'S CLOCK", self._clocks())
        yield from self._part("ALL ENTRIES", self._log())

    def _part(self, title: str, rows: Rows) -> Iterator[str]:
        """A table under its title; nothing where there is nothing to tell."""
        if len(rows) > 1:
            yield from ("", title)
            yield from table(rows, self._width)

    def _at(self, at_ms: int | None, otherwise: str = "") -> str:
        return clock(self._record, at_ms, otherwise).replace(" ", _FIRM)

    def _events(self) -> Rows:
        head = ("EVENT", "PLANNED", "EXPECTED", "SAID", "HAPPENED", "AGAINST PLAN", "PER", "BY")
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
        head = ("TYPED", "EVENT", "FROM", "TO", "MOVED", "HOW", "PER", "BY")
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
        return [("SAID AT", "EVENT", "TOLD", "", "BY"), *rows]

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
        return [("OWED FROM", "EVENT", "HAD BEEN TOLD", "WAS", "BECAME", "AT", "BY"), *rows]

    def _edges(self) -> Rows:
        names = {lane.id: lane.name for lane in self._record.lanes}
        rows = [
            (
                names.get(row.lane, row.lane),
                edge_words(row),
                self._at(row.computed_ms),
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
            "LANE", "EDGE", "COMPUTED", "OBSERVED", "DIFFERENCE", "CAUSE", "OUTCOME", "PER", "BY"
        )  # fmt: skip
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
            "ITEM", "KIND", "SPONSOR", "LENGTH", "FROM", "TO", "HOW IT WENT", "MAKE GOOD", "BY"
        )  # fmt: skip
        return [head, *rows]

    def _away(self) -> Rows:
        rows = [(self._at(a.from_ms), self._at(a.until_ms, "open")) for a in self._record.away]
        return [("FROM", "UNTIL"), *rows]

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
        return [("TYPED", "EVENT", "OUTCOME NAMED", "", "PER", "BY"), *rows]

    def _checks(self) -> Rows:
        rows = [
            (self._at(row.credit.at_ms), row.words, row.credit.source, row.credit.by)
            for row in self._record.checks
        ]
        return [("LAST HEARD", "CHECK-OFF", "PER", "BY"), *rows]

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
        return [("TYPED", "NOTE", "", "PER", "BY"), *rows]

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
        return [("AT", "", "ENTRY", "WHAT IT SAID", "BY"), *rows]

    def _clocks(self) -> Rows:
        rows = [
            (
                self._at(row.credit.at_ms),
                f"slept for {short_duration_words(row.by_ms)}"
                if row.slept
                else f"put {'forward' if row.by_ms > 0 else 'back'} by "
                f"{short_duration_words(row.by_ms)}",
            )
            for row in self._record.clock
        ]
        return [("AT", "WHAT IT DID"), *rows]

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
        return [("NO", "AT", "TYPED", "READ AS", "", "PER", "BY"), *rows]


def _entry(move: Move) -> tuple[int, int | None]:
    return move.credit.number, move.credit.at_ms


def _moved(move: Move) -> str:
    """By how much; a time that came or went says so."""
    if move.from_ms is None:
        return "has a time"
    if move.to_ms is None:
        return "no time any more"
    return difference_words(apart_ms(move.to_ms, move.from_ms))
