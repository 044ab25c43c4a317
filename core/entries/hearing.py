"""What is heard at the desk happened earlier: by the delay of the lane on which it was heard."""

import re
from dataclasses import dataclass, replace

from core.entries.clocktimes import Moment
from core.entries.context import Context
from core.entries.targets import runs_of
from core.entries.things import signal_things
from core.entries.words import shown
from core.errors import EntryProblem
from core.times.writing import Style, clock_text, short_duration_words

_ON = re.compile(r"(?P<time>.*?) on (?P<lane>.+)", re.S)


@dataclass(frozen=True, slots=True)
class Heard:
    """When something was, and where it was heard later: then, and on which lane.

    `words` say so, to stand after the instant; all three are empty where nothing was corrected.
    """

    moment: Moment
    heard_ms: int | None = None
    heard_on: str = ""
    words: str = ""

    @property
    def at_ms(self) -> int:
        """The instant at which it was."""
        return self.moment.at_ms


def split_lane(text: str, context: Context) -> tuple[str, str]:
    """The time of 'now on picture', and the id of the lane; that is empty where none is named.

    Raises EntryProblem where a lane is named that the plan does not have, or beside a clock time.
    """
    match = _ON.fullmatch(text)
    if match is None:
        return text, ""
    if not match["time"].startswith("now"):
        raise EntryProblem(
            "A clock time is kept as it is typed, whatever it was heard on",
            f"on {match['lane']}",
            "A lane goes with now: 'now on picture', 'now-12s on voice'",
        )
    for run in runs_of(match["lane"], signal_things(context.lanes, ())):
        if not run.rest and len(run.named) == 1:
            return match["time"], run.named[0].id
    names = ", ".join(lane.id for lane in context.lanes)
    hint = f"The lanes are: {names}" if names else "This plan has no lanes"
    raise EntryProblem(f"'{shown(match['lane'])}' is no lane of this plan", match["lane"], hint)


def as_heard(moment: Moment, text: str, lane_id: str, context: Context) -> Heard:
    """The moment of 'now' put earlier by the delay of the lane; a typed clock time stays."""
    lane = next((each for each in context.lanes if each.id == lane_id), None)
    delay_ms = 0 if lane is None else context.aired.delay_ms(lane)
    if lane is None or not delay_ms or not text.startswith("now"):
        return Heard(moment)
    earlier = replace(moment, at_ms=moment.at_ms - delay_ms)
    told = heard_words(moment.at_ms, lane.name, context.style)
    words = f"{told} ({short_duration_words(delay_ms)})"
    return Heard(earlier, moment.at_ms, lane.id, words)


def heard_words(heard_ms: int | None, lane: str, style: Style) -> str:
    """', heard 4:57:20 p.m. on picture', where that was later than it was; else empty."""
    if heard_ms is None:
        return ""
    return f", heard {clock_text(heard_ms, style)} on {lane.lower() if lane.isupper() else lane}"
