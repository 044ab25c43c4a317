"""What a desk made of each report: entered after how long, right or not, and by how much."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from core.entries.airing import Drop, Finish
from core.entries.model import Action, Choose, Entry, Happened, Observe, Revise
from core.plan.model import Plan
from core.rehearsal.record import Heard, Record
from core.times.writing import SECOND_MS

_SUBJECTS = ("event", "lane", "shut", "item", "checkoff")


@dataclass(frozen=True, slots=True)
class Answered:
    """One report and what the desk made of it.

    `seen_ms`: from when it came till those at the desk had it before them, None where they never
    had. `after_ms`: from the report to the entry about it, None where there was none; where it asks
    for several, to the last. `off_ms`: by how much that differs from the right one; `mended_ms`:
    from the report to an entry that does not. `overtaken`: nothing was entered before the next word
    on the same came. `early_ms`: from an entry that says the same to the report, where nothing was
    entered on it after. `cut_off`: nothing was, and the rehearsal ended before it had to be.
    `right` is None where nothing was to be entered, or the rehearsal ended before, or it was early.
    """

    report: str
    text: str
    at_ms: int
    within_ms: int
    natural: bool
    seen_ms: int | None = None
    after_ms: int | None = None
    off_ms: int = 0
    right: bool | None = None
    mended_ms: int | None = None
    overtaken: bool = False
    early_ms: int | None = None
    cut_off: bool = False

    @property
    def in_time(self) -> bool:
        """Whether it was entered as soon as a good desk would have."""
        return self.after_ms is not None and self.after_ms <= self.within_ms


@dataclass(frozen=True, slots=True)
class _Answer:
    """What became of one thing that was to be entered on a report, after it."""

    after_ms: int
    off_ms: int
    right: bool
    mended_ms: int | None

    @property
    def right_ms(self) -> int | None:
        return self.after_ms if self.right else self.mended_ms


def answers(record: Record, entries: Sequence[Entry], plan: Plan) -> tuple[Answered, ...]:
    """All reports in the order in which they came; `entries` are those that stand."""
    return tuple(_answered(record, heard, entries, plan) for heard in record.heard)


def _answered(record: Record, heard: Heard, entries: Sequence[Entry], plan: Plan) -> Answered:
    report = heard.report
    answered = Answered(
        report.id,
        report.text,
        heard.at_ms,
        report.within_ms,
        natural=not report.surprise,
        seen_ms=None if heard.seen_ms is None else heard.seen_ms - heard.at_ms,
    )
    if not heard.wanted:
        return answered
    found = [_answer(record, heard, wanted, entries, plan) for wanted in heard.wanted]
    given = [each for each in found if each is not None]
    if not given:
        return _unanswered(answered, record, heard, entries, plan)
    if len(given) < len(found):
        return replace(answered, right=False)
    right = all(each.right for each in given)
    mended = [each.right_ms for each in given if each.right_ms is not None]
    return replace(
        answered,
        after_ms=max(each.after_ms for each in given),
        off_ms=max((each.off_ms for each in given), key=abs),
        right=right,
        mended_ms=None if right or len(mended) < len(given) else max(mended),
    )


def _unanswered(
    answered: Answered, record: Record, heard: Heard, entries: Sequence[Entry], plan: Plan
) -> Answered:
    """A report on which nothing was entered after it: why that may be."""
    early = [_early_ms(record, heard, wanted, entries, plan) for wanted in heard.wanted]
    known = [each for each in early if each is not None]
    if len(known) == len(early):
        return replace(answered, early_ms=max(known))
    later = (_next_word_ms(record, heard, wanted, plan) for wanted in heard.wanted)
    if any(each <= record.end_ms for each in later):
        return replace(answered, right=False, overtaken=True)
    if heard.at_ms + heard.report.within_ms > record.end_ms:
        return replace(answered, cut_off=True)
    return replace(answered, right=False)


def _early_ms(
    record: Record, heard: Heard, wanted: Action, entries: Sequence[Entry], plan: Plan
) -> int | None:
    """How long before the first word on it the same had been entered, and stood last."""
    place = record.heard.index(heard)
    if any(_is_on(each, wanted, plan) for each in record.heard[:place]):
        return None  # then it was entered on that word
    before = [e for e in entries if e.at_ms < heard.at_ms and _same(e.action, wanted, plan)]
    if not before or not _is_right(before[-1].action, wanted):
        return None
    return heard.at_ms - before[-1].at_ms


def _answer(
    record: Record, heard: Heard, wanted: Action, entries: Sequence[Entry], plan: Plan
) -> _Answer | None:
    until_ms = _next_word_ms(record, heard, wanted, plan)
    span = range(heard.at_ms, until_ms)
    mine = [e for e in entries if e.at_ms in span and _same(e.action, wanted, plan)]
    if not mine:
        return None
    first, after = mine[0], [e for e in mine if _is_right(e.action, wanted)]
    right = _is_right(first.action, wanted)
    return _Answer(
        after_ms=first.at_ms - heard.at_ms,
        off_ms=_time_ms(first.action) - _time_ms(wanted),
        right=right,
        mended_ms=None if right or not after else after[0].at_ms - heard.at_ms,
    )


def _is_right(action: Action, wanted: Action) -> bool:
    if isinstance(action, Choose) and isinstance(wanted, Choose):
        return action.outcome == wanted.outcome
    return abs(_time_ms(action) - _time_ms(wanted)) < SECOND_MS


def _next_word_ms(record: Record, heard: Heard, wanted: Action, plan: Plan) -> int:
    """When the next report about the same thing came: what is entered then is about that."""
    later = record.heard[record.heard.index(heard) + 1 :]
    same = (each.at_ms for each in later if _is_on(each, wanted, plan))
    return next(same, max(record.end_ms, heard.at_ms) + 1)


def _is_on(heard: Heard, wanted: Action, plan: Plan) -> bool:
    """Whether a report is about that thing."""
    return any(_same(each, wanted, plan) for each in heard.wanted)


def _same(action: Action, wanted: Action, plan: Plan) -> bool:
    """Whether both are about the same thing, in the same way."""
    if isinstance(wanted, Happened | Observe) and isinstance(action, Happened | Observe):
        return _edge(action, plan) == _edge(wanted, plan)
    if isinstance(wanted, Drop | Finish) and isinstance(action, Drop | Finish):
        return action.item == wanted.item
    if type(action) is not type(wanted):
        return False
    if isinstance(wanted, Choose) and isinstance(action, Choose):
        return set(_turned(action, plan)) == set(_turned(wanted, plan))
    return all(getattr(action, key, "") == getattr(wanted, key, "") for key in _SUBJECTS)


def _turned(action: Choose, plan: Plan) -> Iterator[str]:
    """The event that turned out so."""
    return (outcome.of for outcome in plan.outcomes if outcome.id == action.outcome)


def _edge(action: Happened | Observe, plan: Plan) -> tuple[str, str]:
    """The lane and the change of an edge, however it was typed; of another event its id."""
    if isinstance(action, Observe):
        return action.lane, action.change.value
    event = next((each for each in plan.events if each.id == action.event), None)
    if event is None or event.edge is None:
        return action.event, ""
    return event.edge.lane, event.edge.change.value


def _time_ms(action: Action) -> int:
    return action.time_ms if isinstance(action, Revise | Happened | Observe) else 0
