"""The record of a session, made from its plan and its entries. The one door to this room."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.entries.model import Entry
from core.plan.model import Plan
from core.session.ground import SkiesFor, no_skies
from core.session.record.corrections import Corrections
from core.session.record.happenings import Happenings
from core.session.record.lanes import Observed, lane_days
from core.session.record.log import Typed
from core.session.record.model import DayRecord
from core.session.record.programme import absences, item_rows
from core.session.record.replay import Replay
from core.times.writing import Hours


@dataclass(frozen=True, slots=True)
class Source:
    """What a record is made of. `name` is the session's, `end_ms` the last that is known of it."""

    plan: Plan
    entries: Sequence[Entry]
    name: str = ""
    rehearsal: bool = False
    begin_ms: int | None = None
    end_ms: int | None = None


def record_of(
    source: Source, skies_for: SkiesFor = no_skies, hours: Hours = Hours.TWELVE
) -> DayRecord:
    """The record. Without entries and times of its own it is of the plan's events alone."""
    begin_ms, end_ms = _extent(source)
    replay = Replay(source.plan, begin_ms, hours, skies_for)
    happenings, corrections, observed = Happenings(), Corrections(), Observed()
    for step in replay.steps(source.entries):
        happenings.follow(step)
        corrections.follow(step)
        observed.follow(step)
    happenings.end(*replay.end(end_ms), end_ms)
    session = replay.session
    plan, standing = session.plan, session.standing
    typed = Typed(source.entries, standing, session.names, session.style)
    return DayRecord(
        plan.title,
        plan.subtitle,
        source.name,
        session.style,
        plan.zones,
        begin_ms,
        end_ms,
        source.rehearsal or any(entry.rehearsal for entry in source.entries),
        events=happenings.rows(replay, standing, end_ms),
        edges=observed.rows(session, begin_ms, end_ms),
        lanes=lane_days(session, begin_ms, end_ms),
        items=item_rows(plan, standing, end_ms),
        away=absences(standing),
        corrections=corrections.rows(),
        outcomes=typed.outcomes(plan),
        checks=typed.checks(plan),
        promises=typed.promises(),
        clock=typed.clock(),
        turned=typed.turned(),
        sittings=typed.sittings(),
        log=typed.log(),
    )


def _extent(source: Source) -> tuple[int, int]:
    """From the first sign of the session to the last, of what it has."""
    at_ms = [entry.at_ms for entry in source.entries]
    known_ms = [each for each in (source.begin_ms, source.end_ms) if each is not None]
    found_ms = [*at_ms, *known_ms] or [0]
    return min(found_ms), max(found_ms)
