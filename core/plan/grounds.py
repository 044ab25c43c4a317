"""Ground stations, lanes and blackouts of a plan, from their tables."""

from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import Blackout, Ground, Lane
from core.plan.values import (
    Page,
    Where,
    duration,
    flag,
    identity,
    length,
    name,
    number,
    pair,
    reference,
)

_event = reference(Named.EVENT)
_lane = reference(Named.LANE)

_latitude = number(-90, 90, hint="Degrees north, from -90 to 90; south is negative")
_longitude = number(-180, 180, hint="Degrees east, from -180 to 180; west is negative")
_height = number(-500, 9_000, "metres above the sea")
_mask = number(0, 89, "degrees above the horizon")


def carried(page: Page, where: Where, value: object) -> str | None:
    """A lane's id where it is said to be carried: from then on there is such a lane."""
    taken = identity(page, where, value)
    if taken is not None:
        page.gather.carry(taken, where)
    return taken


def read_grounds(top: Fields) -> tuple[Ground, ...]:
    """Every ground station, in the file's order."""
    grounds = (_ground(fields) for fields in top.tables("ground"))
    return tuple(ground for ground in grounds if ground is not None)


def _ground(fields: Fields) -> Ground | None:
    station = fields.define(Named.GROUND)
    ground = Ground(
        id=station or "",
        name=fields.named(station),
        lanes=fields.each("lanes", carried),
        latitude_deg=fields.get("latitude", _latitude),
        longitude_deg=fields.get("longitude", _longitude),
        height_m=fields.get("height", _height, default=0.0),
        mask_deg=fields.get("mask", _mask),
        geocentre=fields.get("geocentre", flag, default=False),
        open=fields.each("open", pair),
    )
    _check_position(fields, ground)
    if not fields.raw("lanes"):
        fields.problem("this ground station carries no lane", 'Add lanes = ["voice"]')
    repeated(fields, "lanes", ground.lanes)
    fields.close()
    return ground if station is not None else None


def _check_position(fields: Fields, ground: Ground) -> None:
    for key, other in (("latitude", "longitude"), ("longitude", "latitude")):
        if key in fields and other not in fields:
            fields.page.problem(
                fields.at(key), f"{key} without {other}", f"Add {other}, in degrees", key=True
            )
    for key in ("latitude", "longitude", "height", "mask"):
        if ground.geocentre and key in fields:
            fields.page.problem(
                fields.at(key),
                f"the Earth's centre has no {key}",
                f"Take out geocentre or {key}",
                key=True,
            )


def repeated(fields: Fields, key: str, names: tuple[str, ...]) -> None:
    """Tell a name that stands twice in the list under `key`."""
    for at, one in enumerate(names):
        if one in names[:at]:
            fields.page.problem(fields.at(key), f"'{one}' stands here twice", "Take one out")
            return


def read_lanes(top: Fields) -> tuple[Lane, ...]:
    """The lanes that have a table, in the file's order."""
    tables = top.table("lane")
    if tables is None:
        return ()
    return tuple(lane for key in tables if (lane := _lane_table(tables, key)))


def _lane_table(tables: Fields, key: str) -> Lane | None:
    if identity(tables.page, tables.at(key), key) is None:
        tables.raw(key)
        return None
    tables.page.gather.use(Named.LANE, key, tables.at(key))
    fields = tables.table(key)
    if fields is None:
        return None
    lane = Lane(
        id=key,
        name=fields.get("name", name, default=key.upper()),
        delay_ms=fields.get("delay", length, default=0),
        first_words_ms=fields.get("first_words", length, default=0),
    )
    fields.close()
    return lane


def with_plain_lanes(lanes: tuple[Lane, ...], names: tuple[str, ...]) -> tuple[Lane, ...]:
    """The lanes with a table, then those that are only carried, named by their id in capitals."""
    told = {lane.id for lane in lanes}
    return lanes + tuple(Lane(one, one.upper()) for one in names if one not in told)


def read_blackouts(top: Fields) -> tuple[Blackout, ...]:
    """Every blackout, in the file's order."""
    blackouts = (_blackout(fields) for fields in top.tables("blackout"))
    return tuple(blackout for blackout in blackouts if blackout is not None)


def _blackout(fields: Fields) -> Blackout | None:
    after = fields.need("after", _event, '"the id of an event"')
    from_ms = fields.need("from", duration, '"25s"')
    to_ms = fields.need("to", duration, '"4m 40s"')
    lanes = fields.each("lanes", _lane)
    cause = fields.get("cause", name, default="blackout")
    if from_ms is not None and to_ms is not None and to_ms <= from_ms:
        fields.page.problem(
            fields.at("to"), "this blackout ends before it begins", "Put the longer length in to"
        )
    if not fields.raw("lanes"):
        fields.problem("this blackout blacks out no lane", 'Add lanes = ["voice"]')
    repeated(fields, "lanes", lanes)
    fields.close()
    if after is None or from_ms is None or to_ms is None:
        return None
    return Blackout(after, from_ms, to_ms, lanes, cause)
