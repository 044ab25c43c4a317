"""The kinds of surprises in a file, each with the keys that go with it."""

from collections.abc import Callable, Mapping

from core.entries.model import Way
from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import Change
from core.plan.values import choice, duration, flag, instant, length, reference
from core.rehearsal.model import (
    CalledOff,
    CameraOn,
    Closes,
    Edges,
    LineFails,
    Moves,
    NetworkTakes,
    Steps,
    Turns,
    What,
    Words,
)

_event = reference(Named.EVENT)
_lane = reference(Named.LANE)
_outcome = reference(Named.OUTCOME)
_item = reference(Named.ITEM)


def read_what(fields: Fields) -> What:
    """What a surprise does, by its `kind`."""
    kind = fields.need("kind", choice(*_KINDS), '"report"')
    return Words() if kind is None else _KINDS[kind](fields)


def _moves(fields: Fields) -> What:
    event = fields.need("event", _event, '"ignition"') or ""
    by_ms, to_ms = _shift(fields, needed=True)
    return Moves(event, by_ms, to_ms)


def _shift(fields: Fields, *, needed: bool) -> tuple[int, int | None]:
    """How much later (negative: earlier), or when: one of late, early and time."""
    given = [key for key in ("late", "early", "time", "never", "for") if key in fields]
    if len(given) > 1 or (needed and not given):
        what = "this does not say by how much" if not given else f"{' and '.join(given)} quarrel"
        fields.problem(what, 'Write one of late = "3m", early = "40s", time = 2031-05-14T17:00:00')
    late_ms, early_ms = fields.get("late", length, 0), fields.get("early", length, 0)
    return late_ms - early_ms, fields.get("time", instant)


def _edges(fields: Fields) -> What:
    lane = fields.need("lane", _lane, '"voice"') or ""
    change = fields.need("change", choice(*Change), '"lost"')
    by_ms, to_ms = _shift(fields, needed="never" not in fields and "for" not in fields)
    never = fields.get("never", flag, default=False)
    for_ms = fields.get("for", length)
    if for_ms is not None and change == Change.BACK:
        fields.problem("a return lasts until the next loss", 'Write change = "lost" with for')
    if never and change == Change.LOST:
        fields.problem("a loss that never comes is no surprise yet", "Write by how much it is late")
    return Edges(lane, Change(change or "lost"), by_ms, to_ms, never, for_ms)


def _turns(fields: Fields) -> What:
    outcome = fields.need("outcome", _outcome, '"no-burn"') or ""
    return Turns(outcome, fields.each("without", _event))


def _called_off(fields: Fields) -> What:
    event = fields.need("event", _event, '"school"') or ""
    return CalledOff(event, Way(fields.get("way", choice(*Way), "with")))


def _line_fails(fields: Fields) -> What:
    return LineFails(fields.need("item", _item, '"gym"') or "")


def _steps(fields: Fields) -> What:
    return Steps(fields.need("step", duration, '"40s", or "-40s"') or 0)


def _closes(fields: Fields) -> What:
    lane = fields.need("lane", _lane, '"voice"') or ""
    return Closes(lane, fields.need("for", length, '"12m"') or 0)


def _network(fields: Fields) -> What:
    return NetworkTakes(fields.need("for", length, '"11m"') or 0)


def _camera(fields: Fields) -> What:
    return CameraOn(fields.need("for", length, '"90s"') or 0)


def _words(_fields: Fields) -> What:
    return Words()


_KINDS: Mapping[str, Callable[[Fields], What]] = {
    "report": _moves,
    "signal": _edges,
    "outcome": _turns,
    "off": _called_off,
    "line": _line_fails,
    "clock": _steps,
    "closed": _closes,
    "network": _network,
    "camera": _camera,
    "words": _words,
}
