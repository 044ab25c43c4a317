"""What an import would become, in rows: each event beside the line that made it."""

from app.builder.offering import offering
from core.plan.imports.model import Imported, Row
from core.plan.model import Event, Plan

NOON_MS = 1_938_772_800_000  # 9 June 2031, 12:00 UTC
PLAN = Plan("Petrel 4", ("UTC",), events=(Event("suits", "Suits on", at_ms=NOON_MS),))


def test_each_event_stands_beside_the_line_that_made_it_though_others_make_none() -> None:
    rows = (
        Row(1, "12:00 Suits on", "Suits on", at_ms=NOON_MS),  # stands already
        Row(2, "T+1h Burn", "Burn", elapsed_ms=3_600_000),  # nothing says from when
        Row(3, "13:00 Hatch", "Hatch", at_ms=NOON_MS + 3_600_000),
        Row(3, "13:00 Hatch", "Ladder", at_ms=NOON_MS + 3_600_000),  # two of one line
    )
    now = offering(Imported("pasted text", rows), PLAN)
    shown = [(one.row.line, one.event.name, one.same is not None) for one in now.offered]
    assert shown == [(1, "Suits on", True), (3, "Hatch", False), (3, "Ladder", False)]
    assert [line.texts[0] for line in now.not_read] == ["2"]
