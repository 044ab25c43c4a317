"""What a plan's skies have answered, and its file: found again at the next start of that plan."""

import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import astuple, dataclass, field
from os import SEEK_END
from pathlib import Path
from typing import Any

from core.signal.computing import Branch, Spell, Times
from core.signal.seen import Hidden, Light, Seen, Sighting

Asked = tuple[Branch, Times]


@dataclass(frozen=True, slots=True)
class Answers:
    """Answers by their questions: branches of a course, a branch's spell, its light at a time.

    `nears` are the spells known only as far as a day after the branch's turn.
    """

    branches: dict[str, tuple[Branch, ...]] = field(default_factory=dict)
    spells: dict[Asked, Spell | None] = field(default_factory=dict)
    nears: dict[Asked, Spell | None] = field(default_factory=dict)
    lights: dict[tuple[Asked, int], Light | None] = field(default_factory=dict)

    def __len__(self) -> int:
        """How many there are."""
        return len(self.branches) + len(self.spells) + len(self.nears) + len(self.lights)


def add_answers(path: Path, answers: Answers) -> None:
    """Add a line to a file, which need not be there yet. Raises OSError."""
    data = {
        "branches": [[name, list(map(astuple, each))] for name, each in answers.branches.items()],
        "spells": _written(answers.spells),
        "nears": _written(answers.nears),
        "lights": [
            [astuple(branch), times, at_ms, light and astuple(light)]
            for ((branch, times), at_ms), light in answers.lights.items()
        ],
    }
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("ab+") as file:
        if file.tell() and file.seek(-1, SEEK_END) >= 0 and file.read(1) != b"\n":
            file.write(b"\n")  # the line before was not written to its end
        file.write(json.dumps(data).encode() + b"\n")


def read_answers(path: Path) -> Answers:
    """Give what a file holds; lines that were not written to their end are passed over."""
    answers = Answers()
    lines: list[bytes] = []
    with suppress(OSError):
        lines = path.read_bytes().splitlines()
    for line in lines:
        with suppress(ValueError, TypeError, KeyError):
            _take(answers, json.loads(line))
    return answers


def _take(answers: Answers, data: Mapping[str, Any]) -> None:
    branches = {name: tuple(map(_branch, each)) for name, each in data["branches"]}
    spells, nears = _spells(data["spells"]), _spells(data["nears"])
    lights = {
        (_asked(branch, times), at_ms): light and Light(*light)
        for branch, times, at_ms, light in data["lights"]
    }
    answers.branches.update(branches)
    answers.spells.update(spells)
    answers.nears.update(nears)
    answers.lights.update(lights)


def _written(spells: Mapping[Asked, Spell | None]) -> list[Sequence[Any]]:
    return [
        [astuple(branch), times, spell and astuple(spell)]
        for (branch, times), spell in spells.items()
    ]


def _spells(written: Sequence[Any]) -> dict[Asked, Spell | None]:
    return {_asked(branch, times): _spell(spell) for branch, times, spell in written}


def _asked(branch: Sequence[Any], times: Sequence[int | None]) -> Asked:
    return _branch(branch), tuple(times)


def _branch(written: Sequence[Any]) -> Branch:
    course, outcome, events, forked, steady = written
    return Branch(course, outcome, tuple(events), forked, steady)


def _spell(written: Sequence[Any] | None) -> Spell | None:
    if written is None:
        return None
    (sightings, hidden), from_ms, to_ms = written
    seen = Seen(
        tuple(Sighting(*each) for each in sightings), tuple(Hidden(*each) for each in hidden)
    )
    return Spell(seen, from_ms, to_ms)
