"""What a desk made of a rehearsal, as data: figures only, and no points for style.

Made from what was heard, what was entered and what was on the air, and from nothing else; so it is
the same for a scripted desk and for people.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from core.entries.aired import Aired, aired
from core.entries.airing import MarkSaid
from core.entries.model import Entry, standing
from core.plan.model import Plan
from core.rehearsal.answering import Answered as Answered  # noqa: PLC0414 - handed on
from core.rehearsal.answering import answers
from core.rehearsal.losing import LostMoment, lost_moments, over_ms
from core.rehearsal.record import Correction, OnAir, Record


@dataclass(frozen=True, slots=True)
class ItemRun:
    """An item as it was on the air, from when till when."""

    item: str
    from_ms: int
    to_ms: int


@dataclass(frozen=True, slots=True)
class OwedItem:
    """An item that is owed: whether it ran, by how much it was short, and why not if it did not."""

    item: str
    ran: bool
    short_ms: int = 0
    why: str = ""


@dataclass(frozen=True, slots=True)
class Score:
    """All of it. `wrong` are the stretches of a wrong countdown, `runs` the items on the air."""

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
    wrong: tuple[tuple[int, int], ...] = ()
    runs: tuple[ItemRun, ...] = ()
    happened: tuple[tuple[str, int], ...] = ()
    """The events of the hidden timeline, with the instants at which they really were."""
    attempt: int = 1
    """One more each time that the trainer went back; earlier attempts are left out."""
    sprung: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    """The surprises that the trainer sprung by hand and added, by their ids."""


def score_of(record: Record, plan: Plan) -> Score:
    """The score of a rehearsal that is over."""
    entries = standing(record.entries)
    told = aired(entries)
    said = [entry for entry in entries if isinstance(entry.action, MarkSaid)]
    return Score(
        desk=record.desk,
        reports=answers(record, entries, plan),
        lost=lost_moments(record, told, plan),
        on_air_ms=record.on_air_ms,
        wrong_ms=record.wrong_ms,
        corrections_owed=len(record.corrections),
        corrections_said=sum(_is_said(each, said) for each in record.corrections),
        still_owed=record.still_owed,
        owed_items=tuple(_owed_items(record, told, plan)),
        troubles=tuple(f"{each.check}: {each.what}" for each in record.troubles),
        wrong=tuple(record.wrong),
        runs=tuple(
            ItemRun(each.item, each.from_ms, _over_ms(record, each, told, plan))
            for each in record.airings
        ),
        happened=tuple((each.event, each.at_ms) for each in record.truth.happenings if each.event),
    )


def _is_said(owed: Correction, said: Sequence[Entry]) -> bool:
    """Whether the audience was told while it was owed; it may also have become true again."""
    return owed.until_ms is not None and any(
        owed.from_ms <= entry.at_ms <= owed.until_ms
        and isinstance(entry.action, MarkSaid)
        and owed.event in {event for event, _ in entry.action.times}
        for entry in said
    )


def _over_ms(record: Record, airing: OnAir, told: Aired, plan: Plan) -> int:
    """When an item was over, as far as the rehearsal went."""
    return min(over_ms(record, airing, told, plan), max(record.end_ms, airing.from_ms))


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
