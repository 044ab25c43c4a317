"""The reader of plan files: the plan, or everything that is wrong with it at once."""

from pathlib import Path

from core.errors import Place, PlanProblems, Problem, TimeProblem
from core.plan.beside import Beside, Kept, OnDisk
from core.plan.checks import check_plan
from core.plan.courses import read_courses
from core.plan.events import read_events, read_outcomes
from core.plan.fields import Fields
from core.plan.files import check_text, read_text
from core.plan.gather import Gather, Named, clip
from core.plan.grounds import read_blackouts, read_grounds, read_lanes, with_plain_lanes
from core.plan.model import Event, Plan, Texts, Usage
from core.plan.positions import Positions, Trail
from core.plan.programme import (
    read_air,
    read_checkoffs,
    read_grave,
    read_items,
    read_junctions,
)
from core.plan.syntax import parse_toml
from core.plan.ties import read_limits
from core.plan.values import Page, choice, flag, name, reference
from core.times.zones import find_zone, zone_names

FORMAT = 1
"""The version of the plan format that is read and written here."""


def read_plan(path: Path) -> Plan:
    """The plan in a file. Raises PlanProblems with everything wrong with it, sorted by place."""
    return read_plan_with_warnings(path)[0]


def read_plan_with_warnings(path: Path) -> tuple[Plan, tuple[Problem, ...]]:
    """The plan in a file, and what will be awkward at the desk though nothing is wrong with it."""
    return _read(read_text(path, str(path)), str(path), path.parent, OnDisk(path.parent))


def read_plan_text(text: str, shown: str, folder: Path) -> Plan:
    """The plan in a text. `shown` is its name in problems; its own files stand in `folder`."""
    return read_plan_text_with_warnings(text, shown, folder)[0]


def read_plan_text_with_warnings(
    text: str, shown: str, folder: Path
) -> tuple[Plan, tuple[Problem, ...]]:
    """The plan in a text, and what will be awkward at the desk though nothing is wrong with it."""
    check_text(text, shown)
    return _read(text, shown, folder, OnDisk(folder))


def read_kept_plan(texts: Texts, path: Path) -> Plan:
    """The plan in texts that were kept. `path` is where it was read from; nothing need be there.

    Raises PlanProblems where it was written for another version of the format.
    """
    return _read(texts.plan, str(path), path.parent, Kept(dict(texts.beside)))[0]


def is_as_kept(path: Path, texts: Texts) -> bool:
    """Whether a plan's file, and those beside it, hold just what was kept of them."""
    kept = ((path, texts.plan), *((path.parent / name, text) for name, text in texts.beside))
    try:
        return all(read_text(file, str(file)) == text for file, text in kept)
    except PlanProblems:
        return False


def place_of_course(path: Path, number: int) -> Place:
    """Where a course stands in a plan's file that was read before; they count from 0."""
    return Positions(read_text(path, str(path)), str(path)).place(("course", number))


def _read(text: str, shown: str, folder: Path, beside: Beside) -> tuple[Plan, tuple[Problem, ...]]:
    gather = Gather()
    page = Page(shown, folder, gather, beside)
    top = Fields(page, (), parse_toml(text, shown))
    plan = _plan(top, text) if _version_fits(top) else None
    positions = Positions(text, shown) if gather.has_problems or gather.has_warnings else None
    if plan is None or gather.has_problems:
        raise PlanProblems(gather.problems(positions or Positions(text, shown)))
    return plan, gather.warnings(positions) if positions else ()


def _version_fits(top: Fields) -> bool:
    """Whether the plan is of this version; if not, nothing else in it can be judged."""
    version = top.raw("limbwatch")
    if version is None:
        top.problem("this file does not say that it is a plan", f"Begin with limbwatch = {FORMAT}")
        return False
    if isinstance(version, bool) or not isinstance(version, int) or version != FORMAT:
        what = "this plan is of another version of the format"
        top.page.problem(top.at("limbwatch"), what, f"This program reads version {FORMAT}")
        return False
    return True


def _plan(top: Fields, text: str) -> Plan:
    zones = top.each("zones", _zone)
    if not top.raw("zones"):
        top.problem("'zones' is missing here", 'Add zones = ["America/Halifax"], the desk\'s first')
    top.page.zone = zones[0] if zones else "UTC"
    events = read_events(top)
    elapsed_from = top.get("elapsed_from", reference(Named.EVENT))
    grounds = read_grounds(top)
    courses = read_courses(top, _planned_ms(events, elapsed_from), grounds)
    lanes = read_lanes(top)
    plan = Plan(
        title=top.need("title", name, '"the flight\'s name"') or "",
        zones=zones,
        subtitle=top.words("subtitle"),
        elapsed_from=elapsed_from,
        auto_edges=top.each("auto_edges", reference(Named.LANE)),
        sources=top.each("sources", _source),
        events=events,
        limits=read_limits(top),
        outcomes=read_outcomes(top),
        grounds=grounds,
        lanes=with_plain_lanes(lanes, top.page.gather.names(Named.LANE)),
        courses=courses,
        blackouts=read_blackouts(top),
        air=read_air(top),
        junctions=read_junctions(top),
        items=read_items(top),
        checkoffs=read_checkoffs(top),
        grave=read_grave(top),
        usage=Usage(top.get("usage", choice(*Usage), default="american")),
        light_time=_light_time(top),
        folder=top.page.folder,
        texts=Texts(text, tuple(sorted(top.page.texts.items()))),
    )
    top.close()
    top.page.gather.settle_uses()
    check_plan(top.page, plan)
    return plan


def _planned_ms(events: tuple[Event, ...], wanted: str | None) -> int | None:
    """The clock time of the event that elapsed time counts from, if it has one."""
    event = next((event for event in events if event.id == wanted), None)
    if event is None:
        return None
    return event.at_ms if event.at_ms is not None else event.happened_ms


def _light_time(top: Fields) -> bool:
    fields = top.table("signal")
    if fields is None:
        return True
    light_time = fields.get("light_time", flag, default=True)
    fields.close()
    return light_time


def _zone(page: Page, where: Trail, value: object) -> str | None:
    taken = name(page, where, value)
    if taken is None:
        return None
    try:
        find_zone(taken)
    except TimeProblem:
        page.problem(
            where, f"'{clip(taken)}' is no time zone", page.gather.nearest(taken, zone_names())
        )
        return None
    return taken


def _source(page: Page, where: Trail, value: object) -> str | None:
    """One word, as it is typed after 'per'."""
    taken = name(page, where, value)
    if taken is not None and len(taken.split()) > 1:
        page.problem(
            where, f"'{clip(taken)}' is more than one word", "Like flight, agency, pool, desk"
        )
        return None
    return taken
