"""The situations sentences are made from. The board fills them in from what it shows."""

from dataclasses import dataclass

from core.saying.against import is_on_time
from core.saying.model import Named, Reach


@dataclass(frozen=True, slots=True)
class Next:
    """What comes next. `change_ms`: against the plan, None where nothing is to be said of that.

    `way_ms`: how long word of it is under way. `pictures`: whether there is a lane of them.
    """

    named: Named
    at_ms: int
    give_ms: int = 0
    reach: Reach = Reach.OPEN
    change_ms: int | None = None
    way_ms: int = 0
    pictures: bool = True
    first: bool = True
    """Nothing else comes before it."""
    quiet: bool = False
    """There is nothing else to speak of until then."""
    fact: str = ""


@dataclass(frozen=True, slots=True)
class Moment:
    """A live moment, from a minute before it to `until_ms`. `came`: it is on record that it has."""

    named: Named
    at_ms: int
    until_ms: int
    give_ms: int = 0
    reach: Reach = Reach.OPEN
    came: bool = False
    fact: str = ""


@dataclass(frozen=True, slots=True)
class LaneLeft:
    """A lane that will be lost: `words` as in 'two minutes of pictures'."""

    event: str
    words: str
    at_ms: int
    give_ms: int = 0


@dataclass(frozen=True, slots=True)
class LossAhead:
    """Lanes about to be lost, in order of time. `then`: what is so when the last is gone.

    `stays`: lanes that will still be there. `unseen`: what is due in the silence that follows.
    """

    lanes: tuple[LaneLeft, ...]
    then: str = ""
    stays: str = ""
    unseen: Named | None = None
    fact: str = ""


@dataclass(frozen=True, slots=True)
class Gap:
    """Something happens that nobody can hear. `doing`: 'the engine is burning now'.

    `cause` of the silence; `word_ms` is the first chance of any word: the return the countdowns
    beside it run to. It is under way until `ends_ms`; if it is `over`, so long one speaks of it.
    """

    named: Named
    doing: str
    cause: str
    word_ms: int | None
    ends_ms: int
    give_ms: int = 0
    over: bool = False


@dataclass(frozen=True, slots=True)
class Silence:
    """Nothing can be heard now, for that `cause`, until their one return; `event` stands for it."""

    event: str
    cause: str
    back_ms: int
    give_ms: int = 0


@dataclass(frozen=True, slots=True)
class Return:
    """A possible return of the signal, and on what condition: 'with no burn'."""

    named: Named
    at_ms: int
    condition: str
    give_ms: int = 0


@dataclass(frozen=True, slots=True)
class TwoReturns:
    """Two possible returns, the earlier first. `quiet_hoped`: it is the later one they want."""

    first: Return
    second: Return
    quiet_hoped: bool = False


@dataclass(frozen=True, slots=True)
class Watch:
    """A possible return is due in this very minute; `until_ms` its first words would have come."""

    named: Named
    at_ms: int
    until_ms: int
    first_of_two: bool = False
    quiet_hoped: bool = False


@dataclass(frozen=True, slots=True)
class Missed:
    """A possible return has passed and nobody has reported a signal; `then_ms` is the next."""

    named: Named
    at_ms: int
    then: Named | None = None
    then_ms: int | None = None
    later: bool = False
    """It was the later of two, and so was said to the nearest minute."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """What decides how it goes on is due, and no source has said how it went.

    `back`: their signal has been seen or heard to come back since.
    """

    named: Named
    at_ms: int
    back: bool = False


@dataclass(frozen=True, slots=True)
class HeardAgain:
    """A lane is back, as seen or heard. `open`: no source has said yet what it means."""

    event: str
    words: str
    at_ms: int
    open: bool
    first_words_ms: int | None = None
    stands_for: tuple[str, ...] = ()
    """The events that came with it: whoever hears of it, hears of them."""


@dataclass(frozen=True, slots=True)
class OutcomeNamed:
    """A source has named an outcome."""

    event: str
    name: str
    source: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class Late:
    """How what is to come runs against the plan. `unexplained`: nobody has said why.

    `overdue_ms` is when the next event is overdue if nobody has confirmed it: up to then one may
    say that all is on time.
    """

    event: str
    by_ms: int
    give_ms: int = 0
    unexplained: bool = False
    source: str = ""
    overdue_ms: int | None = None

    @property
    def on_time(self) -> bool:
        """Whether there is no difference to speak of."""
        return is_on_time(self.by_ms, self.give_ms)


@dataclass(frozen=True, slots=True)
class Held:
    """A count that stands still. `limit_ms`: a published limit, with its source in words."""

    named: Named
    left_ms: int
    since_ms: int
    launch: bool = False
    limit_ms: int | None = None
    limit_source: str = "the flight plan"


@dataclass(frozen=True, slots=True)
class CalledOff:
    """Something is called off; `again_ms` is the next attempt that a source has named."""

    named: Named
    at_ms: int
    source: str = ""
    launch: bool = False
    again: str = ""
    again_ms: int | None = None


@dataclass(frozen=True, slots=True)
class FarAway:
    """Something far away has happened by now, and word of it is under way. `where`: 'Mars'.

    `last`: nothing more is to come there, so it is all over, one way or the other.
    """

    named: Named
    where: str
    at_ms: int
    heard_ms: int
    way_ms: int
    give_ms: int = 0
    last: bool = True


@dataclass(frozen=True, slots=True)
class Correction:
    """A time once told that is false now. `now_at_ms` None: it has no time, for `why`.

    `source`: who gives the new one, empty if it only follows. `by_clock`: it was told as a clock
    time, not as a length.
    """

    named: Named
    said_at_ms: int
    told_ms: int
    now_at_ms: int | None
    source: str = ""
    why: str = ""
    give_ms: int = 0
    happened: bool = False
    by_clock: bool = True
    said_minute_ms: int | None = None
    """The minute that was said, where it was not as times are said now."""
    later: bool = False
    """It is the later of two returns: that is said to the nearest minute."""


@dataclass(frozen=True, slots=True)
class Moved:
    """An event whose time has changed by so much, with those that moved as far."""

    words: tuple[str, ...]
    by_ms: int


@dataclass(frozen=True, slots=True)
class WhileAway:
    """What has changed since somebody left. `since_ms` None: since we left the air.

    `along`: how many more have moved with those that are named.
    """

    since_ms: int | None
    moved: tuple[Moved, ...] = ()
    along: int = 0
    happened: tuple[str, ...] = ()
    other: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LastWord:
    """The last that a named source has confirmed: its words, or what it has confirmed."""

    text: str
    source: str
    at_ms: int
    quoted: bool = False
