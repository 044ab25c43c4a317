"""CCSDS OEM in XML (CCSDS 505.0-B), element by element."""

from typing import NamedTuple

from core.plan.orbitdata.envelope import Envelope
from core.plan.orbitdata.markup import walk
from core.plan.orbitdata.model import Trajectory
from core.plan.orbitdata.segments import Segments
from core.plan.orbitdata.states import ACCELERATION, PARTS
from core.plan.orbitdata.telling import Spot, Telling, Word, quoted

_UNITS = dict.fromkeys(PARTS[1:4], "km") | dict.fromkeys(PARTS[4:], "km/s")


class _ElementSpots(NamedTuple):
    """Where the parts of a state stand, and the state itself."""

    spots: tuple[Spot, ...]
    whole: Spot

    def of(self, part: int) -> Spot:
        return self.spots[part] if part < len(self.spots) else self.whole


def read_xml(text: str, telling: Telling) -> Trajectory:
    """The trajectory in the text of an OEM. Raises PlanProblems with everything wrong with it."""
    reading = _Reading(telling)
    walk(text, telling, reading)
    reading.envelope.check_found()
    return reading.segments.finish()


class _Reading:
    """Is told of the elements of one file."""

    def __init__(self, telling: Telling) -> None:
        self.segments = Segments(telling)
        self._telling = telling
        self.envelope = Envelope("OEM", telling)
        self._metadata = False
        self._state: dict[str, Word] | None = None

    def opened(self, tag: str, attributes: dict[str, str], spot: Spot) -> None:
        """An element begins."""
        self.envelope.opened(tag, attributes, spot)
        if tag == "segment":
            self.segments.begin(spot)
        elif tag == "metadata":
            self._metadata = True
        elif tag == "stateVector":
            self._state = {}

    def closed(self, tag: str, text: str, unit: str, spot: Spot) -> None:
        """An element ends."""
        if tag == "metadata":
            self._metadata = False
            self.segments.described()
        elif tag == "segment":
            self.segments.end()
        elif tag == "stateVector":
            self._take_state(spot)
        elif tag == "COMMENT":
            pass
        elif self._metadata:
            self.segments.key(tag, Word(text, spot))
        elif self._state is not None:
            self._keep(tag, Word(text, spot, unit))

    def _keep(self, tag: str, word: Word) -> None:
        state = self._state
        if state is None:
            return
        if tag in state or tag not in (*PARTS, *ACCELERATION):
            said = "stands twice" if tag in state else "is no part of a state"
            self._telling.problem(word.spot, f"{quoted(tag)} {said}", "Take it out")
            return
        wanted = _UNITS.get(tag, "")
        if wanted and word.unit and word.unit.lower() != wanted:
            what = f"{tag} is in {quoted(word.unit)}"
            self._telling.problem(word.spot, what, f"It is written in {wanted}")
        state[tag] = word

    def _take_state(self, spot: Spot) -> None:
        state, self._state = self._state or {}, None
        missing = [part for part in PARTS if part not in state]
        if missing:
            what, hint = f"this state has no {', '.join(missing)}", "A state has seven parts"
            if missing == list(PARTS[4:]):
                what, hint = "this state has no velocity", "Ask for states with velocity"
            self._telling.problem(spot, what, hint)
            self.segments.spoil()
        else:
            words = [state[part] for part in (*PARTS, *ACCELERATION) if part in state]
            spots = _ElementSpots(tuple(word.spot for word in words), spot)
            self.segments.state([word.text for word in words], spots)
