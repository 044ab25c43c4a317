"""What is worth telling, on paper: check-offs with their rules, facts with their embargoes."""

from collections.abc import Iterator, Mapping

from core.board.facts import SideBySide, source_words
from core.board.paper.clocks import Clocks
from core.board.paper.model import Grid, Head, Line, Place, Section
from core.board.scene import Scene
from core.entries.airing import Count
from core.plan.model import CheckOff, Fact, Usage
from core.schedule.model import State

_HEARD = "________"
"""To be filled in by hand."""


def checkoffs(scene: Scene, counts: Mapping[str, Count]) -> Section:
    """What is counted, how many are enough, and how many were heard."""
    heads = (Head("CHECK-OFF"), Head("OF"), Head("ENOUGH"), Head("HEARD"))
    lines = tuple(
        Line(
            (
                Place(each.name, strong=True),
                Place(scene.roll.names(each.of)),
                Place(_enough(each)),
                Place(_heard(each, counts.get(each.id))),
            )
        )
        for each in scene.plan.checkoffs
    )
    return Section("Check-offs", (), (Grid(heads, lines),) if lines else ())


def facts(scene: Scene, clocks: Clocks, both: SideBySide, now_ms: int | None) -> Section:
    """All facts, in the order of their events; one that may not be told yet says until when."""
    order = [*scene.order, *(name for name in scene.known if name not in set(scene.order))]
    american = scene.plan.usage is Usage.AMERICAN
    lines = [
        Line(
            (
                Place(scene.event(name).name),
                Place(both(fact.text, american=american), source_words(fact)),
                Place(_held(scene, clocks, name, fact, now_ms), strong=True),
            )
        )
        for name in order
        for fact in scene.event(name).facts
    ]
    heads: tuple[Head, ...] = (Head("OF"), Head("FACT"), Head("EMBARGO"))
    if not any(each.places[-1].text for each in lines):
        heads, lines = heads[:-1], [Line(each.places[:-1]) for each in lines]
    return Section("Facts", (), (Grid(heads, tuple(lines)),) if lines else ())


def _held(scene: Scene, clocks: Clocks, name: str, fact: Fact, now_ms: int | None) -> str:
    """'EMBARGOED until 5:10 p.m.'; as planned every embargo stands, whatever the clock says."""
    waits = list(_waits(scene, clocks, name, fact, now_ms))
    return f"EMBARGOED until {' and '.join(waits)}" if waits else ""


def _waits(
    scene: Scene, clocks: Clocks, name: str, fact: Fact, now_ms: int | None
) -> Iterator[str]:
    until_ms = fact.not_before_ms
    if until_ms is not None and (now_ms is None or now_ms < until_ms):
        yield clocks.short(until_ms)
    if fact.after_confirmed and scene.brief(name).state is not State.HAPPENED:
        yield "this is confirmed"


def _enough(checkoff: CheckOff) -> str:
    spread = ", evenly spread round the ring" if checkoff.spaced else ""
    return f"{checkoff.enough} of {checkoff.count}{spread}"


def _heard(checkoff: CheckOff, count: Count | None) -> str:
    if count is None:
        return f"{_HEARD} of {checkoff.count}"
    which = f": {', '.join(map(str, count.positions))}" if count.positions else ""
    return f"{count.count} of {checkoff.count}{which}"
