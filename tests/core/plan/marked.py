"""Broken plans with a mark where the problem must be placed, and the check that it is."""

from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.reader import read_plan_text

HEAD = """limbwatch = 1
title = "Petrel 4"
zones = ["America/Halifax", "America/New_York"]
elapsed_from = "liftoff"

[[event]]
id = "liftoff"
at = 2031-05-11T13:28:32

[[event]]
id = "ignition"
after = "liftoff"
offset = "75:27:30"
least = "75:00:00"

[[ground]]
id = "tarn"
lanes = ["voice", "picture"]
"""

Broken = dict[str, tuple[str, str, str]]
"""By what is wrong: lines to add to HEAD, words of the problem, and words of its remedy."""


def check_told(marked: str, what: str, hint: str, folder: Path) -> None:
    """Check that HEAD with these lines is told one problem, where the mark ⟦ stands."""
    text = f"{HEAD}\n{marked}\n"
    with pytest.raises(PlanProblems) as caught:
        read_plan_text(text.replace("⟦", ""), "plan.toml", folder)
    told = [str(problem) for problem in caught.value.problems]
    assert len(told) == 1, told
    (problem,) = caught.value.problems
    assert what in problem.what
    assert hint in problem.hint
    where = (problem.where.file, problem.where.line, problem.where.column)
    assert where == ("plan.toml", *_place(text)), told


def _place(text: str) -> tuple[int, int]:
    """Where the mark stands; without one, HEAD's own liftoff is at fault with what was added."""
    at = text.find("⟦")
    if at < 0:
        at = text.index('[[event]]\nid = "liftoff"')
    before = text[:at]
    return before.count("\n") + 1, len(before) - before.rfind("\n")
