"""CCSDS OMM in XML (CCSDS 505.0-B)."""

from core.plan.orbitdata.envelope import Envelope
from core.plan.orbitdata.markup import walk
from core.plan.orbitdata.mean import mean_elements
from core.plan.orbitdata.model import MeanElements
from core.plan.orbitdata.omm_keys import keep_key
from core.plan.orbitdata.telling import Spot, Telling, Word

_STRUCTURE = (
    *("ndm", "omm", "header", "body", "segment", "metadata", "data", "meanElements"),
    *("spacecraftParameters", "tleParameters", "covarianceMatrix", "userDefinedParameters"),
    *("USER_DEFINED", "COMMENT"),
)


def read_xml(text: str, telling: Telling) -> MeanElements:
    """The elements in the text of an OMM. Raises PlanProblems with everything wrong with it."""
    reading = _Reading(telling)
    walk(text, telling, reading)
    reading.envelope.check_found()
    return mean_elements(reading.words, reading.segment, telling, plain=False)


class _Reading:
    """Is told of the elements of one file."""

    def __init__(self, telling: Telling) -> None:
        self.envelope = Envelope("OMM", telling)
        self.words: dict[str, Word] = {}
        self.segment: Spot = (1, 1)
        self._telling = telling
        self._segments = 0

    def opened(self, tag: str, attributes: dict[str, str], spot: Spot) -> None:
        """An element begins."""
        self.envelope.opened(tag, attributes, spot)
        if tag == "segment":
            self._segments += 1
            self.segment = spot
        if self._segments > 1:
            what = "this OMM holds several segments: which one?"
            raise self._telling.stopped(spot, what, "Keep one of them in the file")

    def closed(self, tag: str, text: str, unit: str, spot: Spot) -> None:
        """An element ends."""
        if tag not in _STRUCTURE:
            keep_key(self._telling, self.words, tag, Word(text, spot, unit))
