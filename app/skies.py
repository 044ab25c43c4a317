"""Who computes a plan's courses: the geometry, with the ephemeris that ships with the program."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from app.resources import asset
from core.plan.model import CourseKind, Plan
from core.signal.computing import Skies
from core.signal.hurried import Hurried
from core.signal.planned import Planned

if TYPE_CHECKING:
    from core.signal.sky.skies import PlanSkies

EPHEMERIS = "ephemeris/de440-2020-2040.bsp"


def skies_for(plan: Plan) -> Skies | None:
    """Who computes the courses of a plan; None where all of them are tables."""
    if all(course.kind is CourseKind.PASSES for course in plan.courses):
        return None
    return _geometry(plan, _planned(plan))


def hurried_for(plan: Plan) -> Hurried | None:
    """The same for a board: near contacts at once, and of a long plan the far ones when fetched."""
    if all(course.kind is CourseKind.PASSES for course in plan.courses):
        return None
    return Hurried(_geometry(plan, _planned(plan)))


def try_courses(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Courses of a plan that can be computed as planned, and are hardly meant: ids, and why.

    Raises CourseProblem for the first that cannot be computed.
    """
    if all(course.kind is CourseKind.PASSES for course in plan.courses):
        return ()
    planned = _planned(plan)
    skies = _geometry(plan, planned)
    skies.check(planned)
    return skies.doubts(planned)


def _geometry(plan: Plan, planned: Mapping[str, int]) -> "PlanSkies":
    # Late, and only here: the geometry brings numpy, sgp4 and an ephemeris, a tenth of a second
    # that a plan of tables need not wait for.
    from core.signal.sky.ephemeris import Kernel  # noqa: PLC0415
    from core.signal.sky.skies import PlanSkies  # noqa: PLC0415

    return PlanSkies(plan, Kernel(asset(EPHEMERIS)), planned)


def _planned(plan: Plan) -> dict[str, int]:
    """The planned times that need no signal."""
    planned = Planned(plan, lambda *_: None)
    known = {event.id: planned(event.id) for event in plan.events}
    return {name: ms for name, ms in known.items() if ms is not None}
