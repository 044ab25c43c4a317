"""A length of time in a panel: as large as there is room for, and never past the edge."""

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.desk import ink
from app.desk.figures import USUAL, figure_runs, fitting_runs
from app.desk.ink import Placed, Run
from core.board.model import Figure
from tests.app.air_views import programme_view
from tests.app.desk.seat import seated

SHORT = Figure((("7", "min"), ("51", "s")))
LONG = Figure((("1627", "d"), ("19", "h"), ("20", "min"), ("40", "s")))


@pytest.mark.parametrize("figure", [SHORT, LONG])
def test_the_largest_style_that_has_room_is_taken(qtbot: QtBot, figure: Figure) -> None:
    with seated(qtbot) as seat:
        theme = seat.window.side.contact.theme
        widths = [ink.width_px(figure_runs(figure, theme, *style)) for style in USUAL]
        assert widths == sorted(widths, reverse=True)
        for style, width_px in zip(USUAL, widths, strict=True):
            assert fitting_runs(figure, theme, width_px) == figure_runs(figure, theme, *style)
        assert fitting_runs(figure, theme, 10) == figure_runs(figure, theme, *USUAL[-1])


@pytest.mark.parametrize("size", [(1280, 720), (1600, 1000), (3840, 2160)])
def test_years_have_room_in_contact_and_in_clear_time(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, size: tuple[int, int]
) -> None:
    painted: list[Placed] = []
    placed = ink.placed

    def noted(left_px: float, baseline_px: float, runs: list[Run]) -> list[Placed]:
        found = placed(left_px, baseline_px, runs)
        painted.extend(found)
        return found

    with seated(qtbot, programme_view(), size=size) as seat:
        shown, clear = seat.desk.shown, seat.desk.shown.clear
        assert clear is not None
        lanes = tuple(replace(lane, figure=LONG) for lane in shown.contact.lanes)
        seat.desk.shown = replace(
            shown,
            contact=replace(shown.contact, lanes=lanes),
            clear=replace(clear, figure=LONG, lead="on the air in"),
        )
        seat.pass_time(1)
        monkeypatch.setattr(ink, "placed", noted)
        side = seat.window.side
        side.contact.grab()
        for panel, words in ((side.contact, painted), (side.clear, side.clear.placed())):
            assert "1627" in [word.run.text for word in words]
            assert max(word.reach().right() for word in words) <= panel.width()
