"""Plans as the program takes them: read, and their courses tried on the ephemeris that ships."""

from collections.abc import Callable
from pathlib import Path

from app.skies import try_courses
from core.errors import CourseProblem, PlanProblems, Problem
from core.plan.model import Plan
from core.plan.reader import place_of_course, read_plan_with_warnings

_HINT = "Check the numbers of the course, and the dates of the plan"


def take_plan(path: Path, *, tried: Callable[[Plan], bool] = lambda _: False) -> Plan:
    """The plan in a file. Raises PlanProblems, for a course that cannot be computed too.

    `tried` tells of a plan whose courses are known to be fine: they are not tried again.
    """
    plan, _ = read_plan_with_warnings(path)
    if not tried(plan):
        _doubts(path, plan)
    return plan


def take_plan_with_warnings(path: Path) -> tuple[Plan, tuple[Problem, ...]]:
    """The plan in a file, and what will be awkward at the desk though nothing is wrong with it."""
    plan, warnings = read_plan_with_warnings(path)
    told = (_problem(path, plan, course, f"is odd: {why}") for course, why in _doubts(path, plan))
    return plan, (*warnings, *told)


def _doubts(path: Path, plan: Plan) -> tuple[tuple[str, str], ...]:
    """Courses that can be computed and are hardly meant, and why. Raises PlanProblems."""
    try:
        return try_courses(plan)
    except CourseProblem as problem:
        raise PlanProblems(
            (_problem(path, plan, problem.course, f"cannot be computed: {problem}"),)
        ) from problem


def _problem(path: Path, plan: Plan, course: str, what: str) -> Problem:
    number = [each.id for each in plan.courses].index(course)
    return Problem(place_of_course(path, number), f"the course '{course}' {what}", _HINT)
