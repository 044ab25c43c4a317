"""A surprise chosen word for word: which words may come next."""

import re
from dataclasses import dataclass
from enum import Enum

from core.errors import EntryProblem
from core.plan.model import Plan

_LENGTH = re.compile(r"[-+]?\d+(?:\.\d+)?(?:[dhms]|:\d\d(?::\d\d)?)")
_SAID = re.compile(r":(?:\s|$)")


class Slot(Enum):
    """What a word stands for; the value says what is still to be told."""

    EVENT = "which event"
    LANE = "which lane"
    OUTCOME = "which outcome"
    REMOTE = "which remote"
    CHANGE = "lost or back"
    LATE_OR_EARLY = "late or early"
    HOW = "late, early, never or for"
    FIGURE = "how long, like 90s, 3m or 1m 30s"


FORMS: dict[str, tuple[Slot, ...]] = {
    "report": (Slot.EVENT, Slot.LATE_OR_EARLY, Slot.FIGURE),
    "signal": (Slot.LANE, Slot.CHANGE, Slot.HOW, Slot.FIGURE),
    "outcome": (Slot.OUTCOME,),
    "off": (Slot.EVENT,),
    "line": (Slot.REMOTE,),
    "closed": (Slot.LANE, Slot.FIGURE),
    "network": (Slot.FIGURE,),
    "camera": (Slot.FIGURE,),
    "clock": (Slot.FIGURE,),
    "words": (),
}
"""After its kind, what each surprise must say, in order."""

KINDS: dict[str, str] = {
    "report": "an event comes later or earlier",
    "signal": "a lane's next loss or return comes otherwise, or the signal drops",
    "outcome": "how an event turns out",
    "off": "an event is called off",
    "line": "a remote's line fails",
    "closed": "the ground closes a lane",
    "network": "the network takes the air",
    "camera": "the crew turn their camera on",
    "clock": "the machine's clock is put right",
    "words": "words that change nothing; write them after a colon",
}
"""The kinds, and what each of them is."""

_THEN = "Enter lets it come now. Or first: per SOURCE, quiet, a colon and the words that are heard"
_WAYS = {
    Slot.CHANGE: ("lost", "back"),
    Slot.LATE_OR_EARLY: ("late", "early"),
    Slot.HOW: ("late", "early", "never", "for"),
}


@dataclass(frozen=True, slots=True)
class Chosen:
    """A line taken apart: its words with lengths whole, who says it, and what is heard."""

    words: tuple[str, ...] = ()
    source: str = ""
    quiet: bool = False
    text: str = ""


@dataclass(frozen=True, slots=True)
class Next:
    """What comes next in a line: in words, and the words to choose from with what each means."""

    asks: str
    options: tuple[tuple[str, str], ...] = ()


def split(line: str) -> Chosen:
    """A line taken apart, as far as it goes."""
    told = _SAID.split(line, maxsplit=1)
    words: list[str] = []
    source, quiet = "", False
    rest = told[0].split()
    while rest:
        word = rest.pop(0)
        if word == "per" and rest:
            source = rest.pop(0)
        elif word == "quiet":
            quiet = True
        elif words and _LENGTH.fullmatch(word) and _LENGTH.fullmatch(words[-1].split()[-1]):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return Chosen(tuple(words), source, quiet, told[1].strip() if len(told) > 1 else "")


def next_words(line: str, plan: Plan) -> Next:
    """What may come next in a line that is being typed; a word begun narrows the choice."""
    if "=" in line or _SAID.search(line):
        return Next("Enter lets it come now")
    begun = _begun(line)
    before = line[: len(line) - len(begun)]
    words = split(before).words
    if not words:
        return Next("What happens", _beginning(tuple(KINDS.items()), begun))
    if before.split()[-1] == "per":
        return Next("Who says so", _beginning(tuple((s, "") for s in plan.sources), begun))
    slots = FORMS.get(words[0], ())
    if "never" in words:
        slots = slots[:-1]
    if words[0] not in FORMS or len(words) > len(slots):
        return Next(_THEN if words[0] in FORMS else "No kind of surprise begins like this")
    slot = slots[len(words) - 1]
    if slot is Slot.FIGURE and _LENGTH.fullmatch(begun):
        return Next(_THEN)
    return Next(slot.value.capitalize(), _beginning(_options(slot, plan), begun))


def _begun(line: str) -> str:
    """The word that is being typed, as far as it goes."""
    return "" if not line or line[-1].isspace() else line.rsplit(maxsplit=1)[-1]


def completed(line: str, option: str) -> str:
    """The line with a word chosen for the one that is begun, and a space to go on."""
    return f"{line[: len(line) - len(_begun(line))]}{option} "


def whole(word: str, slot: Slot, plan: Plan) -> str:
    """The word, or the only one that begins like it. Raises EntryProblem where more do."""
    names = [name for name, _ in _options(slot, plan)]
    begin = [name for name in names if name.startswith(word)]
    if word in names or not begin:
        return word
    if len(begin) > 1:
        raise EntryProblem(f"'{word}' may be {' or '.join(begin)}", hint="Write it in full")
    return begin[0]


def _options(slot: Slot, plan: Plan) -> tuple[tuple[str, str], ...]:
    match slot:
        case Slot.EVENT:
            return tuple((each.id, each.name) for each in plan.events if each.happened_ms is None)
        case Slot.LANE:
            return tuple((each.id, each.name) for each in plan.lanes)
        case Slot.OUTCOME:
            return tuple((each.id, each.name) for each in plan.outcomes)
        case Slot.REMOTE:
            return tuple((each.id, each.name) for each in plan.items if each.kind == "remote")
    return tuple((word, "") for word in _WAYS.get(slot, ()))


def _beginning(options: tuple[tuple[str, str], ...], begun: str) -> tuple[tuple[str, str], ...]:
    return tuple((word, means) for word, means in options if word.startswith(begun))
