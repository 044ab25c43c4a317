"""The reader of surprises files: a rehearsal, or everything that is wrong with it at once.

The file is TOML like a plan, and is read against the plan it is for: what it names must be there.
"""

from pathlib import Path

from core.errors import PlanProblems
from core.plan.beside import OnDisk
from core.plan.fields import Fields
from core.plan.files import check_text, read_text
from core.plan.gather import Gather, Named
from core.plan.model import Plan
from core.plan.positions import Positions, Trail
from core.plan.syntax import parse_toml
from core.plan.values import Page, duration, flag, instant, length, name, reference, text
from core.rehearsal.kinds import read_what
from core.rehearsal.model import (
    CalledOff,
    Edges,
    Misheard,
    Moves,
    Surprise,
    Surprises,
    Turns,
    When,
)

FORMAT = 1
"""The version of the format that is read here."""

_WAYS = ("at", "elapsed", "after", "before", "inside")
_event = reference(Named.EVENT)
_item = reference(Named.ITEM)


def read_surprises(path: Path, plan: Plan) -> Surprises:
    """The rehearsal in a file. Raises PlanProblems with all that is wrong, sorted by place."""
    return _read(read_text(path, str(path)), str(path), plan)


def read_surprises_text(written: str, shown: str, plan: Plan) -> Surprises:
    """The rehearsal in a text; `shown` is its name in problems."""
    check_text(written, shown)
    return _read(written, shown, plan)


def _read(written: str, shown: str, plan: Plan) -> Surprises:
    gather = Gather()
    _know(gather, plan)
    page = Page(shown, plan.folder, gather, OnDisk(plan.folder), plan.zones[0])
    top = Fields(page, (), parse_toml(written, shown))
    found = _surprises(top, plan) if _version_fits(top) else None
    if found is None or gather.has_problems:
        raise PlanProblems(gather.problems(Positions(written, shown)))
    return found


def _know(gather: Gather, plan: Plan) -> None:
    """Everything of the plan that a surprise may name."""
    named = (
        (Named.EVENT, (each.id for each in plan.events)),
        (Named.OUTCOME, (each.id for each in plan.outcomes)),
        (Named.LANE, (each.id for each in plan.lanes)),
        (Named.ITEM, (each.id for each in plan.items)),
    )
    for kind, ids in named:
        for each in ids:
            gather.define(kind, each, ())


def _version_fits(top: Fields) -> bool:
    """Whether the file is of this version; if not, nothing else in it can be judged."""
    version = top.raw("limbwatch_surprises")
    if version is None:
        hint = f"Begin with limbwatch_surprises = {FORMAT}"
        top.problem("this file does not say that it holds surprises", hint)
        return False
    if isinstance(version, bool) or version != FORMAT:
        what = "these surprises are of another version of the format"
        hint = f"This program reads version {FORMAT}"
        top.page.problem(top.at("limbwatch_surprises"), what, hint)
        return False
    return True


def _surprises(top: Fields, plan: Plan) -> Surprises:
    title = top.need("title", name, '"an ordinary day"')
    begin_ms = top.need("begin", instant, "2031-05-14T16:40:00")
    end_ms = top.need("end", instant, "2031-05-14T19:45:00")
    if begin_ms is not None and end_ms is not None and end_ms <= begin_ms:
        top.page.problem(top.at("end"), "the rehearsal ends before it begins", "Check both times")
    found: list[Surprise] = []
    for fields in top.tables("surprise"):
        found.append(_one(fields, len(found) + 1, plan))
    _ids_differ(top, found)
    top.close()
    top.page.gather.settle_uses()
    return Surprises(title or "", begin_ms or 0, end_ms or 0, tuple(found))


def _ids_differ(top: Fields, found: list[Surprise]) -> None:
    for number, one in enumerate(found):
        if any(one.id == other.id for other in found[:number]):
            what = f"'{one.id}' is already the id of another surprise"
            top.page.problem(("surprise", number), what, "Give one of them another id")


def _one(fields: Fields, number: int, plan: Plan) -> Surprise:
    when = _when(fields, plan)
    what = read_what(fields)
    found = Surprise(
        id=fields.get("id", name, f"surprise-{number}"),
        when=when,
        what=what,
        text=fields.words("text"),
        source=fields.get("source", name, ""),
        desk=_desk(fields),
        within_ms=fields.get("within", length, 30_000),
        quiet=fields.get("quiet", flag, default=False),
        misheard=_misheard(fields),
        again_ms=fields.get("again", length),
    )
    fields.close()
    _source_known(fields, found.source, plan)
    if when.item and isinstance(what, Moves | Edges | Turns | CalledOff):
        told = "what the flight does cannot wait for an item"
        fields.problem(told, "Write at, elapsed, after or before")
    return found


def _source_known(fields: Fields, source: str, plan: Plan) -> None:
    if source and plan.sources and source not in plan.sources:
        hint = fields.page.gather.nearest(source, plan.sources)
        fields.page.problem(fields.at("source"), f"'{source}' is no source of the plan", hint)


def _when(fields: Fields, plan: Plan) -> When:
    given = [key for key in _WAYS if key in fields]
    if len(given) != 1:
        what = "this does not say when" if not given else "this says twice when"
        fields.problem(what, f"Write one of {', '.join(_WAYS)}")
    sign = -1 if "before" in fields else 1
    event = fields.get("after", _event) or fields.get("before", _event) or ""
    if "elapsed" in fields and plan.elapsed_from is None:
        what = "the plan does not say from what elapsed time counts"
        fields.page.problem(fields.at("elapsed"), what, "Write at = and a time")
    return When(
        at_ms=fields.get("at", instant),
        elapsed_ms=fields.get("elapsed", duration),
        event=event,
        item=fields.get("inside", _item) or "",
        by_ms=sign * fields.get("by", length, 0),
    )


def _desk(fields: Fields) -> tuple[str, ...] | None:
    """The lines of a good desk: one, or a list of them, which may be empty."""
    if "desk" not in fields:
        return None
    if isinstance(fields.raw("desk"), list):
        return fields.each("desk", name)
    line = fields.get("desk", name)
    return None if line is None else (line,)


def _misheard(fields: Fields) -> Misheard | None:
    found = fields.table("misheard")
    if found is None:
        return None
    heard = found.need("text", text, '"Ignition thirteen minutes late."')
    line = found.need("desk", _line, '"ignition +13m per flight"')
    corrected_ms = found.need("corrected", length, '"2m"')
    found.close()
    return Misheard(heard or "", line or "", corrected_ms or 0)


def _line(page: Page, where: Trail, value: object) -> str | None:
    return name(page, where, value)
