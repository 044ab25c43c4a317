"""From a course of the plan to its paths; what the course's own keys say is read here only."""

import math
from collections.abc import Mapping
from typing import cast

from core.errors import SkyProblem
from core.plan.model import Course
from core.plan.orbitdata.model import MeanElements, Trajectory
from core.signal.sky.arrival import Arrival, Burned, approach
from core.signal.sky.burn import Burn
from core.signal.sky.conic import Conic
from core.signal.sky.elements import Elements
from core.signal.sky.mean import Mean
from core.signal.sky.model import SPHERES, Body
from core.signal.sky.orbit import Orbit
from core.signal.sky.poles import ICRF, Axes, equator, turned
from core.signal.sky.trajectory import States, paths_of
from core.signal.sky.vectors import Triple, scaled
from core.times.durations import parse_duration
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms

Keys = Mapping[str, object]


def epoch_of(course: Course) -> tuple[str | None, int] | None:
    """The event an epoch hangs on and its offset in ms; or no event, and the instant in UTC ms.

    None for a course that has no epoch.
    """
    epoch = dict(course.settings).get("epoch")
    if epoch is None:
        return None
    if isinstance(epoch, str):
        return None, rfc3339_to_ms(epoch)
    keys = _table(epoch)
    return _text(keys, "event"), parse_duration(_text(keys, "offset"))


def burn_of(course: Course) -> tuple[str, int] | None:
    """The event at which the engine lights, and how long it burns in ms; None without a burn."""
    keys = dict(course.settings)
    if "burn" not in keys:
        return None
    burn = _table(keys["burn"])
    return _text(burn, "event"), parse_duration(_text(burn, "duration"))


def events_of(course: Course) -> tuple[str, ...]:
    """The events its motion hangs on: that of the epoch, then that of the burn; none twice."""
    epoch, burn = epoch_of(course), burn_of(course)
    named = (epoch[0] if epoch else None, burn[0] if burn else None)
    return tuple(dict.fromkeys(event for event in named if event is not None))


def outcomes_of(course: Course) -> tuple[str, str] | None:
    """The outcomes that stand for the flight with the burn and without, if it names them."""
    keys = dict(course.settings)
    if "outcomes" not in keys:
        return None
    outcomes = _table(keys["outcomes"])
    return _text(outcomes, "burned"), _text(outcomes, "without")


def is_by_low_point(course: Course) -> bool:
    """Whether the epoch of an arrival is that of its low point."""
    return "low_point_km" in dict(course.settings)


def about_of(course: Course) -> Body | None:
    """The body it moves about, where the plan says so itself."""
    about = dict(course.settings).get("about")
    return Body(about) if isinstance(about, str) else None


def orbit_path(course: Course, epoch_ms: int) -> Orbit:
    """The path of a course of kind 'orbit'. Raises SkyProblem where its keys give none."""
    keys = dict(course.settings)
    body, epoch_s = _body(keys), tt_s_of_utc_ms(epoch_ms)
    low_km, eccentricity = _size(keys, body)
    elements = Elements(
        low_km,
        eccentricity,
        *_angles(keys),
        mean_anomaly_rad=math.radians(_number(keys, "mean_anomaly")),
    )
    orbit = Orbit(body, elements, epoch_s, _axes(keys, body, epoch_s))
    _check_outside(orbit)
    return orbit


def arrival_paths(course: Course, ignition_ms: int, epoch_ms: int) -> Arrival:
    """Both paths of a course of kind 'arrival'. Raises SkyProblem where its keys give none."""
    keys = dict(course.settings)
    body, epoch_s = _body(keys), tt_s_of_utc_ms(epoch_ms)
    axes = _axes(keys, body, epoch_s)
    position, velocity = _state(keys, body)
    without = approach(body, epoch_s, turned(axes, position), turned(axes, velocity))
    _check_outside(without)
    table = _table(keys["burn"])
    lasts_ms = parse_duration(_text(table, "duration"))
    burned = Burned(without, tt_s_of_utc_ms(ignition_ms), _burn(table, axes, lasts_ms))
    _check_outside(burned.after)
    return Arrival(burned, without, ignition_ms, ignition_ms + lasts_ms)


def trajectory_paths(trajectory: Trajectory) -> tuple[States, ...]:
    """The paths of a trajectory file, in order of time; they do not overlap."""
    return paths_of(trajectory)


def mean_path(elements: MeanElements) -> Mean:
    """The path of mean elements, open at both ends."""
    return Mean(elements)


def _check_outside(conic: Conic) -> None:
    """Tell an orbit that never comes out of its body: it is a slip, and whirls without end."""
    if conic.high_km < 0.99 * SPHERES[conic.centre].radius_km:
        raise SkyProblem(
            f"This orbit lies wholly beneath the surface: its high point is {conic.high_km:.0f} km"
            " from the centre, and that is where distances count from, but for altitude_km"
        )


def _size(keys: Keys, body: Body) -> tuple[float, float]:
    """Low point from the centre, and eccentricity, however the course gives them."""
    altitude = keys.get("altitude_km")
    if altitude is None:
        return _number(keys, "periapsis_km"), _number(keys, "eccentricity")
    radius_km = SPHERES[body].radius_km
    if isinstance(altitude, tuple):
        low_km, high_km = radius_km + altitude[0], radius_km + altitude[1]
        return low_km, (high_km - low_km) / (high_km + low_km)
    return radius_km + cast(float, altitude), 0.0


def _state(keys: Keys, body: Body) -> tuple[Triple, Triple]:
    """The way in at the epoch: as a state, or by its low point, which the epoch then is."""
    if "position_km" in keys:
        return cast(Triple, keys["position_km"]), cast(Triple, keys["velocity_km_s"])
    gm, low_km = SPHERES[body].gm_km3_s2, _number(keys, "low_point_km")
    eccentricity = 1 + low_km * _number(keys, "v_infinity_km_s") ** 2 / gm
    return Elements(low_km, eccentricity, *_angles(keys)).state(gm)


def _burn(table: Keys, axes: Axes, lasts_ms: int) -> Burn:
    if "along_m_s" in table:
        return Burn(lasts_ms / 1000, along_km_s=_number(table, "along_m_s") / 1000)
    vector_km_s = scaled(cast(Triple, table["delta_v_m_s"]), 1 / 1000)
    return Burn(lasts_ms / 1000, vector_km_s=turned(axes, vector_km_s))


def _axes(keys: Keys, body: Body, epoch_s: float) -> Axes:
    return equator(body, epoch_s) if keys.get("frame") == "equator" else ICRF


def _angles(keys: Keys) -> tuple[float, float, float]:
    """Inclination, node and argument."""
    tilt, node, argument = (
        math.radians(_number(keys, key)) for key in ("inclination", "node", "argument")
    )
    return tilt, node, argument


def _body(keys: Keys) -> Body:
    return Body(_text(keys, "about"))


def _table(value: object) -> Keys:
    """A table as the reader keeps it: (key, value) pairs."""
    return dict(cast(tuple[tuple[str, object], ...], value))


def _number(keys: Keys, key: str) -> float:
    return cast(float, keys.get(key, 0.0))


def _text(keys: Keys, key: str) -> str:
    return cast(str, keys[key])
