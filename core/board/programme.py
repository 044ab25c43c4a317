"""What the screens show of the programme: items, clear time, what to say, the presenter's window.

Plain data, every text already written; `core.board.model.View` holds it.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from core.board.written import Figure, Said


class ItemState(StrEnum):
    """How an item of the programme stands."""

    FLOATING = "floating"
    """It has no start yet."""
    PLACED = "placed"
    ON_AIR = "on_air"
    RUN = "run"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class AirBox:
    """One item in the strip's ON AIR lane: outlined, as long as it is. Floating ones have no box.

    `clash` says, where there is one, what it loses.
    """

    item: str
    name: str
    kind: str
    from_ms: int
    to_ms: int
    state: ItemState
    clash: str = ""
    owed: bool = False


@dataclass(frozen=True, slots=True)
class LiveSpan:
    """A stretch in which the presenter must be on the air, guard and stay included."""

    event: str
    from_ms: int
    to_ms: int


@dataclass(frozen=True, slots=True)
class AirLane:
    """The ON AIR lane of the strip, in absolute instants, in order of time."""

    boxes: tuple[AirBox, ...] = ()
    live: tuple[LiveSpan, ...] = ()
    junctions: tuple[tuple[int, str], ...] = ()
    away: tuple[tuple[int, int], ...] = ()
    """Stretches in which the network has taken another story, and the hours off the air."""


@dataclass(frozen=True, slots=True)
class ItemRow:
    """One item in CLEAR UNTIL YOU MUST BE LIVE: its length, and what may be done with it.

    `words`: 'leave by 4:43:50', 'fits after 4:50', 'no place', 'on the air, over in 1 min 12 s'.
    """

    item: str
    name: str
    length: str
    words: Said
    state: ItemState
    owed: bool = False
    tight: bool = False
    """It fits at the expected times, and not if the live moment comes as early as it may."""


@dataclass(frozen=True, slots=True)
class ClearPanel:
    """CLEAR UNTIL YOU MUST BE LIVE: how long, back by when and for what, what fits, what is owed.

    `lead` stands where the figure is not simply clear time ('you must be live', 'back in').
    `status` is the header's line: where the programme stands and what is owed by when.
    `broken` stands on top: what the presenter is missed for, with the way out. `wrap_ms` is when
    the item on the air wraps, `back_ms` when the presenter is back after it. `homeless` are the
    owed items that have no place: their lines stand first in `owed`.
    """

    figure: Figure | None = None
    lead: str = ""
    back_by: str = ""
    live: str = ""
    rows: tuple[ItemRow, ...] = ()
    owed: tuple[Said, ...] = ()
    status: Said | None = None
    broken: tuple[Said, ...] = ()
    wrap_ms: int | None = None
    back_ms: int | None = None
    homeless: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence for the presenter, as a line, in twenty seconds and long (equal where it has one).

    `true_for` says for how long it stays true; `until_ms` is that instant.
    """

    line: str
    twenty: str
    long: str
    true_for: str
    until_ms: int
    times: tuple[tuple[str, int], ...] = ()
    """The events and instants it tells the audience: what MarkSaid keeps."""
    sounds: tuple[str, ...] = ()
    """How names sound that it has at twenty seconds, for the prompter: 'PET-rul'."""
    line_sounds: tuple[str, ...] = ()
    """The same of the line."""


@dataclass(frozen=True, slots=True)
class ToSay:
    """TO SAY: corrections owed first, then the sentence of the moment and others that may be said.

    `away` is the line for one who rejoins ('Since we left: ...').
    """

    sentences: tuple[Sentence, ...] = ()
    owed: tuple[Sentence, ...] = ()
    away: str = ""
    said: str = ""
    """When the first sentence was said last, in words; empty if it was not."""
    grave: bool = False


@dataclass(frozen=True, slots=True)
class FactLine:
    """A fact under the selected card: its text, who says so, and from when that is.

    Where it may not be told yet, `held` says why and until when ('A fact is held until 5:10:00
    p.m.'), and there is no text: no screen can show it.
    """

    text: str
    source: str = ""
    held: str = ""


@dataclass(frozen=True, slots=True)
class PresenterLane:
    """One lane on the presenter window: how long it is as it is."""

    name: str
    figure: Figure | None
    word: str


@dataclass(frozen=True, slots=True)
class PresenterThen:
    """What comes then: how long until it, rounded, and its name."""

    figure: str
    name: str


@dataclass(frozen=True, slots=True)
class PresenterView:
    """Everything the presenter window shows: one countdown, one sentence, the contact.

    `lead` stands before the name ('back in', 'held with'); `back` is 'by 4:46 p.m.' under
    `back_word`, 'be back'. Nothing typed, no error and nothing embargoed is ever in it. In a break
    the order is back in, wrap, event. Grave, `figure` is None and `lines` hold what may be shown.
    `shorter` is the sentence to take where there is no room for the other.
    """

    clock: str
    name: str = ""
    lead: str = ""
    figure: Figure | None = None
    at: str = ""
    change: Said = field(default=Said(""))
    lanes: tuple[PresenterLane, ...] = ()
    back: str = ""
    back_word: str = "be back"
    sentence: str = ""
    shorter: str = ""
    sounds: str = ""
    """How names in the sentence sound: 'PET-rul'."""
    shorter_sounds: str = ""
    then: tuple[PresenterThen, ...] = ()
    fact: str = ""
    grave: bool = False
    lines: tuple[str, ...] = ()
    second: tuple[tuple[str, Figure], ...] = ()
    """In a break, what stands beside 'back in': the wrap, then the event, with their figures."""
