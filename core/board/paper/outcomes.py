"""The outcomes of an event side by side: what comes, and when, for each of them."""

from collections.abc import Iterator
from itertools import zip_longest

from core.board.paper.clocks import Clocks
from core.board.paper.model import Grid, Head, Line, Place, Section
from core.board.scene import Scene
from core.plan.model import Outcome

_ONE = "Only one of those side by side will come; none is so until a source has said it."


def outcomes(scene: Scene, clocks: Clocks) -> Section:
    """A table for each event that may turn out in several ways."""
    groups: dict[str, list[Outcome]] = {}
    for outcome in scene.plan.outcomes:
        groups.setdefault(outcome.of, []).append(outcome)
    grids = tuple(_grid(scene, clocks, of, each) for of, each in groups.items())
    return Section("Outcomes", (_ONE, *_named(scene)), grids)


def outcome_words(scene: Scene, outcome: str) -> str:
    """What the plan calls it; with its event where another outcome is called the same."""
    name = scene.outcome_name(outcome)
    alike = sum(each.name == name for each in scene.plan.outcomes)
    return name if alike < 2 else scene.roll.names(outcome)


def _grid(scene: Scene, clocks: Clocks, of: str, each: list[Outcome]) -> Grid:
    columns = [list(_events(scene, clocks, outcome.id)) for outcome in each]
    heads = tuple(Head(outcome.name.upper()) for outcome in each)
    lines = tuple(Line(places) for places in zip_longest(*columns, fillvalue=Place()))
    return Grid(heads, (Line(day=scene.roll.names(of)), *lines))


def _events(scene: Scene, clocks: Clocks, outcome: str) -> Iterator[Place]:
    """The events that are there under that outcome only, by their own word."""
    own = scene.roll.own_outcomes
    for name in scene.order:
        if own.get(name) != outcome or name in scene.roll.automatic:
            continue
        brief = scene.brief(name)
        if brief.expected_ms is not None:
            at = clocks.event(brief.expected_ms, brief.give_ms)
            yield Place(scene.event(name).name, f"{at}, {clocks.day(brief.expected_ms)}")


def _named(scene: Scene) -> Iterator[str]:
    """What a source has said already."""
    for of, outcome in scene.schedule.chosen.items():
        yield f"A source has said of {scene.roll.names(of)}: {scene.outcome_name(outcome)}."
