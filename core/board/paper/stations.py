"""Where the signal comes from, on paper: ground stations, courses, blackouts, and the totals."""

from collections.abc import Iterator, Sequence

from core.board.paper.clocks import Clocks
from core.board.paper.model import Grid, Head, Kind, Line, Place, Section, line
from core.board.paper.outcomes import outcome_words
from core.board.scene import Scene
from core.board.words import Names, listed
from core.plan.model import Bound, Course, CourseKind, Ground
from core.signal.model import Total
from core.times.writing import short_duration_words

_KINDS = {
    CourseKind.PASSES: "table of contacts",
    CourseKind.ORBIT: "orbit, computed",
    CourseKind.ARRIVAL: "arrival with its burn, computed",
    CourseKind.TRAJECTORY: "trajectory file",
    CourseKind.ELEMENTS: "mean elements",
}


def totals(
    scene: Scene,
    found: Sequence[Total],
    extent: tuple[int, int] | None,
    clocks: Clocks,
    lanes: Names,
) -> Section:
    """How long each lane is in contact and out of it, and how often, by outcome."""
    if extent is None or not found:
        return Section("")
    from_ms, to_ms = extent
    unknown = any(total.unknown_ms >= 1000 for total in found)
    by_figures: dict[tuple[str, ...], list[str]] = {}
    for total in found:
        key = (total.lane, *_figures(total, to_ms - from_ms))
        by_figures.setdefault(key, []).append(outcome_words(scene, total.outcome or ""))
    differ = len(by_figures) > len({total.lane for total in found})
    rows = []
    for (lane, *figures), ways in by_figures.items():
        only = [Place(listed(ways) if any(ways) else "")] if differ else []
        shown = figures if unknown else figures[:-1]
        rows.append(Line((Place(lanes(lane), strong=True), *only, *map(Place, shown))))
    words = ("IN CONTACT", "GAPS", "OUT OF CONTACT", "LONGEST GAP", "NOT COMPUTED")
    times = [Head(each, Kind.TIME) for each in words[: None if unknown else -1]]
    heads = [Head("LANE"), *([Head("IF")] if differ else []), *times]
    lead = f"From {clocks.full(from_ms)} to {clocks.full(to_ms)}: the first edge to the last."
    return Section("Contact in all", (lead,), (Grid(tuple(heads), tuple(rows)),))


def _figures(total: Total, whole_ms: int) -> tuple[str, ...]:
    return (
        short_duration_words(whole_ms - total.out_ms - total.unknown_ms),
        str(total.gaps),
        short_duration_words(total.out_ms) if total.gaps else "",
        short_duration_words(total.longest_ms) if total.gaps else "",
        short_duration_words(total.unknown_ms) if total.unknown_ms >= 1000 else "",
    )


def grounds(scene: Scene, clocks: Clocks, lanes: Names) -> Section:
    """The ground stations: where they stand, above what they see, what they carry, when."""
    found = scene.plan.grounds
    heads = (
        Head("STATION"),
        Head("POSITION"),
        Head("MASK"),
        Head("LANES"),
        Head("OPEN", Kind.TIME),
    )
    lines = tuple(
        line(
            each.name,
            _position(each),
            "" if each.mask_deg is None else f"{each.mask_deg:g}°",
            ", ".join(lanes(lane).lower() for lane in each.lanes),
            "\n".join(clocks.span(*span) for span in each.open) or "always",
        )
        for each in found
    )
    return Section("Ground stations", (), (Grid(heads, lines),) if lines else ())


def courses(scene: Scene, clocks: Clocks) -> Section:
    """Where the craft is, as far as the plan knows it: a line for each course."""
    heads = (Head("COURSE"), Head("WHAT"), Head("WHEN"), Head("NO SIGNAL IS CALLED"))
    names = scene.roll.names
    lines = tuple(
        line(each.id, _what(each), "; ".join(_when(each, scene, names, clocks)), each.gap)
        for each in scene.plan.courses
    )
    return Section("Courses", (), (Grid(heads, lines),) if lines else ())


def blackouts(scene: Scene, lanes: Names) -> Section:
    """Stretches without signal, whatever the courses say."""
    names = scene.roll.names
    lines = tuple(
        line(
            each.cause,
            f"{_beside(each.from_ms, names(each.after))} to {_beside(each.to_ms, '')}",
            ", ".join(lanes(lane).lower() for lane in each.lanes),
        )
        for each in scene.plan.blackouts
    )
    heads = (Head("BLACKOUT"), Head("FROM AND TO"), Head("LANES"))
    return Section("Blackouts", (), (Grid(heads, lines),) if lines else ())


def _beside(offset_ms: int, of: str) -> str:
    if not offset_ms:
        return of or "then"
    side = "after" if offset_ms > 0 else "before"
    return f"{short_duration_words(offset_ms)} {side} {of or 'it'}"


def _position(ground: Ground) -> str:
    """'34.2° N, 112.4° W, 900 m'."""
    if ground.geocentre:
        return "taken at the Earth's centre"
    if ground.latitude_deg is None or ground.longitude_deg is None:
        return "from tables only"
    north = _degrees(ground.latitude_deg, "N", "S")
    return f"{north}, {_degrees(ground.longitude_deg, 'E', 'W')}, {ground.height_m:,.0f} m"


def _degrees(value_deg: float, plus: str, minus: str) -> str:
    text = f"{abs(value_deg):.4f}".rstrip("0").rstrip(".")
    return f"{text}° {plus if value_deg >= 0 else minus}"


def _what(course: Course) -> str:
    parts = [_KINDS[course.kind]]
    if course.rows:
        parts.append(f"{len(course.rows)} row{'' if len(course.rows) == 1 else 's'}")
    if course.file is not None:
        parts.append(course.file)
    return ", ".join(parts)


def _when(course: Course, scene: Scene, names: Names, clocks: Clocks) -> Iterator[str]:
    if course.only_if is not None:
        yield f"only {outcome_words(scene, course.only_if)}"
    if course.follows is not None:
        yield f"moves with {names(course.follows)}"
    for word, bound in (("from", course.begins), ("until", course.ends)):
        if bound is not None:
            yield f"{word} {_bound(bound, names, clocks)}"


def _bound(bound: Bound, names: Names, clocks: Clocks) -> str:
    if bound.event is not None:
        return names(bound.event)
    return "" if bound.at_ms is None else clocks.short(bound.at_ms)
