"""A course that becomes one of another kind: which of its keys cannot stay."""

from core.plan.courses import keys_of
from core.plan.drafting.cells import Raw, Written
from core.plan.drafting.columns import Cell
from core.plan.drafting.signal_tables import COURSES
from core.plan.model import CourseKind


def turned(cell: Cell, typed: str, table: Raw) -> Written:
    """The keys to write when a course's kind is typed: those of other kinds alone go out."""
    kind = typed.strip()
    if cell.trail[:1] != (COURSES.key,) or cell.column.key != "kind" or kind not in set(CourseKind):
        return {}
    new = CourseKind(kind)
    others = frozenset[str]().union(*(keys_of(one) for one in CourseKind)) - keys_of(new)
    going: Written = {key: None for key in table if key in others}
    if new is CourseKind.PASSES and "rows" not in table and "file" not in table:
        going["rows"] = "[]"
    return going


def going_words(written: Written, table: Raw) -> str:
    """What goes out with a change of kind that the person had put there; '' where nothing does."""
    keys = [key for key, value in written.items() if value is None and table.get(key) not in ([],)]
    columns = (COURSES.column(key) for key in keys if key != "rows")
    headings = ["Contacts"] if "rows" in keys else []
    return ", ".join([*headings, *(column.heading for column in columns if column is not None)])
