"""An outcome as a named source has told it, never as ours; and the last confirmed words."""

from core.saying.audience import Audience
from core.saying.clocks import down_minute_ms
from core.saying.making import make
from core.saying.model import Claim, Kind, Subject, Told
from core.saying.numbers import capital
from core.saying.situations import LastWord, OutcomeNamed
from core.saying.sources import is_named, spoken_source
from core.times.writing import DAY_MS, MINUTE_MS

_STANDS_MS = 5 * MINUTE_MS


def outcome_named(outcome: OutcomeNamed, audience: Audience) -> Told | None:
    """What the source has named, and when. None where nobody but ourselves has said it."""
    if not is_named(outcome.source):
        return None
    minute_ms = down_minute_ms(outcome.at_ms)
    who = capital(spoken_source(outcome.source))
    what = f"{who} confirms{confirmed(outcome.name)}."
    return make(
        Subject.OUTCOME,
        what,
        f"{what} They said so at {audience.bare(minute_ms)}.",
        (outcome.at_ms + _STANDS_MS,),
        (Claim(Kind.CLOCK, f"outcome:{outcome.event}", minute_ms, minute_ms + MINUTE_MS - 1),),
    )


def confirmed(name: str) -> str:
    """What is confirmed with an outcome, in its own words, true of any plan and at any time.

    'After the burn' is ' the burn'; 'if no burn', 'with the burn' and 'if it is heard' are
    ': no burn', ' the burn' and ': it is heard'.
    """
    for before in ("after the ", "with the "):
        if name.startswith(before):
            return f" the {name.removeprefix(before)}"
    for before in ("if ", "with ", "after "):
        if name.startswith(before):
            return f": {name.removeprefix(before)}"
    return f": {name}"


def last_word(word: LastWord, audience: Audience, now_ms: int) -> Told:
    """The last that was confirmed, with its source: all that a grave board says of the flight."""
    minute_ms = down_minute_ms(word.at_ms)
    clock = audience.one(minute_ms, now_ms)
    who = spoken_source(word.source)
    text = f"The last word from {who} came at {clock}: {word.text}."
    if word.quoted:
        text = f"At {clock}, {who} said: “{word.text}”"
    claim = Claim(Kind.CLOCK, "last word", minute_ms, minute_ms + MINUTE_MS - 1)
    return make(Subject.LAST_WORD, text, text, (now_ms + DAY_MS,), (claim,))


def passed_line(text: str, now_ms: int) -> Told:
    """A line the editor passed beforehand, as it stands."""
    return make(Subject.PASSED, text, text, (now_ms + DAY_MS,))
