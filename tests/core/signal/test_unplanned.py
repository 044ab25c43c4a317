"""A loss or return that is not in the plan shifts nothing."""

from core.entries.model import Entry, Observe
from core.plan.model import (
    Change,
    Course,
    CourseKind,
    EdgeRef,
    Event,
    Ground,
    Lane,
    Pass,
    Plan,
)
from core.signal.tables import Tables

REF = EdgeRef("voice", Change.LOST, after="start")
ROW = EdgeRef("voice", Change.LOST, row="table.voice.1.lost")


def tables() -> Tables:
    plan = Plan(
        "t",
        ("UTC",),
        events=(Event("start", "Start", 0), Event("loss", "Loss", edge=REF)),
        grounds=(Ground("tarn", "Tarn Hill", ("voice",)),),
        lanes=(Lane("voice", "VOICE"),),
        courses=(Course("table", CourseKind.PASSES, rows=(Pass("voice", "tarn", 0, 3_600_000),)),),
    )
    return Tables(plan)


def test_an_event_keeps_its_edge_when_the_lane_is_lost_early() -> None:
    lost = Entry(1, 600_000, "voice lost now", Observe("voice", Change.LOST, 600_000))
    told = tables().told([lost])
    found = told.find(REF, "loss", 0, {"start": 0}.get)
    assert found is not None
    assert found.time_ms == 3_600_000
    (voice,) = told.signal({"start": 0}.get)
    assert [edge.time_ms for edge in voice.edges if edge.change is Change.LOST] == [600_000]
    assert told.find(ROW, "", None, {"start": 0}.get) is None
