"""Skies that remember an earlier start of the same plan, so that the first frame waits for none.

Loading the geometry takes longer than reading a plan and laying it out, and at the start it is
asked what it was asked before: by the plan, and by each entry that is folded again. A file of
answers is named after all that they follow from: the plan, the program's code, its libraries and
the ephemeris. So none is ever out of date, and what is not remembered is computed.
"""

import hashlib
import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from importlib.util import find_spec
from pathlib import Path
from typing import TypeVar

from app.answers import Answers, add_answers, read_answers
from app.resources import asset, code_folder
from app.skies import EPHEMERIS, geometry, is_computed
from core.plan.model import Course, Plan
from core.signal.computing import Branch, Spell, Times
from core.signal.hurried import Hurried, NearSkies
from core.signal.seen import Light

MOST_FILES = 16
"""So many plans are remembered: those that were opened last."""

MOST_HELD = 32
"""So many new answers of a kind are held while the board runs, until an entry is taken."""

LARGEST_FILE_B = 16_000_000
"""A file that has grown larger is begun anew."""

_LIBRARIES = ("numpy", "sgp4", "jplephem")

_Q = TypeVar("_Q")
_A = TypeVar("_A")


class Recalling:
    """Skies that answer from memory; the first new question has the geometry made.

    From when it is awake only the last new answers are held, until they are taken away.
    """

    def __init__(self, make: Callable[[], NearSkies], known: Answers) -> None:
        self._make = make
        self._made: NearSkies | None = None
        self._known = known
        self._awake = False
        self._asked: dict[Branch, Times] = {}
        self._new = Answers()

    def wake(self) -> None:
        """All that is to come is computed: have the geometry ready, and what it was asked last."""
        self._awake = True
        for branch, times in self._asked.items():
            self._skies().spell(branch, times)

    def taken(self) -> Answers:
        """Give the new answers, once: they are let go."""
        new, self._new = self._new, Answers()
        return new

    def branches(self, course: Course) -> tuple[Branch, ...]:
        """The branches of a computed course."""
        return self._answer(
            course.id,
            self._known.branches,
            self._new.branches,
            lambda skies: skies.branches(course),
        )

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        """When a branch is seen; None where an event's time is not known, or the bodies' places."""
        self._asked[branch] = times
        return self._answer(
            (branch, times),
            self._known.spells,
            self._new.spells,
            lambda skies: skies.spell(branch, times),
        )

    def near(self, branch: Branch, times: Times) -> Spell | None:
        """The same, known only as far as a day after the branch's turn."""
        return self._answer(
            (branch, times),
            self._known.nears,
            self._new.nears,
            lambda skies: skies.near(branch, times),
        )

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        """How far away the craft of a branch is; None where the branch says nothing of then."""
        return self._answer(
            ((branch, times), at_ms),
            self._known.lights,
            self._new.lights,
            lambda skies: skies.light(branch, times, at_ms),
        )

    def _answer(
        self,
        question: _Q,
        known: Mapping[_Q, _A],
        new: dict[_Q, _A],
        compute: Callable[[NearSkies], _A],
    ) -> _A:
        for answers in (known, new):
            if question in answers:
                return answers[question]
        found = new[question] = compute(self._skies())
        if self._awake and len(new) > MOST_HELD:
            del new[next(iter(new))]  # the oldest: asked while a line was typed that was not taken
        return found

    def _skies(self) -> NearSkies:
        if self._made is None:
            self._made = self._make()
        return self._made


class Memory:
    """The folder of answers, and the skies of the plan that the board was opened with."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._begun: tuple[Path, Recalling] | None = None
        self._named: tuple[Plan, Path] | None = None
        self._entries = 0

    def knows(self, plan: Plan) -> bool:
        """Whether that plan was opened before: then its courses were tried, and are fine."""
        return self._file_of(plan).exists()

    def skies_for(self, plan: Plan) -> Hurried | None:
        """Who computes the courses of a plan, for a board; None where all of them are tables.

        Only for the plan that the board is opened with there is time to be won.
        """
        if not is_computed(plan):
            return None
        if self._begun is not None:
            return Hurried(geometry(plan))
        path = self._file_of(plan)
        skies = Recalling(lambda: geometry(plan), read_answers(path))
        self._begun = (path, skies)
        return Hurried(skies)

    def keep(self, entries: int = 0) -> None:
        """Once all is painted: write down what was new, and get ready to compute."""
        self._entries = entries
        self._write()
        if self._begun is not None:
            self._begun[1].wake()

    def follow(self, entries: int) -> None:
        """With so many entries in the session: write down what more of them had computed.

        Opened again, the session folds them all anew and asks the same.
        """
        if entries != self._entries:
            self._entries = entries
            self._write()

    def _write(self) -> None:
        if self._begun is None:
            return
        path, skies = self._begun
        new = skies.taken()
        if not new:
            return
        with suppress(OSError):  # no room, no right: the next start takes a little longer
            if path.exists() and path.stat().st_size > LARGEST_FILE_B:
                path.unlink()
            add_answers(path, new)
            self._forget_the_oldest()

    def _file_of(self, plan: Plan) -> Path:
        if self._named is None or self._named[0] is not plan:
            self._named = (plan, self._folder / f"{key_of(plan)}.json")
        return self._named[1]

    def _forget_the_oldest(self) -> None:
        files = sorted(self._folder.glob("*.json"), key=lambda file: file.stat().st_mtime_ns)
        for file in files[:-MOST_FILES]:
            file.unlink(missing_ok=True)


def key_of(plan: Plan) -> str:
    """Give the name of all that the answers for a plan follow from."""
    digest = hashlib.sha256(repr(plan).encode())
    for path in _files():
        stat = path.stat()
        digest.update(f"\n{path} {stat.st_size} {stat.st_mtime_ns}".encode())
    return digest.hexdigest()[:32]


def _files() -> Iterator[Path]:
    """Every file of the code below the windows, the libraries' first ones, and the ephemeris."""
    for folder, _, names in sorted(os.walk(code_folder("core"))):
        yield from (Path(folder, name) for name in sorted(names) if name.endswith(".py"))
    found = (find_spec(name) for name in _LIBRARIES)
    yield from (Path(spec.origin) for spec in found if spec is not None and spec.origin)
    yield asset(EPHEMERIS)
