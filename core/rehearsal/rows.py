"""The rows of the trainer's timeline: what the desk was told, what it will be, and marks."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from core.board.model import Said, Tone
from core.rehearsal.live import LiveRun
from core.rehearsal.marks import Key, Mark, keyed
from core.rehearsal.model import Surprise
from core.rehearsal.reports import Report
from core.rehearsal.score import Answered, Score
from core.rehearsal.scorewords import how
from core.rehearsal.wording import at_desk, effect_words, lines_words
from core.times.writing import apart_ms, clock_text, duration_words, short_duration_words


class Of(StrEnum):
    """What a row of the timeline is."""

    SURPRISE = "surprise"
    FLIGHT = "flight"
    MARK = "mark"


@dataclass(frozen=True, slots=True)
class Row:
    """One row: when the desk hears it and how far that is, what it is, and how it stands.

    `at_ms` is None for what waits for an item. `surprise` can be sprung now, `mark` gone back to.
    `more` are lines for whoever selects it.
    """

    key: str
    of: Of
    at_ms: int | None
    clock: str
    away: str
    what: str
    stands: Said
    past: bool
    surprise: str = ""
    mark: Mark | None = None
    more: tuple[str, ...] = ()


def rows_of(run: LiveRun, score: Score) -> tuple[tuple[Row, ...], int]:
    """All rows in order of time, and how many of them are past."""
    heard = [each.report for each in run.record.heard]
    keys = [key for key, _ in keyed((*heard, *run.coming, *run.inside))]
    past = [*_heard(run, score, keys), *_silent(run, past=True), *_marks(run)]
    ahead = [*_ahead(run, keys[len(heard) :]), *_silent(run, past=False), *_ignored(run)]
    rows = (*sorted(past, key=_order), *sorted(ahead, key=_order))
    return rows, len(past)


def _order(row: Row) -> tuple[bool, int, bool]:
    """In order of time; a mark before what came at its instant."""
    return row.at_ms is None, row.at_ms or 0, row.of is not Of.MARK


def _heard(run: LiveRun, score: Score, keys: list[Key]) -> Iterator[Row]:
    """What the desk was told, and what it has made of it."""
    marks = {mark.report: mark for mark in run.marks if mark.report is not None}
    told = zip(run.record.heard, score.reports, keys, strict=False)
    for heard, answer, key in told:
        yield Row(
            key=_text(key),
            of=Of.SURPRISE if heard.report.surprise else Of.FLIGHT,
            at_ms=heard.at_ms,
            clock=clock_text(heard.at_ms, run.style),
            away=_away(heard.at_ms, run.now_ms),
            what=at_desk(heard.report, run.plan, run.style),
            stands=stands(answer, run.now_ms),
            past=True,
            mark=marks.get(key),
            more=_more(heard.report, run),
        )


def _ahead(run: LiveRun, keys: list[Key]) -> Iterator[Row]:
    """What the desk will be told, in order of time, then what waits for an item."""
    for report, key in zip((*run.coming, *run.inside), keys, strict=True):
        inside = next((i.name for i in run.plan.items if i.id == report.inside), "")
        at_ms = None if inside else report.at_ms
        wait = f"{short_duration_words(report.at_ms)} into {inside}"
        can = bool(report.surprise) and run.can_spring(report.surprise)
        yield Row(
            key=_text(key),
            of=Of.SURPRISE if report.surprise else Of.FLIGHT,
            at_ms=at_ms,
            clock="" if at_ms is None else clock_text(at_ms, run.style),
            away=wait if at_ms is None else _away(at_ms, run.now_ms),
            what=at_desk(report, run.plan, run.style),
            stands=_to_come(report, run),
            past=False,
            surprise=report.surprise if can else "",
            more=_more(report, run),
        )


def _text(key: Key) -> str:
    return "/".join(map(str, key))


def _silent(run: LiveRun, *, past: bool) -> Iterator[Row]:
    """Surprises of which nobody says anything: what they do is heard as it happens."""
    told = {report.surprise for report in run.truth.reports}
    sprung = dict(run.truth.sprung)
    for surprise in run.day.surprises:
        at_ms = sprung.get(surprise.id)
        if at_ms is None or surprise.id in told or (at_ms <= run.now_ms) is not past:
            continue
        if at_ms <= run.day.end_ms:
            yield _of_surprise(surprise, at_ms, run, Said("nobody says so", Tone.QUIET))


def _ignored(run: LiveRun) -> Iterator[Row]:
    """Surprises that could not be brought into the flight."""
    for surprise in run.day.surprises:
        if surprise.id in run.truth.ignored:
            yield _of_surprise(surprise, None, run, Said("cannot happen", Tone.CLASH))


def _of_surprise(surprise: Surprise, at_ms: int | None, run: LiveRun, how: Said) -> Row:
    past = at_ms is not None and at_ms <= run.now_ms
    return Row(
        key=f"silent/{surprise.id}",
        of=Of.SURPRISE,
        at_ms=at_ms,
        clock="" if at_ms is None else clock_text(at_ms, run.style),
        away="" if at_ms is None else _away(at_ms, run.now_ms),
        what=effect_words(surprise, run.plan),
        stands=how,
        past=past,
        surprise="" if past else surprise.id,
        more=(f"Surprise '{surprise.id}'",),
    )


def _marks(run: LiveRun) -> Iterator[Row]:
    """The marks that the trainer has set."""
    return (_of_mark(mark, run) for mark in run.marks if mark.report is None)


def _of_mark(mark: Mark, run: LiveRun) -> Row:
    return Row(
        key=f"mark/{mark.number}",
        of=Of.MARK,
        at_ms=mark.at_ms,
        clock=clock_text(mark.at_ms, run.style),
        away=_away(mark.at_ms, run.now_ms),
        what=mark.name,
        stands=Said(""),
        past=True,
        mark=mark,
    )


def _away(at_ms: int, now_ms: int) -> str:
    by_ms = apart_ms(at_ms, now_ms)
    return f"in {duration_words(by_ms)}" if by_ms > 0 else f"{duration_words(by_ms)} ago"


def _to_come(report: Report, run: LiveRun) -> Said:
    """Of what is still to be heard: when it really happens, or has."""
    if report.then_ms is None or apart_ms(report.at_ms, report.then_ms) == 0:
        return Said("")
    when = clock_text(report.then_ms, run.style)
    word = "has happened" if report.then_ms <= run.now_ms else "really"
    return Said(f"{word} {when}", Tone.QUIET)


def _more(report: Report, run: LiveRun) -> tuple[str, ...]:
    """What a good desk does with it."""
    within = short_duration_words(report.within_ms)
    lines = [f"A good desk enters within {within}: {lines_words(report.lines, run.style)}"]
    if report.fails:
        lines = [f"A good desk drops the item, or ends it, within {within}"]
    elif not report.lines:
        lines = ["Nothing is to be entered"]
    surprise = next((s for s in run.day.surprises if s.id == report.surprise), None)
    if surprise is not None:
        lines.append(f"Surprise '{surprise.id}': {effect_words(surprise, run.plan)}")
    elif report.then_ms is not None:
        lines.append(f"Really at {clock_text(report.then_ms, run.style)}")
    return tuple(lines)


def stands(answer: Answered, now_ms: int) -> Said:
    """What the desk has made of a report by now."""
    if answer.early_ms is not None:
        return Said(how(answer), Tone.CHANGE)
    if answer.right is None and not answer.cut_off:
        return Said("nothing to enter", Tone.QUIET)
    if answer.after_ms is None:
        left_ms = answer.within_ms - apart_ms(now_ms, answer.at_ms)
        if left_ms >= 0:
            return Said(f"not entered; {duration_words(left_ms)} left")
        return Said(f"not entered, late by {duration_words(-left_ms)}", Tone.CLASH)
    after = f", after {short_duration_words(answer.after_ms)}"
    words = how(answer) if answer.mended_ms is not None else f"{how(answer)}{after}"
    return Said(words, Tone.PLAIN if answer.right else Tone.CLASH)
