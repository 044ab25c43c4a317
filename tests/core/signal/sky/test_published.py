"""Flown arrivals at the Moon and landings on Mars, beside what was published of them.

AFJ is NASA's Apollo Flight Journal. Its 'AOS' is mostly the first voice, 30 to 70 s after the edge:
so these are checks of plausibility, within 2 minutes. What is not published is said to be our own.
"""

import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
import skyfield_data
from scipy.optimize import brentq, root

from core.plan.orbitdata.trajectory import read_trajectory
from core.plan.reader import read_plan_text
from core.signal.seen import Seen
from core.signal.sky.arrival import Burned, approach
from core.signal.sky.burn import Burn
from core.signal.sky.conic import Conic
from core.signal.sky.elements import Elements
from core.signal.sky.ephemeris import Kernel
from core.signal.sky.making import trajectory_paths
from core.signal.sky.model import SPHERES, Body, Observer
from core.signal.sky.model import Path as Flight
from core.signal.sky.orbit import Orbit
from core.signal.sky.poles import Axes, turned
from core.signal.sky.sightings import sightings
from core.signal.sky.skies import PlanSkies
from core.signal.sky.timescale import utc_ms
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms
from tests.core.signal.sky.flights import CENTRE, KERNEL, SITES, START_MS

FLOWN = Path(__file__).resolve().parents[5] / "shared" / "data" / "artemis2.oem"
"""The flown trajectory as NASA published it in 2026; not part of the project."""

NAUTICAL_MILE_KM = 1.852
FOOT_KM = 0.0003048
HOUR_MS = 3_600_000
MINUTE_S = 60.0
GM = SPHERES[Body.MOON].gm_km3_s2
RADIUS_KM = SPHERES[Body.MOON].radius_km

AT_MARS = """
limbwatch = 1
title = "A landing"
zones = ["UTC"]
[[event]]
id = "landing"
name = "Landing"
at = {heard}
[[ground]]
id = "earth"
name = "Earth"
geocentre = true
lanes = ["voice"]
[[course]]
id = "low"
kind = "orbit"
about = "mars"
epoch = {heard}
altitude_km = 10
inclination = 25.0
node = 0.0
"""
"""A craft close above the ground there: our own."""

Heights = tuple[float, float]
"""Lowest and highest above the mean sphere, nautical miles."""


@pytest.fixture(scope="module")
def long_kernel() -> Kernel:
    """JPL DE421, 1900 to 2053: the one that ships begins in 2020."""
    return Kernel(Path(skyfield_data.__file__).parent / "data" / "de421.bsp")


@dataclass(frozen=True, slots=True)
class Mission:
    """An arrival as it was published; times are elapsed."""

    liftoff: str
    ignition: str
    burn_s: float
    slowed_km_s: float
    orbit_nmi: Heights
    lost: str

    def utc_ms(self, elapsed: str) -> int:
        """An elapsed time as an instant."""
        return rfc3339_to_ms(self.liftoff) + seconds(elapsed) * 1000

    @property
    def ignition_s(self) -> float:
        """Ignition, TT seconds past J2000."""
        return tt_s_of_utc_ms(self.utc_ms(self.ignition))

    @property
    def burn(self) -> Burn:
        """The engine against the motion."""
        return Burn(self.burn_s, along_km_s=-self.slowed_km_s)


APOLLO_16 = Mission(
    liftoff="1972-04-16T17:54:00Z",  # from memory
    ignition="74:28:27",  # AFJ, Apollo 16, Day 4 part 2, as are the next four
    burn_s=374.0,
    slowed_km_s=2_802 * FOOT_KM,
    orbit_nmi=(58.3, 170.0),
    lost="74:17:30",  # 'about 74:17 to 74:18'
)
APOLLO_15 = Mission(
    liftoff="1971-07-26T13:34:00Z",  # from memory
    ignition="78:31:45",  # AFJ, Apollo 15, Day 4
    burn_s=402.0,  # the same: cutoff 78:38:27
    slowed_km_s=3_000 * FOOT_KM,  # from memory
    orbit_nmi=(57.8, 170.1),  # AFJ, Apollo 15, Day 4
    lost="78:23:31",  # the same
)


def seconds(elapsed: str) -> int:
    """Hours, minutes and seconds as seconds."""
    hours, minutes, rest = map(int, elapsed.split(":"))
    return hours * 3600 + minutes * 60 + rest


def far_side(kernel: Kernel, at_s: float) -> Axes:
    """The plane in which the Moon moves, to be flown the other way; x points away from the Earth.

    Our own choice: the real planes were tilted to it, which costs a low orbit at most two minutes
    of its silence up to 30 degrees.
    """
    before, now, after = kernel.from_earth_km(
        Body.MOON, np.array([at_s - MINUTE_S, at_s, at_s + MINUTE_S])
    )
    away = now / np.linalg.norm(now)
    north = -np.cross(now, after - before)
    north /= np.linalg.norm(north)
    x, y, z = (tuple(map(float, axis)) for axis in (away, np.cross(north, away), north))
    return (x[0], x[1], x[2]), (y[0], y[1], y[2]), (z[0], z[1], z[2])


def way_in(
    axes: Axes, low_km: float, v_infinity_km_s: float, angle_rad: float, low_s: float
) -> Conic:
    """A flyby whose low point lies that angle past the middle of the far side, at `low_s`."""
    eccentricity = 1 + low_km * v_infinity_km_s**2 / GM
    position, velocity = Elements(low_km, eccentricity, argument_rad=angle_rad).state(GM)
    return approach(Body.MOON, low_s, turned(axes, position), turned(axes, velocity))


def heights_nmi(path: Conic) -> Heights:
    """Its lowest and its highest point."""
    low_km, e = path.kepler.low_km, path.kepler.eccentricity
    high_km = low_km * (1 + e) / (1 - e)
    return (low_km - RADIUS_KM) / NAUTICAL_MILE_KM, (high_km - RADIUS_KM) / NAUTICAL_MILE_KM


def seen_around(kernel: Kernel, path: Flight, at_ms: int) -> Seen:
    """Contacts with the Earth's centre from an hour before to three hours after."""
    return sightings(path, kernel, CENTRE, at_ms - HOUR_MS, at_ms + 3 * HOUR_MS)


def arrival(kernel: Kernel, mission: Mission) -> tuple[Conic, Burned]:
    """The way in and the flight with the burn that fit a mission's orbit and its loss of signal.

    The burn lies evenly about the low point (common practice, no source). Low point and speed are
    solved on the orbit after it, the direction of the low point on the loss of signal.
    """
    ignition_s, low_s = mission.ignition_s, mission.ignition_s + mission.burn_s / 2
    axes = far_side(kernel, ignition_s)

    def misses_nmi(guess: np.ndarray) -> list[float]:
        before = way_in(axes, float(guess[0]), float(guess[1]), 0.0, low_s)
        found = heights_nmi(Burned(before, ignition_s, mission.burn).after)
        return [have - want for have, want in zip(found, mission.orbit_nmi, strict=True)]

    solved = root(misses_nmi, [RADIUS_KM + 110, 1.1])
    assert solved.success
    low_km, v_infinity_km_s = map(float, solved.x)

    def late_ms(angle_rad: float) -> float:
        path = way_in(axes, low_km, v_infinity_km_s, angle_rad, low_s)
        seen = seen_around(kernel, path, mission.utc_ms(mission.ignition))
        return seen.sightings[0].to_ms - mission.utc_ms(mission.lost)

    angle_rad = float(brentq(late_ms, -0.6, 0.6, xtol=1e-6))
    before = way_in(axes, low_km, v_infinity_km_s, angle_rad, low_s)
    return before, Burned(before, ignition_s, mission.burn)


def back_s(kernel: Kernel, mission: Mission, path: Flight) -> float:
    """The return after ignition, elapsed seconds."""
    seen = seen_around(kernel, path, mission.utc_ms(mission.ignition))
    return (seen.sightings[1].from_ms - rfc3339_to_ms(mission.liftoff)) / 1000


def test_apollo_16_comes_back_when_it_was_said_to_with_the_burn_and_without(
    long_kernel: Kernel,
) -> None:
    before, burned = arrival(long_kernel, APOLLO_16)
    # AFJ, Apollo 16, Day 4 part 2: AOS 74:42:08 without the burn, 74:50:05 with it
    without_s = back_s(long_kernel, APOLLO_16, before)
    with_s = back_s(long_kernel, APOLLO_16, burned)
    assert without_s == pytest.approx(seconds("74:42:08"), abs=MINUTE_S)
    assert with_s == pytest.approx(seconds("74:50:05"), abs=MINUTE_S)
    assert with_s - without_s == pytest.approx(7 * 60 + 57, abs=MINUTE_S)


def test_apollo_15_comes_back_when_it_did(long_kernel: Kernel) -> None:
    _, burned = arrival(long_kernel, APOLLO_15)
    # AFJ, Apollo 15, Day 4: AOS 78:56:19
    assert back_s(long_kernel, APOLLO_15, burned) == pytest.approx(
        seconds("78:56:19"), abs=MINUTE_S
    )


def test_both_orbits_are_those_that_were_published(long_kernel: Kernel) -> None:
    for mission in (APOLLO_16, APOLLO_15):
        _, burned = arrival(long_kernel, mission)
        assert heights_nmi(burned.after) == pytest.approx(mission.orbit_nmi, abs=0.01)


def test_the_descent_orbit_burn_delays_the_return_of_apollo_16_as_published(
    long_kernel: Kernel,
) -> None:
    # From 169.4 x 58.1 nmi: AFJ, Apollo 16, Day 4 part 3. Ignition 78:33:45 at the low point, a
    # low point of 10.9 nmi after it: from memory. Here it is a push without duration.
    burn_ms = APOLLO_16.utc_ms("78:33:45")
    burn_s = tt_s_of_utc_ms(burn_ms)
    axes = far_side(long_kernel, burn_s)
    near_km, far_km, next_km = (RADIUS_KM + nmi * NAUTICAL_MILE_KM for nmi in (58.1, 169.4, 10.9))
    slowed_km_s = speed_km_s(near_km, far_km) - speed_km_s(near_km, next_km)

    def orbit(angle_rad: float) -> Conic:
        e = (far_km - near_km) / (far_km + near_km)
        position, velocity = Elements(near_km, e, argument_rad=angle_rad).state(GM)
        return approach(Body.MOON, burn_s, turned(axes, position), turned(axes, velocity))

    def returned_s(path: Flight) -> float:
        seen = seen_around(long_kernel, path, burn_ms)
        return (seen.sightings[1].from_ms - rfc3339_to_ms(APOLLO_16.liftoff)) / 1000

    # AFJ, Apollo 16, Day 4 part 3: AOS 79:06:46 without the burn, on which the angle is solved;
    # 79:10:25 with it
    without_s, with_s = seconds("79:06:46"), seconds("79:10:25")
    solved_rad = float(brentq(lambda a: returned_s(orbit(a)) - without_s, -1.0, 0.4, xtol=1e-6))
    before = orbit(solved_rad)
    burned = Burned(before, burn_s, Burn(0.0, along_km_s=-slowed_km_s))
    assert heights_nmi(burned.after) == pytest.approx((10.9, 58.1), abs=0.01)
    later_s = returned_s(burned) - returned_s(before)
    assert later_s == pytest.approx(with_s - without_s, abs=15.0)


def speed_km_s(here_km: float, there_km: float) -> float:
    """The speed at one end of an orbit whose ends are this far from the Moon's centre."""
    return math.sqrt(2 * GM * there_km / here_km / (here_km + there_km))


@pytest.mark.skipif(not FLOWN.exists(), reason="the flown trajectory is not part of the project")
@pytest.mark.parametrize("sites", [CENTRE, SITES], ids=["the centre", "three stations"])
def test_artemis_ii_is_behind_the_moon_for_about_40_minutes(
    sites: dict[str, Observer],
) -> None:
    # NASA, press, 2026: signal lost for about 40 minutes. The stations are our own.
    (path,) = trajectory_paths(read_trajectory(FLOWN))
    begin_ms, end_ms = (float(utc_ms(np.array([at_s]))[0]) for at_s in (path.begin_s, path.end_s))
    seen = sightings(path, KERNEL, sites, int(begin_ms), int(end_ms))
    lasting_min = [(one.to_ms - one.from_ms) / 60_000 for one in seen.hidden]
    assert lasting_min
    for each in lasting_min:
        assert 38 <= each <= 42


@pytest.mark.parametrize(
    ("heard", "way_s", "within_s"),
    [
        ("2021-02-18T20:55:00Z", 11 * 60 + 22, 1.0),  # Perseverance: NASA, Mars 2020 blog
        ("2012-08-06T05:18:00Z", 13.8 * 60, 3.0),  # Curiosity: from memory, to a tenth of a minute
    ],
)
def test_light_from_a_landing_on_mars_needs_as_long_as_published(
    long_kernel: Kernel, tmp_path: Path, heard: str, way_s: float, within_s: float
) -> None:
    plan = read_plan_text(AT_MARS.format(heard=heard), "mars.toml", tmp_path)
    skies = PlanSkies(plan, long_kernel, {"landing": rfc3339_to_ms(heard)})
    (branch,) = skies.branches(plan.courses[0])
    light = skies.light(branch, (), rfc3339_to_ms(heard))
    assert light is not None
    assert light.way_ms / 1000 == pytest.approx(way_s, abs=within_s)


def test_a_low_lunar_orbit_is_silent_for_24_hours_in_32_revolutions() -> None:
    # Common practice, no source: 45 min hidden in each 120 min; 32 revolutions in 64 h, 24 h of
    # silence in all. A plane 20 degrees off the Earth is our own choice of what is common.
    low_km = (GM * (120 * MINUTE_S / math.tau) ** 2) ** (1 / 3)
    begin_s = tt_s_of_utc_ms(START_MS)
    axes = far_side(KERNEL, begin_s + 32 * 60 * MINUTE_S)
    plane = Elements(low_km, 0.0, math.radians(20.0), math.radians(90.0))
    orbit = Orbit(Body.MOON, plane, begin_s, axes)
    assert orbit.period_s == pytest.approx(7_200, abs=0.1)
    seen = sightings(orbit, KERNEL, CENTRE, START_MS, START_MS + 64 * HOUR_MS)
    lasting_ms = [one.to_ms - one.from_ms for one in seen.hidden]
    assert sum(lasting_ms) == pytest.approx(24 * HOUR_MS, rel=0.02)
    whole_ms = lasting_ms[1:-1]
    assert len(whole_ms) in (30, 31)
    assert [each / 60_000 for each in whole_ms] == pytest.approx([45.0] * len(whole_ms), rel=0.02)
