from dataclasses import replace

import pytest
from PySide6.QtCore import QRectF
from pytestqt.qtbot import QtBot

from app.desk.card_words import lay_big, lay_card, lay_line
from app.fonts import FILES, load_fonts
from app.resources import asset
from app.theme import DARK, Theme
from core.board.model import Card, CardState, Said, Tone
from tests.app.looking import SIZES, ink_box, overlaps, timeline
from tests.app.views import card, view_of

WINDOWS = pytest.mark.parametrize("size", SIZES, ids=str)


@pytest.fixture
def _font(qapp: object) -> None:
    del qapp
    load_fonts(asset(name) for name in FILES)


ON_ITS_WAY = "by now it has happened; we hear in"


def _on_its_way(size: tuple[int, int]) -> tuple[Card, QRectF, Theme]:
    theme = Theme.for_window(DARK, *size)
    known = replace(
        card("entry", "Entry, out there", 382_000), lead=ON_ITS_WAY, state=CardState.ON_ITS_WAY
    )
    return known, QRectF(0, 0, theme.px(590), theme.px(74)), theme


@WINDOWS
@pytest.mark.usefixtures("_font")
def test_what_is_on_its_way_says_so_in_full_on_a_card_and_on_a_thin_line(
    size: tuple[int, int],
) -> None:
    known, rect, theme = _on_its_way(size)
    thin = QRectF(0, 0, rect.width(), theme.px(58))
    for words, room in (
        (lay_card(known, rect, theme), rect),
        (lay_line(known, thin, theme, first=True), thin),
    ):
        written = " ".join(piece.text for piece in words)
        assert ON_ITS_WAY in written
        assert "…" not in written
        assert overlaps(ink_box(piece, theme) for piece in words) == []
        assert all(room.contains(ink_box(piece, theme)) for piece in words)


@WINDOWS
@pytest.mark.usefixtures("_font")
def test_a_name_that_is_too_long_for_one_line_takes_two(size: tuple[int, int]) -> None:
    theme = Theme.for_window(DARK, *size)
    name = "Out of contact after the long pass of the morning"
    known = replace(card("loss", name, 382_000), tags=(Said("must be live"),), live=True)
    wide_px = theme.px(590)
    small = QRectF(0, 0, wide_px, theme.px(74))
    thin = QRectF(0, 0, wide_px, theme.px(58))
    big = QRectF(0, 0, wide_px, theme.px(208))
    for words, room in (
        (lay_card(known, small, theme), small),
        (lay_line(known, thin, theme, first=True), thin),
        (lay_big(known, big, theme), big),
    ):
        assert name in " ".join(piece.text for piece in words)
        assert overlaps(ink_box(piece, theme) for piece in words) == []
        assert all(room.contains(ink_box(piece, theme)) for piece in words)


@pytest.mark.usefixtures("_font")
@pytest.mark.parametrize(
    ("wide_px", "note"), [(1000, "data goes first; 1 min 30 s before"), (540, "data goes first")]
)
def test_a_note_without_room_on_the_big_card_is_said_without_its_figures(
    wide_px: int, note: str
) -> None:
    theme = Theme.for_window(DARK, 1280, 720)
    told = replace(
        card("e", "Loss of signal", 600_000),
        live=True,
        change=Said("1 min 30 later", Tone.CHANGE),
        note=Said("data goes first; 1 min 30 s before", Tone.QUIET),
        note_less="data goes first",
    )
    texts = [p.text for p in lay_big(told, QRectF(0, 0, theme.px(wide_px), 166), theme)]
    assert note in texts
    narrow = lay_big(told, QRectF(0, 0, theme.px(440), 166), theme)
    assert not any("data" in piece.text for piece in narrow)


@WINDOWS
def test_a_note_without_room_beside_the_clock_has_a_line_of_its_own(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    note = Said("contact depends on the outcome; ± 15 s", Tone.QUIET)
    cards = [
        replace(card(f"e{n}", f"Event {n}", 600_000 * (n + 1)), note=note, live=n == 0)
        for n in range(4)
    ]
    with timeline(qtbot, view_of(cards), size=size) as shown:
        rows = [row for row in shown.cards.shown if row.card is not None]
        assert len(rows) > 2
        for row in rows:
            assert note.text in [piece.text for piece in row.words]
            boxes = [ink_box(piece, Theme.for_window(DARK, *size)) for piece in row.words]
            assert overlaps(boxes) == []
            assert all(row.rect.contains(box) for box in boxes)
