"""The printed plan: the one door to all its words."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from core.board.facts import SideBySide, as_written
from core.board.onair.state import AirState
from core.board.paper.clocks import Clocks
from core.board.paper.events import Asked, events
from core.board.paper.lanes import legend
from core.board.paper.model import PlanSheet
from core.board.paper.outcomes import outcomes
from core.board.paper.programme import hours, items
from core.board.paper.stations import blackouts, courses, grounds, totals
from core.board.paper.telling import checkoffs, facts
from core.board.previewing import clash_words
from core.board.scene import Scene
from core.board.words import Names, broken_event, broken_words, capital, lane_names
from core.entries.aired import aired
from core.entries.model import Entry
from core.signal.model import Total
from core.times.writing import floor_second_ms

TotalsBetween = Callable[[int, int], tuple[Total, ...]]


@dataclass(frozen=True, slots=True)
class AsOf:
    """For when it is printed. `now_ms` None: as planned, whatever the clock says.

    `made_ms` is when the paper was made, for its foot. From `from_ms` on and before `to_ms` events
    are printed; None: no such bound.
    """

    now_ms: int | None
    made_ms: int
    from_ms: int | None = None
    to_ms: int | None = None


def plan_sheet(
    scene: Scene,
    entries: Sequence[Entry],
    totals_between: TotalsBetween,
    as_of: AsOf,
    both: SideBySide = as_written,
) -> PlanSheet:
    """The plan of a scene after the entries that stand, ready to be laid out."""
    now_ms = None if as_of.now_ms is None else floor_second_ms(as_of.now_ms)
    air = AirState(scene, entries)
    clocks = _clocks(scene, air, as_of)
    lanes = Names(lane_names(scene.plan))
    back_by_ms = {one.id: one.back_by_ms for one in air.day.moments if not one.junction}
    extent = _extent(scene)
    found = () if extent is None else totals_between(*extent)
    sections = (
        events(scene, clocks, Asked(now_ms, back_by_ms, as_of.from_ms, as_of.to_ms)),
        outcomes(scene, clocks),
        items(scene.plan, air.programme.items, lanes, clocks),
        hours(scene.plan, clocks),
        totals(scene, found, extent, clocks, lanes),
        grounds(scene, clocks, lanes),
        courses(scene, clocks),
        blackouts(scene, lanes),
        checkoffs(scene, aired(entries).counts),
        facts(scene, clocks, both, now_ms),
    )
    plan = scene.plan
    return PlanSheet(
        title=", ".join(part for part in (plan.title, plan.subtitle) if part),
        what=f"{_what(clocks, now_ms, len(entries))}{_part(clocks, as_of)}",
        made=f"Printed {clocks.full(as_of.made_ms)}",
        lead=tuple(_lead(scene, clocks)),
        warnings=tuple(_warnings(scene, as_of)),
        legend=legend(scene),
        sections=tuple(section for section in sections if section.grids),
    )


def _clocks(scene: Scene, air: AirState, as_of: AsOf) -> Clocks:
    """A time without a day is of the day of the programme, else of the first event."""
    on_ms = None if scene.plan.air is None else scene.plan.air.on_ms
    starts = [one.from_ms for one in air.programme.items if one.from_ms]
    known = [on_ms, *starts[:1], *scene.times_ms[:1], as_of.made_ms]
    return Clocks(scene.style, scene.plan.zones, next(ms for ms in known if ms is not None))


def _extent(scene: Scene) -> tuple[int, int] | None:
    """From the first edge of the signal to the last."""
    edges = [edge.time_ms for lane in scene.lanes for edge in lane.edges]
    return (min(edges), max(edges)) if edges else None


def _what(clocks: Clocks, now_ms: int | None, entries: int) -> str:
    if now_ms is None:
        return "The plan as it was written"
    count = f", after {entries} {'entry' if entries == 1 else 'entries'}" if entries else ""
    return f"The plan as it stood on {clocks.full(now_ms)}{count}"


def _part(clocks: Clocks, as_of: AsOf) -> str:
    """Which part of the events it has, where that is not all."""
    bounds = (("from", as_of.from_ms), ("to", as_of.to_ms))
    told = [f"{word} {clocks.full(at_ms)}" for word, at_ms in bounds if at_ms is not None]
    return f"; events only {' '.join(told)}" if told else ""


def _lead(scene: Scene, clocks: Clocks) -> list[str]:
    day = clocks.day(clocks.day_ms)
    told = [f"Clock times are {clocks.desk}. Where no day is written, it is {day}."]
    if scene.zero_ms is not None and scene.plan.elapsed_from is not None:
        zero = scene.roll.names(scene.plan.elapsed_from)
        told.append(f"Elapsed time counts from {zero}, {clocks.full(scene.zero_ms)}.")
    return [" ".join(told)]


def _warnings(scene: Scene, as_of: AsOf) -> list[str]:
    """What cannot be met, and what the desk has overruled."""
    names, now_ms = scene.roll.names, as_of.made_ms if as_of.now_ms is None else as_of.now_ms
    told = [capital(clash_words(each, names, scene.style, now_ms)) for each in scene.clashes]
    told += [
        f"Overruled: {names(broken_event(each))} {broken_words(each, names)}"
        for each in scene.broken
    ]
    return told
