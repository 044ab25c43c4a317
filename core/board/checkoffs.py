"""Check-offs in words: how many were heard, and whether that is enough by the plan's rule."""

from collections.abc import Iterable, Mapping

from core.board.rings import evenly_spread, is_sure, lacking
from core.board.written import Said, Tone
from core.entries.airing import Count
from core.plan.model import CheckOff


def check_lines(
    checkoffs: Iterable[CheckOff], of: str, counts: Mapping[str, Count]
) -> tuple[Said, ...]:
    """A line for each check-off of the event `of`, in the plan's order."""
    return tuple(check_words(each, counts.get(each.id)) for each in checkoffs if each.of == of)


def check_words(checkoff: CheckOff, heard: Count | None) -> Said:
    """'Engines lit: 28 of 31, enough: 26 will do'; quiet before any count was heard.

    It says what was heard against the plan's rule, never what it means for the flight. What is
    not enough, or not known to be, stands out.
    """
    lead = checkoff.name
    if heard is None:
        return Said(f"{lead}: 0 of {checkoff.count} heard, {_rule(checkoff)}", Tone.QUIET)
    if heard.count == checkoff.count:
        return Said(f"{lead}: all {checkoff.count}")
    told = f"{lead}: {heard.count} of {checkoff.count}"
    if heard.count < checkoff.enough:
        return Said(f"{told}; {_needed(checkoff)}", Tone.CHANGE)
    if checkoff.spaced:
        return _spread(checkoff, heard, told)
    return Said(f"{told}, enough: {_rule(checkoff)}")


def _spread(checkoff: CheckOff, heard: Count, told: str) -> Said:
    """The same where those that count must be evenly spread round the ring."""
    count, enough = checkoff.count, checkoff.enough
    if evenly_spread(heard.positions, count, enough):
        return Said(f"{told}, evenly spread: enough")
    if is_sure(heard.count, count, enough):
        return Said(f"{told}, evenly spread whichever they are: enough")
    short = lacking(heard.positions, count, enough)
    unnamed = heard.count - len(heard.positions)
    if unnamed and short is not None and short <= unnamed:
        words = "the count alone does not tell if they are evenly spread: name them"
        return Said(f"{told}; {words}", Tone.CHANGE)
    return Said(f"{told}, not evenly spread: {_needed(checkoff)}", Tone.CHANGE)


def _rule(checkoff: CheckOff) -> str:
    spread = " evenly spread" if checkoff.spaced else ""
    return f"{checkoff.enough}{spread} will do"


def _needed(checkoff: CheckOff) -> str:
    spread = " evenly spread" if checkoff.spaced else ""
    are = "is" if checkoff.enough == 1 else "are"
    return f"{checkoff.enough}{spread} {are} needed"
