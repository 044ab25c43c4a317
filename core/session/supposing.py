"""What a line that is being typed would break on the air: looked at while it is tried."""

from dataclasses import dataclass

from core.air.model import Against, Way
from core.board.onair.losses import Lost
from core.board.onair.now import AirNow
from core.board.programme import ItemState
from core.board.words import listed
from core.board.written import Said, Tone
from core.entries.airing import Begin, Drop, Finish, LeaveAir, Place, TakeAir, Unplace
from core.entries.model import Action

_OURS = Begin | Place | Unplace | Finish | Drop | LeaveAir | TakeAir
"""What we do on the air by our own choice, and may think over."""

_MEANT = frozenset({Against.PAST})
"""What the line itself is asked about, if at all: a start that has gone by."""

_WITHOUT_WORD = "there is no word yet of {}"


def is_ours(action: Action) -> bool:
    """Whether the desk decides it: about an item or the air, not what the ground has called."""
    return isinstance(action, _OURS)


@dataclass(frozen=True, slots=True)
class Supposed:
    """The programme now, and as a line would leave it."""

    now: AirNow
    then: AirNow
    begun: tuple[Lost, ...] = ()
    """What an item that would begin breaks by that."""
    stays: tuple[Said, ...] = ()
    """What changes on other lanes beside an edge that moves, and does not move with it."""

    @property
    def broken(self) -> tuple[Said, ...]:
        """What would be lost that is not lost now, each with the ways out that exist."""
        worse = (Said(lost.told, Tone.CLASH) for lost in self._worse)
        known = self.now.panel.owed
        moves = (s for s in self.then.panel.owed if s.tone is Tone.CHANGE and s not in known)
        return (*worse, *self._homeless, *moves)

    def asks(self, action: Action) -> str:
        """The first thing that our own doing would lose, with the way out, or ''.

        After that, that an item would begin while a live moment waits for word; last, what would
        have no place any more. That the network's absence moves items is what it is for.
        """
        if not is_ours(action):
            return ""
        leaves = isinstance(action, LeaveAir)
        passes = _MEANT | {Against.AWAY} if leaves else _MEANT
        found = next((each for each in self._worse if each.loss.against not in passes), None)
        if found is not None:
            return found.words if _ends_at_once(found, action) else found.told
        if isinstance(action, Begin) and self.now.unheard:
            return _WITHOUT_WORD.format(listed(self.now.unheard))
        return self._homeless[0].text if self._homeless and not leaves else ""

    def placed_ms(self, item: str) -> int | None:
        """Where an item is placed as things stand."""
        boxes = (box for box in self.now.lane.boxes if box.state is ItemState.PLACED)
        return next((box.from_ms for box in boxes if box.item == item), None)

    @property
    def _worse(self) -> tuple[Lost, ...]:
        """What would be lost that is not lost now, or more of it."""
        before = {_what(lost): lost.loss.by_ms for lost in self.now.broken}
        broken = (*self.then.broken, *self.begun)
        return tuple(lost for lost in broken if lost.loss.by_ms > before.get(_what(lost), -1))

    @property
    def _homeless(self) -> tuple[Said, ...]:
        """What is owed and would have no place any more; then by how much it would be too much."""
        now, then = self.now.panel, self.then.panel
        known, count = {*now.homeless}, len(then.homeless)
        lost = zip(then.homeless, then.owed, strict=False)
        return (
            *(said for item, said in lost if item not in known),
            *(s for s in then.owed[count:] if s.tone is Tone.CLASH and s not in now.owed),
        )


def _ends_at_once(lost: Lost, action: Action) -> bool:
    """Whether what is to begin would have to end as it begins: the way out is not to begin."""
    if not isinstance(action, Begin):
        return False
    ends = (at_ms for way, at_ms in lost.loss.ways if way is Way.END)
    return any(at_ms is not None and at_ms <= action.at_ms for at_ms in ends)


def _what(lost: Lost) -> tuple[str, Against, str]:
    return lost.item, lost.loss.against, lost.of
