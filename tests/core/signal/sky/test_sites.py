"""Places on the ground, held against SPICE and against what must hold for all."""

import math

import numpy as np
import pytest
import spiceypy
from hypothesis import given
from hypothesis import strategies as st

from core.signal.sky.earth import Turning
from core.signal.sky.model import Observer
from core.signal.sky.sites import Geocentre, Site

AT_S = np.linspace(8.3e8, 8.3e8 + 86_400, 50)  # a day of 2026
LATITUDES = st.floats(-math.pi / 2, math.pi / 2)
LONGITUDES = st.floats(-math.pi, math.pi)
HEIGHTS_KM = st.floats(-0.4, 9)
EQUATOR_KM = 6378.137
FLATTENING = 1 / 298.257223563


@given(LATITUDES, LONGITUDES, HEIGHTS_KM)
def test_a_site_stands_on_the_ellipsoid_as_in_spice(
    latitude_rad: float, longitude_rad: float, height_km: float
) -> None:
    turning = Turning()
    site = Site(latitude_rad, longitude_rad, height_km, 0.1, turning)
    fixed = spiceypy.georec(longitude_rad, latitude_rad, height_km, EQUATOR_KM, FLATTENING)
    expected = np.einsum("nij,j->ni", turning.to_icrf(AT_S), np.asarray(fixed))
    assert np.linalg.norm(site.position_km(AT_S) - expected, axis=1).max() < 1e-8


@pytest.mark.usefixtures("spice")
@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg"), [(0, 0), (40, -4), (-35, 149), (78, 15)]
)
def test_a_site_is_within_a_hundred_metres_of_where_it_really_was(
    latitude_deg: float, longitude_deg: float
) -> None:
    site = Site(math.radians(latitude_deg), math.radians(longitude_deg), 0.7, 0.1)
    fixed = spiceypy.georec(
        site.longitude_rad, site.latitude_rad, site.height_km, EQUATOR_KM, FLATTENING
    )
    measured = np.array([spiceypy.pxform("ITRF93", "J2000", float(one)) @ fixed for one in AT_S])
    # Found: 22 m, most of it UT1 and the wandering of the pole.
    assert np.linalg.norm(site.position_km(AT_S) - measured, axis=1).max() < 0.1


@given(LATITUDES, LONGITUDES)
def test_up_is_where_a_higher_site_stands(latitude_rad: float, longitude_rad: float) -> None:
    low, high = (Site(latitude_rad, longitude_rad, height_km, 0.1) for height_km in (0.0, 1.0))
    up = low.up(AT_S)
    assert high.position_km(AT_S) - low.position_km(AT_S) == pytest.approx(up, abs=1e-8)
    assert np.linalg.norm(up, axis=1) == pytest.approx(1, abs=1e-11)


@given(LATITUDES, LONGITUDES)
def test_a_site_comes_back_after_a_sidereal_day(latitude_rad: float, longitude_rad: float) -> None:
    site = Site(latitude_rad, longitude_rad, 0.0, 0.1)
    day_s = 86_164.0905
    moved_km = site.position_km(AT_S + day_s) - site.position_km(AT_S)
    assert np.linalg.norm(moved_km, axis=1).max() < 0.03  # it is precession that moves it


def test_sites_that_share_the_turning_are_where_they_would_be_alone() -> None:
    turning = Turning()
    for longitude_rad in (-1.0, 0.0, 1.0):
        alone = Site(0.5, longitude_rad, 0.2, 0.1)
        together = Site(0.5, longitude_rad, 0.2, 0.1, turning)
        assert together == alone
        assert (together.position_km(AT_S) == alone.position_km(AT_S)).all()


def test_the_centre_of_the_earth_has_no_horizon_and_no_up() -> None:
    centre = Geocentre()
    assert centre.mask_rad is None
    assert not centre.position_km(AT_S).any()
    assert not centre.up(AT_S).any()
    assert centre.up(AT_S).shape == centre.position_km(AT_S).shape == (len(AT_S), 3)


def test_both_are_observers() -> None:
    observers: tuple[Observer, ...] = (Site(0.1, 0.2, 0.0, 0.05), Geocentre())
    assert [one.mask_rad for one in observers] == [0.05, None]
    assert [one.position_km(np.empty(0)).shape for one in observers] == [(0, 3), (0, 3)]
