"""Problems of a plan on the tables of its draft: from a place in the file to a cell."""

import re
from dataclasses import dataclass, replace
from pathlib import PurePath

from tree_sitter import Node

from core.errors import Place, Problem
from core.plan.drafting.cells import Raw
from core.plan.drafting.clocks import as_clock
from core.plan.drafting.columns import Kind, Section
from core.plan.drafting.references import tables
from core.plan.drafting.sections import FLIGHT, section_of
from core.plan.positions import Positions, Trail, members_of, pairs_of, value_of

_MISSING = re.compile(r"'(\w+)' is missing here")
_KEY = re.compile(r"\b([a-z_]+) = ")
_NOT_TEXT = frozenset(
    {
        Kind.FLAG, Kind.NUMBER, Kind.NUMBERS, Kind.WINDOW, Kind.STRETCH, Kind.STRETCHES,
        Kind.EDGE, Kind.EPOCH, Kind.KEYED, Kind.LINES, Kind.CLOCK,
    }
)  # fmt: skip
"""Kinds that a file writes otherwise than as text: text there is half typed."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A problem, or a warning, on a cell. `trail` is its table's, () for the plan as a whole."""

    trail: Trail
    key: str
    """The column, '' for the row as a whole."""
    what: str
    hint: str = ""
    warning: bool = False
    line: int = 0
    """Where it stands in the file."""

    @property
    def words(self) -> str:
        """What is wrong and what to do, in one line."""
        end = "" if self.what.endswith(("?", ".")) else "."
        said = self.what[:1].upper() + self.what[1:]
        return f"{said}{end} {self.hint}" if self.hint else said


def fault(problem: Problem, positions: Positions, raw: Raw, shown: str, *, warning: bool) -> Fault:
    """A problem on its cell, with the remedy in the words of the table."""
    place = problem.where
    if place.file != shown:
        what = f"{problem.what} ({PurePath(place.file).name}, line {place.line})"
        return Fault(_course_of(place, raw), "file", what, problem.hint, warning)
    found = trail_at(positions, place)
    trail, key = _cell(found)
    told = Fault(trail, key, problem.what, problem.hint, warning, place.line)
    return _worded(told, _section(trail), raw)


def _worded(told: Fault, section: Section | None, raw: Raw) -> Fault:
    """The remedy as one types it into the table, not as the file has it."""
    headings = {one.key: one.heading for one in section.columns} if section is not None else {}
    hint = _KEY.sub(lambda found: f"{headings.get(found[1], found[1])}: ", told.hint)
    told = replace(told, hint=hint)
    missing = _MISSING.fullmatch(told.what)
    key = missing[1] if missing else told.key
    column = section.column(key) if section is not None else None
    if section is None:
        column = next(
            (c.column for c in FLIGHT if (c.trail, c.column.key) == (told.trail, key)), None
        )
    if column is None:
        return told
    like = f", like {column.like}" if column.like else ""
    if missing:
        return replace(
            told, key=key, what=f"{column.heading} is missing", hint=f"Type it there{like}"
        )
    value = _value(raw, told.trail, key)
    if column.kind in _NOT_TEXT and isinstance(value, str) and as_clock(value) is None:
        return replace(
            told, what=f"this is not read as '{column.heading}' yet", hint=f"Type it{like}"
        )
    return told


def _value(raw: object, trail: Trail, key: str) -> object:
    for part in (*trail, key):
        if isinstance(part, int) and isinstance(raw, list) and part < len(raw):
            raw = raw[part]
        elif isinstance(raw, dict):
            raw = raw.get(part)
        else:
            return None
    return raw


def _cell(found: Trail) -> tuple[Trail, str]:
    """The table that is a row of the draft, and the column of what stands in it."""
    match found:
        case (str() as key, int() as at, str() as inside, int() as member, *rest) if (
            (section := section_of(key)) is not None
            and section.inside is not None
            and section.inside.key == inside
        ):
            return (key, at, inside, member), str(rest[0]) if rest else ""
        case (str() as key, int() as at, *rest) if section_of(key) is not None:
            return (key, at), str(rest[0]) if rest else ""
        case ("lane", str() as lane, *rest):
            return ("lane", lane), str(rest[0]) if rest else ""
        case (("air" | "signal") as key, *rest):
            return (key,), str(rest[0]) if rest else ""
        case (key, *_):
            return (), str(key)
    return (), ""


def _section(trail: Trail) -> Section | None:
    section = section_of(str(trail[0])) if trail else None
    return section.inside if section is not None and len(trail) == 4 else section


def _course_of(place: Place, raw: Raw) -> Trail:
    """The course whose file a problem stands in."""
    name = PurePath(place.file).name
    for at, course in enumerate(tables(raw, "course")):
        if PurePath(str(course.get("file", ""))).name == name:
            return ("course", at)
    return ()


def trail_at(positions: Positions, place: Place) -> Trail:
    """The trail of what stands at a place of the text."""
    point = positions.point(place)
    trail: Trail = ()
    found = positions.head(())
    for name, node in positions.trails():
        own = bool(name) and (isinstance(name[-1], int) or node.type == "table")
        later = found is None or not trail or node.start_byte > found.start_byte
        if own and later and node.start_point <= point:
            trail, found = name, node
    return trail if found is None else (*trail, *_inside(found, point))


def _inside(node: Node, point: tuple[int, int]) -> Trail:
    """The way from a table or a value to what stands at a point in it."""
    if node.type == "array":
        for at, member in enumerate(members_of(node)):
            if member.start_point <= point <= member.end_point:
                return (at, *_inside(member, point))
        return ()
    for names, pair in pairs_of(node):
        if pair.start_point <= point <= pair.end_point:
            value = value_of(pair)
            return (*names, *(_inside(value, point) if value.start_point <= point else ()))
    return ()
