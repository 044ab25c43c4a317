"""Who names whom in a plan: where the ids of events, outcomes, stations and lanes are used."""

from collections.abc import Iterator, Mapping

from core.plan.drafting.cells import Raw
from core.plan.gather import Named
from core.plan.positions import Trail

_EVENT = (
    "elapsed_from",
    "event.*.after",
    "event.*.after.event",
    "event.*.after.*",
    "event.*.after.*.event",
    "event.*.edge.after",
    "event.*.edge.before",
    "limit.*.from",
    "limit.*.to",
    "outcome.*.of",
    "course.*.follows",
    "course.*.from",
    "course.*.until",
    "course.*.epoch.event",
    "course.*.burn.event",
    "blackout.*.after",
    "checkoff.*.of",
)
_OUTCOME = (
    "event.*.only_if",
    "course.*.only_if",
    "course.*.outcomes.burned",
    "course.*.outcomes.without",
)
_LANE = (
    "auto_edges.*",
    "event.*.edge.lane",
    "event.*.live_with",
    "ground.*.lanes.*",
    "course.*.rows.*.lane",
    "blackout.*.lanes.*",
    "item.*.needs",
)
_USED: Mapping[Named, tuple[tuple[str, ...], ...]] = {
    kind: tuple(tuple(path.split(".")) for path in paths)
    for kind, paths in (
        (Named.EVENT, _EVENT),
        (Named.OUTCOME, _OUTCOME),
        (Named.GROUND, ("course.*.rows.*.ground",)),
        (Named.LANE, _LANE),
    )
}


def uses(raw: Raw, kind: Named, name: str) -> Iterator[Trail]:
    """The trails of the values that name it, without the one that gives it its id."""
    for path in _USED.get(kind, ()):
        yield from _found(raw, path, (), name)


def _found(value: object, path: tuple[str, ...], trail: Trail, name: str) -> Iterator[Trail]:
    if not path:
        if value == name:
            yield trail
    elif path[0] == "*":
        for at, one in enumerate(value if isinstance(value, list) else ()):
            yield from _found(one, path[1:], (*trail, at), name)
    elif isinstance(value, dict) and path[0] in value:
        yield from _found(value[path[0]], path[1:], (*trail, path[0]), name)


def names(raw: Raw, kind: Named) -> tuple[str, ...]:
    """The ids of a kind, in the file's order; lanes also as they are carried."""
    key = {
        Named.EVENT: "event",
        Named.OUTCOME: "outcome",
        Named.GROUND: "ground",
        Named.COURSE: "course",
        Named.ITEM: "item",
        Named.CHECKOFF: "checkoff",
        Named.LANE: "lane",
    }[kind]
    if kind is not Named.LANE:
        return tuple(str(one["id"]) for one in tables(raw, key) if "id" in one)
    told = raw.get(key)
    carried = (lane for ground in tables(raw, "ground") for lane in _texts(ground.get("lanes")))
    return tuple(dict.fromkeys((*(told if isinstance(told, dict) else ()), *carried)))


def _texts(value: object) -> list[str]:
    return [one for one in value if isinstance(one, str)] if isinstance(value, list) else []


def tables(raw: Raw, key: str) -> list[dict[str, object]]:
    """The tables of a list of the plan; what is none is an empty one, so that places stay right."""
    value = raw.get(key)
    if not isinstance(value, list):
        return []
    return [one if isinstance(one, dict) else {} for one in value]
