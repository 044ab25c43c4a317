"""A dropped file with a trajectory or with mean elements, and what a course needs of it."""

from dataclasses import dataclass

from core.errors import PlanProblems
from core.plan.imports.kinds import Kind, kind_of
from core.plan.imports.opening import refused
from core.plan.model import CourseKind
from core.plan.orbitdata.elements import elements_of
from core.plan.orbitdata.trajectory import trajectory_of
from core.times.scales import utc_ms_of_tt_s

_NEEDED = "A trajectory (CCSDS OEM) or mean elements (CCSDS OMM, two lines) make a course"


@dataclass(frozen=True, slots=True)
class OrbitFile:
    """What a file says of a craft: the course's kind, the object, and from when to when.

    Elements have an epoch only: it is both ends of their span.
    """

    kind: CourseKind
    file: str
    name: str
    from_ms: int
    until_ms: int
    about: str
    """The body it moves about, or about which it begins: 'earth', 'moon', 'mars'."""


def read_orbit(text: str, file: str) -> OrbitFile:
    """What a dropped file gives a course; `file` is its name, beside the plan.

    Raises PlanProblems with everything wrong with it, or where it is no such file.
    """
    match kind_of(text):
        case Kind.TRAJECTORY:
            return _trajectory(text, file)
        case Kind.ELEMENTS:
            return _elements(text, file)
        case Kind.ORBIT_MARKUP:
            return _either(text, file)
        case _:
            raise refused(file, "this holds no orbit", _NEEDED, 1, 1)


def _either(text: str, file: str) -> OrbitFile:
    """An XML file whose beginning does not say which message it holds."""
    try:
        return _trajectory(text, file)
    except PlanProblems as problems:
        try:
            return _elements(text, file)
        except PlanProblems:
            raise problems from None


def _trajectory(text: str, file: str) -> OrbitFile:
    trajectory = trajectory_of(text, file)
    first, last = trajectory.segments[0], trajectory.segments[-1]
    return OrbitFile(
        CourseKind.TRAJECTORY,
        file,
        trajectory.name,
        round(utc_ms_of_tt_s(first.begin_s)),
        round(utc_ms_of_tt_s(last.end_s)),
        first.centre,
    )


def _elements(text: str, file: str) -> OrbitFile:
    elements = elements_of(text, file)
    epoch_ms = round(elements.epoch_utc_ms)
    return OrbitFile(CourseKind.ELEMENTS, file, elements.name, epoch_ms, epoch_ms, "earth")
