"""Who computes a plan's courses: the geometry, with the ephemeris that ships with the program."""

from app.resources import asset
from core.plan.model import CourseKind, Plan
from core.signal.computing import Skies
from core.signal.planned import Planned

EPHEMERIS = "ephemeris/de440-2020-2040.bsp"


def skies_for(plan: Plan) -> Skies | None:
    """Who computes the courses of a plan; None where all of them are tables."""
    if all(course.kind is CourseKind.PASSES for course in plan.courses):
        return None
    # Late, and only here: the geometry brings numpy, sgp4 and an ephemeris, a tenth of a second
    # that a plan of tables need not wait for.
    from core.signal.sky.ephemeris import Kernel  # noqa: PLC0415
    from core.signal.sky.skies import PlanSkies  # noqa: PLC0415

    planned = Planned(plan, lambda *_: None)
    known = {event.id: planned(event.id) for event in plan.events}
    return PlanSkies(
        plan,
        Kernel(asset(EPHEMERIS)),
        {name: ms for name, ms in known.items() if ms is not None},
    )
