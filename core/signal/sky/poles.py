"""The axes of a body's equator at an instant, on the axes of the ICRF.

Poles: B. Archinal and others, Report of the IAU Working Group on Cartographic Coordinates and
Rotational Elements: 2009, Celestial Mechanics and Dynamical Astronomy 109 (2011), 101-135.
"""

import math

from core.signal.sky.model import Body
from core.signal.sky.vectors import Triple, cross, plus, scaled, unit

Axes = tuple[Triple, Triple, Triple]

ICRF: Axes = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))

_DAY_S = 86_400.0
_CENTURY_DAYS = 36_525.0

# The pole of the ecliptic of J2000 (IAU 1976 obliquity, 84381.448 arc seconds).
_ECLIPTIC = (0.0, -math.sin(math.radians(23.4392911)), math.cos(math.radians(23.4392911)))

# Right ascension and declination of the pole, in degrees, and degrees a century.
_POLES = {
    Body.EARTH: (0.0, -0.641, 90.0, -0.557),
    Body.MOON: (269.9949, 0.0031, 66.5392, 0.0130),
    Body.MARS: (317.68143, -0.1061, 52.88650, -0.0609),
}

# The Moon's E1, E2, E3, E4, E6, E7, E10 and E13: degrees, degrees a day; then what their sine adds
# to the right ascension of the pole, and their cosine to its declination, in degrees.
_MOON = (
    (125.045, -0.0529921, -3.8787, 1.5419),
    (250.089, -0.1059842, -0.1204, 0.0239),
    (260.008, 13.0120009, 0.0700, -0.0278),
    (176.625, 13.3407154, -0.0172, 0.0068),
    (311.589, 26.4057084, 0.0072, -0.0029),
    (134.963, 13.0649930, 0.0, 0.0009),
    (15.134, -0.1589763, -0.0052, 0.0008),
    (25.053, 12.9590088, 0.0043, -0.0009),
)


def pole(body: Body, at_s: float) -> Triple:
    """The unit vector to a body's north pole, as the IAU names it."""
    days = at_s / _DAY_S
    right, right_rate, up, up_rate = _POLES[body]
    ascension = right + right_rate * days / _CENTURY_DAYS
    declination = up + up_rate * days / _CENTURY_DAYS
    if body is Body.MOON:
        for start, rate, by_sine, by_cosine in _MOON:
            angle = math.radians(start + rate * days)
            ascension += by_sine * math.sin(angle)
            declination += by_cosine * math.cos(angle)
    a, d = math.radians(ascension), math.radians(declination)
    return (math.cos(d) * math.cos(a), math.cos(d) * math.sin(a), math.sin(d))


def equator(body: Body, at_s: float) -> Axes:
    """The axes 'equator of the body at epoch', each a unit vector of the ICRF.

    z is the pole. x lies where the body's equator rises through that of the ICRF; for the Earth,
    where that means nothing, at the equinox of date (within 8 arc seconds before 2050: the
    ecliptic is that of J2000).
    """
    north = pole(body, at_s)
    x = unit(cross(north, _ECLIPTIC) if body is Body.EARTH else cross(ICRF[2], north))
    return x, cross(north, x), north


def turned(axes: Axes, vector: Triple) -> Triple:
    """A vector given on these axes, on those of the ICRF."""
    x, y, z = axes
    return plus(plus(scaled(x, vector[0]), y, vector[1]), z, vector[2])
