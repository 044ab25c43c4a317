"""What a line is about: the longest run of leading words that names exactly one thing."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum

from core.entries.context import Context, EventNow
from core.entries.readings import Target
from core.entries.things import Thing
from core.entries.words import tokens


class Fit(IntEnum):
    """How well words name a thing, the best first."""

    SAME_ID = 0
    ID = 1
    """The id in other letters, or with spaces for its hyphens."""
    NAME = 2
    WHOLE_WORDS = 3
    BEGINNINGS = 4


@dataclass(frozen=True, slots=True)
class Run:
    """Leading words, the rest of the line, and the things that the words name equally well."""

    words: str
    rest: str
    fit: Fit
    named: tuple[Thing, ...]

    @property
    def targets(self) -> tuple[Target, ...]:
        """All that is named."""
        return tuple(Target(each.kind, each.id, each.name, self.words) for each in self.named)


def selected_event(context: Context) -> EventNow | None:
    """The event whose card is selected."""
    return context.event(context.selected)


def runs_of(text: str, things: Sequence[Thing]) -> tuple[Run, ...]:
    """Every run of leading words that names something, the longest first."""
    runs: list[Run] = []
    left = _begun_by(text, things)
    for words, rest in _leading(text):
        fits = _fitting(words, left)
        if not fits:
            break
        # What a longer run names, a shorter one names too: only these need be looked at again.
        left = [thing for thing, _ in fits]
        best = min(fit for _, fit in fits)
        named = tuple(thing for thing, fit in fits if fit is best)
        runs.append(Run(words, rest, best, _still_to_come(named)))
    return tuple(reversed(runs))


def words_of(things: Sequence[Thing]) -> dict[str, Thing]:
    """Each id, name and word of either, in small letters, with the first thing it names."""
    known: dict[str, Thing] = {}
    for thing in things:
        for word in (thing.id, thing.name, *tokens(thing.name), *tokens(thing.id)):
            known.setdefault(word.casefold(), thing)
    return known


def _begun_by(text: str, things: Sequence[Thing]) -> Sequence[Thing]:
    """The things with a word that the first typed word begins: a quick look, then a close one."""
    first = next(iter(tokens(text.partition(" ")[0])), "")
    if not first:
        return ()
    begun = f" {first}"
    return [thing for thing in things if begun in thing.spaced]


def _fitting(typed: str, things: Sequence[Thing]) -> list[tuple[Thing, Fit]]:
    words = tokens(typed)
    if not words:
        return []
    each = ((thing, _fit(typed, words, thing)) for thing in things)
    return [(thing, fit) for thing, fit in each if fit is not None]


def _fit(typed: str, words: tuple[str, ...], thing: Thing) -> Fit | None:
    """How well typed words name a thing, or None."""
    own, name = tokens(thing.id), tokens(thing.name)
    if not (_in_order(words, name) or _in_order(words, own)):
        return None
    if typed == thing.id:
        return Fit.SAME_ID
    if typed.casefold() == thing.id.casefold() or words == own:
        return Fit.ID
    if words == name:
        return Fit.NAME
    if _in_order(words, name, whole=True) or _in_order(words, own, whole=True):
        return Fit.WHOLE_WORDS
    return Fit.BEGINNINGS


def _in_order(typed: tuple[str, ...], words: Iterable[str], *, whole: bool = False) -> bool:
    """Whether the typed words, or words they begin, come among these in the same order."""
    left = iter(words)
    return all(
        any(word == each if whole else word.startswith(each) for word in left) for each in typed
    )


def _still_to_come(named: tuple[Thing, ...]) -> tuple[Thing, ...]:
    """Those not yet happened, where there are any."""
    return tuple(thing for thing in named if not thing.past) or named


def _leading(text: str) -> Iterator[tuple[str, str]]:
    """Each run of leading words and the rest, the shortest run first; a sign alone ends none."""
    words = text.split(" ")
    for count, last in enumerate(words, 1):
        if tokens(last):
            yield " ".join(words[:count]), " ".join(words[count:])
