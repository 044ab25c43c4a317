"""Which entries can be taken back or brought back, and the day's entries as they are listed."""

from collections.abc import Sequence

from core.board.meaning import meaning
from core.board.model import EntryRow
from core.board.words import Names
from core.entries.airing import Airing
from core.entries.model import BringBack, ClockStep, ClockTold, Entry, Note, TakeBack, standing
from core.entries.signing import Signing
from core.times.writing import Style, clock_text

_ABOUT = ("event", "item", "checkoff")


def last_to_take_back(entries: Sequence[Entry]) -> int | None:
    """The number of the last entry that stands, None where there is none to take back."""
    return next((e.number for e in reversed(standing(entries)) if _can_turn(e)), None)


def to_turn(entries: Sequence[Entry], action: TakeBack | BringBack) -> Entry | None:
    """The entry that the action would turn, None where that would change nothing."""
    entry = next((e for e in entries if e.number == action.number), None)
    stands = any(e.number == action.number for e in standing(entries))
    if entry is None or not _can_turn(entry) or stands is isinstance(action, BringBack):
        return None
    return entry


def told_as(entry: Entry, entries: Sequence[Entry], names: Names, style: Style) -> str:
    """What an entry says; of one that turns another, what that one says."""
    match entry.action:
        case TakeBack(number) | BringBack(number):
            word = "Taken back" if isinstance(entry.action, TakeBack) else "Brought back"
            turned = next((each for each in entries if each.number == number), entry)
            return f"{word}: {meaning(turned.action, names, style)}"
    return meaning(entry.action, names, style)


def is_of_times(entry: Entry, entries: Sequence[Entry]) -> bool:
    """Whether an entry, or the one it turns, is about times: no note, nothing of the programme."""
    action = entry.action
    if isinstance(action, TakeBack | BringBack):
        number = action.number
        action = next((each.action for each in entries if each.number == number), action)
    return not isinstance(action, Note | ClockStep | ClockTold | Airing | Signing)


def rows(entries: Sequence[Entry], names: Names, style: Style) -> tuple[EntryRow, ...]:
    """The day's entries, oldest first; undoing itself is not listed, only what it took back."""
    stand = {entry.number for entry in standing(entries)}
    return tuple(
        EntryRow(
            number=entry.number,
            when=clock_text(entry.at_ms, style),
            typed=entry.typed,
            meaning=_meaning(entry, names, style),
            source=entry.source,
            taken_back=entry.number not in stand,
            can_take_back=_can_turn(entry),
            by=entry.by,
        )
        for entry in entries
        if not isinstance(entry.action, TakeBack | BringBack)
    )


def _meaning(entry: Entry, names: Names, style: Style) -> str:
    """What the entry says; of what the plan has no more, that too."""
    words = meaning(entry.action, names, style)
    about = (getattr(entry.action, key, None) for key in _ABOUT)
    gone = any(isinstance(each, str) and each not in names for each in about)
    return f"{words} (not in the plan now)" if gone else words


def _can_turn(entry: Entry) -> bool:
    """Whether the entry may be taken back: what the machine's clock did, or who signed, may not."""
    return not isinstance(entry.action, ClockStep | ClockTold | Signing | TakeBack | BringBack)
