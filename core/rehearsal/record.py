"""What a rehearsal leaves behind, as data: all that its score is made from."""

from dataclasses import dataclass, field

from core.entries.model import Action, Entry
from core.rehearsal.reports import Report
from core.rehearsal.timeline import Truth


@dataclass(slots=True)
class Heard:
    """A report as it reached the desk, and what a good desk makes of it then."""

    report: Report
    at_ms: int
    wanted: tuple[Action, ...] = ()
    seen_ms: int | None = None
    """When those at the desk had it before them; a scripted desk has it at once."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """A check that did not hold, or a line that was not taken, at an instant of the rehearsal."""

    at_ms: int
    check: str
    what: str


@dataclass(slots=True)
class OnAir:
    """One item on the air: what the board said of it as it began, and when word came of a loss.

    `clean`: at its beginning the board saw nothing lost by it. `news_ms`: when the board first
    said that it would lose a live moment, by that event's id.
    """

    item: str
    from_ms: int
    clean: bool
    can_cut: bool
    news_ms: dict[str, int] = field(default_factory=dict)


@dataclass(slots=True)
class Correction:
    """A correction owed to the audience about an event, from when till when; None: still."""

    event: str
    from_ms: int
    until_ms: int | None = None


@dataclass(slots=True)
class Record:
    """The whole rehearsal."""

    truth: Truth
    begin_ms: int
    end_ms: int
    desk: str = ""
    heard: list[Heard] = field(default_factory=list)
    entries: tuple[Entry, ...] = ()
    airings: list[OnAir] = field(default_factory=list)
    cameras: list[tuple[str, int, int]] = field(default_factory=list)
    on_air_ms: int = 0
    wrong_ms: int = 0
    wrong: list[tuple[int, int]] = field(default_factory=list)
    """From when till when the countdown was wrong on the air."""
    corrections: list[Correction] = field(default_factory=list)
    still_owed: tuple[str, ...] = ()
    looks: int = 0
    troubles: list[Trouble] = field(default_factory=list)
    places_left: dict[str, str] = field(default_factory=dict)
    """Owed items for which the board saw no place, and why, as it last said."""

    def was_wrong(self, from_ms: int, for_ms: int) -> None:
        """The countdown was wrong on the air for so long."""
        self.wrong_ms += for_ms
        goes_on = bool(self.wrong) and self.wrong[-1][1] == from_ms
        begun_ms = self.wrong.pop()[0] if goes_on else from_ms
        self.wrong.append((begun_ms, from_ms + for_ms))

    def trouble(self, at_ms: int, check: str, what: str) -> None:
        """Note something that does not hold, or was not taken."""
        self.troubles.append(Trouble(at_ms, check, what))
