"""The line as words: made plain, its source split off, and the nearest known word found."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache
from itertools import takewhile

from core.errors import EntryProblem

LONGEST = 500
"""Characters in a line. Nobody types more in the two seconds a change leaves."""

_CLOSE = 3
"""Among so many of the words most like the typed one, the beginning decides."""

_PLAIN = str.maketrans(
    {"−": "-", "–": "-", "“": '"', "”": '"', "„": '"', "’": "'", "\u00a0": " ", "±": "+-"}
)
_SOURCE = re.compile(r"(?P<line>.*?)(?:^|(?<=\s))per(?:\s+(?P<source>\S+))?\s*", re.I | re.S)


@dataclass(frozen=True, slots=True)
class Line:
    """A line without its source; `source` is empty where nobody is named."""

    text: str
    source: str = ""


def kept(text: str) -> str:
    """The line as typed, its spaces single; EntryProblem if it is too long."""
    if len(text) > LONGEST:
        raise EntryProblem("The line is too long", hint=f"A line has at most {LONGEST} characters")
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


def plain(text: str) -> str:
    """The same with typographic dashes, quotation marks and signs made plain."""
    return kept(text.translate(_PLAIN)).replace("+/-", "+-")


def split_source(text: str, sources: Sequence[str]) -> Line:
    """The line and who said so, where it ends in 'per' and a word.

    Raises EntryProblem for a source the plan does not list; where it lists none, any word is one.
    """
    match = _SOURCE.fullmatch(text)
    if match is None:
        return Line(text)
    named = match["source"]
    known = {source.casefold(): source for source in sources}
    if named is None:
        raise EntryProblem("'per' needs a name after it", "per", _whom(sources))
    if sources and named.casefold() not in known:
        near = nearest(named, known)
        hint = f"The nearest is 'per {known[near]}'" if near else _whom(sources)
        raise EntryProblem(f"'{shown(named)}' is no source of this plan", named, hint)
    return Line(match["line"].strip(), known.get(named.casefold(), named))


@lru_cache(maxsize=8192)
def tokens(text: str) -> tuple[str, ...]:
    """The words of a name or an id, for comparing: case and punctuation do not count."""
    return tuple(re.findall(r"[^\W_]+", text.casefold()))


@lru_cache(maxsize=8192)
def spaced(text: str) -> str:
    """The words of a name or an id, each with a space before it."""
    return "".join(f" {word}" for word in tokens(text))


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like this one, or empty where none is like it.

    Of several, the one that begins like it: who types 'ignn' meant 'ignition', not 'in'.
    """
    small = word.casefold()
    close = get_close_matches(small, list(known), n=_CLOSE, cutoff=0.6)
    return max(close, key=lambda each: _alike(small, each.casefold()), default="")


def _alike(one: str, other: str) -> int:
    """How many letters both begin with."""
    pairs = zip(one, other, strict=False)
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))


def shown(text: str) -> str:
    """The text, cut short where it would not fit a line of the bar."""
    return text if len(text) <= 40 else f"{text[:37]}..."


def _whom(sources: Sequence[str]) -> str:
    if not sources:
        return "Say who in one word, as in 'per flight'"
    return "Say " + ", ".join(f"'per {source}'" for source in sources)
