"""An event's facts, and how its name sounds, from their tables: sources and dates are checked."""

import re
from collections.abc import Mapping
from datetime import date, datetime

from core.plan.fields import Fields
from core.plan.gather import Named, clip
from core.plan.model import Fact, Plan
from core.plan.positions import Trail
from core.plan.values import Page, flag, instant, kind_of, name, text
from core.times.writing import date_text, local_time

_DATE = re.compile(r"(\d{4})(?:-(\d\d)(?:-(\d\d))?)?")
_DATE_FORMS = 'Write 2031-05-14, or "2031-05" or "2031" in quotation marks'
_SYLLABLE = re.compile(r"(?:[^\W\d_]|['’])+")
_SOUND_FORMS = "Syllables with hyphens, the stressed one in capitals: PET-rul"


def read_facts(event: Fields) -> tuple[Fact, ...]:
    """The facts of an event, in the file's order."""
    return tuple(fact for one in event.tables("facts") if (fact := _fact(one)))


def _fact(fields: Fields) -> Fact | None:
    said = fields.need("text", name, '"One engine, six minutes."')
    fact = Fact(
        text=said or "",
        after_confirmed=fields.get("after_confirmed", flag, default=False),
        not_before_ms=fields.get("not_before", instant),
        source=fields.get("source", name, default=""),
        date=fields.get("date", _date, default=""),
    )
    fields.close()
    return fact if said is not None else None


def _date(page: Page, where: Trail, value: object) -> str | None:
    """A day, a month or a year, in quotation marks or without: '2031-05-14', '2031-05', '2031'."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value.isoformat()
    if not isinstance(value, str):
        page.problem(where, f"this is {kind_of(value)}, not a date", _DATE_FORMS)
        return None
    taken = text(page, where, value)
    if taken is not None and not _is_date(taken):
        page.problem(where, f"'{clip(taken)}' is no date", _DATE_FORMS)
        return None
    return taken


def _is_date(written: str) -> bool:
    found = _DATE.fullmatch(written)
    if found is None:
        return False
    year, month, day = (int(part) if part else 1 for part in found.groups())
    try:
        date(year, month, day)
    except ValueError:
        return False
    return True


def sounds(page: Page, where: Trail, value: object) -> str | None:
    """How a name sounds: 'PET-rul', 'LAN-tern KOHV'; syllables whole in small letters or capitals.

    At least one is in capitals, so that a reader knows where the stress is.
    """
    taken = name(page, where, value)
    if taken is None:
        return None
    syllables = [part for word in taken.split() for part in word.split("-")]
    if not all(_SYLLABLE.fullmatch(part) for part in syllables):
        page.problem(where, f"'{clip(taken)}' is more than letters and hyphens", _SOUND_FORMS)
        return None
    if not all(part.islower() or part.isupper() for part in syllables):
        page.problem(where, f"'{clip(taken)}' has a syllable of both kinds", _SOUND_FORMS)
        return None
    if not any(part.isupper() for part in syllables):
        page.problem(where, f"'{clip(taken)}' does not say where the stress is", _SOUND_FORMS)
        return None
    return taken


def check_facts(page: Page, plan: Plan, planned: Mapping[str, int]) -> None:
    """Tell dates after the plan's last day; warn of sources that are nearly one of the plan's."""
    last_ms = _last_ms(plan, planned)
    zone = plan.zones[0] if plan.zones else "UTC"
    last = None if last_ms is None else (local_time(last_ms, zone).date().isoformat(), last_ms)
    for event in plan.events:
        trail = page.gather.where(Named.EVENT, event.id) if event.facts else ()
        for at, fact in enumerate(event.facts):
            if last is not None and fact.date > last[0]:
                page.problem(
                    (*trail, "facts", at, "date"),
                    f"{fact.date} is after the last day of the plan",
                    f"The plan ends on {date_text(last[1], zone)}: check the year",
                )
            _warn_of_source(page, plan, (*trail, "facts", at, "source"), fact.source)


def _last_ms(plan: Plan, planned: Mapping[str, int]) -> int | None:
    """The last instant that the plan knows of."""
    known = [*planned.values(), *(junction.at_ms for junction in plan.junctions)]
    for event in plan.events:
        ends = None if event.window is None else event.window.not_after_ms
        known += [at_ms for at_ms in (event.happened_ms, ends) if at_ms is not None]
    if plan.air is not None and plan.air.off_ms is not None:
        known.append(plan.air.off_ms)
    return max(known, default=None)


def _warn_of_source(page: Page, plan: Plan, where: Trail, source: str) -> None:
    """Warn of one word that is not a source of the plan, but nearly: any other words may stand."""
    if not source or source in plan.sources or len(source.split()) > 1:
        return
    hint = page.gather.nearest(source, plan.sources)
    if hint.startswith("Did"):
        page.gather.warning(where, f"'{clip(source)}' is no source of this plan", hint)
