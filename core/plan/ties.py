"""Ties and limits: how long after what, as the file says it and as it binds."""

from collections.abc import Iterator, Set

from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import Limit, Tie
from core.plan.positions import Trail
from core.plan.values import (
    NONE,
    Page,
    bound,
    duration,
    flag,
    kind_of,
    reference,
)

TIE_KEYS = ("offset", "least", "most", "fixed")

_event = reference(Named.EVENT)


def read_ties(event: Fields) -> tuple[Tie, ...]:
    """The ties of an event: `after` is an id (its offset beside it), a table, or a list of both."""
    value = event.raw("after")
    beside = isinstance(value, str)
    if beside:
        return tuple(_one(event, "after"))
    for key in TIE_KEYS:
        if event.raw(key) is not None:
            hint = "Write it inside the tie" if value is not None else "Add after = an event's id"
            event.page.problem(event.at(key), f"'{key}' belongs to a tie", hint, key=True)
    if value is None:
        return ()
    if isinstance(value, dict):
        return tuple(_in_table(event.page, event.at("after"), value))
    if isinstance(value, list):
        return tuple(_listed(event, value))
    event.page.problem(
        event.at("after"), f"this is {kind_of(value)}", "Write the id of an event, or a list"
    )
    return ()


def _listed(event: Fields, value: list[object]) -> Iterator[Tie]:
    if not value:
        event.page.problem(event.at("after"), "this list is empty", "Name an event, or take it out")
    for at, one in enumerate(value):
        trail = (*event.at("after"), at)
        if isinstance(one, dict):
            yield from _in_table(event.page, trail, one)
        elif (name := _event(event.page, trail, one)) is not None:
            yield Tie(name, offset_ms=None, least_ms=0, most_ms=None)


def _in_table(page: Page, trail: Trail, raw: dict[str, object]) -> Iterator[Tie]:
    fields = Fields(page, trail, raw)
    yield from _one(fields, "event")
    fields.close()


def _one(fields: Fields, key: str) -> Iterator[Tie]:
    """The tie whose event stands under `key`, with its offset and bounds beside it."""
    event = fields.need(key, _event, '"the id of an event"')
    offset_ms = fields.get("offset", duration)
    least_ms = fields.get("least", bound(duration))
    most_ms = fields.get("most", bound(duration))
    if fields.get("fixed", flag, default=False):
        _check_fixed(fields)
        least_ms = most_ms = offset_ms
    else:
        _check_order(fields, least_ms, most_ms)
        said = frozenset(bound for bound in ("least", "most") if bound in fields)
        least_ms, most_ms = bind(offset_ms, least_ms, most_ms, said)
        _check_offset(fields, offset_ms, least_ms)
    if event is not None:
        yield Tie(event, offset_ms, least_ms, most_ms)


def bind(
    offset_ms: int | None, least_ms: int | None, most_ms: int | None, said: Set[str]
) -> tuple[int | None, int | None]:
    """The least and most of a tie as they bind; `said` names those that the file gives.

    What is not given: least 0, but none before a negative offset (or, without an offset, a
    negative most); most none, but 0 after a negative offset.
    """
    if "least" not in said:
        ahead_ms = offset_ms if offset_ms is not None else most_ms
        least_ms = None if ahead_ms is not None and ahead_ms < 0 else 0
    if "most" not in said:
        before = offset_ms is not None and offset_ms < 0 and (least_ms is None or least_ms <= 0)
        most_ms = 0 if before else None
    return least_ms, most_ms


def _check_fixed(fields: Fields) -> None:
    if "offset" not in fields:
        fields.page.problem(
            fields.at("fixed"), "a fixed tie needs an offset", 'Add offset = "6m 14s"', key=True
        )
    for key in ("least", "most"):
        if key in fields:
            fields.page.problem(
                fields.at(key),
                f"a fixed tie has no '{key}' of its own",
                f"Take out fixed or {key}",
                key=True,
            )


def _check_offset(fields: Fields, offset_ms: int | None, least_ms: int | None) -> None:
    """Warn of an offset that its own least never lets hold; one beyond its most chases itself."""
    if offset_ms is not None and least_ms is not None and offset_ms < least_ms:
        fields.warning(
            "offset",
            "the offset is shorter than its least, which decides",
            "Give the usual length in offset, the shortest that will do in least",
        )


def _check_order(fields: Fields, least_ms: int | None, most_ms: int | None) -> None:
    if least_ms is not None and most_ms is not None and least_ms > most_ms:
        fields.page.problem(
            fields.at("least"), "least is more than most", "Put the shorter length in least"
        )


def read_limits(top: Fields) -> tuple[Limit, ...]:
    """The bounds between two events that are no ties."""
    return tuple(limit for fields in top.tables("limit") if (limit := _limit(fields)))


def _limit(fields: Fields) -> Limit | None:
    before = fields.need("from", _event, '"the id of an event"')
    after = fields.need("to", _event, '"the id of an event"')
    least_ms = fields.get("least", bound(duration))
    most_ms = fields.get("most", bound(duration))
    _check_order(fields, least_ms, most_ms)
    if "least" not in fields and "most" not in fields:
        fields.problem("this limit bounds nothing", 'Add most = "40m", or least')
    elif least_ms is most_ms is None and {fields.raw("least"), fields.raw("most")} <= {None, NONE}:
        fields.problem("this limit bounds nothing", "Give least or most a length")
    if before is not None and before == after:
        fields.problem("this limit is from an event to itself", "Name two events")
    fields.close()
    return None if before is None or after is None else Limit(before, after, least_ms, most_ms)
