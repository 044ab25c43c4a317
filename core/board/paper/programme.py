"""The programme on paper: items with all that binds them, and the hours of the network."""

from collections.abc import Iterator, Sequence

from core.air.running import Running, Stands
from core.board.paper.clocks import Clocks
from core.board.paper.model import Grid, Head, Kind, Line, Place, Section
from core.board.words import Names
from core.plan.model import Air, Item, Junction, Plan
from core.times.writing import short_duration_words

_HEADS = (
    Head("ITEM"),
    Head("ON THE AIR", Kind.TIME),
    Head("LENGTH", Kind.TIME),
    Head("OWED"),
    Head("EARLIEST", Kind.TIME),
    Head("LATEST", Kind.TIME),
    Head("SPONSOR"),
    Head("NEEDS"),
    Head("BOOKED", Kind.TIME),
)


def items(plan: Plan, standing: Sequence[Running], lanes: Names, clocks: Clocks) -> Section:
    """The items: those with a time in its order, then the others as the plan has them."""
    timed = [one for one in standing if one.from_ms]
    timed.sort(key=lambda one: one.from_ms)
    ordered = [*timed, *(one for one in standing if not one.from_ms)]
    lines = tuple(Line(tuple(_row(one, lanes, clocks))) for one in ordered)
    grids = (_used(Grid(_HEADS, lines)),) if lines else ()
    rules = tuple(_rules(plan.air)) if lines else ()
    return Section("Items", rules, grids)


def hours(plan: Plan, clocks: Clocks) -> Section:
    """On and off the air, and the junctions between, in order of time."""
    air = plan.air
    known = [(each.at_ms, _junction(each)) for each in plan.junctions]
    if air is not None and air.on_ms is not None:
        known.append((air.on_ms, Place("On the air", strong=True)))
    if air is not None and air.off_ms is not None:
        known.append((air.off_ms, Place("Off the air, hard", strong=True)))
    known.sort(key=lambda each: each[0])
    lines: list[Line] = []
    day = ""
    for at_ms, what in known:
        if (today := clocks.day(at_ms)) != day:
            day = today
            lines.append(Line(day=day))
        lines.append(Line((*clocks.places(at_ms), what)))
    heads = (*clocks.heads(), Head("WHAT"))
    return Section("The air", (), (Grid(heads, tuple(lines)),) if lines else ())


def _junction(junction: Junction) -> Place:
    return Place(junction.name)


def _rules(air: Air | None) -> Iterator[str]:
    if air is None:
        return
    told = (
        (air.item_gap_ms, "between any two items"),
        (air.break_gap_ms, "between two breaks"),
        (air.delay_ms, "from us to the viewers"),
    )
    parts = [f"{short_duration_words(length)} {words}" for length, words in told if length]
    if parts:
        yield "; ".join(parts) + "."


def _row(one: Running, lanes: Names, clocks: Clocks) -> Iterator[Place]:
    item = one.item
    yield Place(item.name, "; ".join(_below(item)), strong=item.owed)
    yield _on_air(one, clocks)
    turnaround = f"+ {short_duration_words(item.turnaround_ms)} turnaround"
    length = short_duration_words(item.length_ms)
    yield Place(length, turnaround if item.turnaround_ms else "")
    yield Place("owed" if item.owed else "")
    yield Place("" if item.earliest_ms is None else clocks.short(item.earliest_ms))
    yield Place("" if item.latest_ms is None else clocks.short(item.latest_ms))
    yield Place(item.sponsor)
    yield Place("" if item.needs is None else lanes(item.needs).lower())
    yield Place("\n".join(clocks.span(*each) for each in item.booked))


def _below(item: Item) -> Iterator[str]:
    yield item.kind
    if not item.can_cut:
        yield "cannot be left early"
    if item.prefers is not None:
        yield f"for a {item.prefers}"
    if item.weight != 1:
        yield f"weight {item.weight}"


def _on_air(one: Running, clocks: Clocks) -> Place:
    """Where it is placed, or when it ran and by how much over."""
    match one.stands:
        case Stands.FLOATING:
            return Place("not placed")
        case Stands.DROPPED:
            return Place("will not run")
        case Stands.ON_AIR:
            return Place(f"since {clocks.short(one.from_ms)}", "on the air", strong=True)
        case Stands.PLACED:
            return Place(clocks.short(one.from_ms), f"to {clocks.short(one.due_ms)}", strong=True)
    over_ms = one.over_ms(one.from_ms)
    ran = short_duration_words(over_ms)
    beside = f"ran {ran} {'over' if over_ms > 0 else 'under'}" if abs(over_ms) >= 1000 else "ran"
    return Place(clocks.span(one.from_ms, one.end_ms(one.from_ms)), beside)


def _used(grid: Grid) -> Grid:
    """The table without the columns in which nothing stands."""
    places = [line.places for line in grid.lines]
    used = [
        number
        for number in range(len(grid.heads))
        if number < 3 or any(row[number] != Place() for row in places)
    ]
    heads = tuple(grid.heads[number] for number in used)
    return Grid(heads, tuple(Line(tuple(row[number] for number in used)) for row in places))
