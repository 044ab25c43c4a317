"""The keys of computed courses (orbit, arrival, trajectory, elements): checked, and kept.

They are kept as plain values in the file's order: numbers, texts, and tuples for lists; a table
becomes a tuple of (key, value) pairs; an instant becomes RFC 3339 text in UTC.
"""

from collections.abc import Callable, Mapping

from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import CourseKind
from core.plan.positions import Trail
from core.plan.values import (
    Page,
    choice,
    duration,
    instant,
    kind_of,
    length,
    number,
    reference,
    text,
)
from core.times.durations import write_duration
from core.times.instants import ms_to_rfc3339

Setting = Callable[[Page, Trail, object], object | None]
Settings = tuple[tuple[str, object], ...]

_event = reference(Named.EVENT)
_outcome = reference(Named.OUTCOME)
_far_km = number(-1e9, 1e9, "km")
_fast_km_s = number(-1_000, 1_000, "km/s")
_fast_m_s = number(-1e6, 1e6, "m/s")
_turn = number(-360, 360, "degrees")
_tilt = number(0, 180, "degrees")


def read_settings(fields: Fields, kind: CourseKind) -> Settings:
    """The keys that belong to a course of this kind, each checked."""
    known = _KNOWN[kind]
    found = [
        (key, taken)
        for key in fields
        if key in known and (taken := fields.get(key, known[key])) is not None
    ]
    for key in known:
        fields.raw(key)
    for missing in (group for group in _NEEDED[kind] if not any(key in fields for key in group)):
        fields.problem(f"{_or(missing)} is missing here", f"A course of kind '{kind}' needs it")
    for key, others in _TOGETHER[kind]:
        for other in others if key in fields else ():
            if other not in fields:
                fields.problem(f"'{other}' is missing here", f"It goes with '{key}'")
    for one, other in _APART[kind]:
        if one in fields and other in fields:
            fields.page.problem(
                fields.at(other), f"'{other}' beside '{one}'", "Take one of them out", key=True
            )
    return tuple(found)


def setting_keys(kind: CourseKind) -> frozenset[str]:
    """The keys that a course of this kind may have beside those that all have."""
    return frozenset(_KNOWN[kind])


def _or(keys: tuple[str, ...]) -> str:
    return " or ".join(f"'{key}'" for key in keys)


def _vector(part: Callable[[Page, Trail, object], float | None], *sizes: int) -> Setting:
    """A reader of a list of numbers with one of these lengths."""
    example = f"Write {' or '.join(str(size) for size in sizes)} numbers in [brackets]"

    def read(page: Page, where: Trail, value: object) -> object | None:
        if not isinstance(value, list) or len(value) not in sizes:
            page.problem(where, "this is not such a list of numbers", example)
            return None
        parts = tuple(part(page, (*where, at), one) for at, one in enumerate(value))
        return None if None in parts else parts

    return read


def _altitude(page: Page, where: Trail, value: object) -> object | None:
    """One height of a round orbit, or the low and the high one, in km."""
    if not isinstance(value, list):
        return _height_km(page, where, value)
    heights = _vector(_height_km, 2)(page, where, value)
    if isinstance(heights, tuple) and heights[0] > heights[1]:
        page.problem(where, "the low height is above the high one", "Write [low, high]")
    return heights


_height_km = number(0, 1e9, "km")


def _epoch(page: Page, where: Trail, value: object) -> object | None:
    """An instant, or an event with an offset: then the course moves with that event."""
    if not isinstance(value, dict):
        at_ms = instant(page, where, value)
        return None if at_ms is None else ms_to_rfc3339(at_ms)
    fields = Fields(page, where, value)
    event = fields.need("event", _event, '"the id of an event"')
    offset_ms = fields.get("offset", duration, default=0)
    fields.close()
    return None if event is None else (("event", event), ("offset", write_duration(offset_ms)))


def _burn(page: Page, where: Trail, value: object) -> object | None:
    """A burn: its event, how long it takes, and what it changes."""
    fields = _table(page, where, value)
    if fields is None:
        return None
    event = fields.need("event", _event, '"ignition"')
    lasts_ms = fields.need("duration", length, '"374s"')
    along = fields.get("along_m_s", _fast_m_s)
    vector = fields.get("delta_v_m_s", _vector(_fast_m_s, 3))
    if ("along_m_s" in fields) == ("delta_v_m_s" in fields):
        fields.problem("a burn has either along_m_s or delta_v_m_s", "Write one of them")
    fields.close()
    if event is None or lasts_ms is None:
        return None
    change = ("along_m_s", along) if along is not None else ("delta_v_m_s", vector)
    return (("event", event), ("duration", write_duration(lasts_ms)), change)


def _returns(page: Page, where: Trail, value: object) -> object | None:
    """Which outcome stands for the flight after the burn, and which for the one without."""
    fields = _table(page, where, value)
    if fields is None:
        return None
    pairs = tuple((key, fields.need(key, _outcome, '"..."')) for key in ("burned", "without"))
    fields.close()
    return pairs


def _tle(page: Page, where: Trail, value: object) -> object | None:
    """Two-line elements: the two lines, as they are published."""
    if not isinstance(value, list) or len(value) != 2:
        page.problem(where, "two-line elements are two lines in a list", 'Like ["1 ...", "2 ..."]')
        return None
    lines = tuple(text(page, (*where, at), one) for at, one in enumerate(value))
    return None if None in lines else lines


def _table(page: Page, where: Trail, value: object) -> Fields | None:
    if isinstance(value, dict):
        return Fields(page, where, value)
    page.problem(where, f"this is {kind_of(value)}, not a table", "Put its keys in {braces}")
    return None


_ABOUT: Mapping[str, Setting] = {
    "about": choice("moon", "mars", "earth"),
    "epoch": _epoch,
    "frame": choice("icrf", "equator"),
}
_KNOWN: Mapping[CourseKind, Mapping[str, Setting]] = {
    CourseKind.ORBIT: {
        **_ABOUT,
        "periapsis_km": number(1, 1e9, "km from the centre"),
        "altitude_km": _altitude,
        "eccentricity": number(0, 100),
        "inclination": _tilt,
        "node": _turn,
        "argument": _turn,
        "mean_anomaly": _turn,
    },
    CourseKind.ARRIVAL: {
        **_ABOUT,
        "position_km": _vector(_far_km, 3),
        "velocity_km_s": _vector(_fast_km_s, 3),
        "v_infinity_km_s": number(0, 1_000, "km/s"),
        "low_point_km": number(1, 1e9, "km from the centre"),
        "inclination": _tilt,
        "node": _turn,
        "argument": _turn,
        "burn": _burn,
        "outcomes": _returns,
    },
    CourseKind.TRAJECTORY: {},
    CourseKind.ELEMENTS: {"tle": _tle},
}
_NEEDED: Mapping[CourseKind, tuple[tuple[str, ...], ...]] = {
    CourseKind.ORBIT: (
        ("about",),
        ("epoch",),
        ("periapsis_km", "altitude_km"),
        ("inclination",),
        ("node",),
    ),
    CourseKind.ARRIVAL: (("about",), ("epoch",), ("position_km", "v_infinity_km_s"), ("burn",)),
    CourseKind.TRAJECTORY: (("file",),),
    CourseKind.ELEMENTS: (("file", "tle"),),
}
_BY_LOW_POINT = ("low_point_km", "inclination", "node", "argument")
_TOGETHER: Mapping[CourseKind, tuple[tuple[str, tuple[str, ...]], ...]] = {
    CourseKind.ORBIT: (),
    CourseKind.ARRIVAL: (
        ("position_km", ("velocity_km_s",)),
        ("v_infinity_km_s", _BY_LOW_POINT),
    ),
    CourseKind.TRAJECTORY: (),
    CourseKind.ELEMENTS: (),
}
_APART: Mapping[CourseKind, tuple[tuple[str, str], ...]] = {
    CourseKind.ORBIT: (("periapsis_km", "altitude_km"), ("altitude_km", "eccentricity")),
    CourseKind.ARRIVAL: (
        ("v_infinity_km_s", "position_km"),
        ("v_infinity_km_s", "velocity_km_s"),
        *(("position_km", key) for key in _BY_LOW_POINT),
    ),
    CourseKind.TRAJECTORY: (),
    CourseKind.ELEMENTS: (("file", "tle"),),
}
