"""The distributions that surprises are drawn from, as a trainer can read and change them."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from core.errors import PlanProblems
from core.plan.beside import OnDisk
from core.plan.fields import Fields
from core.plan.files import read_text
from core.plan.gather import Gather
from core.plan.positions import Positions, Trail
from core.plan.syntax import parse_toml
from core.plan.values import Page, length, number

FORMAT = 1
"""The version of the format that is read here."""

KINDS = (
    *("late", "early", "slip", "drop", "lost-early", "back-late", "back-never", "outcome"),
    *("line", "clock", "closed", "network", "camera", "again", "misheard"),
)
"""What may be drawn."""

_ONCE = frozenset({"back-never", "outcome", "camera", "again", "misheard"})
_SIZELESS = frozenset({"back-never", "outcome", "line"})
_AHEAD = frozenset({"late", "early"})
_FEWEST, _MOST = 0.0, 60.0


@dataclass(frozen=True, slots=True)
class Draw:
    """How often one kind is drawn at severity 1, how large it is, and how long before it is told.

    `often` is an average an hour, or of what happens once or not at all a chance of 1.
    """

    often: float = 0.0
    size_ms: tuple[int, int] = (0, 0)
    ahead_ms: tuple[int, int] = (0, 0)


Draws = Mapping[str, Draw]
"""By kind; one that is not there is never drawn."""


def read_draws(path: Path) -> Draws:
    """The distributions in a file. Raises PlanProblems with all that is wrong, sorted by place."""
    written, shown = read_text(path, str(path)), str(path)
    gather = Gather()
    page = Page(shown, path.parent, gather, OnDisk(path.parent))
    top = Fields(page, (), parse_toml(written, shown))
    found: dict[str, Draw] = {}
    if top.raw("limbwatch_draws") != FORMAT:
        what = "this file does not say that it holds what may be drawn"
        top.problem(what, f"Begin with limbwatch_draws = {FORMAT}")
    else:
        tables = {kind: top.table(kind) for kind in KINDS}
        found = {kind: _draw(kind, fields) for kind, fields in tables.items() if fields}
        top.close()
    if gather.has_problems:
        raise PlanProblems(gather.problems(Positions(written, shown)))
    return found


def _draw(kind: str, fields: Fields) -> Draw:
    if kind in _ONCE:
        often = fields.need("chance", number(0.0, 1.0), "0.1")
    else:
        often = fields.need("per_hour", number(_FEWEST, _MOST), "0.5")
    size = None if kind in _SIZELESS else fields.need("size", _ends, '["20s", "5m"]')
    ahead = fields.need("ahead", _ends, '["1m", "20m"]') if kind in _AHEAD else None
    fields.close()
    return Draw(often or 0.0, size or (0, 0), ahead or (0, 0))


def _ends(page: Page, where: Trail, value: object) -> tuple[int, int] | None:
    """Two lengths in a list, the smaller first, neither nothing."""
    if not isinstance(value, list) or len(value) != 2:
        page.problem(where, "this is not two lengths in a list", 'Like ["20s", "5m"]')
        return None
    low, high = (length(page, (*where, at), each) for at, each in enumerate(value))
    if low is None or high is None:
        return None
    if not 0 < low <= high:
        page.problem(where, "the smaller comes first, and is more than nothing", "Check both")
        return None
    return low, high
