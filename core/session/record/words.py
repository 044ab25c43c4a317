"""Words that every export of the record shares."""

from collections.abc import Iterable

from core.plan.model import Change
from core.session.record.model import (
    Credit,
    DayRecord,
    EdgeRow,
    Ended,
    EventRow,
    How,
    ItemRow,
    Stood,
)
from core.times.spoken import spoken_zone
from core.times.writing import (
    Style,
    apart_ms,
    clock_text,
    date_text,
    dated_clock_text,
    difference_words,
    short_duration_words,
    weekday_text,
)

EDITORIAL = "For editorial use: not for navigation, range safety or flight control."
REHEARSAL = "REHEARSAL"

_STOOD = {
    Stood.HAPPENED: "",
    Stood.AHEAD: "ahead",
    Stood.UNCONFIRMED: "nobody confirmed it",
    Stood.COMPUTED: "by computation",
    Stood.HELD: "its count was held",
    Stood.CALLED_OFF: "called off",
    Stood.OTHER_OUTCOME: "of an outcome that did not come",
    Stood.UNKNOWN: "no time was known",
    Stood.GONE: "not in the later plan",
}

HOW = {
    How.TYPED: "typed",
    How.FOLLOWS: "followed",
    How.HELD: "slid with a held count",
    How.TAKEN_BACK: "an entry taken back",
    How.BROUGHT_BACK: "an entry brought back",
    How.PLAN: "another plan was taken over",
}
"""Why a time moved."""


def heading(record: DayRecord) -> str:
    """What the record is of."""
    of = f"{record.title}{f', {record.subtitle}' if record.subtitle else ''}"
    return f"Record: {of}"


def about_lines(record: DayRecord) -> tuple[str, ...]:
    """When it is of, in whose clock times, and what it is not for."""
    zone = record.style.zone
    begun, ended = (clock(record, at_ms) for at_ms in (record.begin_ms, record.end_ms))
    lines = [
        f"{_day(record.begin_ms, zone)}, {begun} to {ended}",
        f"Clock times: {spoken_zone(zone)} ({zone})",
    ]
    if record.session:
        lines.append(f"Session: {record.session}")
    if record.sittings:
        lines.append(f"At the desk: {_desk(record)}")
    if record.rehearsal:
        lines.append("A rehearsal on a simulated clock: nothing here has happened")
    return (*lines, EDITORIAL)


def clock(record: DayRecord, at_ms: int | None, otherwise: str = "") -> str:
    """An instant as the desk's clock shows it, with its day where that is not the first one's."""
    return otherwise if at_ms is None else dated_clock_text(at_ms, record.style, record.begin_ms)


def against(row: EventRow) -> str:
    """How it stood against the plan: '46 s later', 'on time', or nothing where one is missing.

    Only what has happened was on time.
    """
    if row.last_ms is None or row.planned_ms is None:
        return ""
    on_time = "" if row.happened_ms is None else "on time"
    return difference_words(apart_ms(row.last_ms, row.planned_ms)) or on_time


def stood(row: EventRow) -> str:
    """How an event stood that has not happened; empty for one that has."""
    return _STOOD[row.stood]


def credit_words(credit: Credit) -> str:
    """'per flight, typed by KM'; what is not known is left out."""
    source = f"per {credit.source}" if credit.source else ""
    by = f"typed by {credit.by}" if credit.by else ""
    return joined((source, by))


def edge_words(row: EdgeRow) -> str:
    """'lost' or 'back', with the station: 'back through Tarn Hill'."""
    word = "back" if row.change is Change.BACK else "lost"
    return f"{word}, {row.ground}" if row.ground else word


def off_words(row: EdgeRow) -> str:
    """By how much an edge was off what was computed."""
    if row.observed_ms is None:
        return "not observed"
    if row.computed_ms is None:
        return "not in the plan"
    return difference_words(apart_ms(row.observed_ms, row.computed_ms)) or "as computed"


def ran_words(row: ItemRow) -> str:
    """How an item ended: 'ran, 8 s over', 'lost: to be made good'."""
    if row.over_ms is None:
        good = ": to be made good" if row.ended is Ended.LOST else ""
        return f"{row.ended}{good}"
    whole_ms = row.over_ms - row.over_ms % 1000 if row.over_ms > 0 else row.over_ms
    if abs(whole_ms) < 1000:
        return f"{row.ended}, to length"
    short = short_duration_words(whole_ms)
    told = f"{row.ended}, {short} {'over' if whole_ms > 0 else 'under'}"
    return f"{told}: to be made good" if row.make_good_ms else told


def in_one_line(text: str) -> str:
    """The text with a space for every sign that no screen shows, or that breaks a line."""
    return "".join(sign if sign.isprintable() else " " for sign in text)


def joined(parts: Iterable[str]) -> str:
    """The parts that are there, with commas."""
    return ", ".join(part for part in parts if part)


def _day(at_ms: int, zone: str) -> str:
    return f"{weekday_text(at_ms, zone)}, {date_text(at_ms, zone)}"


def _desk(record: DayRecord) -> str:
    return "; ".join(
        f"{each.who} from {clock(record, each.from_ms)}"
        f"{f' to {clock(record, each.until_ms)}' if each.until_ms is not None else ''}"
        for each in record.sittings
    )


def minute(at_ms: int, style: Style) -> str:
    """The minute in which an instant falls."""
    return clock_text(at_ms, style, seconds=False)
