"""The record as one table of comma-separated values (RFC 4180, UTF-8), a line for each thing.

The first line names the columns, the first word of each other line its kind: about, event, move,
said, correction, edge, item, away, outcome, check, promise, note, taken-back, clock, desk, entry.
Instants stand twice: in RFC 3339 (UTC, milliseconds) and, beside it, as the desk's clocks show it,
to the second. Lengths and differences are seconds. What a kind has not is empty.
"""

import csv
import io
from collections.abc import Iterator

from core.plan.model import Change
from core.session.record.happenings import tellings
from core.session.record.model import Credit, DayRecord, EdgeRow
from core.session.record.words import EDITORIAL, REHEARSAL, clock, joined, stood
from core.times.instants import ms_to_rfc3339
from core.times.writing import floor_second_ms, local_time

INSTANTS = ("typed_at", "planned", "expected", "said", "happened", "from", "to")
"""The columns that hold instants; each has a second one, with _local behind its name."""

COLUMNS = (
    "kind", "rehearsal", "number", "typed_at", "typed_at_local", "source", "by", "id", "name",
    "lane", "planned", "planned_local", "expected", "expected_local", "said", "said_local",
    "happened", "happened_local", "from", "from_local", "to", "to_local", "difference_s",
    "length_s", "make_good_s", "sponsor", "state", "typed", "text",
)  # fmt: skip
"""The header row."""

Cells = dict[str, object]


def record_csv(record: DayRecord) -> str:
    """The whole record; of a rehearsal every line says so."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, restval="", lineterminator="\r\n")
    writer.writeheader()
    mark = REHEARSAL if record.rehearsal else ""
    for cells in _lines(record):
        writer.writerow({"rehearsal": mark, **_written(cells, record.style.zone)})
    return out.getvalue()


def _written(cells: Cells, zone: str) -> dict[str, str]:
    """The cells as text: every instant twice, what is not known not at all."""
    told: dict[str, str] = {}
    for name, value in cells.items():
        if value is None:
            continue
        if name in INSTANTS and isinstance(value, int):
            told[name] = ms_to_rfc3339(value)
            there = local_time(floor_second_ms(value), zone)
            told[f"{name}_local"] = there.replace(tzinfo=None).isoformat(sep=" ")
        else:
            told[name] = str(value)
    return told


def _lines(record: DayRecord) -> Iterator[Cells]:
    yield {
        "kind": "about",
        "id": record.session,
        "name": joined((record.title, record.subtitle)),
        "from": record.begin_ms,
        "to": record.end_ms,
        "state": record.style.zone,
        "text": EDITORIAL,
    }
    yield from _events(record)
    yield from _moves(record)
    yield from _told(record)
    yield from _edges(record)
    yield from _programme(record)
    yield from _heard(record)
    yield from _promises(record)
    yield from _log(record)


def _credit(credit: Credit) -> Cells:
    number = credit.number or None
    return {
        "number": number, "typed_at": credit.at_ms, "source": credit.source, "by": credit.by
    }  # fmt: skip


def _events(record: DayRecord) -> Iterator[Cells]:
    for row in record.events:
        last_ms, planned_ms = row.last_ms, row.planned_ms
        yield {
            "kind": "event",
            **_credit(row.credit),
            "id": row.id,
            "name": row.name,
            "planned": planned_ms,
            "expected": row.expected_ms,
            "said": row.said_ms,
            "happened": row.happened_ms,
            "difference_s": _apart_s(last_ms, planned_ms),
            "state": row.stood,
            "text": joined((stood(row), row.outcome, "added at the desk" if row.added else "")),
        }


def _moves(record: DayRecord) -> Iterator[Cells]:
    for move in record.moves:
        yield {
            "kind": "move",
            **_credit(move.credit),
            "id": move.event,
            "name": record.name(move.event),
            "from": move.from_ms,
            "to": move.to_ms,
            "difference_s": _apart_s(move.to_ms, move.from_ms),
            "state": move.how,
        }


def _told(record: DayRecord) -> Iterator[Cells]:
    for each in tellings(record.events):
        yield {
            "kind": "said",
            **_credit(each.credit),
            "id": each.event,
            "name": record.name(each.event),
            "said": each.told_ms,
            "state": "" if each.stands else "taken back",
            "text": each.text,
        }
    for row in record.corrections:
        yield {
            "kind": "correction",
            **_credit(row.owed),
            "id": row.event,
            "name": row.name,
            "said": row.told_ms,
            "expected": row.now_ms,
            "from": row.owed.at_ms,
            "to": None if row.closing is None else row.closing.at_ms,
            "state": row.closed,
            "text": row.why,
        }


def _edges(record: DayRecord) -> Iterator[Cells]:
    names = {lane.id: lane.name for lane in record.lanes}
    for row in record.edges:
        word = "back" if row.change is Change.BACK else "lost"
        yield {
            "kind": "edge",
            **_credit(row.credit),
            "id": row.id,
            "name": f"{names.get(row.lane, row.lane)} {word}",
            "lane": row.lane,
            "expected": row.computed_ms,
            "happened": row.observed_ms,
            "difference_s": _apart_s(row.observed_ms, row.computed_ms),
            "state": word,
            "text": joined((row.ground, row.cause, row.outcome, _given(record, row))),
        }


def _given(record: DayRecord, row: EdgeRow) -> str:
    """'given 4:48:33 p.m.': a source's figure for an edge, where there was one."""
    return "" if row.given_ms is None else f"given {clock(record, row.given_ms)}"


def _programme(record: DayRecord) -> Iterator[Cells]:
    for row in record.items:
        yield {
            "kind": "item",
            **_credit(row.credit),
            "id": row.id,
            "name": row.name,
            "planned": row.placed_ms,
            "from": row.from_ms,
            "to": row.to_ms,
            "difference_s": _seconds(row.over_ms),
            "length_s": _seconds(row.length_ms),
            "make_good_s": _seconds(row.make_good_ms or None),
            "sponsor": row.sponsor,
            "state": row.ended,
            "text": joined((row.kind, "owed" if row.owed else "")),
        }
    for away in record.away:
        yield {"kind": "away", "from": away.from_ms, "to": away.until_ms}


def _heard(record: DayRecord) -> Iterator[Cells]:
    for named in record.outcomes:
        yield {
            "kind": "outcome",
            **_credit(named.credit),
            "name": named.of,
            "state": "" if named.stands else "taken back",
            "text": f"open again: {named.outcome}" if named.open_again else named.outcome,
        }
    for check in record.checks:
        yield {
            "kind": "check",
            **_credit(check.credit),
            "id": check.id,
            "name": check.name,
            "state": f"{check.heard} of {check.count}",
            "text": check.words,
        }


def _promises(record: DayRecord) -> Iterator[Cells]:
    for row in record.promises:
        yield {
            "kind": "promise",
            **_credit(row.credit),
            "to": row.kept_ms,
            "state": "not kept" if row.kept_ms is None else "kept",
            "text": row.text,
        }


def _log(record: DayRecord) -> Iterator[Cells]:
    for step in record.clock:
        yield {
            "kind": "clock",
            **_credit(step.credit),
            "difference_s": _seconds(step.by_ms),
            "state": "slept" if step.slept else "put",
        }
    for sitting in record.sittings:
        yield {
            "kind": "desk", "by": sitting.who, "from": sitting.from_ms, "to": sitting.until_ms
        }  # fmt: skip
    for turned in record.turned:
        yield {
            "kind": "taken-back",
            **_credit(turned.credit),
            "id": turned.number,
            "state": "brought back" if turned.back_again else "taken back",
            "text": turned.words,
        }
    for row in record.log:
        yield {
            "kind": "note" if row.note else "entry",
            **_credit(row.credit),
            "state": joined(
                ("" if row.stands else "taken back", "set anyway" if row.forced else "")
            ),
            "typed": row.typed,
            "text": row.words,
        }


def _apart_s(later_ms: int | None, earlier_ms: int | None) -> float | None:
    return None if later_ms is None or earlier_ms is None else _seconds(later_ms - earlier_ms)


def _seconds(length_ms: int | None) -> float | None:
    return None if length_ms is None else length_ms / 1000
