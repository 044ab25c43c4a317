from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtGui import QImage, QPainter, QRegion
from pytestqt.qtbot import QtBot

from app.desk.card_changes import renewed
from app.theme import DARK, LIGHT, Palette, Theme
from core.board.model import Mark, Said, Tone, View
from core.signal.model import Fill
from tests.app.looking import SIZES, pixels, timeline
from tests.app.views import NOW_MS, arrival_view, figure, sorts_view

SIZED = pytest.mark.parametrize("size", SIZES, ids=str)
PALETTES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])


THEME = Theme.for_window(DARK, 1600, 1000)
SMOOTHED = 24
"""Of 255: Qt smooths the large digits up to 17 otherwise where they are clipped.

A piece of text left out, or left standing, differs by more than 80.
"""


def furthest_apart(one: QImage, other: QImage) -> int:
    """The largest difference of any colour of any pixel."""
    pairs = (np.frombuffer(image.constBits(), dtype=np.uint8) for image in (one, other))
    first, second = (each.astype(np.int16) for each in pairs)
    apart = np.abs(first - second).reshape(-1, 4)[:, :3]  # the fourth byte is no colour
    return int(apart.max())


def a_second_later(view: View) -> View:
    """The same rows, with every countdown a good second and a unit further on."""
    cards = tuple(
        replace(card, figure=None if card.figure is None else figure((place + 1) * 3_599_000))
        for place, card in enumerate(view.cards)
    )
    return replace(view, cards=cards)


def otherwise(view: View) -> View:
    """The same rows, with other marks, tags and changes on some of them."""
    mark = Mark("voice", Fill.EITHER, Fill.CLOSED)
    cards = tuple(
        replace(card, mark=mark, change=Said("45 s later", Tone.CHANGE)) if place % 2 else card
        for place, card in enumerate(view.cards)
    )
    return replace(view, cards=cards)


@SIZED
@PALETTES
@pytest.mark.parametrize("change", [a_second_later, otherwise])
@pytest.mark.parametrize("view", [arrival_view(), sorts_view()], ids=["arrival", "sorts"])
def test_painting_what_is_renewed_gives_what_painting_all_gives(
    qtbot: QtBot, size: tuple[int, int], palette: Palette, change: object, view: View
) -> None:
    assert callable(change)
    with timeline(qtbot, view, size, palette, strip=False) as shown:
        cards = shown.cards
        picture, before = pixels(cards), cards.shown
        shown.set_view(change(view))
        part = renewed(before, cards.shown, Theme.for_window(palette, *size))
        assert part is not None
        assert not part.isEmpty()
        with QPainter(picture) as painter:
            painter.setClipRegion(part)
            cards.render(painter, part.boundingRect().topLeft(), part)
        assert furthest_apart(picture, pixels(cards)) <= SMOOTHED


def test_no_name_is_painted_again_when_only_a_second_has_passed(qtbot: QtBot) -> None:
    view = arrival_view()
    with timeline(qtbot, view, strip=False) as shown:
        before = shown.cards.shown
        cards = tuple(replace(c, figure=figure(65_000)) for c in view.cards)
        shown.set_view(replace(view, cards=cards))
        part = renewed(before, shown.cards.shown, THEME)
        assert part is not None
        assert not part.isEmpty()
        for shown_row in before:
            named = shown_row.card.name if shown_row.card is not None else None
            names = [piece for piece in shown_row.words if piece.text == named]
            assert not any(part.contains(piece.box(THEME).center().toPoint()) for piece in names)


def test_the_same_moment_again_paints_nothing(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        before = shown.cards.shown
        shown.set_view(arrival_view(now_ms=NOW_MS))
        part = renewed(before, shown.cards.shown, THEME)
        assert part == QRegion()


def test_rows_that_have_moved_are_painted_wholly(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        before = shown.cards.shown
        shown.cards.scroll_by(2)
        assert renewed(before, shown.cards.shown, THEME) is None


def test_a_row_that_looks_the_same_is_taken_over_as_it_is(qtbot: QtBot) -> None:
    view = arrival_view()
    with timeline(qtbot, view, strip=False) as shown:
        before = shown.cards.shown
        later = replace(view.cards[view.next_index], figure=figure(65_000))
        cards = tuple(later if card.id == later.id else card for card in view.cards)
        shown.set_view(replace(view, cards=cards))
        laid = [new for old, new in zip(before, shown.cards.shown, strict=True) if old is not new]
        assert [each.card for each in laid if each.card is not None] == [later]


def test_in_another_theme_no_row_is_taken_over(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view(), strip=False) as shown:
        before = shown.cards.shown
        shown.set_theme(Theme.for_window(LIGHT, 1600, 1000))
        after = shown.cards.shown
        assert len(before) == len(after)
        assert not any(old is new for old, new in zip(before, after, strict=True))
        assert {w.colour.name() for row in after for w in row.words} <= {
            colour.name() for colour in (LIGHT.text, LIGHT.quiet, LIGHT.change, LIGHT.clash)
        }
