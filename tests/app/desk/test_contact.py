from dataclasses import replace

import pytest
from PySide6.QtGui import QPainter
from pytestqt.qtbot import QtBot

from app.desk import ink
from app.desk.contact import Contact
from app.desk.ink import Run
from core.board.model import ContactPanel
from tests.app.desk.seat import Seat, seated
from tests.app.views import arrival_view

FAR = "205 million km away; its signal needs 11 min 22 s"
TOTALS = ("Out of contact in the next 24 h", "Voice: 14 gaps, 8 h 59 min", "Picture: 10 gaps, 13 h")
HANDED = "through Skerry Point; hand-over to Marram Head, the second dish 6:37 p.m."
SIZES = pytest.mark.parametrize("size", [(1280, 720), (1600, 1000)], ids=str)


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """All that is painted in a panel, in order."""
    found: list[str] = []
    draw = ink.draw

    def noted(painter: QPainter, left_px: float, baseline_px: float, runs: list[Run]) -> float:
        found.extend(run.text for run in runs)
        return draw(painter, left_px, baseline_px, runs)

    monkeypatch.setattr(ink, "draw", noted)
    return found


def _panel(seat: Seat, shown: ContactPanel) -> Contact:
    seat.desk.shown = replace(seat.desk.shown, contact=shown, last_change=None)
    seat.pass_time(1)
    return seat.window.side.contact


@SIZES
def test_the_time_of_a_hand_over_is_never_cut(
    qtbot: QtBot, painted: list[str], size: tuple[int, int]
) -> None:
    with seated(qtbot, size=size) as seat:
        lanes = arrival_view().contact.lanes
        handed = replace(lanes[0], through=HANDED)
        before_px = _panel(seat, ContactPanel(lanes, ())).least_px()
        panel = _panel(seat, ContactPanel((handed, *lanes[1:]), ()))
        painted.clear()
        panel.grab()
        assert HANDED in " ".join(painted)
        assert not any("…" in text for text in painted)
        assert panel.least_px() > before_px


def test_the_distance_stands_below_the_lanes(qtbot: QtBot, painted: list[str]) -> None:
    with seated(qtbot) as seat:
        lanes = arrival_view().contact.lanes
        panel = _panel(seat, ContactPanel(lanes, TOTALS, FAR))
        painted.clear()
        panel.grab()
        written = " ".join(painted)
        assert written.index(lanes[-1].then) < written.index(FAR) < written.index(TOTALS[0])
        assert FAR in panel.accessibleDescription()


def test_delays_stand_between_the_distance_and_the_totals(qtbot: QtBot, painted: list[str]) -> None:
    late = "Picture comes 9 s late; viewers see it 7 s later"
    clock = "The clock in the picture is 9 s behind ours, seen 4:41 p.m."
    with seated(qtbot) as seat:
        lanes = arrival_view().contact.lanes
        panel = _panel(seat, ContactPanel(lanes, TOTALS, FAR, (late, clock)))
        painted.clear()
        panel.grab()
        written = " ".join(painted)
        places = [written.index(text) for text in (FAR, late, clock, TOTALS[0])]
        assert places == sorted(places)
        assert clock in panel.accessibleDescription()


def test_the_totals_heading_never_stands_alone(qtbot: QtBot) -> None:
    with seated(qtbot) as seat:
        panel = _panel(seat, ContactPanel(arrival_view().contact.lanes, TOTALS))
        room_px = 400.0
        for high_px in range(200):
            assert panel.notes_within(room_px, high_px) != [(TOTALS[0],)]
        assert panel.notes_within(room_px, 200) == [(text,) for text in TOTALS]
