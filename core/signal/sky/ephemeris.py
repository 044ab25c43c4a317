"""Where the Moon and Mars are about the Earth, from a JPL ephemeris file in the SPK format."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

import numpy as np
from jplephem.spk import SPK
from numpy.typing import NDArray

from core.errors import EphemerisRange, SkyProblem
from core.signal.sky.chebyshev import Series, add
from core.signal.sky.model import Body, Seconds, Vectors
from core.times.instants import ms_to_rfc3339
from core.times.scales import utc_ms_of_tt_s

# The numbers NAIF gives them. Files of the planets know Mars by the centre of mass of Mars and
# its moons, which lies within the planet, less than a metre from its centre.
_EARTH = 399
_NUMBERS = {Body.EARTH: (_EARTH,), Body.MOON: (301,), Body.MARS: (499, 4)}
_CALLED = {Body.EARTH: "the Earth", Body.MOON: "the Moon", Body.MARS: "Mars"}

_J2000_JD = 2451545.0
_DAY_S = 86_400.0
_CHEBYSHEV = (2, 3)  # the kinds of segment that hold coefficients


class _Segment(Protocol):
    """What is used of a segment of jplephem, which has no types."""

    center: int
    target: int
    start_second: float
    end_second: float
    data_type: int

    def load_array(self) -> tuple[float, float, NDArray[np.float64]]:
        """The first epoch (JD), the length of a piece (days), coefficients by axis and piece."""


@dataclass(frozen=True, slots=True, eq=False)
class _Course:
    """A body's place: a sum of series, and the span for which all of them hold."""

    begin_s: float
    end_s: float
    series: tuple[Series, ...]

    def position_km(self, at_s: Seconds) -> Vectors:
        """The sum at instants within the span."""
        found = np.zeros((len(at_s), 3))
        for one in self.series:
            found += one.position_km(at_s)
        return found


class Kernel:
    """An ephemeris file, read once and kept in memory. Ephemeris.

    Raises OSError where it cannot be read, and SkyProblem where it does not lead to the Earth.
    """

    def __init__(self, path: Path) -> None:
        try:
            with SPK.open(path) as spk:
                segments = {one.target: one for one in spk.segments}
                earth = _chain(segments, _EARTH)
                self._earth = _course(earth, [], earth)
                self._bodies = dict(_bodies(segments, earth))
        except ValueError as error:
            raise SkyProblem(f"{path.name} cannot be used as an ephemeris: {error}") from error
        self._name = path.name

    def from_earth_km(self, body: Body, at_s: Seconds) -> Vectors:
        """The centre of a body about the centre of the Earth, geometric, ICRF axes.

        Raises EphemerisRange where any instant is outside the file's span, and SkyProblem where
        the file does not have the body.
        """
        course = self._bodies.get(body)
        if course is None:
            raise SkyProblem(f"{self._name} gives no positions of {_CALLED[body]}")
        _check_span(body, course, at_s)
        return course.position_km(at_s)

    def earth_km(self, at_s: Seconds) -> Vectors:
        """The Earth's centre about the solar system's barycentre. Raises EphemerisRange."""
        _check_span(Body.EARTH, self._earth, at_s)
        return self._earth.position_km(at_s)


def _bodies(
    segments: Mapping[int, _Segment], earth: list[_Segment]
) -> Iterator[tuple[Body, _Course]]:
    """Each body the file has, about the Earth; `earth` leads to the Earth."""
    for body, numbers in _NUMBERS.items():
        number = next((one for one in numbers if one in segments), None)
        if number is not None:
            chain = _chain(segments, number)
            there = [one for one in chain if one not in earth]
            back = [one for one in earth if one not in chain]
            yield body, _course(there, back, earth)


def _chain(segments: Mapping[int, _Segment], number: int) -> list[_Segment]:
    """The segments that lead from the solar system's barycentre (0) to a body, last one first.

    Raises ValueError where one is missing.
    """
    chain = []
    while number:
        if number not in segments:
            raise ValueError(f"it has no positions of body {number}")
        chain.append(segments[number])
        number = segments[number].center
    return chain


def _course(there: list[_Segment], back: list[_Segment], earth: list[_Segment]) -> _Course:
    """The sum of the segments `there` less those `back`, good where these and the Earth's are."""
    series: list[Series] = []
    for sign, segments in ((1.0, there), (-1.0, back)):
        for segment in segments:
            add(series, _series(segment, sign))
    used = [*there, *earth]
    begin_s = max(one.start_second for one in used)
    return _Course(begin_s, min(one.end_second for one in used), tuple(series))


def _series(segment: _Segment, sign: float) -> Series:
    """A segment's coefficients in memory. Raises ValueError where it holds something else."""
    if segment.data_type not in _CHEBYSHEV:
        raise ValueError(f"segments of kind {segment.data_type} are not read")
    first_jd, piece_days, by_axis = segment.load_array()
    coefficients = np.ascontiguousarray(sign * by_axis[:3].transpose(1, 2, 0))
    return Series((first_jd - _J2000_JD) * _DAY_S, piece_days * _DAY_S, coefficients)


def _check_span(body: Body, course: _Course, at_s: Seconds) -> None:
    """Raise EphemerisRange where the instants are not within the span of a body."""
    if not at_s.size:
        return
    first_s, last_s = float(at_s.min()), float(at_s.max())
    if course.begin_s <= first_s and last_s <= course.end_s:
        return
    outside_s = first_s if first_s < course.begin_s else last_s
    begin, end = _shown(course.begin_s), _shown(course.end_s)
    raise EphemerisRange(
        f"Where {_CALLED[body]} is at {_shown(outside_s)} is not known: "
        f"the positions at hand reach from {begin} to {end}"
    )


def _shown(at_s: float) -> str:
    """An instant in words, to the minute."""
    try:
        text = ms_to_rfc3339(round(utc_ms_of_tt_s(at_s)))
    except ValueError:
        return "a time beyond the years 1 to 9999"
    return f"{text[:16].replace('T', ' ')} UTC"
