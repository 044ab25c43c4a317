"""What the screens show: the view, as plain data, every text already written.

A window draws this and holds no rule of the trade. `View.cards` is lazy: a card's words are made
when it is asked for, so a tick costs what is in sight. `View.strip` is the same object from one
tick to the next as long as nothing on it has changed.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from core.board.programme import AirLane, ClearPanel, FactLine, PresenterView, ToSay
from core.board.written import Figure as Figure  # noqa: PLC0414 - handed on to all who draw
from core.board.written import Said as Said  # noqa: PLC0414 - likewise
from core.board.written import Tone as Tone  # noqa: PLC0414 - likewise
from core.signal.model import Fill


class CardState(StrEnum):
    """How an event stands at this moment."""

    AHEAD = "ahead"
    DUE = "due"
    ON_ITS_WAY = "on_its_way"
    """It has happened out there by now; word of it is under way."""
    OUT_OF_SIGHT = "out_of_sight"
    HELD = "held"
    HAPPENED = "happened"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Mark:
    """The contact mark on a card's edge, in the order of time from top to bottom.

    `lane` chooses the colour; before and after differ at a loss or a return.
    """

    lane: str
    before: Fill
    after: Fill


@dataclass(frozen=True, slots=True)
class Card:
    """One event's card.

    `at_ms` is its instant on the strip (None: no thread). `lead` stands where the state needs a
    word with the figure ('HELD WITH', 'due', 'out of sight'). `clock` may be empty (a held
    count has none). `change` is empty where it is the same as the summary says. `pair` is equal
    on cards that are outcomes of one event. `reason` says what binds its time.
    """

    id: str
    name: str
    state: CardState
    at_ms: int | None
    figure: Figure | None
    lead: str
    clock: str
    zone: str
    note: Said
    change: Said
    tags: tuple[Said, ...]
    mark: Mark | None
    live: bool
    clash: str
    pair: str
    reason: str
    checks: tuple[Said, ...] = ()
    """Its check-offs: 'Engines lit: 28 of 31, enough: 26 will do'."""
    facts: tuple[FactLine, ...] = ()
    """Its facts, those under embargo without their text: for under the selected card."""
    note_less: str = ""
    """What the note says without its figures, for where it has no room; '' where that is all."""


@dataclass(frozen=True, slots=True)
class Header:
    """The top line; the clock is a sentence: 'Wednesday, 4:41:12 p.m. Atlantic'."""

    title: str
    subtitle: str
    weekday: str
    clock: str
    zone: str
    utc: str
    elapsed: str
    elapsed_word: str
    status: Said
    trust: str = ""
    """What is to be known of the machine's clock: 'clock not synchronised'; empty if nothing."""


@dataclass(frozen=True, slots=True)
class DueRow:
    """Events overdue and unconfirmed, in one compact row; `ids` in the order of their names."""

    ids: tuple[str, ...]
    words: str


@dataclass(frozen=True, slots=True)
class LaneColumn:
    """One lane of the strip: stretches as parallel arrays, in order of time, meeting each other.

    The first begins at -inf and the last ends at +inf in spirit: `starts_ms[0]` and
    `ends_ms[-1]` are clipped to a year either side.
    """

    lane: str
    name: str
    colour: str
    """A role of the theme: voice, picture, data, other."""
    starts_ms: tuple[int, ...]
    ends_ms: tuple[int, ...]
    fills: tuple[Fill, ...]
    words: tuple[str, ...]
    """What may be written in the stretch where there is room ('either', 'behind the Moon')."""


@dataclass(frozen=True, slots=True)
class EdgeLabel:
    """An AOS or LOS with its time as written on the strip."""

    at_ms: int
    lane: str
    text: str
    lost: bool


@dataclass(frozen=True, slots=True)
class GroundSpan:
    """A bracket: through which station the first lane goes, from when till when."""

    name: str
    from_ms: int
    to_ms: int


@dataclass(frozen=True, slots=True)
class Strip:
    """All the strip draws, in absolute instants; the strip itself knows only its scale."""

    lanes: tuple[LaneColumn, ...]
    grounds: tuple[GroundSpan, ...]
    edges: tuple[EdgeLabel, ...]
    events_ms: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LaneNow:
    """One lane in CONTACT: how long it is as it is. `word`: 'left', 'until back', 'closed', ..."""

    lane: str
    name: str
    colour: str
    figure: Figure | None
    word: str
    through: str
    """'through Tarn Hill; hand-over 5:40 p.m.' or the cause of the gap."""
    then: str
    """The next gap and its length, or the next contact."""


@dataclass(frozen=True, slots=True)
class ContactPanel:
    """CONTACT: each lane, and the totals over what is still to come."""

    lanes: tuple[LaneNow, ...]
    totals: tuple[str, ...]
    distance: str = ""
    """How far the craft is, and how long its signal needs, where that is worth saying.

    And which course out of a file was shifted with its event, and not computed anew.
    """
    delays: tuple[str, ...] = ()
    """How late lanes come to the studio, and the viewers see it; the clock in a picture."""


@dataclass(frozen=True, slots=True)
class LastChange:
    """LAST CHANGE: when and per whom, the headline, and what moved and stayed, as (text, value)."""

    when: str
    source: str
    headline: str
    rows: tuple[tuple[str, Said], ...]
    event: str = ""
    """The event whose time was typed, where one moved: the audience is to be told of it."""
    number: int = 0
    """The number of the entry."""


@dataclass(frozen=True, slots=True)
class RehearsalBadge:
    """REHEARSAL with the rate, on every window of a simulated clock."""

    rate: str
    paused: bool


@dataclass(frozen=True, slots=True)
class View:
    """Everything any screen shows at `now_ms`.

    `cards` are all events that have a place on the board, in time order, those that happened or
    are due included: `cards[next_index]` is the first still to come (len(cards) where none is),
    `cards[big_index]` the big one: the next live moment, or simply the next event where none is
    live; None where nothing is still to come.
    """

    now_ms: int
    header: Header
    due: DueRow | None
    cards: Sequence[Card]
    next_index: int
    big_index: int | None
    summary: Said
    strip: Strip
    contact: ContactPanel
    last_change: LastChange | None
    rehearsal: RehearsalBadge | None
    notices: tuple[Said, ...]
    """Quiet lines: the clock stepped, the plan changed on disk, a limit is overruled."""
    saved: str
    """Why the entries are not all on disk, 'not saved' or 'writing …'; empty when they are."""
    air: AirLane = field(default=AirLane())
    clear: ClearPanel | None = None
    """None where the plan has no programme: no items, no hours, no live moment."""
    to_say: ToSay | None = None
    presenter: PresenterView | None = None
    unsaved: int = 0
    """How many entries closing the program would forget."""
    desk: str = ""
    """The initials of whoever is at the desk, '' while nobody is signed in."""


@dataclass(frozen=True, slots=True)
class Preview:
    """What the bar shows while one types, before Enter.

    `choices` are the readings when more than one parses (Tab picks; `picked` is the one in
    force). `ask` is what a second Enter would confirm. `ghosts` are the new instants of what
    would move. `error` and `hint`: it cannot be read so far. An empty line gives an empty preview.
    """

    headline: str = ""
    lines: tuple[Said, ...] = ()
    clash: str = ""
    ask: str = ""
    choices: tuple[str, ...] = ()
    picked: int = 0
    ghosts: tuple[tuple[str, int], ...] = ()
    error: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class EntryRow:
    """One line of the day's entries."""

    number: int
    when: str
    typed: str
    meaning: str
    source: str
    taken_back: bool
    can_take_back: bool
    by: str = ""
    """The initials of who typed it."""
