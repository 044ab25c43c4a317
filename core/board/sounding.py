"""How names sound: which name of an event the plan means, and which of them a sentence has."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

from core.plan.model import Event, Plan

_ALIKE = 0.4
"""Written and as it sounds, a name is alike from here on: 'circularisation' is 0.45."""
_SAME_START = 0.1
_STARTS = {"k": "c", "s": "c", "f": "p"}
"""A sound that another letter may stand for at the beginning of a name."""
_SHORT = 3
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")


@dataclass(frozen=True, slots=True)
class Sounding:
    """A name as it is written, and how it sounds: 'Petrel', 'PET-rul'."""

    name: str
    sounds: str


def soundings(plan: Plan) -> tuple[Sounding, ...]:
    """Every name of which the plan says how it sounds, each once."""
    given = ((_meant(event, plan.title), event.sounds) for event in plan.events if event.sounds)
    return tuple(dict.fromkeys(Sounding(name, sounds) for name, sounds in given if name))


def sounds_in(text: str, known: Iterable[Sounding]) -> tuple[str, ...]:
    """How the names sound that the text has, in the order in which it has them."""
    found = {each.sounds: _place(text, each.name) for each in known}
    return tuple(sorted((s for s, place in found.items() if place >= 0), key=found.__getitem__))


def _place(text: str, name: str) -> int:
    found = re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE)
    return -1 if found is None else found.start()


def _meant(event: Event, title: str) -> str:
    """The words of an event, or of the title, that sound so: names before other words.

    Empty where none does: then it stands under no sentence, for it might be the wrong one.
    """
    count = len(event.sounds.split())
    runs = [run for text in (event.say, event.name, title) for run in _runs(text, count)]
    for able in ([r for r in runs if _is_name(r)], [r for r in runs if len(r) > _SHORT]):
        best = max(able, key=lambda run: _alike(run, event.sounds), default="")
        if best and _alike(best, event.sounds) >= _ALIKE:
            return best
    return ""


def _runs(text: str, count: int) -> Iterator[str]:
    """So many words running, as they stand in the text."""
    words = list(_WORD.finditer(text))
    for first, last in zip(words, words[count - 1 :], strict=False):
        yield text[first.start() : last.end()]


def _is_name(run: str) -> bool:
    return all(word[:1].isupper() for word in run.split())


def _alike(written: str, sounds: str) -> float:
    """How much alike the letters are, from nothing to 1 and a little more for the same start."""
    one, other = _letters(written), _letters(sounds)
    starts = {other[:1], _STARTS.get(other[:1], "")}
    same = _SAME_START if one[:1] in starts else 0.0
    return SequenceMatcher(None, one, other).ratio() + same


def _letters(text: str) -> str:
    return "".join(filter(str.isalpha, text.casefold()))
