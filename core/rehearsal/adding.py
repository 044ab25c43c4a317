"""A surprise typed on the spot: chosen word for word, or in the words of a surprises file.

'report ignition late 3m per flight: Ignition is three minutes late.' says the same as
'kind = "report", event = "ignition", late = "3m", source = "flight", text = "…"'. Both are read by
the reader of surprises files.
"""

import tomllib

from core.errors import EntryProblem, PlanProblems
from core.plan.model import Plan
from core.plan.writer import written
from core.rehearsal.choosing import FORMS, KINDS, Slot, split, whole
from core.rehearsal.drawing import rigid_to
from core.rehearsal.model import Surprise
from core.rehearsal.reading import read_surprises_text
from core.times.instants import ms_to_rfc3339

_WHEN = frozenset({"at", "elapsed", "after", "before", "inside"})
_FIGURE_KEYS = {"closed": "for", "network": "for", "camera": "for", "clock": "step"}
_KEYS = {Slot.EVENT: "event", Slot.LANE: "lane", Slot.OUTCOME: "outcome", Slot.REMOTE: "item"}
_IN_FILE = 'Like kind = "report", event = "ignition", late = "3m"'
_UTC = "UTC"


def surprise_of(line: str, plan: Plan, now_ms: int, number: int) -> Surprise:
    """The surprise that a line tells, to come now if it does not say when.

    Raises EntryProblem with what is wrong and what to write.
    """
    keys = line if "=" in line else _in_file_words(line, plan)
    try:
        given = tomllib.loads(f"surprise = {{ {keys} }}")["surprise"]
    except (tomllib.TOMLDecodeError, RecursionError) as problem:
        raise EntryProblem("This is not as a surprises file has it", hint=_IN_FILE) from problem
    if "id" not in given:
        keys += f', id = "added-{number}"'
    if not _WHEN & given.keys():
        keys += f", at = {ms_to_rfc3339(now_ms)}"
    text = (
        f'limbwatch_surprises = 1\ntitle = "Added"\nbegin = {ms_to_rfc3339(now_ms)}\n'
        f"end = {ms_to_rfc3339(now_ms + 1)}\nsurprise = [{{ {keys} }}]\n"
    )
    try:
        return read_surprises_text(text, "the line", plan).surprises[0]
    except PlanProblems as problems:
        first = problems.problems[0]
        raise EntryProblem(first.what, hint=first.hint) from problems


def _in_file_words(line: str, plan: Plan) -> str:
    """The keys of a line chosen word for word."""
    chosen = split(line)
    if not chosen.words or chosen.words[0] not in FORMS:
        raise EntryProblem("This is no kind of surprise", hint=f"One of {', '.join(KINDS)}")
    keys: dict[str, str | bool | list[str]] = {"kind": chosen.words[0]}
    if not FORMS[chosen.words[0]] and not chosen.text:
        raise EntryProblem("This does not say what is heard yet", hint="Write it after a colon")
    rest = list(chosen.words[1:])
    how = _FIGURE_KEYS.get(chosen.words[0], "")
    for slot in FORMS[chosen.words[0]]:
        if how == "never" and slot is Slot.FIGURE:
            break
        if not rest:
            raise EntryProblem(f"This does not say {slot.value} yet")
        word = whole(rest.pop(0), slot, plan)
        if slot in (Slot.LATE_OR_EARLY, Slot.HOW):
            how = word
        elif slot is Slot.FIGURE:
            keys[how] = word
        elif slot is Slot.CHANGE:
            keys["change"] = word
        else:
            keys[_KEYS[slot]] = word
    if how == "never":
        keys["never"] = True
    if rest:
        raise EntryProblem(
            f"'{rest[0]}' is one word too many", hint="What is said stands after a colon"
        )
    if "outcome" in keys and (without := _without(plan, str(keys["outcome"]))):
        keys["without"] = without
    keys |= {"source": chosen.source} if chosen.source else {}
    keys |= {"text": chosen.text} if chosen.text else {}
    keys |= {"quiet": True} if chosen.quiet else {}
    return ", ".join(f"{key} = {written(value, _UTC)}" for key, value in keys.items())


def _without(plan: Plan, outcome: str) -> list[str]:
    """What does not happen where an event turns out otherwise than the plan has it first."""
    of = next((each.of for each in plan.outcomes if each.id == outcome), "")
    first = next((each.id for each in plan.outcomes if each.of == of), "")
    return [] if outcome == first or not of else [of, *rigid_to(plan, of)]
