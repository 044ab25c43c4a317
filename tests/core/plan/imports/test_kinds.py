"""What a text is taken for where a table and a timeline are much alike."""

import pytest

from core.plan.imports.kinds import Kind, kind_of
from core.plan.imports.model import Setting
from core.plan.imports.timeline import read_timeline

_LINES = "".join(f"{at:02d}:15\tThing {at} is done\n" for at in range(6, 20))
_DAYS = f"Sunday, May 11, 2031\n{_LINES}Monday, May 12, 2031\n{_LINES}"


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        pytest.param(_DAYS, Kind.TIMELINE, id="days between the lines"),
        pytest.param(f"PETREL 4\nAll times EDT\n\n{_DAYS}", Kind.TIMELINE, id="a press kit"),
        pytest.param(f"All times EDT\n{_LINES}", Kind.TIMELINE, id="a word on the times"),
        pytest.param(f"Time\tEvent\n{_LINES}", Kind.TABLE, id="a heading row"),
        pytest.param(f"PETREL 4\nTime\tEvent\n{_DAYS}", Kind.TABLE, id="a heading below a title"),
        pytest.param(_LINES, Kind.TABLE, id="two columns and nothing else"),
        pytest.param(_DAYS.replace("\tThing", "\tdesk\tyes\tThing"), Kind.TABLE, id="many columns"),
    ],
)
def test_times_and_words_with_a_tab_between_are_a_timeline_unless_a_heading_stands(
    text: str, kind: Kind
) -> None:
    assert kind_of(text) is kind


def test_each_line_of_such_a_press_kit_gives_its_event() -> None:
    imported = read_timeline(f"All times EDT\n{_DAYS}", Setting("America/Halifax"))
    assert len(imported.rows) == 28
    assert imported.not_read == ()
    assert imported.rows[0].name == "Thing 6 is done"
