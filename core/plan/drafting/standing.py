"""A draft's text at one moment: its tables, the plan it makes, and what is wrong with it."""

from datetime import date, datetime
from functools import cached_property
from pathlib import Path

from core.errors import PlanProblems, Problem
from core.plan.drafting.cells import Around, Raw, shown
from core.plan.drafting.clocks import as_clock
from core.plan.drafting.columns import Cell, Section
from core.plan.drafting.placing import Fault, fault
from core.plan.drafting.references import tables
from core.plan.drafting.sections import section_of
from core.plan.model import Plan
from core.plan.positions import Positions, Trail
from core.plan.reader import read_plan_text_with_warnings
from core.plan.syntax import parse_toml


class Standing:
    """One text of a plan that need not be good. Raises PlanProblems where it is no TOML."""

    def __init__(self, text: str, shown: str, folder: Path) -> None:
        self.text = text
        self.shown = shown
        self.folder = folder
        self.raw: Raw = parse_toml(text, shown)

    @cached_property
    def positions(self) -> Positions:
        """Where everything stands."""
        return Positions(self.text, self.shown)

    @cached_property
    def _read(self) -> tuple[Plan | None, tuple[Fault, ...]]:
        try:
            plan, warnings = read_plan_text_with_warnings(self.text, self.shown, self.folder)
        except PlanProblems as problems:
            wrong = (self._fault(one, warning=False) for one in problems.problems)
            return None, tuple(wrong)
        return plan, tuple(self._fault(one, warning=True) for one in warnings)

    def _fault(self, problem: Problem, *, warning: bool) -> Fault:
        return fault(problem, self.positions, self.raw, self.shown, warning=warning)

    @property
    def plan(self) -> Plan | None:
        """The plan, where it is a good one."""
        return self._read[0]

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Everything wrong with it; of a good plan, what will be awkward at the desk."""
        return self._read[1]

    # ------------------------------------------------------------------ tables

    def trails(self, section: Section, under: Trail = ()) -> tuple[Trail, ...]:
        """The rows of a section; `under`: of one inside another, the row it belongs to."""
        if under:
            value = self.table(under).get(section.key)
            return tuple((*under, section.key, at) for at in range(_length(value)))
        value = self.raw.get(section.key)
        if isinstance(value, dict):
            return tuple((section.key, name) for name in value)
        return tuple((section.key, at) for at in range(_length(value)))

    def table(self, trail: Trail) -> Raw:
        """The table at a trail; an empty one where there is none. A lane has its id in it."""
        value: object = self.raw
        for part in trail:
            if isinstance(part, int):
                value = value[part] if isinstance(value, list) and part < len(value) else None
            else:
                value = value.get(part) if isinstance(value, dict) else None
        found = value if isinstance(value, dict) else {}
        return {"id": trail[1], **found} if trail[:1] == ("lane",) else found

    def words(self, cell: Cell, *, typed: bool = False) -> str:
        """What a cell shows, or as it would be typed again."""
        return shown(cell.column, self.table(cell.trail), self.around(cell), typed=typed)

    def flag(self, cell: Cell) -> bool | None:
        """Whether a flag is set; None where something else stands there."""
        value = self.table(cell.trail).get(cell.column.key, cell.column.default)
        return value if isinstance(value, bool) else None

    # ------------------------------------------------------------------ the days

    def around(self, cell: Cell) -> Around:
        """What a cell is read with: the day of the cell itself, else of those above it."""
        lengths = len(cell.trail) == 4 and self.table(cell.trail[:2]).get("times") in {
            "elapsed",
            "offset",
        }
        return Around(self._near(cell), self.day.year if self.day else None, lengths)

    def _near(self, cell: Cell) -> date | None:
        table = self.table(cell.trail)
        own = _day_of(table.get(cell.column.key))
        if cell.trail == ("air",):  # one day on the air: its end is on the day of its beginning
            own = own or next((day for one in table.values() if (day := _day_of(one))), None)
        return own or self._above(cell.trail) or self.day

    def _above(self, trail: Trail) -> date | None:
        """The day of the row itself, or of the nearest one above it that has any."""
        if not trail or not isinstance(trail[-1], int):
            return None
        for at in range(trail[-1], -1, -1):
            table = self.table((*trail[:-1], at))
            days = (_day_of(value) for value in table.values())
            if (found := next((day for day in days if day is not None), None)) is not None:
                return found
        return None

    @cached_property
    def day(self) -> date | None:
        """The first day that is written anywhere in the plan."""
        for key in ("event", "junction", "item"):
            for table in tables(self.raw, key):
                for value in table.values():
                    if (found := _day_of(value)) is not None:
                        return found
        return None

    @property
    def zone(self) -> str:
        """The desk's zone as it is written; UTC where none is."""
        zones = self.raw.get("zones")
        first = zones[0] if isinstance(zones, list) and zones else None
        return first if isinstance(first, str) else "UTC"

    @property
    def title(self) -> str:
        """The flight."""
        title = self.raw.get("title")
        return title if isinstance(title, str) else ""


def _length(value: object) -> int:
    return len(value) if isinstance(value, list) else 0


def _day_of(value: object) -> date | None:
    when: datetime | None = as_clock(value)
    return None if when is None else when.date()


def row_words(standing: Standing, trail: Trail) -> str:
    """What a row is called: the name of what stands there, or its kind and number."""
    table = standing.table(trail)
    for key in ("name", "id", "title"):
        if isinstance(value := table.get(key), str) and value:
            return value
    section = section_of(str(trail[0])) if trail else None
    if section is None:
        return "the plan" if not trail else str(trail[0])
    inner = section.inside if len(trail) == 4 and section.inside else section
    number = trail[-1]
    return f"{inner.called} {number + 1}" if isinstance(number, int) else inner.called
