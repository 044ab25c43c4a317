"""A plan's courses as branches: what moves with a burn, what stays, from when on it is known."""

from pathlib import Path

import pytest

from core.plan.model import Plan
from core.plan.reader import read_plan
from core.signal.computing import Branch, Spell
from core.signal.sky.ephemeris import Kernel
from core.signal.sky.skies import LEAD_MS, MARGIN_MS, PlanSkies
from core.times.instants import rfc3339_to_ms
from tests.core.plan.test_driving import ARRIVAL, AT, PLACE

IGNITION_MS = rfc3339_to_ms("2031-05-14T19:23:00Z")
STATE = """position_km = [6235.5, -752.4, -273.8]
velocity_km_s = [-1.487, -0.522, -0.190]
"""
LOW_POINT = """frame = "equator"
v_infinity_km_s = 0.85
low_point_km = 1850
inclination = 168.0
node = 200.0
argument = 10.0
"""
ORBIT = """
[[course]]
id = "low"
kind = "orbit"
about = "moon"
epoch = { event = "ignition", offset = "10m" }
altitude_km = 111.12
inclination = 168
node = 20
"""


def plan_of(
    folder: Path, *, more: str = "", way_in: str = LOW_POINT, at_craft: bool = True
) -> Plan:
    ignition = AT.replace("19:58:05", "19:23:00") + ("\nat_craft = true" if at_craft else "")
    text = ARRIVAL.format(ignition=ignition, place=PLACE.replace("mask = 10", "mask = 0"))
    text = text.replace("18:00:00Z", "19:23:00Z" if way_in is LOW_POINT else "18:00:00Z")
    path = folder / "plan.toml"
    path.write_text(text.replace(STATE, way_in) + more, encoding="utf-8")
    return read_plan(path)


def skies_of(plan: Plan, kernel: Kernel) -> PlanSkies:
    return PlanSkies(plan, kernel, {"ignition": IGNITION_MS})


def branches_of(skies: PlanSkies, plan: Plan) -> tuple[Branch, ...]:
    return skies.branches(plan.courses[0])


def spell(skies: PlanSkies, branch: Branch, late_s: float = 0) -> Spell:
    found = skies.spell(branch, (IGNITION_MS + round(1000 * late_s),))
    assert found is not None
    return found


def ends(found: Spell, after_ms: int) -> list[int]:
    return [each.to_ms for each in found.seen.sightings if each.to_ms > after_ms and each.to_cause]


def test_an_arrival_flies_with_its_burn_and_without(tmp_path: Path, kernel: Kernel) -> None:
    plan = plan_of(tmp_path)
    assert branches_of(skies_of(plan, kernel), plan) == (
        Branch("arrival", "burned", ("ignition",), forked=True),
        Branch("arrival", "no-burn", ("ignition",), forked=True, steady=True),
    )


def test_a_late_burn_moves_its_orbit_by_the_mechanics_and_nothing_else(
    tmp_path: Path, kernel: Kernel
) -> None:
    plan = plan_of(tmp_path)
    skies = skies_of(plan, kernel)
    burned, without = branches_of(skies, plan)
    first = ends(spell(skies, burned), IGNITION_MS)[0]
    late = ends(spell(skies, burned, 120), IGNITION_MS)[0]
    assert abs(late - first - 120_000) > 20_000
    assert spell(skies, without, 120) is spell(skies, without)


def test_until_the_burn_both_ways_are_one(tmp_path: Path, kernel: Kernel) -> None:
    plan = plan_of(tmp_path)
    skies = skies_of(plan, kernel)
    both = [spell(skies, branch).seen.sightings for branch in branches_of(skies, plan)]
    shared = [[each for each in one if each.to_ms < IGNITION_MS] for one in both]
    assert shared[0] == shared[1]
    assert both[0][0].from_ms == both[1][0].from_ms


def test_a_burn_told_as_it_is_heard_was_a_lights_way_earlier(
    tmp_path: Path, kernel: Kernel
) -> None:
    there, here = plan_of(tmp_path), plan_of(tmp_path, at_craft=False)
    out_there, heard = skies_of(there, kernel), skies_of(here, kernel)
    light = heard.light(branches_of(heard, here)[0], (IGNITION_MS,), IGNITION_MS)
    assert light is not None
    assert 356_000 < light.distance_km < 407_000
    same = spell(out_there, branches_of(out_there, there)[0], -light.way_ms / 1000)
    told = spell(heard, branches_of(heard, here)[0])
    assert ends(told, IGNITION_MS)[0] == pytest.approx(ends(same, IGNITION_MS)[0], abs=60)


def test_without_a_time_nothing_is_said(tmp_path: Path, kernel: Kernel) -> None:
    plan = plan_of(tmp_path)
    skies = skies_of(plan, kernel)
    assert skies.spell(branches_of(skies, plan)[0], (None,)) is None


def test_an_arrival_begins_at_its_state_or_half_a_day_before_its_low_point(
    tmp_path: Path, kernel: Kernel
) -> None:
    by_state, by_low_point = plan_of(tmp_path, way_in=STATE), plan_of(tmp_path)
    begun = []
    for plan in (by_state, by_low_point):
        skies = PlanSkies(plan, kernel, {"ignition": IGNITION_MS, "early": IGNITION_MS - 10**9})
        begun.append(spell(skies, branches_of(skies, plan)[0]).from_ms - MARGIN_MS)
    assert begun[0] == pytest.approx(rfc3339_to_ms("2031-05-14T18:00:00Z"), abs=2000)
    assert begun[1] == pytest.approx(IGNITION_MS - LEAD_MS, abs=2000)


def test_an_orbit_that_hangs_on_an_event_begins_with_it_and_moves_with_it(
    tmp_path: Path, kernel: Kernel
) -> None:
    plan = plan_of(tmp_path, more=ORBIT)
    skies = skies_of(plan, kernel)
    (orbit,) = skies.branches(plan.courses[1])
    assert orbit == Branch("low", None, ("ignition",))
    first, late = spell(skies, orbit), spell(skies, orbit, 600)
    assert first.from_ms == pytest.approx(IGNITION_MS, abs=2000)
    assert late.from_ms - first.from_ms == 600_000
    moved = ends(late, IGNITION_MS)[0] - ends(first, IGNITION_MS)[0]
    assert moved == pytest.approx(600_000, abs=3000)  # the Moon turns on a little in between


ENDED = """
[[event]]
id = "done"
after = "ignition"
offset = "5h"
"""
HOUR_MS = 3_600_000


def test_a_course_that_ends_with_an_event_is_asked_for_its_time_too(
    tmp_path: Path, kernel: Kernel
) -> None:
    burned, without = ended(tmp_path, kernel)[1:]
    assert burned.events == ("done", "ignition")
    assert without.events == ("ignition",)


@pytest.mark.parametrize("end_h", [-3, 1, 5, 12.7, 40])
def test_contacts_that_begin_before_the_end_of_a_course_are_whole_and_the_same(
    tmp_path: Path, kernel: Kernel, end_h: float
) -> None:
    skies, burned, _ = ended(tmp_path, kernel)
    end_ms = IGNITION_MS + round(end_h * HOUR_MS)
    near = skies.spell(burned, (end_ms, IGNITION_MS))
    whole = skies.spell(burned, (None, IGNITION_MS))
    assert near is not None
    assert whole is not None
    begun = [each for each in whole.seen.sightings if each.from_ms < end_ms]
    assert list(near.seen.sightings[: len(begun)]) == begun
    assert min(end_ms, whole.to_ms) <= near.to_ms <= whole.to_ms


def test_an_end_that_moves_a_little_asks_nothing_new(tmp_path: Path, kernel: Kernel) -> None:
    skies, burned, _ = ended(tmp_path, kernel)
    ends_ms = (IGNITION_MS + hours * HOUR_MS for hours in (4, 5))
    one, other = (skies.spell(burned, (end_ms, IGNITION_MS)) for end_ms in ends_ms)
    assert one is other
    assert one is not skies.spell(burned, (None, IGNITION_MS))


def ended(folder: Path, kernel: Kernel) -> tuple[PlanSkies, Branch, Branch]:
    """An arrival whose course ends with an event, in a plan of two days."""
    plan = plan_of(folder, more='until = "done"\n' + ENDED)
    planned = {"ignition": IGNITION_MS, "late": IGNITION_MS + 24 * HOUR_MS}
    skies = PlanSkies(plan, kernel, planned)
    burned, without = skies.branches(plan.courses[0])
    return skies, burned, without


def test_equal_questions_get_the_same_object(tmp_path: Path, kernel: Kernel) -> None:
    plan = plan_of(tmp_path)
    skies = skies_of(plan, kernel)
    burned = branches_of(skies, plan)[0]
    assert spell(skies, burned, 7) is spell(skies, burned, 7)
