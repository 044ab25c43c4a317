"""The day in a few lines: how many, how far off, what is still to be made good."""

from collections import Counter
from collections.abc import Iterator

from core.board.words import listed
from core.session.record.model import Closed, DayRecord, Ended, EventRow, Stood
from core.times.writing import SECOND_MS, apart_ms, difference_words, short_duration_words

_STOOD = {
    Stood.HAPPENED: "happened",
    Stood.COMPUTED: "by computation",
    Stood.UNCONFIRMED: "nobody confirmed",
    Stood.AHEAD: "ahead",
    Stood.HELD: "held",
    Stood.CALLED_OFF: "called off",
    Stood.OTHER_OUTCOME: "of an outcome that did not come",
    Stood.UNKNOWN: "without a time",
    Stood.GONE: "not in the later plan",
}


def glance(record: DayRecord) -> tuple[str, ...]:
    """The lines; none about what there was not."""
    return (
        *_events(record),
        *_signal(record),
        *_air(record),
        *_corrections(record),
        *_promises(record),
    )


def _events(record: DayRecord) -> Iterator[str]:
    if not record.events:
        return
    counts = Counter(row.stood for row in record.events)
    told = [f"{counts[stood]} {word}" for stood, word in _STOOD.items() if counts[stood]]
    yield f"Events: {len(record.events)}, of them {listed(told, most=len(told))}"
    today = (row for row in record.events if record.begin_ms <= (row.happened_ms or 0))
    off = max(today, key=lambda row: abs(_off_ms(row)), default=None)
    if off is not None and (words := difference_words(_off_ms(off))):
        yield f"Furthest from the plan in the session: {off.name}, {words}"


def _off_ms(row: EventRow) -> int:
    if row.happened_ms is None or row.planned_ms is None:
        return 0
    return apart_ms(row.happened_ms, row.planned_ms)


def _signal(record: DayRecord) -> Iterator[str]:
    if not record.edges:
        return
    observed = [row for row in record.edges if row.observed_ms is not None]
    computed = [row.off_ms for row in observed if row.off_ms is not None]
    told = f"Edges of the signal: {len(observed)} of {len(record.edges)} observed"
    extra = len(observed) - len(computed)
    told += f", {extra} of them not in the plan" if extra else ""
    most_ms = max((abs(off_ms) for off_ms in computed), default=0)
    if most_ms >= SECOND_MS:
        told += f"; at most {short_duration_words(most_ms)} off what was computed"
    yield told


def _air(record: DayRecord) -> Iterator[str]:
    if not record.items:
        return
    ran = sum(row.ended in (Ended.RAN, Ended.ON_AIR) for row in record.items)
    yield f"Items: {ran} of {len(record.items)} ran"
    good = [row for row in record.items if row.make_good_ms]
    if good:
        length = short_duration_words(sum(row.make_good_ms for row in good))
        yield f"To be made good: {length} ({listed([row.name for row in good])})"
    owed = [row.name for row in record.items if row.ended is Ended.OWED]
    if owed:
        yield f"Still owed: {listed(owed)}"


def _promises(record: DayRecord) -> Iterator[str]:
    kept = sum(row.kept_ms is not None for row in record.promises)
    if record.promises:
        yield f"Promises to the audience: {len(record.promises)}, {kept} kept"


def _corrections(record: DayRecord) -> Iterator[str]:
    if not record.corrections:
        return
    counts = Counter(row.closed for row in record.corrections)
    told = [f"{counts[closed]} {closed}" for closed in Closed if counts[closed]]
    yield f"Corrections owed to the audience: {len(record.corrections)}, {', '.join(told)}"
