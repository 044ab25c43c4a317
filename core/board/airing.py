"""An entry about the programme in words, for the list of the day's entries and for the record."""

from core.board.words import Names, listed
from core.entries.airing import (
    Airing,
    Begin,
    Count,
    Drop,
    Finish,
    Grave,
    KeepPromise,
    LaneDelay,
    LeaveAir,
    MarkSaid,
    PictureClock,
    Place,
    Promise,
    TakeAir,
    Unplace,
    Waive,
)
from core.times.writing import Style, clock_text, short_duration_words


def airing_words(action: Airing, names: Names, style: Style) -> str:  # noqa: C901, PLR0911, PLR0912 - a table
    """What the entry says, in words."""

    def at(instant_ms: int) -> str:
        return clock_text(instant_ms, style)

    match action:
        case Begin(item, at_ms):
            return f"{names(item)} on the air at {at(at_ms)}"
        case Place(places):
            return f"Placed: {listed([f'{names(item)} at {at(at_ms)}' for item, at_ms in places])}"
        case Unplace(item):
            return f"{names(item)} has no start of the desk's own any more"
        case Finish(item, at_ms):
            return f"{names(item)} over at {at(at_ms)}"
        case Drop(item):
            return f"{names(item)} will not run"
        case LeaveAir(at_ms, until_ms):
            until = "" if until_ms is None else f" until {at(until_ms)}"
            return f"Off the air from {at(at_ms)}{until}"
        case TakeAir(at_ms):
            return f"On the air again at {at(at_ms)}"
        case Count(checkoff, count, positions):
            which = f": {', '.join(map(str, positions))}" if positions else ""
            return f"{names(checkoff)}: {count}{which}"
        case MarkSaid(text):
            return f"Said: {text}"
        case Waive(events):
            return f"Not to be corrected: {listed([names(event) for event in events])}"
        case Grave(on):
            return "Grave" if on else "No longer grave"
        case PictureClock(lane, shown_ms, at_ms):
            return f"The clock in {names(lane)} showed {at(shown_ms)} at {at(at_ms)}"
        case LaneDelay(lane, delay_ms):
            return f"{names(lane)} comes {short_duration_words(delay_ms)} late"
        case Promise(text):
            return f"Promised: {text}"
        case KeepPromise(_, text):
            return f"Promise kept: {text}"
