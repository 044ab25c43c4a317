"""Header and CONTACT paint anew only what has changed, and that gives what painting all gives."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.board.model import Said, Tone, View
from tests.app.desk.seat import Seat, seated
from tests.app.desk.test_card_changes import SMOOTHED, furthest_apart
from tests.app.looking import SIZES, pixels
from tests.app.views import arrival_view, figure

SIZED = pytest.mark.parametrize("size", SIZES, ids=str)


class Painted(QObject):
    """Notes what of a widget is painted."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__()
        self.region = QRegion()
        widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802  # Qt calls it
        if isinstance(event, QPaintEvent):
            self.region += event.region()
        return False


@contextmanager
def noted(widget: QWidget) -> Iterator[Painted]:
    QApplication.processEvents()
    painted = Painted(widget)
    yield painted
    QApplication.processEvents()
    widget.removeEventFilter(painted)


def a_second_later(view: View) -> View:
    lanes = tuple(
        replace(lane, figure=lane.figure and figure((place + 1) * 3_599_000))
        for place, lane in enumerate(view.contact.lanes)
    )
    header = replace(view.header, clock="11:59:59 p.m.", utc="02:59:59", elapsed="3 d 10:31:27")
    return replace(view, header=header, contact=replace(view.contact, lanes=lanes))


def otherwise(view: View) -> View:
    header = replace(view.header, status=Said("Off the air in 5 min", Tone.CHANGE))
    last = replace(view.contact.lanes[-1], word="out of contact", then="then through Skerry Point")
    lanes = (*view.contact.lanes[:-1], last)
    return replace(view, header=header, contact=replace(view.contact, lanes=lanes), saved="no room")


def shown(seat: Seat, view: View) -> None:
    seat.desk.shown = view
    seat.pass_time(0)


@SIZED
@pytest.mark.parametrize("change", [a_second_later, otherwise])
@pytest.mark.parametrize("part", ["header", "contact"])
def test_painting_what_is_renewed_gives_what_painting_all_gives(
    qtbot: QtBot, size: tuple[int, int], change: object, part: str
) -> None:
    assert callable(change)
    with seated(qtbot, size=size) as seat:
        widget = {"header": seat.window.header, "contact": seat.window.side.contact}[part]
        shown(seat, arrival_view())
        picture = pixels(widget)
        with noted(widget) as painted:
            shown(seat, change(arrival_view()))
        region = painted.region
        assert not region.isEmpty()
        assert region != QRegion(widget.rect())
        with QPainter(picture) as painter:
            painter.setClipRegion(region)
            widget.render(painter, region.boundingRect().topLeft(), region)
        assert furthest_apart(picture, pixels(widget)) <= SMOOTHED


def test_no_name_is_painted_again_when_only_a_second_has_passed(qtbot: QtBot) -> None:
    with seated(qtbot) as seat:
        shown(seat, arrival_view())
        contact, header = seat.window.side.contact, seat.window.header
        with noted(contact) as in_contact, noted(header) as in_header:
            shown(seat, a_second_later(arrival_view()))
        names = contact.rect().adjusted(20, 40, -contact.width() + 120, -80)
        assert not in_contact.region.intersects(names)
        flight = header.rect().adjusted(0, 0, -header.width() + 90, -2)
        assert not in_header.region.intersects(flight)


def test_the_same_moment_again_paints_nothing(qtbot: QtBot) -> None:
    with seated(qtbot) as seat:
        shown(seat, arrival_view())
        contact, header = seat.window.side.contact, seat.window.header
        with noted(contact) as in_contact, noted(header) as in_header:
            shown(seat, arrival_view())
        assert in_contact.region == QRegion()
        assert in_header.region == QRegion()
