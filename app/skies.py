"""Who computes a plan's courses: the geometry, with the ephemeris that ships with the program."""

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
    return geometry(plan) if is_computed(plan) else None


def hurried_for(plan: Plan) -> Hurried | None:
    """The same for a board: near contacts at once, and of a long plan the far ones when fetched."""
    return Hurried(geometry(plan)) if is_computed(plan) else None


def try_courses(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Courses of a plan that can be computed as planned, and are hardly meant: ids, and why.

    Raises CourseProblem for the first that cannot be computed.
    """
    if not is_computed(plan):
        return ()
    planned = _planned(plan)
    skies = geometry(plan)
    skies.check(planned)
    return skies.doubts(planned)


def is_computed(plan: Plan) -> bool:
    """Whether a plan has a course that is no table."""
    return any(course.kind is not CourseKind.PASSES for course in plan.courses)


def geometry(plan: Plan) -> "PlanSkies":
    """Who computes the courses of a plan that has some to compute."""
    # Late, and only here: the geometry brings numpy, sgp4 and an ephemeris, a tenth of a second
    # that a plan of tables need not wait for.
    from core.signal.sky.ephemeris import Kernel  # noqa: PLC0415
    from core.signal.sky.skies import PlanSkies  # noqa: PLC0415

    return PlanSkies(plan, Kernel(asset(EPHEMERIS)), _planned(plan))


def _planned(plan: Plan) -> dict[str, int]:
    """The planned times that need no signal."""
    planned = Planned(plan, lambda *_: None)
    known = {event.id: planned(event.id) for event in plan.events}
    return {name: ms for name, ms in known.items() if ms is not None}
