"""New rows, new ids, and a new plan from nothing."""

import re
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime, time

from core.plan.drafting.columns import Section
from core.plan.drafting.literals import literal
from core.plan.drafting.references import names
from core.plan.drafting.standing import Standing
from core.plan.gather import Named
from core.plan.positions import Trail
from core.plan.reader import FORMAT

_LONGEST_ID = 32
_SMALL_WORDS = frozenset(
    {"the", "a", "an", "of", "to", "for", "and", "in", "on", "at", "is", "from", "with", "by"}
)


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a new plan is begun with: the flight, the desk's zone, liftoff, and the lanes."""

    title: str
    zone: str
    day: date
    liftoff: time
    lanes: tuple[str, ...] = ("voice",)
    further_zones: tuple[str, ...] = ()


def new_plan(beginning: Beginning) -> str:
    """The text of a plan with liftoff, and a ground station for its lanes: good as it stands."""
    at = datetime.combine(beginning.day, beginning.liftoff)
    zones = [beginning.zone, *beginning.further_zones]
    lines = [
        f"limbwatch = {FORMAT}",
        f"title = {literal(beginning.title)}",
        f"zones = {literal(zones)}",
        'elapsed_from = "liftoff"',
        'sources = ["flight", "agency", "pool", "desk"]',
        "",
        "[[event]]",
        'id = "liftoff"',
        'name = "Liftoff"',
        f"at = {literal(at)}",
        "live = true",
        'guard = "2m"',
        'stay = "3m"',
    ]
    if beginning.lanes:
        lanes = literal(list(beginning.lanes))
        lines += ["", "[[ground]]", 'id = "station-1"', 'name = "Station 1"', f"lanes = {lanes}"]
    return "\n".join(lines) + "\n"


def fresh_row(section: Section, now: Standing, under: Trail = ()) -> dict[str, object]:
    """The keys a new row begins with: an id of its own, and what a row cannot be without."""
    row: dict[str, object] = {}
    if section.named is not None:
        row["id"] = _numbered(section, names(now.raw, section.named))
    lanes = list(names(now.raw, Named.LANE)) or ["voice"]
    match section.key:
        case "ground" | "blackout":
            row["lanes"] = lanes
        case "course":
            row |= {"kind": "passes", "rows": []}
        case "item":
            row |= {"kind": "break", "length": "2m"}
        case "checkoff":
            row["count"] = 1
        case "junction":
            row["name"] = "Junction"
        case "rows":
            row = _fresh_contact(now, under, lanes[0])
        case "facts":
            row = {"text": "A fact"}
    return row


def _fresh_contact(now: Standing, under: Trail, lane: str) -> dict[str, object]:
    """A contact like the last one of its table, without its times."""
    rows = now.table(under).get("rows")
    last = rows[-1] if isinstance(rows, list) and rows else {}
    told = last if isinstance(last, dict) else {}
    row: dict[str, object] = {"lane": told.get("lane", lane)}
    grounds = names(now.raw, Named.GROUND)
    if (ground := told.get("ground", grounds[0] if grounds else None)) is not None:
        row["ground"] = ground
    return row


def _numbered(section: Section, taken: Collection[str]) -> str:
    stem = slug(section.called)
    return next(
        name for number in range(1, len(taken) + 2) if (name := f"{stem}-{number}") not in taken
    )


def is_made_up(name: str, section: Section) -> bool:
    """Whether an id is one that a new row begins with."""
    return re.fullmatch(rf"{re.escape(slug(section.called))}-\d+", name) is not None


def slug(name: str) -> str:
    """An id made of a name: 'Insertion burn, ignition' is 'insertion-burn-ignition'."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    words = re.findall(r"[a-z0-9]+", plain.lower().replace("'", ""))
    telling = [word for word in words if word not in _SMALL_WORDS] or words
    short = ""
    for word in telling:
        longer = f"{short}-{word}" if short else word
        if len(longer) > _LONGEST_ID:
            break
        short = longer
    return short or (telling[0][:_LONGEST_ID] if telling else "")


def unique(name: str, taken: Collection[str]) -> str:
    """The id, or with a number where it is taken."""
    if name not in taken:
        return name
    return next(
        other for number in range(2, len(taken) + 3) if (other := f"{name}-{number}") not in taken
    )
