"""A plan as it is kept in a session: the texts it was read from, so that no file is needed."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.errors import PlanProblems, SessionProblem
from core.plan.model import Plan, Texts
from core.plan.reader import read_kept_plan
from core.session.plain import Plain, of_plain, to_plain

Ready = Callable[[Plan], Plan]
"""Gives a plan that was read its automatic edges, as events."""


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A plan's texts, and the folder it stood in."""

    texts: Texts
    folder: str


def plan_to_plain(plan: Plan) -> Plain:
    """A plan that was read, as JSON holds it. ValueError for one that was not read."""
    if plan.texts is None:
        raise ValueError("this plan was not read from a text")
    return to_plain(KeptPlan(plan.texts, str(plan.folder)))


def plan_of_plain(plain: Any, where: str) -> Plan:
    """The plan as it was read. Raises SessionProblem where it cannot be read now."""
    kept: KeptPlan = of_plain(KeptPlan, plain, where)
    try:
        return read_kept_plan(kept.texts, Path(kept.folder) / "plan")
    except PlanProblems as problems:
        raise SessionProblem(f"{where} cannot be read: {problems.problems[0]}") from problems
