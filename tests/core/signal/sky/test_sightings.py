"""Contacts out of geometry, beside SPICE, skyfield, the closed form and a plain sampling."""

import math
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skyfield.api import EarthSatellite, load, wgs84

from core.errors import EphemerisRange
from core.plan.orbitdata.model import MeanElements, Segment, Trajectory
from core.signal.cuts import NO_STATION
from core.signal.seen import Seen, Sighting
from core.signal.sky.elements import Elements
from core.signal.sky.mean import Mean
from core.signal.sky.model import SPHERES, Body, Observer
from core.signal.sky.orbit import Orbit
from core.signal.sky.sight import Sky
from core.signal.sky.sightings import seen, sightings
from core.signal.sky.sites import Geocentre, Site
from core.signal.sky.timescale import tt_s, utc_ms
from core.signal.sky.trajectory import paths_of
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms
from tests.core.signal.sky.flights import (
    CENTRE,
    DAY_MS,
    KERNEL,
    LOW_LUNAR,
    NAUTICAL_MILE_KM,
    SITES,
    START_MS,
    START_S,
    Still,
    StillSky,
    edges_ms,
    orbit,
    plainly_seen,
    shared_ms,
    site,
    without,
)
from tests.core.signal.sky.toolkit import toolkit

BEHIND_MOON = "behind the Moon"
RADIUS_KM = SPHERES[Body.MOON].radius_km
DAYS = 2
SPAN = (START_S, START_S + DAYS * 86_400)


def seen_for(
    path: Orbit, sites: dict[str, Observer], days: float = DAYS, *, light_time: bool = False
) -> Seen:
    end_ms = START_MS + round(days * DAY_MS)
    return sightings(path, KERNEL, sites, START_MS, end_ms, light_time=light_time)


# ------------------------------------------------------------ SPICE

AGAINST_SPICE = {
    "low about the Moon": (LOW_LUNAR, Body.MOON),
    "long about the Moon": (orbit(Body.MOON, 60.0, 0.7, 80.0, 30.0, 100.0), Body.MOON),
    "about Mars": (orbit(Body.MARS, 400.0, 0.3, 93.0, 30.0, 100.0), Body.MARS),
    "about the Earth": (orbit(Body.EARTH, 420.0, 0.01, 51.6, 30.0, 100.0), None),
}


@pytest.mark.parametrize("name", AGAINST_SPICE)
def test_edges_at_one_instant_agree_with_spice_within_two_milliseconds(
    name: str, tmp_path: Path
) -> None:
    path, body = AGAINST_SPICE[name]
    found = seen_for(path, SITES)
    with toolkit(tmp_path, path, SITES, SPAN) as spice:
        for ground, place in SITES.items():
            assert place.mask_rad is not None
            high = spice.high(ground, place.mask_rad, 200.0)
            hidden = spice.hidden(body, ground, 200.0) if body is not None else []
            theirs = shared_ms(without(hidden, SPAN), high)
            assert len(theirs) >= 4
            assert edges_ms(found, ground) == pytest.approx(theirs, abs=2)


@pytest.mark.parametrize("name", ["low about the Moon", "about Mars"])
def test_edges_heard_after_their_light_time_agree_with_spice_within_three_milliseconds(
    name: str, tmp_path: Path
) -> None:
    path, body = AGAINST_SPICE[name]
    assert body is not None
    found = seen_for(path, CENTRE, light_time=True)
    with toolkit(tmp_path, path, CENTRE, SPAN, "CN") as spice:
        theirs = shared_ms(without(spice.hidden(body, "earth", 200.0), SPAN), [SPAN])
    assert edges_ms(found, "earth") == pytest.approx(theirs, abs=3)


def test_a_station_hears_the_first_at_its_mask_as_spice_says(tmp_path: Path) -> None:
    found = seen_for(LOW_LUNAR, SITES, light_time=True)
    risen = [(one.ground, one.from_ms) for one in found.sightings if one.from_cause == NO_STATION]
    assert len(risen) >= 3
    with toolkit(tmp_path, LOW_LUNAR, SITES, SPAN, "CN") as spice:
        for ground, at_ms in risen:
            early, late = (
                spice.elevation_rad(ground, SITES[ground], tt_s_of_utc_ms(at_ms + by_ms))
                for by_ms in (-2, 2)
            )
            assert early < math.radians(6.0) < late


# ------------------------------------------------------------ skyfield


def test_passes_over_the_earth_agree_with_skyfield_within_a_second() -> None:
    elements = MeanElements(
        "Petrel", 0, START_MS - 7_200_000.0, 15.5, 0.003, 51.6, 120.0, 80.0, 10.0, 2e-4
    )
    found = sightings(
        Mean(elements), KERNEL, SITES, START_MS, START_MS + 2 * DAY_MS, light_time=False
    )
    scale = load.timescale(builtin=True)
    craft = EarthSatellite.from_satrec(Mean(elements)._craft, scale)
    span = [scale.tt_jd(2451545.0 + at_s / 86_400) for at_s in SPAN]
    for ground, place in SITES.items():
        assert isinstance(place, Site)
        angles = (math.degrees(place.latitude_rad), math.degrees(place.longitude_rad))
        spot = wgs84.latlon(*angles, elevation_m=place.height_km * 1000)
        at, events = craft.find_events(spot, *span, altitude_degrees=math.degrees(place.mask_rad))
        theirs = [utc_ms((one.tt - 2451545.0) * 86_400) for one in at[events != 1]]
        assert len(theirs) > 8
        assert edges_ms(found, ground) == pytest.approx(theirs, abs=1000)


# ------------------------------------------------------------ the closed form


def circular(beta_rad: float, altitude_km: float = 60 * NAUTICAL_MILE_KM) -> Orbit:
    """A round orbit whose plane has that angle to the direction of the Earth, at the start."""
    moon_km = KERNEL.from_earth_km(Body.MOON, np.array([START_S]))[0]
    towards = -moon_km / np.linalg.norm(moon_km)
    side = np.cross(towards, [0.0, 0.0, 1.0])
    side /= np.linalg.norm(side)
    x, y, z = math.sin(beta_rad) * towards + math.cos(beta_rad) * side
    low_km = RADIUS_KM + altitude_km
    elements = Elements(low_km, 0.0, math.acos(z), math.atan2(x, -y) % math.tau)
    return Orbit(Body.MOON, elements, START_S)


# Of the closed form: hidden arc 2 acos(cos phi / cos beta) with phi = asin(R / r) for an observer
# far away, over the mean motion. Sixty nautical miles: a period of 118.86 min.
@pytest.mark.parametrize(
    ("beta_deg", "hidden_min"), [(0, 46.25), (20, 45.36), (30, 44.10), (60, 30.99)]
)
def test_a_round_orbit_is_hidden_as_long_as_the_closed_form_says(
    beta_deg: float, hidden_min: float
) -> None:
    path = circular(math.radians(beta_deg))
    assert path.period_s / 60 == pytest.approx(118.86, abs=0.005)
    far = StillSky({Body.MOON: far_away()})
    end_ms = START_MS + 6 * 3_600_000
    found = sightings(path, far, CENTRE, START_MS, end_ms, light_time=False)
    gaps = [(after.from_ms - before.to_ms) / 60_000 for before, after in pairwise(found.sightings)]
    assert gaps
    assert gaps == pytest.approx([hidden_min] * len(gaps), abs=0.006)


@pytest.mark.parametrize(("beta_deg", "gaps"), [(70.0, True), (70.06, False)])
def test_beyond_70_03_degrees_a_round_orbit_is_never_hidden(beta_deg: float, gaps: bool) -> None:
    far = StillSky({Body.MOON: far_away()})
    path = circular(math.radians(beta_deg))
    found = sightings(path, far, CENTRE, START_MS, START_MS + DAY_MS, light_time=False)
    assert (len(found.hidden) > 0) is gaps


def far_away() -> tuple[float, float, float]:
    """In the Moon's direction, a hundred thousand times as far."""
    moon_km = KERNEL.from_earth_km(Body.MOON, np.array([START_S]))[0] * 1e5
    return float(moon_km[0]), float(moon_km[1]), float(moon_km[2])


# ------------------------------------------------------------ a plain sampling

angles = st.floats(0.0, 360.0)


@settings(max_examples=40)
@given(
    st.sampled_from([Body.MOON, Body.MOON, Body.EARTH, Body.MARS]),
    st.floats(1.0, 3.8),
    st.just(0.0) | st.floats(0.0, 0.9) | st.floats(0.7, 0.9),
    st.tuples(st.floats(0.0, 180.0), angles, angles, angles),
    st.builds(site, st.floats(-90.0, 90.0), st.floats(-180.0, 180.0), st.floats(-1.0, 40.0))
    | st.builds(Geocentre),
)
def test_contacts_are_those_of_a_plain_sampling_every_five_seconds(
    body: Body,
    height: float,
    eccentricity: float,
    angles_deg: tuple[float, float, float, float],
    observer: Observer,
) -> None:
    path = orbit(body, 10.0**height, eccentricity, *angles_deg)
    found = seen_for(path, {"here": observer}, days=1)
    at_ms = np.arange(START_MS, START_MS + DAY_MS, 5000.0)
    reached = np.zeros(len(at_ms), dtype=bool)
    beside = np.zeros(len(at_ms), dtype=bool)
    for one in found.sightings:
        reached |= (at_ms >= one.from_ms) & (at_ms <= one.to_ms)
        for edge_ms in (one.from_ms, one.to_ms):
            beside |= np.abs(at_ms - edge_ms) <= 2
    plainly = plainly_seen(path, KERNEL, observer, tt_s(at_ms))
    assert (reached == plainly)[~beside].all()


# ------------------------------------------------------------ grazes


def grazing(depth_km: float) -> tuple[Orbit, float]:
    """A round orbit whose first pass behind the limb is that deep, and when it is deepest."""
    inside, outside = 0.9, math.pi / 2
    sky = Sky(KERNEL, CENTRE, light_time=False)
    for _ in range(60):
        beta_rad = (inside + outside) / 2
        path = circular(beta_rad)
        least_km, at_s = deepest(sky, path)
        inside, outside = (beta_rad, outside) if least_km < -depth_km else (inside, beta_rad)
    return path, at_s


def deepest(sky: Sky, path: Orbit) -> tuple[float, float]:
    """The least margin of the first revolution, and when it is: by looking ever closer."""
    middle_s, step_s = START_S + path.period_s / 2, path.period_s / 100
    sky.reach(path, START_S - 7200, START_S + 2 * path.period_s)
    while step_s > 0.01:
        at_s = middle_s + np.arange(-50.0, 51.0) * step_s
        look = sky.look(path, at_s, np.zeros(101, dtype=np.intp))
        margin_km = sky.margin_km(look, Body.MOON)
        middle_s, step_s = float(at_s[np.argmin(margin_km)]), step_s / 20
    return float(margin_km.min()), middle_s


def test_a_loss_of_some_seconds_in_a_graze_is_found_and_both_its_edges_are_vague() -> None:
    path, at_s = grazing(0.005)
    found = seen_for(path, CENTRE, days=path.period_s / 86_400)
    before, after = found.sightings
    assert 1000 < after.from_ms - before.to_ms < 20_000
    assert before.to_ms < utc_ms(np.array([at_s]))[0] < after.from_ms
    assert before.to_cause == after.from_cause == BEHIND_MOON
    # Signal notes: up to 142 s for each km at a graze, and 5 km of relief.
    assert 40_000 < before.to_give_ms < 400_000
    assert 40_000 < after.from_give_ms < 400_000
    assert [(one.from_ms, one.to_ms) for one in found.hidden] == [(before.to_ms, after.from_ms)]


def test_a_graze_that_stays_above_the_limb_loses_nothing() -> None:
    path, _ = grazing(-0.005)
    found = seen_for(path, CENTRE, days=path.period_s / 86_400)
    assert len(found.sightings) == 1
    assert not found.hidden


def test_a_graze_in_the_first_moments_of_a_search_is_found() -> None:
    path, at_s = grazing(0.005)
    for early_s in (8.0, 60.0, 200.0):
        from_ms = round(utc_ms(np.array([at_s - early_s]))[0])
        found = sightings(path, KERNEL, CENTRE, from_ms, from_ms + 1_800_000, light_time=False)
        assert len(found.hidden) == 1
        till_ms = round(utc_ms(np.array([at_s + early_s]))[0])
        found = sightings(path, KERNEL, CENTRE, till_ms - 1_800_000, till_ms, light_time=False)
        assert len(found.hidden) == 1


# ------------------------------------------------------------ gives


def test_an_edge_gives_as_far_as_it_moves_with_a_limb_five_km_higher_or_lower(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found = seen_for(LOW_LUNAR, CENTRE, days=0.5)
    moved = []
    for more_km in (5.0, -5.0):
        moon = SPHERES[Body.MOON]
        other = type(moon)(moon.gm_km3_s2, moon.radius_km + more_km, moon.relief_km)
        monkeypatch.setitem(SPHERES, Body.MOON, other)
        moved.append(edges_ms(seen_for(LOW_LUNAR, CENTRE, days=0.5), "earth")[1:-1])
        monkeypatch.setitem(SPHERES, Body.MOON, moon)
    edges = edges_ms(found, "earth")[1:-1]
    gives = [give for one in found.sightings for give in (one.from_give_ms, one.to_give_ms)][1:-1]
    for edge, give, high, low in zip(edges, gives, *moved, strict=True):
        assert give == pytest.approx(max(abs(high - edge), abs(low - edge)), rel=0.01)
        assert 9_000 < give < 11_000  # about 10 s on a low lunar orbit (signal notes)


def test_a_station_gives_as_far_as_its_edge_moves_with_a_quarter_of_a_degree() -> None:
    found = seen_for(LOW_LUNAR, {"here": site(34.0, -117.0, 6.0)}, days=1)
    higher = seen_for(LOW_LUNAR, {"here": site(34.0, -117.0, 6.25)}, days=1)

    def edge_of(all_seen: Seen) -> Sighting:
        return next(one for one in all_seen.sightings if one.to_cause == NO_STATION)

    one, other = edge_of(found), edge_of(higher)
    assert one.to_give_ms == pytest.approx(one.to_ms - other.to_ms, rel=0.02)


# ------------------------------------------------------------ causes, spans


def test_every_contact_ends_with_a_cause_but_at_the_ends_of_the_search() -> None:
    found = seen_for(LOW_LUNAR, SITES, light_time=True)
    end_ms = START_MS + DAYS * DAY_MS
    causes = {BEHIND_MOON, NO_STATION}
    for one in found.sightings:
        assert one.from_ms < one.to_ms
        assert one.from_cause in ({""} if one.from_ms == START_MS else causes)
        assert one.to_cause in ({""} if one.to_ms == end_ms else causes)
        assert (one.from_give_ms == 0) is (one.from_ms == START_MS)
        assert (one.to_give_ms == 0) is (one.to_ms == end_ms)
    seen_causes = {one.to_cause for one in found.sightings}
    assert causes <= seen_causes
    assert [one.from_ms for one in found.sightings] == sorted(
        one.from_ms for one in found.sightings
    )


def test_what_is_hidden_joins_the_contacts_before_and_after_it() -> None:
    found = seen_for(LOW_LUNAR, SITES)
    for ground in SITES:
        lost = {one.to_ms for one in found.sightings if one.ground == ground}
        back = {one.from_ms for one in found.sightings if one.ground == ground}
        hidden = [one for one in found.hidden if one.ground == ground]
        assert hidden
        assert all(one.cause == BEHIND_MOON for one in hidden)
        assert sum(one.from_ms in lost for one in hidden) >= len(hidden) - 4
        assert sum(one.to_ms in back for one in hidden) >= len(hidden) - 4


def test_mars_hides_what_is_behind_it() -> None:
    path, _ = AGAINST_SPICE["about Mars"]
    found = seen_for(path, CENTRE, light_time=True)
    assert {one.cause for one in found.hidden} == {"behind Mars"}


def test_a_far_path_about_the_earth_passes_behind_the_moon() -> None:
    behind = Still(Body.EARTH, (400_000.0, 0.0, 0.0))
    found = sightings(behind, StillSky(), CENTRE, START_MS, START_MS + DAY_MS)
    assert found.sightings == ()
    assert [one.cause for one in found.hidden] == [BEHIND_MOON]


def test_only_what_is_sent_within_the_path_counts() -> None:
    path = orbit(Body.MOON, 5000.0, 0.0, 80.0, begin_s=START_S + 1000, end_s=START_S + 4000)
    (one,) = sightings(path, KERNEL, CENTRE, START_MS, START_MS + DAY_MS).sightings
    light = Sky(KERNEL, CENTRE).light(path, "earth", one.from_ms + 5)
    assert light is not None
    assert one.from_ms - START_MS == pytest.approx(1_000_000 + light.light_time_s * 1000, abs=1)
    assert one.to_ms - one.from_ms == pytest.approx(3_000_000, abs=30)
    assert (one.from_cause, one.to_cause, one.from_give_ms, one.to_give_ms) == ("", "", 0, 0)


def test_a_search_off_the_path_sees_nothing() -> None:
    path = orbit(Body.MOON, 5000.0, end_s=START_S)
    nothing = Seen((), ())
    assert sightings(path, KERNEL, SITES, START_MS + 5000, START_MS + DAY_MS) == nothing
    assert sightings(path, KERNEL, SITES, START_MS, START_MS) == nothing
    assert sightings(LOW_LUNAR, KERNEL, {}, START_MS, START_MS + DAY_MS) == nothing


def test_where_the_path_is_not_known_there_is_no_contact_and_no_cause() -> None:
    lost_s = (START_S + 1000.25, START_S + 2000.75)
    path = Still(Body.MOON, (-3000.0, 0.0, 0.0), lost_s=lost_s)
    found = sightings(path, StillSky(), CENTRE, START_MS, START_MS + DAY_MS, light_time=False)
    before, after = found.sightings
    assert before.to_ms - START_MS == pytest.approx(1_000_250, abs=1)
    assert after.from_ms - START_MS == pytest.approx(2_000_750, abs=1)
    assert before.to_cause == after.from_cause == ""
    assert not found.hidden


def test_a_file_of_states_every_minute_has_the_edges_of_the_orbit_it_was_made_from() -> None:
    at_s = np.arange(START_S, START_S + 86_401, 60.0)
    places, speeds = LOW_LUNAR.position_km(at_s), LOW_LUNAR.velocity_km_s(at_s)
    rows = [tuple(map(tuple, vectors.tolist())) for vectors in (places, speeds)]
    segment = Segment("moon", at_s[0], at_s[-1], tuple(at_s.tolist()), *rows)
    (path,) = paths_of(Trajectory("Petrel", (segment,)))
    found = sightings(path, KERNEL, SITES, START_MS + 5000, START_MS + DAY_MS)
    exact = sightings(LOW_LUNAR, KERNEL, SITES, START_MS + 5000, START_MS + DAY_MS)
    for ground in SITES:
        assert edges_ms(found, ground) == pytest.approx(edges_ms(exact, ground), abs=5)


def test_a_sky_kept_answers_as_a_new_one_wherever_it_is_asked() -> None:
    kept = Sky(KERNEL, SITES)
    for day in (0, 1, -3, 200, 0):
        from_ms = START_MS + day * DAY_MS + 12_345
        anew = sightings(LOW_LUNAR, KERNEL, SITES, from_ms, from_ms + DAY_MS)
        assert seen(kept, LOW_LUNAR, from_ms, from_ms + DAY_MS) == anew


def test_a_search_in_two_parts_finds_what_one_search_finds() -> None:
    middle_ms = START_MS + 50_000_000
    whole = sightings(LOW_LUNAR, KERNEL, SITES, START_MS, START_MS + DAY_MS)
    early = sightings(LOW_LUNAR, KERNEL, SITES, START_MS, middle_ms)
    late = sightings(LOW_LUNAR, KERNEL, SITES, middle_ms, START_MS + DAY_MS)
    for ground in SITES:
        joined = edges_ms(early, ground) + edges_ms(late, ground)
        joined = [edge for edge in joined if edge != middle_ms]
        assert joined == pytest.approx(edges_ms(whole, ground), abs=1)


def test_outside_the_ephemeris_there_is_a_clear_error() -> None:
    late_ms = rfc3339_to_ms("2045-01-01T00:00:00Z")
    path = Orbit(Body.MOON, Elements(1900.0), tt_s_of_utc_ms(late_ms))
    with pytest.raises(EphemerisRange):
        sightings(path, KERNEL, SITES, late_ms, late_ms + DAY_MS)
