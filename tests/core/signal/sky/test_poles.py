"""The axes of a body's equator, against SPICE and against the Moon's own motion."""

import math
from collections.abc import Iterator

import numpy as np
import pytest
import spiceypy

from core.signal.sky.model import Body
from core.signal.sky.poles import equator, pole

# NAIF's generic planetary constants kernel pck00010.tpc, after the same report of the IAU.
CONSTANTS = [
    "BODY399_POLE_RA = ( 0. -0.641 0. )",
    "BODY399_POLE_DEC = ( 90. -0.557 0. )",
    "BODY399_PM = ( 190.147 360.9856235 0. )",
    "BODY499_POLE_RA = ( 317.68143 -0.1061 0. )",
    "BODY499_POLE_DEC = ( 52.88650 -0.0609 0. )",
    "BODY499_PM = ( 176.630 350.89198226 0. )",
    "BODY3_NUT_PREC_ANGLES = ( 125.045 -1935.5364525 250.089 -3871.072905",
    "260.008 475263.3328725 176.625 487269.629985 357.529 35999.0509575",
    "311.589 964468.49931 134.963 477198.869325 276.617 12006.300765",
    "34.226 63863.5132425 15.134 -5806.6093575 119.743 131.84064",
    "239.961 6003.1503825 25.053 473327.79642 )",
    "BODY301_POLE_RA = ( 269.9949 0.0031 0. )",
    "BODY301_POLE_DEC = ( 66.5392 0.0130 0. )",
    "BODY301_PM = ( 38.3213 13.17635815 -1.4D-12 )",
    "BODY301_NUT_PREC_RA = ( -3.8787 -0.1204 0.07 -0.0172 0. 0.0072 0.",
    "0. 0. -0.0052 0. 0. 0.0043 )",
    "BODY301_NUT_PREC_DEC = ( 1.5419 0.0239 -0.0278 0.0068 0. -0.0029 0.0009 0. 0.",
    "0.0008 0. 0. -0.0009 )",
]
DAY_S = 86_400.0


@pytest.fixture
def constants() -> Iterator[None]:
    spiceypy.lmpool(CONSTANTS)
    yield
    spiceypy.kclear()


@pytest.mark.usefixtures("constants")
@pytest.mark.parametrize("body", Body)
@pytest.mark.parametrize("days", [-3_000.0, 0.0, 7_777.7, 11_456.0, 14_610.0])
def test_the_pole_is_where_spice_puts_it(body: Body, days: float) -> None:
    turn = spiceypy.pxform(f"IAU_{body.upper()}", "J2000", days * DAY_S)
    assert np.abs(turn[:, 2] - pole(body, days * DAY_S)).max() < 1e-12


def test_the_moon_s_equator_is_tilted_to_the_ecliptic_as_cassini_says() -> None:
    # 1.543 degrees: NASA's fact sheet of the Moon gives 1.54.
    tilt = math.radians(23.4392911)
    ecliptic = np.array([0.0, -math.sin(tilt), math.cos(tilt)])
    for days in range(0, 14_000, 500):
        off = math.degrees(math.acos(float(ecliptic @ pole(Body.MOON, days * DAY_S))))
        assert abs(off - 1.543) < 0.04


@pytest.mark.parametrize("body", Body)
def test_the_axes_are_square_and_x_is_on_both_equators_or_at_the_equinox(body: Body) -> None:
    axes = np.array(equator(body, 9e8))
    assert np.abs(axes @ axes.T - np.eye(3)).max() < 1e-12
    assert np.linalg.det(axes) == pytest.approx(1)
    if body is not Body.EARTH:
        assert axes[0][2] == pytest.approx(0, abs=1e-15)


def test_the_equinox_goes_back_with_precession() -> None:
    # General precession in right ascension: 46.1 arc seconds a year (IAU 1976).
    years = 25
    x, _, _ = equator(Body.EARTH, years * 365.25 * DAY_S)
    assert math.degrees(math.atan2(x[1], x[0])) * 3600 == pytest.approx(-46.1 * years, rel=5e-3)
