"""The metadata of one segment of a CCSDS OEM: what the states are about, and their span."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from core.errors import TimeProblem
from core.plan.orbitdata.epochs import Epochs
from core.plan.orbitdata.telling import Spot, Telling, Word, nearest, quoted
from core.times.scales import TimeSystem

_NEEDED = (
    "OBJECT_NAME",
    "OBJECT_ID",
    "CENTER_NAME",
    "REF_FRAME",
    "TIME_SYSTEM",
    "START_TIME",
    "STOP_TIME",
)
KEYS = (
    *_NEEDED,
    "REF_FRAME_EPOCH",
    "USEABLE_START_TIME",
    "USEABLE_STOP_TIME",
    "INTERPOLATION",
    "INTERPOLATION_DEGREE",
)
"""What may stand in the metadata. How the sender would interpolate is of no account here."""

_CENTRES = {"EARTH": "earth", "MOON": "moon", "MARS": "mars", "MARS BARYCENTER": "mars"}

# The axes of EME2000 lie within 0.02 arcsec of those of the ICRF: 40 m at the Moon. GCRF has the
# same axes as ICRF, whatever its realisation.
_ICRF_AXES = {name + realised for name in ("ICRF", "GCRF") for realised in ("", "1", "2", "3")} | {
    "EME2000",
    "J2000",
}

SLACK_S = 1.0
"""So far a written span and the states may differ: headers are often rounded to the second
(common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Metadata:
    """What a segment says of itself. A bound that is not given, or is wrong, is infinite."""

    name: str
    identity: Word
    centre: str
    epochs: Epochs
    start: tuple[float, str]
    stop: tuple[float, str]
    """The whole span: the instant, and as it was written."""
    useable_s: tuple[float, float]


class _Reading:
    """One block of metadata, read key by key."""

    def __init__(self, telling: Telling, words: Mapping[str, Word], spot: Spot) -> None:
        self._telling = telling
        self._words = words
        self._spot = spot
        for key in _NEEDED:
            if key not in words:
                telling.problem(spot, f"{key} is missing in this metadata", f"Add {key} = ...")

    def word(self, key: str) -> Word:
        return self._words.get(key, Word("", self._spot))

    def centre(self) -> str:
        word = self.word("CENTER_NAME")
        centre = _CENTRES.get(" ".join(word.text.upper().replace("_", " ").split()))
        if centre is None and "CENTER_NAME" in self._words:
            self._telling.problem(
                word.spot,
                f"states about {quoted(word.text)} are not taken",
                "Ask for them about EARTH, MOON or MARS",
            )
        return centre or "earth"

    def check_frame(self) -> None:
        word = self.word("REF_FRAME")
        if "REF_FRAME" in self._words and word.text.upper() not in _ICRF_AXES:
            self._telling.problem(
                word.spot,
                f"the frame {quoted(word.text)} is not taken",
                "Ask for the states in ICRF, GCRF or EME2000",
            )

    def epochs(self) -> Epochs:
        word = self.word("TIME_SYSTEM")
        try:
            return Epochs(TimeSystem(word.text.upper()))
        except ValueError:
            if "TIME_SYSTEM" in self._words:
                what = f"the time system {quoted(word.text)} is not taken"
                hint = f"Ask for the states in one of {', '.join(TimeSystem)}"
                self._telling.problem(word.spot, what, hint)
            return Epochs(TimeSystem.UTC)

    def instant_s(self, key: str, epochs: Epochs, otherwise_s: float) -> float:
        if key not in self._words:
            return otherwise_s
        word = self.word(key)
        try:
            return epochs.tt_s(word.text)
        except TimeProblem as problem:
            self._telling.problem(word.spot, problem.what, problem.hint)
            return otherwise_s

    def span_s(self, begin_key: str, end_key: str, epochs: Epochs) -> tuple[float, float]:
        begin_s = self.instant_s(begin_key, epochs, -math.inf)
        end_s = self.instant_s(end_key, epochs, math.inf)
        if end_s < begin_s:
            what = f"{end_key} is before {begin_key}"
            self._telling.problem(self.word(end_key).spot, what, "Put the earlier one first")
            return -math.inf, math.inf
        return begin_s, end_s

    def check_within(self, span_s: tuple[float, float], useable_s: tuple[float, float]) -> None:
        if math.isfinite(useable_s[0]) and useable_s[0] < span_s[0] - SLACK_S:
            spot = self.word("USEABLE_START_TIME").spot
            self._telling.problem(spot, "the useable span begins before START_TIME", _INSIDE)
        if math.isfinite(useable_s[1]) and useable_s[1] > span_s[1] + SLACK_S:
            spot = self.word("USEABLE_STOP_TIME").spot
            self._telling.problem(spot, "the useable span ends after STOP_TIME", _INSIDE)


_INSIDE = "It lies within START_TIME and STOP_TIME"


def read_metadata(telling: Telling, words: Mapping[str, Word], spot: Spot) -> Metadata:
    """The metadata in `words`; what is wrong is told, and taken as something likely.

    `spot` is where the metadata begins.
    """
    reading = _Reading(telling, words, spot)
    centre, epochs = reading.centre(), reading.epochs()
    reading.check_frame()
    span_s = reading.span_s("START_TIME", "STOP_TIME", epochs)
    useable_s = reading.span_s("USEABLE_START_TIME", "USEABLE_STOP_TIME", epochs)
    reading.check_within(span_s, useable_s)
    return Metadata(
        name=reading.word("OBJECT_NAME").text,
        identity=reading.word("OBJECT_ID"),
        centre=centre,
        epochs=epochs,
        start=(span_s[0], reading.word("START_TIME").text),
        stop=(span_s[1], reading.word("STOP_TIME").text),
        useable_s=useable_s,
    )


def keep_key(telling: Telling, words: dict[str, Word], key: str, word: Word) -> None:
    """Put a key of the metadata into `words`, or tell that it cannot stand there."""
    if key not in KEYS:
        telling.problem(word.spot, f"{quoted(key)} is no key of this metadata", nearest(key, KEYS))
    elif key in words:
        telling.problem(word.spot, f"{key} stands twice", "Take one of them out")
    elif not word.text:
        telling.problem(word.spot, f"{key} is empty", "Write its value, or take it out")
        words[key] = word
    else:
        words[key] = word
