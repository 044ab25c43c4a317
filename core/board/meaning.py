"""An entry in words, for the list of the day's entries and for the record."""

from core.board.airing import airing_words
from core.board.trust import trust_words
from core.board.words import Names, capital
from core.entries.airing import Airing
from core.entries.hearing import heard_words
from core.entries.model import (
    Action,
    Add,
    BringBack,
    Choose,
    ClockStep,
    ClockTold,
    Free,
    Give,
    Happened,
    Hold,
    Note,
    Observe,
    Pin,
    Replan,
    Resume,
    Revise,
    Scrub,
    Shut,
    TakeBack,
    TakePlan,
    Undecide,
    Way,
)
from core.entries.signing import SignIn, SignOut
from core.plan.model import Change
from core.times.writing import Style, clock_text, duration_words, short_duration_words

_WAYS = {
    Way.WITH: "with all tied to it",
    Way.BRIDGE: "those tied to it tied across",
    Way.STAY: "those tied to it stay",
}


def meaning(action: Action, names: Names, style: Style) -> str:  # noqa: C901, PLR0911, PLR0912 - a table
    """What the entry says, in words."""

    def at(instant_ms: int) -> str:
        return clock_text(instant_ms, style)

    if isinstance(action, Airing):
        return airing_words(action, names, style)
    match action:
        case Revise(event, time_ms, give_ms):
            give = f", ± {short_duration_words(give_ms)}" if give_ms else ""
            return f"{names(event)} at {at(time_ms)}{give}"
        case Give(event, give_ms):
            return f"{names(event)} ± {short_duration_words(give_ms)}"
        case Happened(event, time_ms):
            heard = heard_words(action.heard_ms, names(action.heard_on), style)
            return f"{names(event)} happened at {at(time_ms)}{heard}"
        case Hold(event, at_ms, left_ms):
            return f"{names(event)} held at {at(at_ms)} with {duration_words(left_ms)}"
        case Resume(event, at_ms):
            return f"{names(event)} resumes at {at(at_ms)}"
        case Scrub(event, way):
            return f"{names(event)} called off, {_WAYS[way]}"
        case Pin(event, time_ms):
            return f"{names(event)} pinned to {at(time_ms)}"
        case Free(event):
            return f"{names(event)} follows its ties again"
        case Choose(outcome):
            return f"Outcome: {names(outcome)}"
        case Undecide(outcome):
            return f"Outcome open again: {names(outcome)}"
        case Observe(lane, change, time_ms):
            word = "back" if change is Change.BACK else "lost"
            heard = heard_words(action.heard_ms, names(lane), style)
            return f"{capital(lane)} {word} at {at(time_ms)}{heard}"
        case Shut(lane, shut, at_ms):
            return f"{capital(lane)} {'closed' if shut else 'open'} from {at(at_ms)}"
        case Add(event):
            return f"Added: {event.name}"
        case Note(text):
            return text
        case SignIn(who):
            return f"{who} is at the desk"
        case SignOut(who):
            return f"{who} has left the desk"
        case Replan():
            return "The present times are the planned ones now"
        case TakePlan():
            return "The plan as changed on disk is taken over"
        case ClockStep(by_ms, slept):
            return step_words(by_ms, slept=slept)
        case ClockTold(clock):
            return trust_words(clock)
        case TakeBack(number):
            return f"Entry {number} taken back"
        case BringBack(number):
            return f"Entry {number} brought back"


def step_words(by_ms: int, *, slept: bool) -> str:
    """What the machine's clock did, in one line."""
    if slept:
        return f"The machine slept for {short_duration_words(by_ms)}"
    way = "forward" if by_ms > 0 else "back"
    return f"The machine's clock was put {way} by {short_duration_words(by_ms)}"
