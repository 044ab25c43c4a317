"""Entries as text, one JSON document each, and back.

The words below are a contract: an action keeps its word for good, and a field its name. What a
later version adds has a default (see `core.session.plain`); what it changes otherwise counts
VERSION up and has a step that brings the older document to the newer form.
"""

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from core.entries import airing, signing
from core.entries import model as entries
from core.entries.model import Action, Entry, TakePlan
from core.errors import LaterVersion, SessionProblem
from core.session.kept_plan import Ready, plan_of_plain, plan_to_plain
from core.session.plain import of_plain, to_plain

WORDS: Mapping[type[Action], str] = {
    entries.Revise: "revise",
    entries.Give: "give",
    entries.Happened: "happened",
    entries.Hold: "hold",
    entries.Resume: "resume",
    entries.Scrub: "scrub",
    entries.Pin: "pin",
    entries.Free: "free",
    entries.Choose: "choose",
    entries.Undecide: "undecide",
    entries.Observe: "observe",
    entries.Shut: "shut",
    entries.Add: "add",
    entries.Note: "note",
    airing.Begin: "begin",
    airing.Place: "place",
    airing.Unplace: "unplace",
    airing.Finish: "finish",
    airing.Drop: "drop",
    airing.LeaveAir: "leave-air",
    airing.TakeAir: "take-air",
    airing.Count: "count",
    airing.MarkSaid: "said",
    airing.Waive: "waive",
    airing.Grave: "grave",
    airing.PictureClock: "picture-clock",
    airing.LaneDelay: "lane-delay",
    airing.Promise: "promise",
    airing.KeepPromise: "promise-kept",
    signing.SignIn: "sign-in",
    signing.SignOut: "sign-out",
    entries.Replan: "replan",
    entries.TakePlan: "take-plan",
    entries.ClockStep: "clock-step",
    entries.ClockTold: "clock-told",
    entries.TakeBack: "take-back",
    entries.BringBack: "bring-back",
}
"""The word of every action."""

Step = Callable[[dict[str, Any]], dict[str, Any]]
"""Brings a document to the next version's form."""

STEPS: tuple[Step, ...] = ()
"""From version 1 on, in order. Version 1 is the first there is."""

_KINDS = {word: kind for kind, word in WORDS.items()}
_PARTS = ("number", "at_ms", "typed", "source", "forced", "rehearsal")
_LATER = {"by": ""}
"""Parts that came later, each with its default: left out where they are at it."""


def entry_text(entry: Entry) -> str:
    """An entry as one line of JSON, in ASCII."""
    action = entry.action
    given = plan_to_plain(action.plan) if isinstance(action, TakePlan) else to_plain(action)
    parts = {part: getattr(entry, part) for part in (*_PARTS, *_LATER)}
    parts = {part: has for part, has in parts.items() if part in _PARTS or has != _LATER[part]}
    document = {"v": len(STEPS) + 1, **parts, "do": WORDS[type(action)], "with": given}
    return json.dumps(document, separators=(",", ":"))


def entry_of(text: str, ready: Ready, steps: Sequence[Step] = STEPS) -> Entry:
    """The entry in a text; a plan taken over is made `ready`.

    Raises LaterVersion for what this program is too old for, SessionProblem for what is no entry.
    """
    document = _migrated(_parsed(text), steps)
    action = _action(document.pop("do", ""), document.pop("with", None), ready)
    lacks = set(_PARTS) - document.keys()
    if lacks:
        raise SessionProblem(f"An entry lacks '{min(lacks)}'")
    more = document.keys() - {*_PARTS, *_LATER}
    if more:
        raise LaterVersion(f"An entry has '{min(more)}', which only a later version knows")
    hints = {"number": int, "at_ms": int, "forced": bool, "rehearsal": bool}
    parts = {p: of_plain(hints.get(p, str), has, f"entry.{p}") for p, has in document.items()}
    return Entry(action=action, **parts)


def _parsed(text: str) -> dict[str, Any]:
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise SessionProblem("An entry is no JSON") from error
    if not isinstance(document, dict):
        raise SessionProblem("An entry is no JSON object")
    return document


def _migrated(document: dict[str, Any], steps: Sequence[Step]) -> dict[str, Any]:
    """The document in this version's form."""
    version = document.pop("v", None)
    if type(version) is not int or version < 1:
        raise SessionProblem("An entry does not say its version")
    if version > len(steps) + 1:
        raise LaterVersion(f"An entry is of version {version}; this program knows {len(steps) + 1}")
    for step in steps[version - 1 :]:
        document = step(document)
    return document


def _action(word: Any, given: Any, ready: Ready) -> Action:
    kind = _KINDS.get(word) if isinstance(word, str) else None
    if kind is None:
        raise LaterVersion(f"An entry does '{word}', which only a later version knows")
    if kind is TakePlan:
        return TakePlan(ready(plan_of_plain(given, word)))
    action: Action = of_plain(kind, given, word)
    return action
