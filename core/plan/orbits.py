"""What the own file of a course says of the craft's orbit, or the two lines in the plan."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from core.errors import PlanProblems
from core.plan.fields import Fields
from core.plan.orbitdata import elements, trajectory
from core.plan.orbitdata.model import MeanElements, Trajectory

T = TypeVar("T")


def read_states(fields: Fields, file: str | None) -> Trajectory | None:
    """The trajectory in the course's file; None where there is none, or after telling why not."""
    most, smaller = trajectory.LARGEST_BYTES, trajectory.COARSER
    return _from_file(fields, file, most, smaller, trajectory.trajectory_of)


def read_mean_elements(fields: Fields, file: str | None) -> MeanElements | None:
    """The elements in the course's file or in `tle`; None where there are none that can be taken.

    What is wrong is told, in the file at its place, in `tle` at its line.
    """
    if file is not None:
        most, smaller = elements.LARGEST_BYTES, elements.ONE_OBJECT
        return _from_file(fields, file, most, smaller, elements.elements_of)
    match fields.raw("tle"):
        case [str(line_1), str(line_2)]:
            return _from_lines(fields, line_1, line_2)
        case _:
            return None


def _from_file(
    fields: Fields,
    file: str | None,
    largest_bytes: int,
    smaller: str,
    read: Callable[[str, str], T],
) -> T | None:
    if file is None:
        return None
    shown = str(Path(fields.page.shown).parent / file)
    try:
        return read(fields.page.read(file, shown, largest_bytes, smaller), shown)
    except PlanProblems as error:
        for problem in error.problems:
            fields.page.problem(problem.where, problem.what, problem.hint)
        return None


def _from_lines(fields: Fields, line_1: str, line_2: str) -> MeanElements | None:
    try:
        return elements.elements_of_lines(line_1, line_2)
    except PlanProblems as error:
        for problem in error.problems:
            where = (*fields.at("tle"), problem.where.line - 1)
            fields.page.problem(where, problem.what, problem.hint)
        return None
