"""What the builder says of a cell."""

from pathlib import Path

from app.builder.telling import cell_words
from core.plan.drafting.columns import Cell, Column, Kind
from core.plan.drafting.event_tables import EVENTS
from core.plan.drafting.standing import Standing
from tests.app.builder.bench import FIRST


def test_a_cell_says_its_row_what_it_is_for_and_what_is_typed_there() -> None:
    column = EVENTS.column("give")
    assert column is not None
    now, cell = Standing(FIRST, "first.toml", Path()), Cell(("event", 2), column)
    about = "Give: How uncertain it is, plus or minus     like  30s"
    assert cell_words(now, cell, named=True) == f"In orbit     {about}"
    assert cell_words(now, cell, named=False) == about


def test_a_column_that_says_no_more_is_told_by_its_heading() -> None:
    now = Standing(FIRST, "first.toml", Path())
    assert cell_words(now, Cell((), Column("x", "Node", Kind.NUMBER)), named=False) == "Node"
