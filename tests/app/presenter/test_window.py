"""The presenter window as a window: mirrored, framed, without keys, cursor or focus."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QImage, QPaintEvent, QRegion
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.presenter.window import PresenterWindow
from app.theme import DARK, Text
from core.board.model import RehearsalBadge
from tests.app.looking import column_of, near, pixels
from tests.app.presenter.scenes import (
    BREAK,
    CROWDED,
    GRAVE,
    HELD,
    LATE_BREAK,
    LONG_BREAK,
    ORDINARY,
    SENTENCE,
    SHORTER,
    SOUNDING,
    minutes,
)

Shown = Callable[..., PresenterWindow]
BADGE = RehearsalBadge("10", paused=False)


class PaintWatch(QObject):
    """Notes what is painted of a window."""

    def __init__(self) -> None:
        super().__init__()
        self.painted: list[QRegion] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt calls it
        if isinstance(event, QPaintEvent):
            self.painted.append(event.region())
        return super().eventFilter(watched, event)


def texts(window: PresenterWindow) -> list[str]:
    return [words.text for words in window.page().words]


def sentence(window: PresenterWindow) -> str:
    return " ".join(w.text for w in window.page().words if "SENTENCE" in w.style.name)


def differing(one: QImage, other: QImage) -> int:
    places = ((x, y) for x in range(0, one.width(), 7) for y in range(0, one.height(), 5))
    return sum(not near(one.pixelColor(*at), other.pixelColor(*at), 60) for at in places)


def test_everything_the_presenter_needs_is_on_it(shown: Shown) -> None:
    told = texts(shown(ORDINARY, (1920, 1080)))
    for text in ("Loss of signal", "7", "48", "4:49 p.m. Atlantic", "4:41:12 p.m.", "picture",
                 "voice", "be back", "by 4:46 p.m.", "about a minute later than planned",
                 "then", "16 min", "31 or 42 min", "signal back", "first picture"):  # fmt: skip
        assert text in told, text
    assert sentence(shown(ORDINARY, (1920, 1080))) == SENTENCE


def test_a_sentence_too_long_for_its_room_gives_way_to_the_shorter(shown: Shown) -> None:
    assert sentence(shown(CROWDED)) == SHORTER
    one = replace(CROWDED, shorter=CROWDED.sentence)
    assert sentence(shown(one)).endswith("…")


def test_a_shorter_room_takes_a_smaller_sentence_first(shown: Shown) -> None:
    window = shown(replace(ORDINARY, sentence=f"{SENTENCE} {SHORTER}", shorter="“No.”"))
    styles = {w.style for w in window.page().words if "SENTENCE" in w.style.name}
    assert styles == {Text.PROMPT_SENTENCE_LEAST}


def test_how_names_sound_stands_below_unless_it_costs_the_longer_sentence(shown: Shown) -> None:
    assert SOUNDING.sounds in texts(shown(SOUNDING))
    full = replace(SOUNDING, sentence=f"{SENTENCE} {SHORTER}", shorter="“No.”")
    window = shown(full)
    assert sentence(window) == full.sentence
    assert SOUNDING.sounds not in texts(window)


def test_under_the_shorter_sentence_stand_only_the_names_that_it_has(shown: Shown) -> None:
    one = replace(CROWDED, sounds="PET-rul · LAN-tern KOHV", shorter_sounds="PET-rul")
    window = shown(one)
    assert sentence(window) == SHORTER
    assert "PET-rul" in texts(window)
    assert one.sounds not in texts(window)


def test_in_a_break_back_in_is_largest_then_the_wrap_then_the_event(shown: Shown) -> None:
    page = shown(BREAK).page()
    order = [words.text for words in page.words]
    assert order.index("back in") < order.index("wrap") < order.index("Loss of signal, far side")
    largest = max(page.words, key=lambda words: words.style.reference_px)
    assert largest.text in {"1", "12"}


def test_a_name_that_is_cut_leaves_its_countdown_whole(shown: Shown) -> None:
    told = texts(shown(LONG_BREAK))
    assert any(text.endswith("…") for text in told)
    assert told.count("23") == 1


def test_what_counts_up_has_a_plus(shown: Shown) -> None:
    assert "+" in texts(shown(LATE_BREAK))


def test_a_held_count_says_so(shown: Shown) -> None:
    assert "on the clock, and the count is holding" in texts(shown(HELD))


def test_grave_there_is_nothing_but_the_clock_and_the_lines(shown: Shown) -> None:
    told = " ".join(texts(shown(GRAVE)))
    assert told == " ".join([GRAVE.clock, *GRAVE.lines])


def test_a_rehearsal_is_framed_and_named_with_its_rate(shown: Shown) -> None:
    plain = pixels(shown(ORDINARY))
    framed = pixels(shown(ORDINARY, badge=BADGE))
    assert column_of(plain, 3, 0, 720) == {DARK.ground.name()}
    assert len(column_of(framed, 3, 0, 720)) > 2
    plate = {framed.pixelColor(x, y).lightness() for x in range(560, 720) for y in range(8, 30)}
    assert max(plate) > 200


@pytest.mark.parametrize("badge", [None, BADGE], ids=["", "framed"])
def test_mirrored_it_is_itself_with_left_and_right_changed(
    shown: Shown, badge: RehearsalBadge | None
) -> None:
    window = shown(ORDINARY, badge=badge)
    usual = pixels(window)
    window.mirror(on=True)
    mirrored = pixels(window)
    flipped = mirrored.flipped(Qt.Orientation.Horizontal)
    total = (usual.width() // 7) * (usual.height() // 5)
    assert differing(usual, mirrored) > 0.04 * total
    assert differing(usual, flipped) < 0.004 * total
    window.mirror(on=False)
    assert differing(usual, pixels(window)) < 0.004 * total


def test_it_takes_no_keyboard_and_shows_no_cursor(shown: Shown) -> None:
    window = shown(ORDINARY)
    assert window.windowFlags() & Qt.WindowType.WindowDoesNotAcceptFocus
    assert window.testAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
    assert window.focusPolicy() is Qt.FocusPolicy.NoFocus
    assert window.cursor().shape() is Qt.CursorShape.BlankCursor
    before = pixels(window)
    for key in (Qt.Key.Key_F12, Qt.Key.Key_Escape, Qt.Key.Key_A, Qt.Key.Key_Space):
        QTest.keyClick(window, key)
    assert window.isVisible()
    assert pixels(window) == before


def test_the_program_does_not_stay_for_its_sake(shown: Shown) -> None:
    assert not shown(ORDINARY).testAttribute(Qt.WidgetAttribute.WA_QuitOnClose)


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_second_later_only_what_has_changed_is_painted_and_all_of_it(
    shown: Shown, *, mirrored: bool
) -> None:
    window = shown(ORDINARY)
    window.mirror(on=mirrored)
    QApplication.processEvents()
    before = window.screen().grabWindow(window.winId()).toImage()
    watch = PaintWatch()
    window.installEventFilter(watch)
    window.show_view(replace(ORDINARY), None)
    QApplication.processEvents()
    assert not watch.painted
    later = replace(ORDINARY, figure=minutes(7, 47), clock="4:41:13 p.m.")
    window.show_view(later, None)
    QApplication.processEvents()
    (region,) = watch.painted
    assert region.boundingRect().bottom() < window.height() / 2
    kept = window.screen().grabWindow(window.winId()).toImage()
    assert kept.size() == window.size()
    assert differing(kept, before) > 0
    assert differing(kept, pixels(window)) == 0


def test_before_there_is_a_view_it_is_dark(qapp: QApplication) -> None:
    window = PresenterWindow()
    assert column_of(pixels(window), 50, 0, window.height()) == {DARK.ground.name()}
    window.deleteLater()
    del qapp
