"""The segments of a CCSDS OEM, in whichever notation, and the trajectory they make."""

from collections.abc import Sequence

from core.plan.orbitdata.metadata import Metadata, keep_key, read_metadata
from core.plan.orbitdata.model import Segment, Trajectory
from core.plan.orbitdata.states import Spots, States
from core.plan.orbitdata.telling import AGAIN, Spot, Telling, Word, quoted


class Segments:
    """Collects the segments of one file. Every problem is told; `finish` raises them."""

    def __init__(self, telling: Telling) -> None:
        self._telling = telling
        self._words: dict[str, Word] = {}
        self._spot: Spot = (1, 1)
        self._states: States | None = None
        self._first: Metadata | None = None
        self._begun = False
        self._segments: list[Segment] = []

    def begin(self, spot: Spot) -> None:
        """A segment begins there; the one before it, if any, is over."""
        self.end()
        self._begun, self._spot, self._words = True, spot, {}

    def key(self, key: str, word: Word) -> None:
        """A key of the segment's metadata."""
        keep_key(self._telling, self._words, key, word)

    def described(self) -> None:
        """The metadata is complete; states follow."""
        self.end()
        metadata = read_metadata(self._telling, self._words, self._spot)
        self._check_object(metadata)
        self._states = States(self._telling, metadata, self._spot)

    def state(self, parts: Sequence[str], spots: Spots) -> None:
        """A state: its epoch and numbers as written."""
        if self._states is None:
            self.described()
        if self._states is not None:
            self._states.add(parts, spots)

    def spoil(self) -> None:
        """A state was left out whose parts are not all there, after it was told."""
        if self._states is not None:
            self._states.spoil()

    def end(self) -> None:
        """The segment is over."""
        if self._states is None:
            return
        segment = self._states.finish()
        self._states = None
        if segment is None:
            return
        if self._segments and segment.begin_s < self._segments[-1].end_s:
            what = "this segment begins before the one above it ends"
            hint = "Segments follow each other in time; USEABLE times keep them apart"
            self._telling.problem(self._spot, what, hint)
        self._segments.append(segment)

    def finish(self) -> Trajectory:
        """The trajectory. Raises PlanProblems with everything that was told."""
        self.end()
        if not self._begun and not self._telling.any:
            raise self._telling.stopped((1, 1), "there are no segments in this file", AGAIN)
        if self._telling.any or self._first is None:
            raise self._telling.raised()
        return Trajectory(self._first.name, tuple(self._segments))

    def _check_object(self, metadata: Metadata) -> None:
        """Tell a second object in the file. The identity decides: names vary in their spelling."""
        if self._first is None:
            self._first = metadata
            return
        one, other = self._first.identity, metadata.identity
        if one.text.upper() != other.text.upper():
            self._telling.problem(
                other.spot,
                f"a second object {quoted(other.text)} beside {quoted(one.text)}: which one?",
                "Keep the segments of one object in the file",
            )
