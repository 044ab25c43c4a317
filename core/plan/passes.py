"""The rows of a table of contacts, inline or from a CSV file beside the plan."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from core.errors import PlanProblems
from core.plan.fields import Fields
from core.plan.files import LARGEST_BYTES, PLAIN
from core.plan.gather import Named
from core.plan.grounds import carried
from core.plan.model import Pass
from core.plan.tables import Cell, Row, read_rows
from core.plan.values import Page, Where, duration, instant, reference

_ground = reference(Named.GROUND)

COLUMNS = ("lane", "ground", "back", "lost")
_MAY_LACK = ("ground",)

Carries = Mapping[str, tuple[str, ...]]
"""The lanes of each ground station."""

Time = Callable[[Page, Where, object], int | None]


@dataclass(frozen=True, slots=True)
class _Written:
    """A row, and where it stands: problems with two rows name the later one."""

    row: Pass
    where: Where


def read_passes(
    fields: Fields, file: str | None, times: str, liftoff_ms: int | None, carries: Carries
) -> tuple[Pass, ...]:
    """The rows of a course: instants, or lengths from the followed event for 'offset'."""
    time = _time_reader(fields, times, liftoff_ms)
    if "rows" in fields and "file" in fields:
        fields.page.problem(
            fields.at("rows"), "the rows stand here and in a file", "Keep one", key=True
        )
    if "rows" not in fields and "file" not in fields:
        fields.problem("this table of contacts has no rows", "Add rows = [...], or file")
    written = [row for one in fields.tables("rows") if (row := _inline(one, time))]
    if file is not None and "rows" not in fields:
        written.extend(_from_file(fields, file, time))
    for one in written:
        _check_row(fields.page, one, carries)
    _check_overlaps(fields.page, written)
    return tuple(one.row for one in written)


def _time_reader(fields: Fields, times: str, liftoff_ms: int | None) -> Time:
    page = fields.page
    if times == "clock":
        return instant
    if times == "offset":
        if "follows" not in fields:
            page.problem(
                fields.at("times"), "offsets from no event", "Add follows = the id of an event"
            )
        return duration
    if liftoff_ms is None:
        page.problem(
            fields.at("times"),
            "elapsed time counts from no known time",
            "Set elapsed_from to an event that has at",
        )
    base_ms = liftoff_ms or 0

    def elapsed(page: Page, where: Where, value: object) -> int | None:
        after_ms = duration(page, where, value)
        return None if after_ms is None else base_ms + after_ms

    return elapsed


def _inline(fields: Fields, time: Time) -> _Written | None:
    lane = fields.need("lane", carried, '"voice"')
    ground = fields.get("ground", _ground) if fields.raw("ground") != "" else None
    back_ms = fields.need("back", time, "a time")
    lost_ms = fields.need("lost", time, "a time")
    fields.close()
    if lane is None or back_ms is None or lost_ms is None:
        return None
    return _Written(Pass(lane, ground, back_ms, lost_ms), fields.trail)


def _from_file(fields: Fields, file: str, time: Time) -> Iterator[_Written]:
    shown = str(Path(fields.page.shown).parent / file)
    try:
        text = fields.page.read(file, shown, LARGEST_BYTES, PLAIN)
    except PlanProblems as error:
        for problem in error.problems:
            fields.page.problem(problem.where, problem.what, problem.hint)
        return
    for row in read_rows(fields.page, text, shown, COLUMNS, _MAY_LACK):
        if (written := _from_cells(fields.page, row, time)) is not None:
            yield written


def _from_cells(page: Page, row: Row, time: Time) -> _Written | None:
    lane_cell, back, lost = row.cells["lane"], row.cells["back"], row.cells["lost"]
    ground_cell = row.cells.get("ground", Cell("", row.place))
    lane = carried(page, lane_cell.place, lane_cell.text)
    ground = _ground(page, ground_cell.place, ground_cell.text) if ground_cell.text else None
    back_ms, lost_ms = time(page, back.place, back.text), time(page, lost.place, lost.text)
    if lane is None or back_ms is None or lost_ms is None:
        return None
    return _Written(Pass(lane, ground, back_ms, lost_ms), row.place)


def _check_row(page: Page, written: _Written, carries: Carries) -> None:
    row = written.row
    if row.lost_ms <= row.back_ms:
        page.problem(
            written.where, "this contact is lost before it is back", "Put the earlier time in back"
        )
    lanes = carries.get(row.ground, ()) if row.ground else ()
    if lanes and row.lane not in lanes:
        page.problem(
            written.where,
            f"'{row.ground}' does not carry '{row.lane}'",
            page.gather.nearest(row.lane, lanes),
        )


def _check_overlaps(page: Page, written: list[_Written]) -> None:
    """Tell rows of one lane and ground station that lie over each other."""
    last: dict[tuple[str, str | None], _Written] = {}
    for one in sorted(written, key=lambda one: (one.row.back_ms, one.row.lost_ms)):
        key = (one.row.lane, one.row.ground)
        before = last.get(key)
        if before is not None and one.row.back_ms < before.row.lost_ms:
            through = f" through '{one.row.ground}'" if one.row.ground else ""
            page.problem(
                one.where,
                f"this contact of '{one.row.lane}'{through} begins before another ends",
                "One lane through one ground station has one contact at a time",
            )
        if before is None or one.row.lost_ms > before.row.lost_ms:
            last[key] = one
