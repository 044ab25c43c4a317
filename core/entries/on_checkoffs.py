"""The forms about a check-off: how many, which of them, one more."""

from dataclasses import dataclass

from core.entries.airing import Count
from core.entries.context import Context
from core.entries.forms import nearest_form
from core.entries.formshape import About
from core.entries.readings import Reading, Target
from core.entries.words import shown
from core.errors import EntryProblem
from core.plan.model import CheckOff


@dataclass(frozen=True, slots=True)
class OnCheckOff:
    """A line about a check-off: `rest` is what follows the target, in small letters."""

    checkoff: CheckOff
    target: Target
    rest: str
    context: Context

    def reading(self, count: int, positions: tuple[int, ...] = ()) -> Reading:
        """The reading that so many have been heard of, and which."""
        which = f": {', '.join(map(str, positions))}" if positions else ""
        how = f"{self.checkoff.name}: {count} of {self.checkoff.count}{which}"
        return Reading(Count(self.checkoff.id, count, positions), how, self.target)

    def refused(self, what: str, part: str) -> EntryProblem:
        """The error for figures that cannot be: with what would be read."""
        total, words = self.checkoff.count, self.target.words
        hint = f"Up to {total}, as '{words} {total}'; or which, from 1 to {total}: '{words} at 1'"
        return EntryProblem(what, part, hint)


def read_on_checkoff(line: OnCheckOff) -> tuple[Reading, ...]:
    """The reading of a line about a check-off; EntryProblem where there is none."""
    word, _, tail = line.rest.partition(" ")
    if word[:1] in {"+", "-"}:
        return (_more(line),)
    if word == "at":
        return (_which(line, tail),)
    figures = _figures(line.rest)
    if not figures:
        raise _not_read(line)
    return (_which(line, line.rest) if len(figures) > 1 else _how_many(line, figures[0]),)


def _how_many(line: OnCheckOff, count: int) -> Reading:
    if count > line.checkoff.count:
        total = line.checkoff.count
        what = f"{line.checkoff.name}: there are {total} in all, not {shown(str(count))}"
        raise line.refused(what, line.rest)
    return line.reading(count)


def _more(line: OnCheckOff) -> Reading:
    """So many more than last heard, or fewer; which of them is known as far as it was."""
    figures = _figures(line.rest[1:].strip())
    if len(figures) != 1:
        raise _not_read(line)
    last = line.context.aired.counts.get(line.checkoff.id)
    before = 0 if last is None else last.count
    count = before - figures[0] if line.rest[0] == "-" else before + figures[0]
    if not 0 <= count <= line.checkoff.count:
        raise line.refused(
            f"{line.checkoff.name}: {before} of {line.checkoff.count} so far", line.rest
        )
    known = () if last is None or count < before else last.positions
    return line.reading(count, known)


def _which(line: OnCheckOff, text: str) -> Reading:
    positions = _figures(text)
    if not positions:
        raise _not_read(line)
    for number, position in enumerate(positions):
        if not 1 <= position <= line.checkoff.count:
            what = f"{line.checkoff.name}: there is no {shown(str(position))}"
            raise line.refused(what, str(position))
        if position in positions[:number]:
            raise line.refused(f"{position} stands here twice", str(position))
    return line.reading(len(positions), tuple(sorted(positions)))


def _figures(text: str) -> tuple[int, ...]:
    """The whole numbers of '1 3 5', '1, 3 and 5'; none where anything else stands there."""
    words = [word for word in text.replace(",", " ").split() if word != "and"]
    if not all(word.isascii() and word.isdigit() for word in words):
        return ()
    return tuple(int(word) for word in words)


def _not_read(line: OnCheckOff) -> EntryProblem:
    what = f"'{shown(line.rest)}' is nothing that is read for {line.checkoff.name}"
    if not line.rest:
        what = f"What of {line.checkoff.name}?"
    hint = nearest_form(About.CHECKOFF, line.target.words, line.rest)
    return EntryProblem(what, line.rest, hint)
