"""CCSDS OEM in keywords, line by line."""

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from core.plan.orbitdata.kvn import keyed, lines_of, start_of
from core.plan.orbitdata.messages import check_version
from core.plan.orbitdata.metadata import KEYS
from core.plan.orbitdata.model import Trajectory
from core.plan.orbitdata.segments import Segments
from core.plan.orbitdata.telling import ABSENT, Spot, Telling, Word, nearest, quoted

_VERSION = "CCSDS_OEM_VERS"
_HEADER = (_VERSION, "CLASSIFICATION", "CREATION_DATE", "ORIGINATOR", "MESSAGE_ID")
_MARKS = ("META_START", "META_STOP", "COVARIANCE_START", "COVARIANCE_STOP")


class _In(StrEnum):
    """Which part of the file a line stands in."""

    HEADER = "header"
    METADATA = "metadata"
    STATES = "states"
    COVARIANCE = "covariance"


class LineSpots(NamedTuple):
    """Where the parts of a state stand in its line."""

    number: int
    line: str

    def of(self, part: int) -> Spot:
        """Where a part begins; of one that is missing, the end of the line."""
        at = 0
        for count, word in enumerate(self.line.split()):
            at = self.line.index(word, at)
            if count == part:
                return self.number, at + 1
            at += len(word)
        return self.number, at + 1


def read_kvn(text: str, telling: Telling) -> Trajectory:
    """The trajectory in the text of an OEM. Raises PlanProblems with everything wrong with it."""
    reading = _Reading(telling, Segments(telling))
    for number, line in lines_of(text):
        if reading.where is _In.STATES and "=" not in line and line.lstrip() not in _MARKS:
            reading.segments.state(line.split(), LineSpots(number, line))
        else:
            reading.line(number, line)
    return reading.end()


@dataclass(slots=True)
class _Reading:
    """How far the reading of one file has come."""

    telling: Telling
    segments: Segments
    where: _In = _In.HEADER
    opened: Spot = ABSENT

    def line(self, number: int, line: str) -> None:
        """Take a line that is no plain state."""
        spot, said = start_of(number, line), line.strip()
        if said in _MARKS:
            self._mark(said, spot)
        elif (pair := keyed(number, line)) is not None:
            self._pair(*pair, spot)
        elif self.where is _In.METADATA and said[:4].isdigit():
            self.telling.problem(spot, "META_STOP is missing above this state", "Put it in")
            self._described()
            self.segments.state(line.split(), LineSpots(number, line))
        elif self.where is not _In.COVARIANCE:
            what = f"{quoted(said)} is neither a key with its value nor a state"
            self.telling.problem(spot, what, nearest(said, _MARKS) or "Write KEY = value")

    def _mark(self, said: str, spot: Spot) -> None:
        self._check_closed(said, spot)
        match said:
            case "META_START":
                self.segments.begin(spot)
                self.where, self.opened = _In.METADATA, spot
            case "META_STOP":
                if self.where is _In.METADATA:
                    self._described()
            case "COVARIANCE_START":
                self.where, self.opened = _In.COVARIANCE, spot
            case _:
                self.where = _In.STATES

    def _check_closed(self, said: str, spot: Spot) -> None:
        """Tell a mark that does not fit what stands above it."""
        open_now = {_In.METADATA: "META", _In.COVARIANCE: "COVARIANCE"}.get(self.where)
        block, _, end = said.partition("_")
        if end == "STOP" and block != open_now:
            self.telling.problem(spot, f"{said} without {block}_START", "Put it in above")
        elif end == "START" and open_now:
            self._tell_open()
        elif said == "COVARIANCE_START" and self.where is _In.HEADER:
            self.telling.problem(spot, "a covariance before any segment", "Begin with META_START")

    def _pair(self, key: str, word: Word, spot: Spot) -> None:
        match self.where:
            case _In.HEADER if key in KEYS:
                self.telling.problem(spot, "META_START is missing above this key", "Put it in")
                self.segments.begin(spot)
                self.where, self.opened = _In.METADATA, spot
                self.segments.key(key, word)
            case _In.HEADER:
                self._header(key, word, spot)
            case _In.METADATA:
                self.segments.key(key, Word(word.text, spot) if key not in KEYS else word)
            case _In.STATES:
                what = f"the key {quoted(key)} stands among states"
                self.telling.problem(spot, what, "Begin a new segment with META_START")
            case _:
                pass

    def _header(self, key: str, word: Word, spot: Spot) -> None:
        if key == _VERSION:
            check_version(word.text, "OEM", self.telling, word.spot)
        elif key not in _HEADER:
            what = f"{quoted(key)} is no key of the header"
            self.telling.problem(spot, what, nearest(key, (*_HEADER, *KEYS)))

    def _described(self) -> None:
        self.segments.described()
        self.where = _In.STATES

    def _tell_open(self) -> None:
        block = "META" if self.where is _In.METADATA else "COVARIANCE"
        what = f"{block}_START without {block}_STOP"
        self.telling.problem(self.opened, what, f"Put {block}_STOP in, or fetch the file again")

    def end(self) -> Trajectory:
        """The trajectory, now that the file is over."""
        if self.where in (_In.METADATA, _In.COVARIANCE):
            self._tell_open()
        return self.segments.finish()
