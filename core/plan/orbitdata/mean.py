"""Mean elements from the keys of a CCSDS OMM, in whichever notation; and their ranges."""

import math
import re
from collections.abc import Callable, Mapping

from core.errors import TimeProblem
from core.plan.orbitdata.epochs import utc_ms_of_epoch
from core.plan.orbitdata.model import MeanElements
from core.plan.orbitdata.telling import Spot, Telling, Word, quoted

_NUMBER = re.compile(
    r"([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(?:\[([^]]*)\])?", flags=re.ASCII
)

_ONLY: Mapping[str, tuple[frozenset[str], str]] = {
    "CENTER_NAME": (frozenset({"EARTH"}), "mean elements of SGP4 are about EARTH"),
    "REF_FRAME": (frozenset({"TEME"}), "mean elements of SGP4 are in the frame TEME"),
    "TIME_SYSTEM": (frozenset({"UTC"}), "the epoch of SGP4 is in UTC"),
    "MEAN_ELEMENT_THEORY": (
        frozenset({"SGP", "SGP4", "SGP/SGP4"}),
        "elements are carried on by SGP4 only",
    ),
}
"""Keys with the values they may have, and why no other is taken."""

# Degrees, or revolutions a day. SGP4 wants an orbit that closes and clears the ground: at 18
# revolutions a day a circle would run below it.
_RANGES: Mapping[str, tuple[float, float, str]] = {
    "MEAN_MOTION": (1e-4, 18.0, "rev/day"),
    "ECCENTRICITY": (0.0, 0.9999999, ""),
    "INCLINATION": (0.0, 180.0, "deg"),
    "RA_OF_ASC_NODE": (-360.0, 360.0, "deg"),
    "ARG_OF_PERICENTER": (-360.0, 360.0, "deg"),
    "MEAN_ANOMALY": (-360.0, 360.0, "deg"),
    "BSTAR": (-1e3, 1e3, "1/er"),
    "MEAN_MOTION_DOT": (-1e3, 1e3, "rev/day**2"),
    "MEAN_MOTION_DDOT": (-1e3, 1e3, "rev/day**3"),
}
_MAY_LACK = ("MEAN_MOTION_DOT", "MEAN_MOTION_DDOT")
_THEORY_XP = "4"

_IN_LINES: Mapping[str, tuple[str, Callable[[MeanElements], float]]] = {
    "mean motion": ("MEAN_MOTION", lambda one: one.mean_motion),
    "inclination": ("INCLINATION", lambda one: one.inclination_deg),
    "node": ("RA_OF_ASC_NODE", lambda one: one.node_deg),
    "argument of perigee": ("ARG_OF_PERICENTER", lambda one: one.argument_deg),
    "mean anomaly": ("MEAN_ANOMALY", lambda one: one.mean_anomaly_deg),
}
"""The fields of two-line elements whose columns leave room for what is out of range."""


def mean_elements(
    words: Mapping[str, Word], spot: Spot, telling: Telling, *, plain: bool
) -> MeanElements:
    """The elements that `words` say. Raises PlanProblems with everything that was told.

    `spot` stands for what is missing. With `plain`, the frame, the centre, the time system and
    the theory may be left out, as in the JSON in which catalogues are published (common practice,
    no source); they are then those of SGP4.
    """
    reading = _Reading(words, spot, telling)
    for key, (allowed, why) in _ONLY.items():
        reading.check_only(key, allowed, why, may_lack=plain)
    reading.check_theory()
    numbers = {key: reading.number(key) for key in _RANGES}
    epoch_ms, catalogue = reading.epoch_utc_ms(), reading.catalogue()
    name = reading.needed("OBJECT_NAME")
    if telling.any:
        raise telling.raised()
    return MeanElements(
        name=name.text if name else "",
        catalogue=catalogue,
        epoch_utc_ms=epoch_ms,
        mean_motion=numbers["MEAN_MOTION"],
        eccentricity=numbers["ECCENTRICITY"],
        inclination_deg=numbers["INCLINATION"],
        node_deg=numbers["RA_OF_ASC_NODE"],
        argument_deg=numbers["ARG_OF_PERICENTER"],
        mean_anomaly_deg=numbers["MEAN_ANOMALY"],
        ballistic=numbers["BSTAR"],
        mean_motion_dot=numbers["MEAN_MOTION_DOT"],
        mean_motion_ddot=numbers["MEAN_MOTION_DDOT"],
    )


def check_ranges(elements: MeanElements, fields: Mapping[str, Word], telling: Telling) -> bool:
    """Whether elements out of two lines are in range; what is not is told at its field."""
    for name, (key, value) in _IN_LINES.items():
        low, high, _ = _RANGES[key]
        if not low <= value(elements) <= high:
            what = f"{fields[name].text.strip()} is out of range for the {name}"
            telling.problem(fields[name].spot, what, f"From {low:g} to {high:g}")
    return not telling.any


class _Reading:
    """The keys of one message, read one by one."""

    def __init__(self, words: Mapping[str, Word], spot: Spot, telling: Telling) -> None:
        self._words = words
        self._spot = spot
        self._telling = telling

    def needed(self, key: str) -> Word | None:
        """The word under a key; one that is missing or empty is told."""
        word = self._words.get(key)
        if word is None:
            self._telling.problem(self._spot, f"{key} is missing", self._remedy(key))
        elif not word.text:
            self._telling.problem(word.spot, f"{key} is empty", "Write its value")
            return None
        return word

    def _remedy(self, key: str) -> str:
        if key == "MEAN_MOTION" and "SEMI_MAJOR_AXIS" in self._words:
            return "SGP4 takes the mean motion: ask for it in place of SEMI_MAJOR_AXIS"
        if key == "BSTAR" and "BTERM" in self._words:
            return "BTERM belongs to SGP4-XP, which is not taken: ask for BSTAR"
        return f"Add {key}, or fetch the elements again"

    def check_only(self, key: str, allowed: frozenset[str], why: str, *, may_lack: bool) -> None:
        """Tell a key whose value is none of the few that are taken."""
        if may_lack and key not in self._words:
            return
        word = self.needed(key)
        if word is not None and word.text.upper() not in allowed:
            what = f"{key} is {quoted(word.text)}, and {why}"
            self._telling.problem(word.spot, what, "Ask for elements for SGP4")

    def check_theory(self) -> None:
        """Tell elements that only look like those of SGP4."""
        word = self._words.get("EPHEMERIS_TYPE")
        if word is not None and word.text == _THEORY_XP:
            what = "EPHEMERIS_TYPE 4 stands for SGP4-XP, which is not taken"
            self._telling.problem(word.spot, what, "Ask for elements for SGP4")

    def number(self, key: str) -> float:
        """The number under a key, in its range and its unit; not a number where it is wrong."""
        if key in _MAY_LACK and key not in self._words:
            return 0.0
        word = self.needed(key)
        if word is None:
            return math.nan
        match = _NUMBER.fullmatch(word.text)
        if match is None:
            what = f"{quoted(word.text)} is no number"
            self._telling.problem(word.spot, what, f"{key} is one, like 15.5 or 1.2E-4")
            return math.nan
        low, high, unit = _RANGES[key]
        self._check_unit(key, word, match[2] or word.unit, unit)
        value = float(match[1])
        if not low <= value <= high:
            what = f"{quoted(match[1])} is out of range for {key}"
            self._telling.problem(word.spot, what, f"From {low:g} to {high:g} {unit}".rstrip())
        return value

    def _check_unit(self, key: str, word: Word, written: str, unit: str) -> None:
        if written and written.lower().replace(" ", "") not in (unit, "n/a"):
            what = f"{key} is in {quoted(written)}"
            remedy = f"It is written in {unit}" if unit else "It has no unit"
            self._telling.problem(word.spot, what, remedy)

    def epoch_utc_ms(self) -> float:
        """The epoch."""
        word = self.needed("EPOCH")
        if word is None:
            return math.nan
        try:
            return utc_ms_of_epoch(word.text)
        except TimeProblem as problem:
            self._telling.problem(word.spot, problem.what, problem.hint)
            return math.nan

    def catalogue(self) -> int:
        """The number in the catalogue; 0 where there is none."""
        word = self._words.get("NORAD_CAT_ID")
        if word is None or not word.text:
            return 0
        if not (word.text.isascii() and word.text.isdigit()) or len(word.text) > 9:
            what = f"{quoted(word.text)} is no catalogue number"
            self._telling.problem(word.spot, what, "It has one to nine digits")
            return 0
        return int(word.text)
