"""Changes to a plan file that leave its comments, its order and all that did not change.

The text itself is edited, at the places where keys and tables stand. (`tomlkit` was tried: it
gathers all tables of one name, which moves outcomes and limits that stand among the events.)
"""

from collections.abc import Iterator, Sequence

from core.errors import PlanProblems
from core.plan.model import Plan
from core.plan.patching import Patch
from core.plan.plain import Table, Value, plain_plan
from core.plan.positions import Positions, Trail
from core.plan.reader import FORMAT, read_plan_text
from core.plan.ties import TIE_KEYS
from core.plan.writer import block, write_plan, written

_TIE = ("after", *TIE_KEYS)
_SHOWN = "the plan"


def update_plan(text: str, plan: Plan) -> str:
    """The text of a plan file, changed so that it reads as `plan`.

    What cannot be changed in place (another desk's zone, another order, keys spread over
    headings of their own) makes a fresh file, without comments. Raises PlanProblems where `text`
    is no good plan.
    """
    old = read_plan_text(text, _SHOWN, plan.folder)
    if old == plan:
        return text
    if old.zones[0] == plan.zones[0]:
        changed = _Changes(text, plan.zones[0]).made(
            plain_plan(old, FORMAT), plain_plan(plan, FORMAT)
        )
        if _reads_as(changed, plan):
            return changed
    return write_plan(plan)


def _reads_as(text: str, plan: Plan) -> bool:
    try:
        return read_plan_text(text, _SHOWN, plan.folder) == plan
    except PlanProblems:
        return False


class _Changes:
    """Gathers the edits of one text."""

    def __init__(self, text: str, zone: str) -> None:
        self._positions = Positions(text, _SHOWN)
        self._patch = Patch(text, self._positions)
        self._zone = zone

    def made(self, before: Table, after: Table) -> str:
        """The text with everything changed that differs between two plans."""
        for key in dict.fromkeys((*before, *after)):
            old, new = before.get(key), after.get(key)
            if old == new:
                continue
            if _is_tables(old) or _is_tables(new):
                self._change_list(key, _tables(old), _tables(new))
            elif key == "lane":
                self._change_lanes(_table(old), _table(new))
            elif isinstance(old, dict) or isinstance(new, dict):
                self._change_single((key,), _table(old), _table(new))
        self._change_keys((), _plain_keys(before), _plain_keys(after))
        return self._patch.made()

    def _change_list(self, key: str, before: Sequence[Table], after: Sequence[Table]) -> None:
        """Change, remove and add the tables of a [[list]]; those with ids are known by them."""
        old = {_id(table, at): at for at, table in enumerate(before)}
        new = {_id(table, at): table for at, table in enumerate(after)}
        for name, at in old.items():
            if name not in new:
                self._patch.remove((key, at))
        last: Trail | None = None
        added: dict[Trail | None, list[str]] = {}
        for name, table in new.items():
            if name in old:
                last = (key, old[name])
                self._change_keys(last, before[old[name]], table)
            else:
                added.setdefault(last, []).extend(block(f"[[{key}]]", table, self._zone))
        for where, lines in added.items():
            self._patch.insert(where, "".join(f"{line}\n" for line in lines))

    def _change_lanes(self, before: Table, after: Table) -> None:
        for name in dict.fromkeys((*before, *after)):
            self._change_single(("lane", name), _table(before.get(name)), _table(after.get(name)))

    def _change_single(self, trail: Trail, before: Table, after: Table) -> None:
        """Change, remove or add a table with a heading of its own."""
        if self._positions.head(trail) is None:
            heading = f"[{'.'.join(str(part) for part in trail)}]"
            lines = block(heading, after, self._zone)
            self._patch.insert(None, "".join(f"{one}\n" for one in lines))
        elif after:
            self._change_keys(trail, before, after)
        else:
            self._patch.remove(trail)

    def _change_keys(self, trail: Trail, before: Table, after: Table) -> None:
        """Change, remove and add the keys under one heading."""
        changed = {
            key: written(after[key], self._zone) if key in after else None
            for key in _changed(before, after)
        }
        if changed and self._positions.head(trail) is not None:
            self._patch.set_keys(trail, changed)


def _changed(before: Table, after: Table) -> Iterator[str]:
    """The keys to write anew; a tie as a whole, for its keys may stand in a table or beside it."""
    keys = list(dict.fromkeys((*before, *after)))
    tied = any(before.get(key) != after.get(key) for key in _TIE)
    for key in dict.fromkeys((*(_TIE if tied else ()), *keys)):
        if before.get(key) != after.get(key) or (tied and key in _TIE):
            yield key


def _plain_keys(table: Table) -> Table:
    return {
        key: value
        for key, value in table.items()
        if not isinstance(value, dict) and not _is_tables(value)
    }


def _is_tables(value: Value | None) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _tables(value: Value | None) -> Sequence[Table]:
    return value if isinstance(value, list) else ()


def _table(value: Value | None) -> Table:
    return value if isinstance(value, dict) else {}


def _id(table: Table, at: int) -> str | int:
    """How a table is known again: by its id, else by its place."""
    name = table.get("id")
    return name if isinstance(name, str) else at
