"""How wide columns are."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.printing.blocks import Column, Table, row
from app.printing.columns import BETWEEN_TW, comfortable_tw, widths_tw
from app.printing.faces import Face, width_tw
from app.printing.paper import Paper, Size, fitting

LONG = "a good many words that would need the better part of a line by themselves " * 3


def table(*texts: str, keep: bool = True) -> Table:
    columns = (Column("TIME", keep=keep), *(Column("WHAT", wide=True) for _ in texts[1:]))
    return Table(columns, (row(*texts),))


def test_what_has_room_is_as_wide_as_its_text_and_the_rest_goes_to_the_wide_one() -> None:
    first, second = widths_tw(table("4:57:20 p.m.", "short"), 8_000)
    assert first == width_tw(Face.CELL, "4:57:20 p.m.")
    assert first + BETWEEN_TW + second == pytest.approx(8_000)


def test_a_clock_time_stays_whole_while_long_text_gives_way() -> None:
    first, second = widths_tw(table("4:57:20 p.m.", LONG), 5_000)
    assert first == pytest.approx(width_tw(Face.CELL, "4:57:20 p.m."))
    assert first + BETWEEN_TW + second == pytest.approx(5_000)


def test_where_not_even_that_has_room_clock_times_are_broken_before_words_are() -> None:
    word = "circularisation"
    room_tw = width_tw(Face.CELL, "4:57:20") + width_tw(Face.CELL, word) + BETWEEN_TW + 100
    first, second = widths_tw(table("4:57:20 p.m.", word), room_tw)
    assert first < width_tw(Face.CELL, "4:57:20 p.m.")
    assert second >= width_tw(Face.CELL, word)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.text("abc ", max_size=60), min_size=1, max_size=9), st.floats(2_000, 16_000))
def test_all_columns_together_have_room(texts: list[str], room_tw: float) -> None:
    widths = widths_tw(table(*texts), room_tw)
    assert sum(widths) + BETWEEN_TW * (len(widths) - 1) <= room_tw + 1
    assert all(width >= 0 for width in widths)


def test_a_table_that_would_be_squeezed_lies_on_its_side() -> None:
    narrow = table("4:57:20 p.m.", LONG)
    wide = table("4:57:20 p.m.", *[LONG] * 5)
    assert comfortable_tw(narrow) < Paper().room_tw < comfortable_tw(wide)
    assert fitting([narrow], Size.LETTER) == Paper(Size.LETTER)
    assert fitting([narrow, wide], Size.LETTER) == Paper(Size.LETTER, landscape=True)
