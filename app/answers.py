"""What a plan's skies have answered, and its file: found again at the next start of that plan."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import astuple, dataclass, field
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


def write_answers(path: Path, answers: Answers) -> None:
    """Write a file, whole or not at all. Raises OSError."""
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
    beside = path.with_suffix(".new")
    beside.write_text(json.dumps(data), encoding="utf-8")
    beside.replace(path)


def read_answers(path: Path) -> Answers | None:
    """Give what a file holds; None where there is none, or it is no such file."""
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        return Answers(
            {name: tuple(map(_branch, each)) for name, each in data["branches"]},
            _spells(data["spells"]),
            _spells(data["nears"]),
            {
                (_asked(branch, times), at_ms): light and Light(*light)
                for branch, times, at_ms, light in data["lights"]
            },
        )
    except (OSError, ValueError, TypeError, KeyError):
        return None


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
