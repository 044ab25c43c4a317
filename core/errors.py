"""Every error that core raises on purpose, and the Problem that bad input is told with.

LimbwatchError
├── PlanProblems     a plan (or a file beside it) that cannot be taken, with all its problems
├── EntryProblem     a line of the entry bar that cannot be read
├── EntryRefused     a line that was read, but that the board cannot take as it stands
├── TimeProblem      a clock time or a length that means nothing, or two things
└── SkyProblem       a signal that cannot be computed from what the plan gives
    ├── CourseProblem    a course of the plan that cannot be computed
    └── EphemerisRange   an instant for which no positions of the bodies are at hand
"""

from dataclasses import dataclass


class LimbwatchError(Exception):
    """The root of all errors that core raises on purpose."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where in a file something stands; line and column count from 1, and 0 is 'not known'."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        if not self.line:
            return self.file
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing wrong with an input: where it stands, what is wrong, what to write instead."""

    where: Place
    what: str
    hint: str = ""

    def __str__(self) -> str:
        said = f"{self.where}: {self.what}"
        return f"{said}. {self.hint}" if self.hint else said


class PlanProblems(LimbwatchError):
    """A plan cannot be taken; `problems` holds everything wrong with it, sorted by place."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


def _sentences(what: str, hint: str) -> str:
    """What is wrong and what to do, as two sentences."""
    if not hint:
        return what
    return f"{what} {hint}" if what.endswith(("?", ".")) else f"{what}. {hint}"


class EntryProblem(LimbwatchError):
    """A typed line cannot be read: `part` is the piece at fault, `hint` what would be read."""

    def __init__(self, what: str, part: str = "", hint: str = "") -> None:
        super().__init__(_sentences(what, hint))
        self.what = what
        self.part = part
        self.hint = hint


class EntryRefused(LimbwatchError):
    """An entry was read but cannot be taken (a revision of what has happened, for one)."""

    def __init__(self, what: str, hint: str = "") -> None:
        super().__init__(_sentences(what, hint))
        self.what = what
        self.hint = hint


class TimeProblem(LimbwatchError):
    """A written time or length cannot be taken as it stands; the message says what to write."""

    def __init__(self, what: str, hint: str = "") -> None:
        super().__init__(_sentences(what, hint))
        self.what = what
        self.hint = hint


class SkyProblem(LimbwatchError):
    """The signal cannot be computed from what the plan gives; the message says why."""


class CourseProblem(SkyProblem):
    """A course of the plan cannot be computed; `course` is its id."""

    def __init__(self, course: str, what: str) -> None:
        super().__init__(what)
        self.course = course


class EphemerisRange(SkyProblem):
    """The positions of the Moon and the planets are not at hand for an instant."""


class SessionProblem(LimbwatchError):
    """What was kept of a session cannot be read as it stands; the message says why."""


class LaterVersion(SessionProblem):
    """It was kept by a later version of the program than this one."""
