"""CSV tables beside a plan, cell by cell, each with its line and column."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.errors import Place
from core.plan.gather import clip
from core.plan.values import Page


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands between two commas, without the spaces around it, and where it begins."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Row:
    """One line under the heading, its cells by the name of their column."""

    cells: dict[str, Cell]
    place: Place


def read_rows(
    page: Page, text: str, shown: str, columns: Sequence[str], may_lack: Sequence[str]
) -> Iterator[Row]:
    """The rows of a comma-separated table whose first line names its columns, in any order.

    Empty lines are passed over. What is wrong is told on `page`, and the row left out.
    """
    lines = (
        (number, line.removesuffix("\r"))
        for number, line in enumerate(text.split("\n"), start=1)
        if line.strip()
    )
    number, heading = next(lines, (1, ""))
    names = _heading(page, _cells(page, heading, shown, number), columns, may_lack, shown)
    if names is None:
        return
    for number, line in lines:
        cells = _cells(page, line, shown, number)
        if cells is None:
            continue
        if len(cells) != len(names):
            page.problem(
                Place(shown, number, 1),
                f"this row has {len(cells)} cells, and the heading {len(names)}",
                "Write one for each column; an empty one between commas is allowed",
            )
            continue
        yield Row(dict(zip(names, cells, strict=True)), Place(shown, number, 1))


def _heading(
    page: Page,
    cells: list[Cell] | None,
    columns: Sequence[str],
    may_lack: Sequence[str],
    shown: str,
) -> list[str] | None:
    """The columns' names in their order, or None where some are missing or not known."""
    if cells is None:
        return None
    names = [cell.text for cell in cells]
    example = ",".join(columns)
    if not any(name in columns for name in names):
        page.problem(Place(shown, 1, 1), "the first line names no column", f"Begin with {example}")
        return None
    good = True
    for at, cell in enumerate(cells):
        if cell.text not in columns or cell.text in names[:at]:
            said = "stands twice" if cell.text in columns else "is no column of this table"
            page.problem(
                cell.place, f"'{clip(cell.text)}' {said}", page.gather.nearest(cell.text, columns)
            )
            good = False
    for column in columns:
        if column not in names and column not in may_lack:
            page.problem(
                cells[0].place, f"the column '{column}' is missing", f"The heading is {example}"
            )
            good = False
    return names if good else None


def _cells(page: Page, line: str, shown: str, number: int) -> list[Cell] | None:
    """The cells of one line; a cell in quotation marks may hold commas, and marks doubled."""
    cells: list[Cell] = []
    at = 0
    while True:
        start = at + len(line[at:]) - len(line[at:].lstrip())
        if line.startswith('"', start):
            end = _closing(line, start + 1)
            rest = line[end + 1 :].partition(",")[0] if end >= 0 else ""
            if end < 0 or rest.strip():
                page.problem(
                    Place(shown, number, start + 1),
                    "these quotation marks are not closed",
                    "A cell in quotation marks ends before the comma, on the same line",
                )
                return None
            text = line[start + 1 : end].replace('""', '"')
            at = end + 1 + len(rest)
        else:
            end = line.find(",", at)
            text = line[at:] if end < 0 else line[at:end]
            at = len(line) if end < 0 else end
        cells.append(Cell(text.strip(), Place(shown, number, min(start, len(line)) + 1)))
        if at >= len(line):
            return cells
        at += 1


def _closing(line: str, at: int) -> int:
    """Where the quotation marks that are open at `at` close; -1 if they do not."""
    while (end := line.find('"', at)) >= 0:
        if not line.startswith('""', end):
            return end
        at = end + 2
    return -1
