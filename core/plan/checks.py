"""What only the whole plan can tell: circles, chases, courses that end early, awkward ids."""

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime

from core.plan.chasing import chase, stopped_chase
from core.plan.circles import circles, in_order
from core.plan.driving import SHIFTING, has_place
from core.plan.facts import check_facts
from core.plan.gather import Named
from core.plan.model import Course, CourseKind, Plan
from core.plan.planned import planned_times
from core.plan.values import EARLIEST_MS, LATEST_MS, Page
from core.times.scales import utc_ms_of_tt_s
from core.times.zones import find_zone

BAR_WORDS = frozenset(
    (
        *(
            "about",
            "alone",
            "at",
            "back",
            "bridge",
            "clock",
            "closed",
            "elapsed",
            "free",
            "happened",
        ),
        *("air", "grave", "hold", "in", "lost", "new", "note", "now", "off", "on", "open"),
        *("over", "per", "pin", "place", "plan", "redo", "replan", "resume", "said", "scrub"),
        *("delay", "kept", "promise", "sign"),
        *("shift", "stay", "undecided", "undo", "until", "waive", "with"),
    )
)
"""The words that the entry bar reads as something to do, or as part of a form."""

_MOST_SHOWN = 12


def check_plan(page: Page, plan: Plan) -> None:
    """Note every problem and warning that shows only when all of the plan is known."""
    _check_repeated(page, "auto_edges", plan.auto_edges)
    _check_repeated(page, "sources", plan.sources)
    found = circles(plan)
    for circle in found:
        where = page.gather.where(Named.EVENT, circle.event)
        path = " → ".join(_shortened(circle.path))
        page.problem(where, f"{circle.what} in a circle: {path}", "Take one of these ties out")
    if not found:
        order = in_order(plan)
        if (chasing := chase(plan, order)) is not None:
            where = page.gather.where(Named.EVENT, chasing.event)
            page.problem(where, chasing.what, chasing.hint)
        elif (chasing := stopped_chase(plan, order)) is not None:
            where = page.gather.where(Named.EVENT, chasing.event)
            page.gather.warning(where, chasing.what, chasing.hint)
        planned = planned_times(plan, order)
        if not _check_years(page, planned, order):
            _check_ends(page, plan, planned)
            check_facts(page, plan, planned)
    _warn_of_ids(page, plan)
    _warn_of_places(page, plan)
    _warn_of_followers(page, plan)


def _check_repeated(page: Page, key: str, names: Sequence[str]) -> None:
    for name, count in Counter(names).items():
        if count > 1:
            page.problem((key,), f"'{name}' stands here twice", "Take one out")


def _shortened(path: Sequence[str]) -> list[str]:
    if len(path) <= _MOST_SHOWN:
        return list(path)
    half = _MOST_SHOWN // 2
    return [*path[:half], f"({len(path) - 2 * half} more)", *path[-half:]]


def _check_years(page: Page, planned: Mapping[str, int], order: Sequence[str]) -> bool:
    """Tell the first event that its ties carry out of the years that can be reckoned with."""
    for name in order:
        if not EARLIEST_MS <= planned.get(name, 0) < LATEST_MS:
            where = page.gather.where(Named.EVENT, name)
            what = f"'{name}' comes out beyond the years 1900 to 2199"
            page.problem(where, what, "Check the lengths of what it is tied to")
            return True
    return False


def _check_ends(page: Page, plan: Plan, planned: Mapping[str, int]) -> None:
    """Tell where the last course ends before the last event, unless `until` says it is meant."""
    ends = [(_end_ms(course, planned), course) for course in plan.courses]
    known = [(end_ms, course) for end_ms, course in ends if end_ms is not None]
    if not known or len(known) < len(ends) or not planned:
        return
    end_ms, course = max(known, key=lambda one: one[0])
    last = max(planned, key=lambda event: planned[event])
    if end_ms >= planned[last] or course.ends is not None:
        return
    zone = plan.zones[0] if plan.zones else "UTC"
    page.problem(
        page.gather.where(Named.COURSE, course.id),
        f"the course '{course.id}' ends before the plan does: "
        f"{_clock(end_ms, zone)}, and '{last}' is at {_clock(planned[last], zone)}",
        f"Add what is missing; if no more is known, add until = {_clock(end_ms, zone)}",
    )


def _end_ms(course: Course, planned: Mapping[str, int]) -> int | None:
    """When a course ends by the plan alone; None where it goes on, or it cannot be told."""
    if course.ends is not None:
        event = course.ends.event
        return course.ends.at_ms if event is None else planned.get(event)
    if course.trajectory is not None and course.follows is None:
        return round(utc_ms_of_tt_s(course.trajectory.segments[-1].end_s))
    if course.kind is not CourseKind.PASSES or not course.rows:
        return None
    last_ms = max(row.lost_ms for row in course.rows)
    if course.times != "offset":
        return last_ms
    start_ms = planned.get(course.follows or "")
    return None if start_ms is None else start_ms + last_ms


def _clock(instant_ms: int, zone: str) -> str:
    there = datetime.fromtimestamp(instant_ms // 1000, UTC).astimezone(find_zone(zone))
    return there.replace(tzinfo=None).isoformat()


def _warn_of_followers(page: Page, plan: Plan) -> None:
    """Warn of a course that is said to follow an event, and does not shift."""
    for course in plan.courses:
        if course.follows is not None and course.kind not in SHIFTING:
            page.gather.warning(
                (*page.gather.where(Named.COURSE, course.id), "follows"),
                f"a course of kind '{course.kind}' does not shift with an event",
                "Take 'follows' out; an orbit moves with the event of its epoch",
            )


def _warn_of_places(page: Page, plan: Plan) -> None:
    """Warn of a course that is to be computed for stations of which none stands anywhere."""
    if any(has_place(ground) for ground in plan.grounds):
        _warn_of_lost(page, plan)
        return
    for course in plan.courses:
        if course.kind is not CourseKind.PASSES:
            page.gather.warning(
                page.gather.where(Named.COURSE, course.id),
                f"no ground station has a place, so the course '{course.id}' gives no contacts",
                "Add latitude and longitude to a ground station, or geocentre = true",
            )


def _warn_of_lost(page: Page, plan: Plan) -> None:
    """Warn of a station that hears nothing: it has no place, and stands in no table."""
    printed = {row.ground for course in plan.courses for row in course.rows}
    computed = any(course.kind is not CourseKind.PASSES for course in plan.courses)
    for ground in plan.grounds if computed else ():
        if not has_place(ground) and ground.id not in printed:
            page.gather.warning(
                page.gather.where(Named.GROUND, ground.id),
                f"the ground station '{ground.id}' has no place and stands in no table",
                "It hears nothing: add latitude and longitude",
            )


def _warn_of_ids(page: Page, plan: Plan) -> None:
    """Warn of ids that the entry bar could take for something else."""
    lanes = {lane.id for lane in plan.lanes}
    seen: dict[str, Named] = {}
    for kind in (Named.EVENT, Named.OUTCOME, Named.ITEM, Named.CHECKOFF):
        for name in page.gather.names(kind):
            where = (*page.gather.where(kind, name), "id")
            hint = "Another id is quicker to type, and never asked about"
            if name.casefold() in BAR_WORDS:
                page.gather.warning(where, f"'{name}' is also a word of the entry bar", hint)
            if name in lanes:
                page.gather.warning(where, f"'{name}' is also a lane", hint)
            if name in seen:
                what = f"'{name}' is the id of two things: {seen[name]} and {kind}"
                page.gather.warning(where, what, hint)
            seen.setdefault(name, kind)
    for lane in plan.lanes:
        if lane.id in BAR_WORDS:
            page.gather.warning(
                (), f"the lane '{lane.id}' is also a word of the entry bar", "Call it otherwise"
            )
