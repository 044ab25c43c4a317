"""What a desk made of a rehearsal, as data: figures only, and no points for style.

Made from what was heard, what was entered and what was on the air, and from nothing else; so it is
the same for a scripted desk and for people.
"""

from dataclasses import dataclass, replace

from core.entries.aired import Aired, aired
from core.entries.airing import Drop, Finish, MarkSaid
from core.entries.model import (
    Action,
    Entry,
    Happened,
    Observe,
    Revise,
    standing,
)
from core.plan.model import Plan
from core.rehearsal.losing import LostMoment, lost_moments
from core.rehearsal.record import Heard, Record
from core.times.writing import SECOND_MS

_SUBJECTS = ("event", "lane", "outcome", "item", "checkoff")


@dataclass(frozen=True, slots=True)
class Answered:
    """One report and what the desk made of it.

    `after_ms`: from the report to the first entry about it, None where there was none. `off_ms`:
    by how much that differs from the right one; `mended_ms`: from the report to an entry that
    does not. `right` is None where nothing was to be entered.
    """

    report: str
    text: str
    at_ms: int
    within_ms: int
    natural: bool
    after_ms: int | None = None
    off_ms: int = 0
    right: bool | None = None
    mended_ms: int | None = None

    @property
    def in_time(self) -> bool:
        """Whether it was entered as soon as a good desk would have."""
        return self.after_ms is not None and self.after_ms <= self.within_ms


@dataclass(frozen=True, slots=True)
class OwedItem:
    """An item that is owed: whether it ran, by how much it was short, and why not if it did not."""

    item: str
    ran: bool
    short_ms: int = 0
    why: str = ""


@dataclass(frozen=True, slots=True)
class Score:
    """All of it."""

    desk: str
    reports: tuple[Answered, ...]
    lost: tuple[LostMoment, ...]
    on_air_ms: int
    wrong_ms: int
    corrections_owed: int
    corrections_said: int
    still_owed: tuple[str, ...]
    owed_items: tuple[OwedItem, ...]
    troubles: tuple[str, ...] = ()


def score_of(record: Record, plan: Plan) -> Score:
    """The score of a rehearsal that is over."""
    entries = standing(record.entries)
    told = aired(entries)
    said = sum(isinstance(e.action, MarkSaid) for e in entries)
    owed = sum(record.owed.values())
    return Score(
        desk=record.desk,
        reports=tuple(_answered(record, heard, entries, plan) for heard in record.heard),
        lost=lost_moments(record, told, plan),
        on_air_ms=record.on_air_ms,
        wrong_ms=record.wrong_ms,
        corrections_owed=owed,
        corrections_said=min(said, owed - len(record.still_owed)),
        still_owed=record.still_owed,
        owed_items=tuple(_owed_items(record, told, plan)),
        troubles=tuple(f"{each.check}: {each.what}" for each in record.troubles),
    )


def _answered(record: Record, heard: Heard, entries: tuple[Entry, ...], plan: Plan) -> Answered:
    report = heard.report
    answer = Answered(
        report.id, report.text, heard.at_ms, report.within_ms, natural=not report.surprise
    )
    if not heard.wanted:
        return answer
    wanted = heard.wanted[0]
    until_ms = _next_word_ms(record, heard, wanted, plan)
    about = [e for e in entries if e.at_ms >= heard.at_ms and _same(e.action, wanted, plan)]
    if not about:
        return replace(answer, right=False)
    mine = [entry for entry in about if entry.at_ms < until_ms]
    first, after = about[0], [e for e in mine if _is_right(e.action, wanted)]
    right = bool(mine) and _is_right(first.action, wanted)
    return replace(
        answer,
        after_ms=first.at_ms - heard.at_ms,
        off_ms=_time_ms(first.action) - _time_ms(wanted),
        right=right,
        mended_ms=None if right or not after else after[0].at_ms - heard.at_ms,
    )


def _is_right(action: Action, wanted: Action) -> bool:
    return abs(_time_ms(action) - _time_ms(wanted)) < SECOND_MS


def _next_word_ms(record: Record, heard: Heard, wanted: Action, plan: Plan) -> int:
    """When the next report about the same thing came: what is entered then is about that."""
    later = record.heard[record.heard.index(heard) + 1 :]
    same = (h.at_ms for h in later if h.wanted and _same(h.wanted[0], wanted, plan))
    return next(same, record.end_ms + 1)


def _same(action: Action, wanted: Action, plan: Plan) -> bool:
    """Whether both are about the same thing, in the same way."""
    if isinstance(wanted, Happened | Observe) and isinstance(action, Happened | Observe):
        return _edge(action, plan) == _edge(wanted, plan)
    if isinstance(wanted, Drop | Finish) and isinstance(action, Drop | Finish):
        return action.item == wanted.item
    if type(action) is not type(wanted):
        return False
    return all(getattr(action, key, "") == getattr(wanted, key, "") for key in _SUBJECTS)


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


def _owed_items(record: Record, told: Aired, plan: Plan) -> list[OwedItem]:
    """What was owed within the rehearsal: not what had run before it."""
    found = []
    for item in plan.items:
        late = item.latest_ms is not None and item.latest_ms <= record.begin_ms
        if not item.owed or item.ran is not None or late:
            continue
        ran = told.ran(item.id)
        if ran.begun_ms is None:
            why = "dropped" if ran.dropped else record.places_left.get(item.id, "")
            found.append(OwedItem(item.id, ran=False, why=why))
            continue
        over_ms = ran.over_ms if ran.over_ms is not None else ran.begun_ms + item.length_ms
        short_ms = max(0, item.length_ms - (over_ms - ran.begun_ms))
        found.append(OwedItem(item.id, ran=True, short_ms=short_ms))
    return found
