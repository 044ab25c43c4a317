from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, QRectF, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.desk.card_flow import Kind
from app.desk.card_rows import Shown
from app.desk.card_words import lay_big, lay_card
from app.desk.cards import CardColumn
from app.theme import DARK, LIGHT, Palette, Text, Theme
from core.board.model import Card, CardState, Said, Tone, View
from tests.app.looking import (
    SIZES,
    column_of,
    contrast,
    ink_box,
    near,
    overlaps,
    pixels,
    timeline,
)
from tests.app.views import (
    LONG_NAME,
    NOW_MS,
    LazyCards,
    arrival_cards,
    arrival_view,
    card,
    day_view,
    figure,
    sorts_of_cards,
    sorts_view,
    view_of,
)

WINDOWS = pytest.mark.parametrize("size", SIZES, ids=str)
PALETTES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])


def texts(shown: Shown) -> list[str]:
    return [piece.text for piece in shown.words]


def row_of(column: CardColumn, card_id: str) -> Shown:
    return next(s for s in column.shown if s.card is not None and s.card.id == card_id)


def ids(column: CardColumn) -> list[str]:
    return [row.card.id for row in column.shown if row.card is not None]


def with_long_texts(view: View) -> View:
    """Every text as long as no plan should write it."""
    cards = tuple(
        replace(
            card,
            name=LONG_NAME,
            note=Said(LONG_NAME, Tone.QUIET),
            change=Said("1 h 23 min 48 later than the flight plan", Tone.CHANGE),
            tags=(Said("must be live"), Said("pinned", Tone.QUIET)),
            clash="cannot be met: 2 min 30 too late for the return",
            figure=figure(98 * 3_600_000),
        )
        for card in view.cards
    )
    return replace(view, cards=cards, summary=Said(LONG_NAME, Tone.CHANGE))


def views() -> Iterator[View]:
    for view in (arrival_view(), sorts_view()):
        yield view
        yield with_long_texts(view)
    yield day_view(3)
    yield day_view(300, past=40, before_big=6, long_names=True)


@WINDOWS
@PALETTES
def test_nothing_on_the_cards_runs_into_anything_else(
    qtbot: QtBot, size: tuple[int, int], palette: Palette
) -> None:
    theme = Theme.for_window(palette, *size)
    with timeline(qtbot, arrival_view(), size, palette, strip=False) as shown:
        for view in views():
            shown.set_view(view)
            column = shown.cards
            rects = [row.rect for row in column.shown]
            assert overlaps(rects) == []
            words = [piece for row in column.shown for piece in row.words]
            boxes = [ink_box(piece, theme) for piece in words]
            assert overlaps(boxes) == []
            assert all(box.left() >= 0 and box.right() <= column.width() for box in boxes)
            for row in column.shown:
                own = [ink_box(piece, theme) for piece in row.words]
                assert all(row.rect.contains(box) for box in own), texts(row)


@WINDOWS
@PALETTES
def test_every_word_of_the_cards_can_be_read(
    qtbot: QtBot, size: tuple[int, int], palette: Palette
) -> None:
    with timeline(qtbot, arrival_view(), size, palette, strip=False) as shown:
        for view in views():
            shown.set_view(view)
            for row in shown.cards.shown:
                ground = {Kind.BIG: palette.live}.get(row.row.kind, palette.panel)
                for piece in row.words:
                    least = 7.0 if piece.style in (Text.BIG_DIGITS, Text.LONG_DIGITS) else 4.5
                    assert contrast(piece.colour, ground) >= least, piece.text


@pytest.mark.parametrize("count", [10, 300, 1000])
def test_the_smallest_window_shows_at_least_five_cards(qtbot: QtBot, count: int) -> None:
    with timeline(qtbot, day_view(count), (1280, 720), strip=False) as shown:
        assert sum(row.card is not None for row in shown.cards.shown) >= 5


def test_the_big_card_is_the_next_live_moment_with_what_comes_first_above(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        first, big, *rest = shown.cards.shown
        assert first.row.kind is Kind.LINE
        assert "first: picture lost" in texts(first)
        assert big.row.kind is Kind.BIG
        assert texts(big)[:2] == ["must be live", "Loss of signal, far side"]
        assert [row.card.id for row in rest if row.card] == [c.id for c in arrival_cards()[2:]]


def test_the_change_that_is_the_same_for_all_stands_below_the_cards(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        last = shown.cards.shown[-1]
        assert last.row.kind is Kind.SUMMARY
        assert texts(last)[0].startswith("All but the school call")
        assert last.words[0].colour == DARK.change


def test_what_is_due_stands_in_one_row_with_the_key_that_confirms_it(qtbot: QtBot) -> None:
    with timeline(qtbot, sorts_view(), strip=False) as shown:
        due = shown.cards.shown[0]
        assert due.row.kind is Kind.DUE
        assert texts(due) == ["1 due: Crew awake, 2 min 00 s past", "Ctrl+Enter confirms"]


def laid(card: Card) -> list[str]:
    theme = Theme()
    rect = row_rect(theme)
    return [piece.text for piece in lay_card(card, rect, theme)]


def row_rect(theme: Theme) -> QRectF:
    return QRectF(16, 0, 560 * theme.scale, 74 * theme.scale)


@pytest.mark.usefixtures("qapp")
def test_each_state_is_said_in_words() -> None:
    hidden, held, clashing, _, unknown = sorts_of_cards()
    assert laid(held)[:5] == ["HELD WITH", "15", "min", "00", "s"]
    assert laid(hidden)[0] == "out of sight"
    assert "first word 5:12 or 5:23" in laid(hidden)
    assert "◆ 2 min too late" in laid(clashing)
    assert laid(unknown)[0] == "no time"


@pytest.mark.usefixtures("qapp")
def test_a_count_past_its_time_has_a_plus_and_an_inexact_one_its_sign() -> None:
    due = replace(card("x", "Crew awake", -65_000), state=CardState.DUE, lead="due")
    assert laid(due)[:6] == ["due", "+", "1", "min", "05", "s"]
    about = card("y", "First picture", 3_000_000, about=True)
    assert laid(about)[:3] == ["≈", "50", "min"]


@pytest.mark.usefixtures("qapp")
def test_a_clock_time_or_a_countdown_is_never_cut_short() -> None:
    theme = Theme()
    for view in views():
        for shown_card in view.cards[:12]:
            for lay in (lay_card, lay_big):
                words = lay(shown_card, row_rect(theme), theme)
                texts_there = [piece.text for piece in words]
                digits = [digits for digits, _ in getattr(shown_card.figure, "parts", ())]
                assert set(digits) <= set(texts_there)
                assert any(shown_card.clock in text for text in texts_there)


@pytest.mark.usefixtures("qapp")
def test_digits_do_not_move_while_they_count() -> None:
    theme = Theme()
    places = set()
    for second in range(60):
        counting = card("x", "Loss", (16 * 60 + second) * 1000)
        for lay in (lay_card, lay_big):
            words = lay(counting, row_rect(theme), theme)
            digits = [w.left_px for w in words if w.text.isdigit() or w.text in ("min", "s")]
            places.add((lay, tuple(digits)))
    assert len(places) == 2


# -------------------------------------------------------------------------------- marks


def mark_colours(image: QImage, row: Shown) -> tuple[set[str], set[str]]:
    x_px = row.rect.left() + 5
    middle_px = row.rect.center().y()
    upper = column_of(image, x_px, row.rect.top() + 6, middle_px - 2)
    lower = column_of(image, x_px, middle_px + 2, row.rect.bottom() - 6)
    return upper, lower


@PALETTES
def test_a_loss_is_filled_above_hatched_and_a_return_hatched_above_filled(
    qtbot: QtBot, palette: Palette
) -> None:
    with timeline(qtbot, arrival_view(), palette=palette, strip=False) as shown:
        image = pixels(shown.cards)
        upper, lower = mark_colours(image, row_of(shown.cards, "loss"))
        assert upper == {palette.voice.name()}
        assert palette.voice.name() not in lower
        assert any(near(QColor(name), palette.hatch, 30) for name in lower)
        upper, lower = mark_colours(image, row_of(shown.cards, "back-burn"))
        assert lower == {palette.voice.name()}
        assert any(near(QColor(name), palette.hatch, 30) for name in upper)


def test_the_mark_has_the_colour_of_its_lane(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        upper, lower = mark_colours(pixels(shown.cards), row_of(shown.cards, "school"))
        assert upper == lower == {DARK.picture.name()}


def test_paired_outcomes_are_joined_by_a_bracket(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        image = pixels(shown.cards)
        top = row_of(shown.cards, "back-no-burn").row.middle_px
        bottom = row_of(shown.cards, "back-burn").row.middle_px
        margin_px = shown.cards.shown[0].rect.left()
        x_px = margin_px - 10
        assert near(image.pixelColor(round(x_px), (top + bottom) // 2), DARK.quiet)
        assert near(image.pixelColor(round(margin_px) - 3, top), DARK.quiet, 60)
        assert not near(image.pixelColor(round(x_px), top - 20), DARK.quiet, 60)


# -------------------------------------------------------------------------------- selecting


def test_the_selected_card_has_a_frame_and_is_told(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        told: list[str] = []
        shown.selected.connect(told.append)
        shown.select_next()
        shown.select_next()
        shown.select_next()
        shown.select_previous()
        assert told == ["picture-lost", "loss", "ignition", "loss"]
        rect = row_of(shown.cards, "loss").rect
        edge = pixels(shown.cards).pixelColor(round(rect.center().x()), round(rect.top()))
        assert near(edge, DARK.outline, 30)
        shown.select("")
        assert told[-1] == ""
        assert shown.selected_id == ""


def test_selecting_below_the_last_card_scrolls_it_into_sight(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(300), strip=False) as shown:
        for _ in range(25):
            shown.select_next()
            assert shown.selected_id in ids(shown.cards)
        assert shown.selected_id == "e24"
        assert not shown.at_now
        for _ in range(24):
            shown.select_previous()
            assert shown.selected_id in ids(shown.cards)
        assert shown.selected_id == "e0"


def test_a_card_pressed_with_the_mouse_is_selected(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        at = row_of(shown.cards, "school").rect.center().toPoint()
        QTest.mouseClick(
            shown.cards, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, QPoint(at)
        )
        assert shown.selected_id == "school"


# -------------------------------------------------------------------------------- scrolling


def test_a_page_ahead_keeps_one_card_and_home_goes_back(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(300), strip=False) as shown:
        at_rest = [row.card.id for row in shown.cards.shown if row.card]
        moves: list[bool] = []
        shown.scrolled.connect(moves.append)
        shown.page(1)
        kept, *ahead = [row.card.id for row in shown.cards.shown if row.card]
        assert kept in at_rest  # the next live moment is still counted down
        assert ahead[0] == at_rest[-1]
        assert texts(shown.cards.shown[0]) == [f"▲ now, {len(at_rest) - 1} cards back"]
        shown.page(1)
        shown.page(-1)
        shown.home()
        assert [row.card.id for row in shown.cards.shown if row.card] == at_rest
        assert moves[0] is True
        assert moves[-1] is False


def test_scrolled_it_stays_where_it_is_while_time_goes_on(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(300), strip=False) as shown:
        shown.cards.scroll_by(20)
        shown.set_view(day_view(300, past=3, now_ms=NOW_MS + 3 * 7 * 60_000))
        assert shown.cards.first_card is not None
        assert shown.cards.first_card.id == "e20"


def test_scrolled_back_the_past_is_there_above_a_marker(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(300, past=40), strip=False) as shown:
        shown.cards.scroll_by(-2)
        kinds = [row.row.kind for row in shown.cards.shown[:4]]
        assert kinds == [Kind.CARD, Kind.CARD, Kind.NOW, Kind.CARD]
        assert texts(shown.cards.shown[2]) == ["now"]
        assert "happened" in texts(shown.cards.shown[0])


def test_a_tick_makes_only_the_cards_in_sight(qtbot: QtBot) -> None:
    with timeline(qtbot, day_view(1000), strip=False) as shown:
        shown.select("e5")
        view = day_view(1000, now_ms=NOW_MS + 1000)
        assert isinstance(view.cards, LazyCards)
        shown.set_view(view)
        pixels(shown)
        assert len(set(view.cards.made)) <= len(shown.cards.shown)


def test_anchors_are_given_from_top_to_bottom(qtbot: QtBot) -> None:
    with timeline(qtbot, sorts_view(), strip=False) as shown:
        anchors = shown.cards.anchors()
        assert all(above.y_px < below.y_px for above, below in pairwise(anchors))
        hidden = row_of(shown.cards, "hidden")
        assert anchors[0].y_px == hidden.row.middle_px


@WINDOWS
def test_of_two_outcomes_never_one_alone_is_in_sight(qtbot: QtBot, size: tuple[int, int]) -> None:
    both = {each.id for each in arrival_view().cards if each.pair}
    assert len(both) == 2
    with timeline(qtbot, arrival_view(), size, strip=False) as shown:
        for _ in range(len(arrival_view().cards)):
            assert both & set(ids(shown.cards)) in (set(), both)
            shown.cards.scroll_by(1)


def test_an_empty_board_shows_no_card(qtbot: QtBot) -> None:
    with timeline(qtbot, view_of(()), strip=False) as shown:
        for act in (shown.select_next, shown.select_previous, shown.home):
            act()
        shown.page(1)
        assert shown.cards.anchors() == ()
        assert shown.selected_id == ""


# -------------------------------------------------------------------------------- reasons


def test_the_selected_card_says_what_binds_its_time(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        assert all("as the flight plan has it" not in texts(row) for row in shown.cards.shown)
        before_px = row_of(shown.cards, "ignition").rect.height()
        for card_id in ("picture-lost", "loss", "ignition"):
            shown.select(card_id)
            opened = [r for r in shown.cards.shown if "as the flight plan has it" in texts(r)]
            assert [row.card.id for row in opened if row.card] == [card_id]
        assert row_of(shown.cards, "ignition").rect.height() > before_px
        assert shown.cards.accessibleDescription().endswith("as the flight plan has it")


@WINDOWS
def test_an_opened_card_overlaps_nothing_whichever_it_is(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    theme = Theme.for_window(DARK, *size)
    with timeline(qtbot, arrival_view(), size, strip=False) as shown:
        for view in (sorts_view(), with_long_texts(sorts_view())):
            shown.set_view(view)
            shown.home()
            shown.select("")
            for _ in view.cards:
                shown.select_next()
                assert shown.selected_id in ids(shown.cards)
                rows = shown.cards.shown
                boxes = [ink_box(piece, theme) for row in rows for piece in row.words]
                assert overlaps([row.rect for row in rows]) == []
                assert overlaps(boxes) == []
                for row in rows:
                    assert all(row.rect.contains(ink_box(p, theme)) for p in row.words)


def test_of_several_out_of_sight_only_the_first_takes_a_whole_card(qtbot: QtBot) -> None:
    dark = [
        replace(card(f"d{n}", f"Burn {n}", n), state=CardState.OUT_OF_SIGHT, figure=None)
        for n in (1, 2, 3)
    ]
    view = view_of([*dark, card("back", "Signal back", 600_000)], big_index=3)
    with timeline(qtbot, view, (1280, 720), strip=False) as shown:
        kinds = [row_of(shown.cards, f"d{n}").row.kind for n in (1, 2, 3)]
        assert kinds == [Kind.CARD, Kind.LINE, Kind.LINE]
