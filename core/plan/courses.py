"""Courses of a plan, from their tables: what all kinds share."""

import re

from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import Bound, Course, CourseKind, Ground, Pass
from core.plan.orbits import read_mean_elements, read_states
from core.plan.passes import Carries, read_passes
from core.plan.positions import Trail
from core.plan.settings import Settings, read_settings, setting_keys
from core.plan.values import Page, choice, instant, name, reference, text

_event = reference(Named.EVENT)
_outcome = reference(Named.OUTCOME)
_kind = choice(*CourseKind)
_times = choice("clock", "elapsed", "offset")

_WITH_FILE = (CourseKind.PASSES, CourseKind.TRAJECTORY, CourseKind.ELEMENTS)
_OF_PASSES = frozenset({"times", "rows"})


def keys_of(kind: CourseKind) -> frozenset[str]:
    """The keys of a course of this kind, without those that every kind has."""
    own = _OF_PASSES if kind is CourseKind.PASSES else setting_keys(kind)
    return own | {"file"} if kind in _WITH_FILE else own


def read_courses(
    top: Fields, liftoff_ms: int | None, grounds: tuple[Ground, ...]
) -> tuple[Course, ...]:
    """Every course, in the file's order. `liftoff_ms`: where elapsed time counts from, if known."""
    carries = {ground.id: ground.lanes for ground in grounds}
    courses = (_course(fields, liftoff_ms, carries) for fields in top.tables("course"))
    return tuple(course for course in courses if course is not None)


def _course(fields: Fields, liftoff_ms: int | None, carries: Carries) -> Course | None:
    identity = fields.define(Named.COURSE)
    written = fields.need("kind", _kind, '"passes"')
    follows = fields.get("follows", _event)
    kind = CourseKind(written) if written else None
    only_if = fields.get("only_if", _outcome)
    gap = fields.get("gap", name, default="")
    begins, ends = fields.get("from", _bound), fields.get("until", _bound)
    if kind is None:
        # Which keys may stand here depends on the kind, so no more can be said.
        return None
    file = fields.get("file", text) if kind in _WITH_FILE else None
    found = _found(fields, file)
    times = "clock"
    rows: tuple[Pass, ...] = ()
    settings: Settings = ()
    if kind is CourseKind.PASSES:
        times = fields.get("times", _times, default="clock")
        rows = read_passes(fields, found, times, liftoff_ms, carries)
    else:
        settings = read_settings(fields, kind)
    trajectory = read_states(fields, found) if kind is CourseKind.TRAJECTORY else None
    elements = read_mean_elements(fields, found) if kind is CourseKind.ELEMENTS else None
    fields.close()
    if identity is None:
        return None
    return Course(
        id=identity,
        kind=kind,
        follows=follows,
        only_if=only_if,
        times=times,
        gap=gap,
        rows=rows,
        file=file,
        begins=begins,
        ends=ends,
        settings=settings,
        trajectory=trajectory,
        elements=elements,
    )


def _found(fields: Fields, file: str | None) -> str | None:
    """The course's own file, by its name; None where there is none, or it cannot be taken."""
    if file is None:
        return None
    what, hint = fields.page.beside.missing(file)
    if what:
        fields.page.problem(fields.at("file"), what, hint)
        return None
    return file


def _bound(page: Page, where: Trail, value: object) -> Bound | None:
    """An event by its id, or an instant."""
    if isinstance(value, str) and not re.match(r"\d{4}-\d\d", value):
        event = _event(page, where, value)
        return Bound(event=event) if event is not None else None
    at_ms = instant(page, where, value)
    return Bound(at_ms=at_ms) if at_ms is not None else None
