from dataclasses import replace

import pytest
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from app.desk.timeline import Timeline
from app.theme import DARK, LIGHT, Palette
from tests.app.looking import SIZES, near, pixels, timeline
from tests.app.views import MINUTE_MS, NOW_MS, arrival_view, day_view

PALETTES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])
WINDOWS = pytest.mark.parametrize("size", SIZES, ids=str)


def tied(shown: Timeline, palette: Palette = DARK) -> None:
    """Each card in sight has a thread: painted at its card, and with its dot at its instant."""
    assert shown.strip is not None
    image = pixels(shown.threads)
    top_px, bottom_px = shown.strip.span_px
    anchors = shown.cards.anchors()
    assert len(anchors) == len(shown.threads.threads) > 0
    inks = (palette.thread, palette.limb)

    def painted(x_px: float, y_px: float) -> bool:
        around = (image.pixelColor(round(x_px), round(y_px) + dy) for dy in (-1, 0, 1))
        return any(near(colour, ink, 48) for colour in around for ink in inks)

    for anchor in anchors:
        assert painted(0, anchor.y_px), anchor
        instant_px = shown.strip.y_of(anchor.at_ms)
        if top_px <= instant_px <= bottom_px:
            assert painted(shown.threads.end_px, instant_px), anchor


@WINDOWS
@PALETTES
def test_a_thread_goes_from_each_card_to_its_instant(
    qtbot: QtBot, palette: Palette, size: tuple[int, int]
) -> None:
    with timeline(qtbot, arrival_view(), size, palette) as shown:
        tied(shown, palette)


@pytest.mark.parametrize("count", [3, 300, 1000])
def test_threads_hold_at_any_number_of_events_and_after_scrolling(qtbot: QtBot, count: int) -> None:
    view = day_view(count, past=2 if count == 3 else 40, every_ms=3 * MINUTE_MS, before_big=0)
    with timeline(qtbot, view) as shown:
        tied(shown)
        for act in (
            lambda: shown.page(1),
            lambda: shown.page(4),
            shown.home,
            lambda: shown.page(-1),
            shown.turn_scale,
        ):
            act()
            tied(shown)


def test_scrolled_the_strip_begins_with_the_first_card(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(300)) as shown:
        shown.page(3)
        first = shown.cards.first_card
        assert shown.strip is not None
        assert shown.strip.frame is not None
        assert first is not None
        assert first.at_ms is not None
        assert shown.strip.y_of(first.at_ms) == shown.strip.frame.scale.origin_px
        assert shown.threads.threads[0].strip_px == shown.strip.frame.scale.origin_px
        assert "▲ now" in [words.text for words in shown.strip.words]
        shown.home()
        assert shown.strip.y_of(NOW_MS) == shown.strip.frame.scale.origin_px


def test_time_going_on_moves_threads_with_the_strip(qtbot: QtBot) -> None:
    view = arrival_view()
    with timeline(qtbot, view) as shown:
        shown.set_view(replace(view, now_ms=NOW_MS + 3 * MINUTE_MS))
        tied(shown)


def test_the_big_card_has_the_strong_thread_and_so_has_the_selected_one(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        assert [t.strong for t in shown.threads.threads[:3]] == [False, True, False]
        shown.select("ignition")
        assert [t.strong for t in shown.threads.threads[:3]] == [False, True, True]
        thread = shown.threads.threads[2]
        dot = pixels(shown.threads).pixelColor(round(shown.threads.end_px), round(thread.strip_px))
        assert near(dot, DARK.limb, 20)


def test_an_instant_beyond_the_strip_ends_at_its_border_without_a_dot(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(10, every_ms=120 * MINUTE_MS)) as shown:
        assert shown.strip is not None
        beyond = [thread for thread in shown.threads.threads if thread.out]
        assert beyond
        assert {thread.strip_px for thread in beyond} == {shown.strip.span_px[1]}
        below = pixels(shown.threads).pixelColor(
            round(shown.threads.end_px), round(shown.strip.span_px[1]) + 4
        )
        assert near(QColor(below), DARK.ground)


def test_the_same_threads_are_not_painted_again(qtbot: QtBot) -> None:
    view = arrival_view()
    with timeline(qtbot, view) as shown:
        before = shown.threads.threads
        shown.set_view(replace(view, now_ms=NOW_MS + 1000))
        assert shown.threads.threads is before


def test_before_the_strip_is_there_the_cards_stand_alone(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        assert shown.threads.threads == ()
        assert not shown.turn_scale()
        shown.set_ghosts((("ignition", NOW_MS + MINUTE_MS),))
        shown.add_strip()
        tied(shown)
