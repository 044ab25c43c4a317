"""A sky made by hand: contacts in seconds, some counted from when an event is."""

from dataclasses import dataclass, field, replace

from core.plan.model import Course, CourseKind
from core.signal.computing import Branch, Spell, Times
from core.signal.seen import Hidden, Light, Seen, Sighting
from tests.core.signal.days import S

NO_STATION = "no ground station in view"
MOON = "behind the Moon"


@dataclass
class ArrivalSky:
    """One arrival: seen from tarn until the Moon hides it, back by the burn or without one."""

    kept: dict[tuple[Branch, Times], Spell] = field(default_factory=dict)
    distance_km: float = 390_000.0
    lost_s: int = 1700
    without_s: int = 2300

    def branches(self, course: Course) -> tuple[Branch, ...]:
        turn = ("ignition",)
        return (
            Branch(course.id, "burned", turn, forked=True),
            Branch(course.id, "no-burn", turn, forked=True, steady=True),
        )

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        (turn_ms,) = times
        if turn_ms is None:
            return None
        if (branch, times) not in self.kept:
            self.kept[branch, times] = self.worked_out(branch, turn_ms)
        return self.kept[branch, times]

    def light(self, branch: Branch, times: Times, at_ms: int) -> Light | None:
        spell = self.spell(branch, times)
        if spell is None or not spell.from_ms <= at_ms <= spell.to_ms:
            return None
        return Light(self.distance_km, round(self.distance_km / 299.792458))

    def worked_out(self, branch: Branch, turn_ms: int) -> Spell:
        before = [
            Sighting("tarn", 100 * S, 900 * S, "", NO_STATION, 0, 2 * S),
            Sighting("kestrel", 800 * S, self.lost_s * S, NO_STATION, MOON, 2 * S, 5 * S),
        ]
        if branch.outcome == "burned":
            back_ms, lost_ms = turn_ms + 1000 * S, turn_ms + 2600 * S
        else:
            back_ms, lost_ms = self.without_s * S, 4000 * S
        after = Sighting("tarn", back_ms, lost_ms, MOON, MOON, 9 * S, 9 * S)
        hidden = (Hidden("kestrel", self.lost_s * S, 2000 * S, MOON),)
        return Spell(Seen((*before, after), hidden), 100 * S, 90_000 * S)


@dataclass
class EndedSky(ArrivalSky):
    """The same, asked for the time of the event with which the course ends.

    A contact is left out that begins after that, unless its time is left open.
    """

    end: str = "cutoff"

    def branches(self, course: Course) -> tuple[Branch, ...]:
        burned, without = super().branches(course)
        return replace(burned, events=(self.end, *burned.events)), without

    def spell(self, branch: Branch, times: Times) -> Spell | None:
        found = super().spell(branch, times[-1:])
        if found is None or len(times) == 1 or times[0] is None:
            return found
        end_ms = times[0]
        begun = tuple(each for each in found.seen.sightings if each.from_ms < end_ms)
        return replace(found, seen=replace(found.seen, sightings=begun))


def arrival_course(**more: object) -> Course:
    return Course("arrival", CourseKind.ARRIVAL, **more)  # type: ignore[arg-type]  # any field
