"""What a line that is being typed would break on the air: looked at while it is tried."""

from dataclasses import dataclass

from core.air.model import Against
from core.board.onair.losses import Lost
from core.board.onair.now import AirNow
from core.board.written import Said, Tone


@dataclass(frozen=True, slots=True)
class Supposed:
    """The programme now, and as a line would leave it."""

    now: AirNow
    then: AirNow

    @property
    def broken(self) -> tuple[Said, ...]:
        """What would be lost that is not lost now, each with the ways out that exist."""
        before = {_what(lost): lost.loss.by_ms for lost in self.now.broken}
        worse = [lost for lost in self.then.broken if lost.loss.by_ms > before.get(_what(lost), -1)]
        said = [Said("; ".join((lost.words, *lost.ways)), Tone.CLASH) for lost in worse]
        return (*said, *self._homeless)

    @property
    def _homeless(self) -> tuple[Said, ...]:
        """What is owed and would have no place any more."""
        known, owed = set(self.now.panel.owed), self.then.panel.owed
        return tuple(said for said in owed if said.tone is Tone.CLASH and said not in known)


def _what(lost: Lost) -> tuple[str, Against, str]:
    return lost.item, lost.loss.against, lost.of
