from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.desk.timeline import Timeline
from app.patterns import muted
from app.strip.widget import StripView
from app.theme import DARK, LIGHT, Palette
from core.board.model import Strip, View
from tests.app.looking import SIZES, column_of, near, pixels, timeline
from tests.app.views import MINUTE_MS, NOW_MS, arrival_view, day_view, view_of

PALETTES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])


def strip_of(shown: Timeline) -> StripView:
    assert shown.strip is not None
    return shown.strip


def lane_x(strip: StripView, lane: int, share: float = 0.04) -> float:
    """Across a lane, near its left side, where nothing is written."""
    assert strip.frame is not None
    left_px, width_px = strip.frame.across.lanes[lane]
    return left_px + width_px * share


def y(strip: StripView, minutes: float) -> float:
    return strip.y_of(NOW_MS + int(minutes * MINUTE_MS))


@PALETTES
@pytest.mark.parametrize("size", SIZES, ids=str)
def test_the_limb_is_painted_at_now(qtbot: QtBot, palette: Palette, size: tuple[int, int]) -> None:
    with timeline(qtbot, arrival_view(), size, palette) as shown:
        strip = strip_of(shown)
        assert strip.frame is not None
        image = pixels(strip)
        middle_px = strip.frame.across.ticks_px / 2
        assert near(image.pixelColor(round(middle_px), round(strip.y_of(NOW_MS))), palette.limb)


@PALETTES
def test_contact_is_filled_and_a_gap_is_hatched(qtbot: QtBot, palette: Palette) -> None:
    with timeline(qtbot, arrival_view(), palette=palette) as shown:
        strip = strip_of(shown)
        image = pixels(strip)
        filled = column_of(image, lane_x(strip, 0), y(strip, 3), y(strip, 5))
        assert filled == {palette.voice.name()}
        hatched = column_of(image, lane_x(strip, 0), y(strip, 9), y(strip, 14))
        assert palette.ground.name() in hatched
        assert any(near(QColor(name), palette.hatch, 30) for name in hatched)
        assert palette.voice.name() not in hatched


def test_either_and_closed_have_patterns_of_their_own(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        strip = strip_of(shown)
        image = pixels(strip)
        either = column_of(image, lane_x(strip, 0), y(strip, 32), y(strip, 41))
        assert muted("voice", shown.cards._theme).name() in either
        assert DARK.ground.name() not in either
        assert len(either) > 2
        closed = column_of(image, lane_x(strip, 1), y(strip, 305), y(strip, 350))
        assert muted("picture", shown.cards._theme).name() in closed
        assert any(near(QColor(name), DARK.picture, 30) for name in closed)
        # Level lines: along one row nothing changes; in hatching it does.
        row = round(y(strip, 303))
        across_px = range(round(lane_x(strip, 1)), round(lane_x(strip, 1)) + 16)
        assert len({image.pixelColor(x, row).name() for x in across_px}) == 1


def test_what_is_past_sinks_behind_the_limb(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        strip = strip_of(shown)
        image = pixels(strip)
        past = image.pixelColor(round(lane_x(strip, 0)), round(strip.span_px[0]) + 4)
        assert past.lightness() < DARK.voice.lightness() - 40


def test_a_preview_marks_where_events_would_go(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        strip = strip_of(shown)
        row, x = round(y(strip, 20)), round(lane_x(strip, 1))
        reach = range(x, x + 20)
        before = pixels(strip)
        assert not any(near(before.pixelColor(at, row), DARK.change, 40) for at in reach)
        shown.set_ghosts((("ignition", NOW_MS + 20 * MINUTE_MS),))
        after = pixels(strip)
        assert any(near(after.pixelColor(at, row), DARK.change, 40) for at in reach)
        shown.set_ghosts(())
        assert pixels(strip) == before


def test_the_even_scale_and_back(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        strip = strip_of(shown)
        thinned = pixels(strip)
        assert shown.turn_scale()
        steps = {round(y(strip, m + 10) - y(strip, m), 3) for m in (0, 30, 100)}
        assert len(steps) == 1
        assert pixels(strip) != thinned
        assert not shown.turn_scale()
        assert pixels(strip) == thinned


def _ticked(view: View, seconds: int) -> View:
    return replace(view, now_ms=view.now_ms + seconds * 1000)


def test_nothing_is_drawn_anew_until_now_has_moved_by_a_pixel(qtbot: QtBot) -> None:
    view = arrival_view()
    with timeline(qtbot, view) as shown:
        strip = strip_of(shown)
        assert strip.frame is not None
        assert not strip.set_view(_ticked(view, 1))
        assert strip.set_view(_ticked(view, 30))
        assert strip.y_of(NOW_MS + 30_000) == strip.frame.scale.origin_px


def test_a_changed_signal_is_drawn_at_once(qtbot: QtBot) -> None:
    view = arrival_view()
    with timeline(qtbot, view) as shown:
        assert strip_of(shown).set_view(replace(view, strip=replace(view.strip)))


def test_a_board_without_lanes_shows_an_empty_strip(qtbot: QtBot) -> None:
    bare = view_of((), strip=Strip((), (), (), ()))
    with timeline(qtbot, bare) as shown:
        assert pixels(strip_of(shown)).width() > 0


def test_every_part_keeps_off_the_keyboard(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        for widget in (shown, shown.cards, shown.threads, strip_of(shown)):
            assert widget.focusPolicy() is Qt.FocusPolicy.NoFocus


def test_the_wheel_over_the_strip_scrolls_the_cards(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(300)) as shown:
        strip = strip_of(shown)
        at = strip.mapTo(shown, QPoint(50, 300))
        QTest.wheelEvent(shown.windowHandle(), QPointF(at), QPoint(0, -360))
        QApplication.processEvents()
        assert shown.cards.first_card is not None
        assert shown.cards.first_card.id == "e3"
