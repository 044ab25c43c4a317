"""A draft of a plan that is being made: changes, each with its undo, and the last good plan."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from core.errors import LimbwatchError, PlanProblems
from core.plan.drafting.cells import Written, written
from core.plan.drafting.columns import Cell, Section
from core.plan.drafting.fresh import fresh_row, is_made_up, slug, unique
from core.plan.drafting.literals import literal
from core.plan.drafting.references import names, uses
from core.plan.drafting.sections import section_of
from core.plan.drafting.standing import Standing, row_words
from core.plan.drafting.turning import going_words, turned
from core.plan.gather import Named
from core.plan.model import Plan
from core.plan.patching import Patch
from core.plan.plain import Table
from core.plan.positions import Trail
from core.plan.writer import block

_MOST_UNDONE = 500


class DraftRefused(LimbwatchError):
    """A change cannot be made in the file as it is written; the message says why."""


@dataclass(frozen=True, slots=True)
class _Step:
    """The text before a change, and the change in words.

    The text alone: what was read of it takes a hundred times its room.
    """

    before: str
    said: str
    trail: Trail


class Draft:
    """A plan being made. `shown` is its file's name in problems.

    Raises PlanProblems for a text that is no TOML: such a file cannot be shown as tables.
    """

    def __init__(self, text: str, shown: str, folder: Path) -> None:
        self.now = Standing(text, shown, folder)
        self.good: Plan | None = self.now.plan
        """The plan as it was last good."""
        self.saved = text
        """The text as it is on the disk."""
        self._undo: list[_Step] = []
        self._redo: list[_Step] = []

    @property
    def text(self) -> str:
        """The text of the plan's file as it stands."""
        return self.now.text

    @property
    def is_changed(self) -> bool:
        """Whether it differs from what was saved."""
        return self.text != self.saved

    @property
    def is_good(self) -> bool:
        """Whether it makes a plan as it stands."""
        return self.now.plan is not None

    def move(self, shown: str, folder: Path) -> None:
        """It is a file of another name from now on; files beside it are looked for there."""
        self.now = Standing(self.text, shown, folder)
        self.good = self.now.plan or self.good

    # ------------------------------------------------------------------ changing

    def change(self, cell: Cell, typed: str) -> Trail:
        """Type into a cell; gives its row's trail then. Raises DraftRefused."""
        text = self._typed(cell, typed)
        trail = cell.trail
        if cell.column.key == "id" and trail[:1] == ("lane",) and text != self.text:
            trail = ("lane", typed.strip())
        name = row_words(self.now, cell.trail)
        self._take(text, f"{cell.column.heading} of {name}", cell.trail)
        return trail

    def going(self, cell: Cell, typed: str) -> str:
        """What goes out of a row with what is typed into a cell, in words; '' where nothing."""
        table = self.now.table(cell.trail)
        return going_words(turned(cell, typed, table), table)

    def trial(self, cell: Cell, typed: str) -> Standing:
        """The draft as it would stand with that in the cell. Raises DraftRefused."""
        return self._standing(self._typed(cell, typed))

    def _typed(self, cell: Cell, typed: str) -> str:
        now = self.now
        if typed.strip() == now.words(cell, typed=True).strip():
            return now.text  # nothing is written otherwise than the person has it
        if cell.column.key == "id":
            return self._renamed(cell.trail, typed.strip())
        patch = Patch(now.text, now.positions)
        table = now.table(cell.trail)
        values = written(cell.column, typed, table, now.around(cell))
        if cell.column.key == "name" and (short := self._own_id(cell.trail, typed)):
            values["id"] = literal(short)
        for key, value in turned(cell, typed, table).items():
            # Contacts and a burn may stand under headings of their own.
            if value is not None or not patch.remove((*cell.trail, key)):
                values[key] = value
        if not patch.set_keys(cell.trail, values):
            self._add_heading(patch, cell.trail, values)
        return patch.made()

    def _own_id(self, trail: Trail, name: str) -> str:
        """The id that a name gives a row whose id was only made up; '' where it keeps its own."""
        section, own = section_of(str(trail[0])), self.now.table(trail).get("id")
        if section is None or section.named is None or not isinstance(own, str):
            return ""
        if not is_made_up(own, section) or any(uses(self.now.raw, section.named, own)):
            return ""
        return unique(slug(name), names(self.now.raw, section.named)) if slug(name) else ""

    def _add_heading(self, patch: Patch, trail: Trail, values: dict[str, str | None]) -> None:
        """Begin a table that stands for itself ([air]) with its first keys."""
        keys = "".join(f"{key} = {value}\n" for key, value in values.items() if value is not None)
        if len(trail) != 1 or not isinstance(trail[0], str) or trail[0] in self.now.raw:
            raise DraftRefused("This is written in the file in a way that is not changed here")
        patch.insert(None, f"\n[{trail[0]}]\n{keys}" if keys else "")

    def _renamed(self, trail: Trail, new: str) -> str:
        """The text with another id, and everything that names it following."""
        now = self.now
        section = section_of(str(trail[0]))
        old = now.table(trail).get("id")
        patch = Patch(now.text, now.positions)
        if trail[:1] == ("lane",):
            if not new or new in names(now.raw, Named.LANE):
                raise DraftRefused("A lane needs an id of its own")
            patch.rename_heading(trail, _key(new))
        elif not patch.set_keys(trail, {"id": literal(new) if new else None}):
            raise DraftRefused("This is written in the file in a way that is not changed here")
        if section is not None and section.named is not None and isinstance(old, str) and new:
            standing = names(now.raw, section.named).count(old)
            for use in uses(now.raw, section.named, old) if standing == 1 else ():
                patch.set_value(use, literal(new))
        return patch.made()

    def insert(self, section: Section, after: Trail | None, under: Trail = ()) -> Trail:
        """Put in a new row behind another, or at the end; gives its trail."""
        now = self.now
        rows = now.trails(section, under)
        after = after if after in rows else (rows[-1] if rows else None)
        patch = Patch(now.text, now.positions)
        if under:
            return self._insert_inside(patch, section, under, after)
        values = fresh_row(section, now)
        name = str(values.pop("id", "")) if section.named is Named.LANE else ""
        heading = f"[lane.{_key(name)}]" if name else f"[[{section.key}]]"
        keys = [f"{key} = {literal(value)}" for key, value in values.items()]
        patch.insert(after, "\n".join(("", heading, *keys, "")))
        self._take(patch.made(), f"a new {section.called}", after or ())
        if name:
            return ("lane", name)
        last = after[-1] if after is not None else -1
        return (section.key, last + 1 if isinstance(last, int) else 0)

    def _insert_inside(
        self, patch: Patch, section: Section, under: Trail, after: Trail | None
    ) -> Trail:
        now, at = self.now, after[-1] if after is not None else -1
        if section.key == "rows" and "file" in now.table(under):
            raise DraftRefused("These contacts stand in a file of their own")
        row = literal(fresh_row(section, now, under))
        where = (*under, section.key)
        number = at if isinstance(at, int) else -1
        if not patch.add_member(where, max(0, number), row) and not (
            section.key not in now.table(under)
            and patch.set_keys(under, {section.key: f"[\n  {row},\n]"})
        ):
            raise DraftRefused("This is written in the file in a way that is not changed here")
        self._take(patch.made(), f"a new {section.called}", under)
        return (*where, number + 1)

    def remove(self, trail: Trail) -> None:
        """Take a row out. Raises DraftRefused."""
        patch = Patch(self.now.text, self.now.positions)
        inner = len(trail) == 4
        if not (patch.remove_member(trail) if inner else patch.remove(trail)):
            raise DraftRefused("This is written in the file in a way that is not changed here")
        self._take(patch.made(), row_words(self.now, trail), trail)

    def hanging(self, trail: Trail) -> tuple[str, ...]:
        """The names of what hangs on a row, each once."""
        section = section_of(str(trail[0])) if len(trail) == 2 else None
        own = self.now.table(trail).get("id")
        if section is None or section.named is None or not isinstance(own, str):
            return ()
        rows = (use[:2] if len(use) > 1 else () for use in uses(self.now.raw, section.named, own))
        return tuple(dict.fromkeys(row_words(self.now, row) for row in rows if row != trail))

    def add(self, section: Section, rows: Sequence[Table], said: str) -> None:
        """Put many new tables behind the last of a section, as one change."""
        now = self.now
        standing = now.trails(section)
        patch = Patch(now.text, now.positions)
        lines = (line for row in rows for line in block(f"[[{section.key}]]", row, now.zone))
        patch.insert(standing[-1] if standing else None, "".join(f"{line}\n" for line in lines))
        self._take(patch.made(), said, standing[-1] if standing else ())

    def set_rows(self, keys: Mapping[Trail, Written], said: str) -> None:
        """Set keys of many rows, as one change."""
        patch = Patch(self.now.text, self.now.positions)
        for trail, values in keys.items():
            patch.set_keys(trail, values)
        self._take(patch.made(), said, next(iter(keys), ()))

    def set_top(self, key: str, value: object, said: str) -> None:
        """Set a key of the plan as a whole."""
        patch = Patch(self.now.text, self.now.positions)
        patch.set_keys((), {key: literal(value)})
        self._take(patch.made(), said, ())

    # ------------------------------------------------------------------ undo

    @property
    def steps(self) -> int:
        """How many changes can be undone."""
        return len(self._undo)

    def gather(self, steps: int, said: str) -> None:
        """Make all changes since there were so many steps into one."""
        if len(self._undo) > steps:
            first = self._undo[steps]
            self._undo[steps:] = [replace(first, said=said)]

    def undo(self) -> tuple[str, Trail] | None:
        """Take the last change back; gives what it was, and the row. None where there is none."""
        return self._step(self._undo, self._redo)

    def redo(self) -> tuple[str, Trail] | None:
        """Make the change again that was taken back last."""
        return self._step(self._redo, self._undo)

    def _step(self, take: list[_Step], give: list[_Step]) -> tuple[str, Trail] | None:
        if not take:
            return None
        step = take.pop()
        give.append(replace(step, before=self.text))
        self._stand(self._standing(step.before))
        return step.said, step.trail

    # ------------------------------------------------------------------ inside

    def _take(self, text: str, said: str, trail: Trail) -> None:
        if text == self.text:
            return
        standing = self._standing(text)
        self._undo.append(_Step(self.text, said, trail))
        del self._undo[:-_MOST_UNDONE]
        self._redo.clear()
        self._stand(standing)

    def _standing(self, text: str) -> Standing:
        try:
            return Standing(text, self.now.shown, self.now.folder)
        except PlanProblems as problems:
            raise DraftRefused(
                "This is written in the file in a way that is not changed here"
            ) from problems

    def _stand(self, standing: Standing) -> None:
        self.now = standing
        self.good = standing.plan or self.good


def _key(name: str) -> str:
    plain = all(letter.isascii() and (letter.isalnum() or letter in "-_") for letter in name)
    return name if plain and name else literal(name)
