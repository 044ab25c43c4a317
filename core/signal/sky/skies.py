"""A plan's computed courses, seen from its ground stations: what the signal asks for.

Times of the plan are those of reception at the Earth, but for events 'at the craft'. Where the
light's way is left out (`light_time = false`) the two are the same.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from core.errors import CourseProblem, SkyProblem
from core.plan.driving import has_place
from core.plan.model import Course, CourseKind, Ground, Plan
from core.signal.computing import Branch, Spell, Times, end_of
from core.signal.cuts import EVER_MS
from core.signal.recent import Recent
from core.signal.seen import Light, Seen
from core.signal.sky.arrival import Arrival
from core.signal.sky.doubts import doubts
from core.signal.sky.earth import Turning
from core.signal.sky.extent import DAY_MS, HOUR_MS, Stretch, extent_of, instant
from core.signal.sky.horizon import TAIL_MS, end_event, horizon_ms, is_whole
from core.signal.sky.making import (
    arrival_paths,
    burn_of,
    epoch_of,
    is_by_low_point,
    mean_path,
    orbit_path,
    outcomes_of,
    trajectory_paths,
)
from core.signal.sky.model import LIGHT_KM_S, Body, Ephemeris, Observer, Path
from core.signal.sky.sight import Sky
from core.signal.sky.sightings import seen
from core.signal.sky.sites import Geocentre, Site
from core.signal.sky.stitching import before, stitched
from core.times.scales import tt_s_of_utc_ms, utc_ms_of_tt_s

LEAD_MS = 12 * HOUR_MS
"""An arrival given by its low point begins so long before it; one given by a state begins there."""

NEAR_MS = 8 * DAY_MS
"""A branch that is looked at for no longer after its turn is worked out whole at once."""

MARGIN_MS = 100
"""What is known is said to end so much inside its end: stations hear the end at other instants."""

MOST = 64
"""So many states of branches are kept."""


@dataclass(frozen=True, slots=True)
class Flown:
    """A path, and from when to when it is listened to."""

    path: Path
    when: Stretch


class PlanSkies:
    """Computes a plan's courses; not for several threads. `planned` are its events' times.

    Stations without a place hear nothing of a computed course.
    """

    def __init__(self, plan: Plan, ephemeris: Ephemeris, planned: Mapping[str, int]) -> None:
        self._ephemeris = ephemeris
        self._sky = Sky(ephemeris, sites_of(plan.grounds), light_time=plan.light_time)
        self._light_time = plan.light_time
        self._courses = {course.id: course for course in plan.courses}
        self._epochs = {course.id: epoch_of(course) for course in plan.courses}
        self._at_craft = {event.id for event in plan.events if event.at_craft}
        self._extent = extent_of(plan, planned)
        self._kept = Recent[tuple[Branch, Times, int | None], Spell | None](MOST)
        self._arrivals = Recent[tuple[str, int, int], Arrival](MOST)
        self._orbits = Recent[tuple[str, int], tuple[Path, int]](MOST)
        self._bodies = Recent[tuple[Body, float], list[float]](MOST)

    def branches(self, course: Course) -> tuple[Branch, ...]:
        """The branches of a computed course: two for an arrival that names its outcomes."""
        epoch, burn = epoch_of(course), burn_of(course)
        first = () if epoch is None or epoch[0] is None else (epoch[0],)
        if burn is None:
            return (Branch(course.id, None, first),)
        end = end_event(course)
        events = (*first, burn[0])
        burned = events if end is None else (*first, end, burn[0])
        outcomes = outcomes_of(course)
        if outcomes is None:
            return (Branch(course.id, None, burned, forked=True),)
        return (
            Branch(course.id, outcomes[0], burned, forked=True),
            Branch(course.id, outcomes[1], events, forked=True, steady=True),
        )

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        """When a branch is seen; None where an event's time is not known, or the bodies' places.

        The time at which a course ends may be unknown: then all of the branch is worked out.
        """
        times, far_ms = self._asked(branch, times)
        key = (branch, times[:-1] if branch.steady else times, far_ms)
        if key not in self._kept:
            self._kept[key] = self._as_far_as(branch, times, far_ms)
        return self._kept[key]

    def _asked(self, branch: Branch, times: Times) -> tuple[Times, int | None]:
        """The times that a branch's motion hangs on, and how far ahead it matters (None: all)."""
        if end_of(self._courses[branch.course], branch) is None:
            return times, None
        end_ms, turn_ms = times[-2:]
        motion = (*times[:-2], turn_ms)
        if end_ms is None or turn_ms is None:
            return motion, None
        far_ms = horizon_ms(turn_ms, end_ms)
        return motion, far_ms if far_ms + TAIL_MS < self._extent.to_ms else None

    def _as_far_as(self, branch: Branch, times: Times, far_ms: int | None) -> Spell | None:
        """The contacts that begin before an instant, each of them whole."""
        until_ms = None if far_ms is None else far_ms + TAIL_MS
        while far_ms is not None and until_ms is not None and until_ms < self._extent.to_ms:
            found = self._worked_out(branch, times, until_ms)
            if found is None or is_whole(found.seen, far_ms, until_ms):
                return found
            until_ms += 4 * (until_ms - far_ms)
        return self._worked_out(branch, times)

    def check(self, planned: Mapping[str, int]) -> None:
        """Raise CourseProblem for the first course that cannot be computed at the planned times.

        Its keys may give no path, or the bodies' places may not be at hand for so early or late.
        """
        for course in self._courses.values():
            for branch in () if course.kind is CourseKind.PASSES else self.branches(course):
                try:
                    self._try(branch, self._planned(branch, planned))
                except SkyProblem as problem:
                    raise CourseProblem(course.id, str(problem)) from problem

    def doubts(self, planned: Mapping[str, int]) -> tuple[tuple[str, str], ...]:
        """Courses that can be computed and are hardly meant: their ids, and why. After `check`."""
        found: dict[tuple[str, str], None] = {}
        for course in self._courses.values():
            for branch in () if course.kind is CourseKind.PASSES else self.branches(course):
                times = self._planned(branch, planned)
                known = [ms for ms in times if ms is not None]
                for path in self._paths(branch, known) if len(known) == len(times) else ():
                    said = doubts(course, path, *self._extent)
                    found |= dict.fromkeys((course.id, words) for words in said)
        return tuple(found)

    def _planned(self, branch: Branch, planned: Mapping[str, int]) -> Times:
        """The planned times that its motion hangs on."""
        return self._asked(branch, tuple(map(planned.get, branch.events)))[0]

    def _try(self, branch: Branch, times: Sequence[int | None]) -> None:
        known = [ms for ms in times if ms is not None]
        if len(known) < len(times):
            return
        first_s, last_s = (tt_s_of_utc_ms(ms) for ms in self._extent)
        for path in self._paths(branch, known):
            begin_s, end_s = max(first_s, path.begin_s), min(last_s, path.end_s)
            if begin_s <= end_s:
                self._ephemeris.from_earth_km(Body.MOON, np.array([begin_s, end_s]))

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        """How far away the craft of a branch is; None where the branch says nothing of then."""
        times, _ = self._asked(branch, times)
        known = [ms for ms in times if ms is not None]
        if len(known) < len(times) or not self._is_flown(branch, known, at_ms):
            return None
        try:
            for path in self._paths(branch, known):
                if path.begin_s <= tt_s_of_utc_ms(at_ms) <= path.end_s:
                    return self._light(path, at_ms)
        except SkyProblem:
            return None
        return None

    def _is_flown(self, branch: Branch, times: Sequence[int], at_ms: int) -> bool:
        """Whether a branch says anything of an instant, as far as its course's bounds tell."""
        course = self._courses[branch.course]
        if course.kind is not CourseKind.TRAJECTORY and not (
            self._extent.from_ms <= at_ms <= max([self._extent.to_ms, *(t + DAY_MS for t in times)])
        ):
            return False
        begins_ms, ends_ms = instant(course.begins), instant(course.ends)
        if begins_ms is None and course.kind is CourseKind.ARRIVAL:
            event, offset_ms = self._epoch(course)
            epoch_ms = offset_ms if event is None else times[0] + offset_ms
            begins_ms = epoch_ms - lead_ms(course)
        elif begins_ms is None and course.kind is CourseKind.ORBIT and branch.events:
            begins_ms = times[0]
        return (begins_ms is None or at_ms >= begins_ms) and (ends_ms is None or at_ms <= ends_ms)

    def near(self, branch: Branch, times: Times) -> Spell | None:
        """The same, known only as far as a day after the branch's turn.

        None where that is all of it or nearly so: then all is worked out as quickly.
        """
        times, far_ms = self._asked(branch, times)
        turn_ms = times[-1] if times else None
        end_ms = self._extent.to_ms if far_ms is None else far_ms
        if turn_ms is None or branch.steady or end_ms - turn_ms <= NEAR_MS:
            return None
        return self._worked_out(branch, times, turn_ms + DAY_MS)

    def _worked_out(
        self, branch: Branch, times: Times, until_ms: int | None = None
    ) -> Spell | None:
        known = [ms for ms in times if ms is not None]
        if len(known) < len(times):
            return None
        course = self._courses[branch.course]
        try:
            if course.kind is CourseKind.ARRIVAL:
                return self._arrive(branch, course, known, until_ms)
            return self._spell(self._flown(course, known, until_ms))
        except SkyProblem:
            return None  # a figure that cannot be flown: what hangs on it is not known

    def _flown(self, course: Course, times: Sequence[int], until_ms: int | None) -> list[Flown]:
        """The paths of a course that is no arrival."""
        when = self._extent.within(instant(course.begins), instant(course.ends))
        when = when.within(None, until_ms)
        if course.kind is CourseKind.TRAJECTORY and course.trajectory is not None:
            always = Stretch(-EVER_MS, EVER_MS)  # a file is looked at whole, however short the plan
            when = always.within(instant(course.begins), instant(course.ends))
            return [self._whole(path, when) for path in trajectory_paths(course.trajectory)]
        if course.kind is CourseKind.ELEMENTS and course.elements is not None:
            return [Flown(mean_path(course.elements), when)]
        if course.kind is CourseKind.ORBIT:
            return [self._orbit(course, times, when)]
        return []

    def _orbit(self, course: Course, times: Sequence[int], when: Stretch) -> Flown:
        """An orbit. One whose epoch hangs on an event begins with it, and is kept."""
        event, at_ms = self._epoch(course)
        if event is None:
            return Flown(orbit_path(course, at_ms), when)
        key = (course.id, times[0])
        found = self._orbits.get(key)
        if found is None:
            epoch_ms = times[0] + at_ms
            path = orbit_path(course, epoch_ms)
            way_ms = self._way_ms(path, epoch_ms)
            if event not in self._at_craft:
                path = orbit_path(course, epoch_ms - way_ms)
            begins_ms = times[0] + way_ms * (event in self._at_craft)
            found = self._orbits[key] = path, begins_ms
        return Flown(found[0], when.begun(found[1]))

    def _arrive(
        self, branch: Branch, course: Course, times: Sequence[int], until_ms: int | None
    ) -> Spell:
        event, at_ms = self._epoch(course)
        epoch_ms = at_ms if event is None else times[0] + at_ms
        turn_ms = times[-1]
        arrival = self._arrival(course, turn_ms, epoch_ms)
        way_ms = self._way_ms(arrival.without, turn_ms)
        at_craft = branch.events[-1] in self._at_craft
        begins_ms = instant(course.begins)
        if begins_ms is None:
            begins_ms = epoch_ms + self._way_ms(arrival.without, epoch_ms) - lead_ms(course)
        when = self._extent.within(begins_ms, instant(course.ends))
        if branch.steady:
            return self._spell([Flown(arrival.without, when)])
        if not at_craft:
            arrival = self._arrival(course, turn_ms - way_ms, epoch_ms)
        heard_ms = turn_ms + way_ms * at_craft
        if heard_ms <= when.to_ms:
            coast = self._coast(branch, times, arrival, when)
        else:
            coast = self._spell([Flown(arrival.without, when.within(None, heard_ms))])
        after = when.begun(max(when.from_ms, heard_ms)).within(None, until_ms)
        ways = [before(coast.seen, heard_ms), seen(self._sky, arrival.burned, *after)]
        return _known(stitched(ways), Stretch(when.from_ms, after.to_ms))

    def _coast(
        self, branch: Branch, times: Sequence[int], arrival: Arrival, when: Stretch
    ) -> Spell:
        """What is seen without a burn: worked out once for all times of the burn."""
        key = (Branch(branch.course, steady=True), tuple(times[:-1]), None)
        found = self._kept.get(key)
        if found is None:
            found = self._kept[key] = self._spell([Flown(arrival.without, when)])
        return found

    def _spell(self, flown: Sequence[Flown]) -> Spell:
        parts = [seen(self._sky, each.path, *each.when) for each in flown]
        if not flown:
            return Spell(Seen((), ()), 0, 0)
        whole = Stretch(flown[0].when.from_ms, flown[-1].when.to_ms)
        return _known(stitched(parts), whole)

    def _whole(self, path: Path, when: Stretch) -> Flown:
        """A path that begins and ends, listened to as far as it reaches."""
        ends = (utc_ms_of_tt_s(at_s) for at_s in (path.begin_s, path.end_s))
        first_ms, last_ms = (round(ms + self._way_ms(path, ms)) for ms in ends)
        return Flown(path, when.within(first_ms, last_ms))

    def _paths(self, branch: Branch, times: Sequence[int]) -> list[Path]:
        course = self._courses[branch.course]
        if course.kind is not CourseKind.ARRIVAL:
            return [flown.path for flown in self._flown(course, times, None)]
        event, at_ms = self._epoch(course)
        arrival = self._arrival(course, times[-1], at_ms if event is None else times[0] + at_ms)
        return [arrival.without if branch.steady else arrival.burned]

    def _epoch(self, course: Course) -> tuple[str | None, int]:
        """The event of an epoch with its offset, or no event and the instant."""
        epoch = self._epochs[course.id]
        if epoch is None:
            raise ValueError(f"the course '{course.id}' has no epoch")
        return epoch

    def _arrival(self, course: Course, turn_ms: int, epoch_ms: int) -> Arrival:
        """The paths of an arrival, kept: they are asked for again to tell light's way."""
        key = (course.id, turn_ms, epoch_ms)
        found = self._arrivals.get(key)
        if found is None:
            found = self._arrivals[key] = arrival_paths(course, turn_ms, epoch_ms)
        return found

    def _way_ms(self, path: Path, at_ms: float) -> int:
        """How long light needs from a craft to the Earth."""
        return self._light(path, at_ms).way_ms if self._light_time else 0

    def _light(self, path: Path, at_ms: float) -> Light:
        """Distance and light time at one instant, from the Earth's centre."""
        at_s = np.array([tt_s_of_utc_ms(at_ms)])
        x, y, z = path.position_km(at_s)[0].tolist()
        if path.centre is not Body.EARTH:
            key = (path.centre, at_ms)
            if key not in self._bodies:
                there_km = self._ephemeris.from_earth_km(path.centre, at_s)
                self._bodies[key] = there_km[0].tolist()
            u, v, w = self._bodies[key]
            x, y, z = x + u, y + v, z + w
        distance_km = math.hypot(x, y, z)
        return Light(distance_km, round(1000 * distance_km / LIGHT_KM_S))


def sites_of(grounds: Iterable[Ground]) -> dict[str, Observer]:
    """The stations that stand somewhere; those without a mask hear down to the horizon."""
    turning = Turning()
    return {ground.id: _site(ground, turning) for ground in grounds if has_place(ground)}


def _site(ground: Ground, turning: Turning) -> Observer:
    if ground.geocentre:
        return Geocentre()
    return Site(
        math.radians(ground.latitude_deg or 0.0),
        math.radians(ground.longitude_deg or 0.0),
        ground.height_m / 1000,
        math.radians(ground.mask_deg or 0.0),
        turning,
    )


def lead_ms(course: Course) -> int:
    """How long before its epoch an arrival begins, where the plan does not say."""
    return LEAD_MS if is_by_low_point(course) else 0


def _known(found: Seen, when: Stretch) -> Spell:
    return Spell(found, when.from_ms + MARGIN_MS, when.to_ms - MARGIN_MS)
