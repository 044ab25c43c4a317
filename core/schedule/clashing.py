"""A contradiction told as a clash: its set, by how much, and the figures that would fit."""

from core.schedule.clash import Named, earliest_of
from core.schedule.effect import whole_ms
from core.schedule.giving import Giver
from core.schedule.model import Clash, Constraint, Kind
from core.schedule.solve import INF

_FIGURES = (Kind.FIGURE, Kind.PIN)


def standing_clash(named: Named, giver: Giver) -> Clash:
    """A contradiction that no figure just typed has made."""
    event = giver.net.ids[named.path.last]
    return Clash(event, named.members, named.path.over_ms, None, None)


def clash_of(named: Named, giver: Giver, typed: str, *, figure: bool) -> Clash:
    """The clash that a figure makes. `giver` is that of the step that is about to be undone."""
    members = named.members
    if figure and not any(c.of == typed and c.kind in _FIGURES for c in members):
        members = (Constraint(Kind.FIGURE, typed), *members)
    fits_from, fits_until = fits(giver, typed) if figure else (None, None)
    event = typed or giver.net.ids[named.path.last]
    return Clash(event, members, named.path.over_ms, fits_from, fits_until)


def fits(giver: Giver, typed: str) -> tuple[int | None, int | None]:
    """The earliest and latest that the other limits leave the event typed; None: open or none."""
    node = giver.net.number.get(typed)
    if node is None:
        return None, None
    solver = giver.solver
    own = giver.own[node]
    low = max((b.at_ms for b in own.lower if b.kind not in _FIGURES), default=-INF)
    high = min((b.at_ms for b in own.upper if b.kind not in _FIGURES), default=INF)
    solver.set_bounds(node, low, high)
    solver.settle_latest()
    first = max(low, earliest_of(solver, node, {}))
    last = solver.latest[node]
    if first > last:
        return None, None
    return whole_ms(first), whole_ms(last)
