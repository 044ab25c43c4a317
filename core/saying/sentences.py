"""The sentence of any situation."""

from core.saying.at_the_moment import at_the_moment
from core.saying.audience import Audience
from core.saying.calling_off import calling_off
from core.saying.coming import coming
from core.saying.correcting import correcting
from core.saying.far import far_away
from core.saying.holding import holding
from core.saying.lateness import lateness
from core.saying.losing import losing
from core.saying.model import Told
from core.saying.outcomes import last_word, outcome_named
from core.saying.returns import heard_again, missed, two_returns, waiting, watching
from core.saying.silent import silent
from core.saying.situations import (
    CalledOff,
    Correction,
    FarAway,
    Gap,
    HeardAgain,
    Held,
    LastWord,
    Late,
    LossAhead,
    Missed,
    Moment,
    Next,
    OutcomeNamed,
    Silence,
    TwoReturns,
    Waiting,
    Watch,
)
from core.saying.unseen import unseen

Situation = (
    CalledOff
    | Correction
    | FarAway
    | Gap
    | HeardAgain
    | Held
    | LastWord
    | Late
    | LossAhead
    | Missed
    | Moment
    | Next
    | OutcomeNamed
    | Silence
    | TwoReturns
    | Waiting
    | Watch
)


def sentence(situation: Situation, audience: Audience, now_ms: int) -> Told | None:  # noqa: C901, PLR0911, PLR0912 - a table
    """What is said of it, begun at `now_ms`; None where nothing can be said, or no longer."""
    match situation:
        case Next():
            return coming(situation, audience, now_ms)
        case Moment():
            return at_the_moment(situation, audience, now_ms)
        case LossAhead():
            return losing(situation, now_ms)
        case Gap():
            return unseen(situation, audience, now_ms)
        case Silence():
            return silent(situation, audience, now_ms)
        case TwoReturns():
            return two_returns(situation, audience)
        case Watch():
            return watching(situation, now_ms)
        case Missed():
            return missed(situation, audience, now_ms)
        case Waiting():
            return waiting(situation, now_ms)
        case HeardAgain():
            return heard_again(situation, audience, now_ms)
        case OutcomeNamed():
            return outcome_named(situation, audience)
        case Late():
            return lateness(situation, now_ms)
        case Held():
            return holding(situation, audience, now_ms)
        case CalledOff():
            return calling_off(situation, audience, now_ms)
        case FarAway():
            return far_away(situation, audience, now_ms)
        case Correction():
            return correcting(situation, audience, now_ms)
        case LastWord():
            return last_word(situation, audience, now_ms)
