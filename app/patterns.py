"""The shapes of the signal: filled, hatched, either, closed; the same on cards and strip."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app.theme import Theme
from core.signal.model import Fill

_TILE_PX = 9
_LINE_PX = 1.6
_REPEATS = 16
"""A tile holds the pattern so many times each way: filling goes tile by tile."""


class Patterns:
    """Paints stretches of a lane from small tiles that are made once for a theme."""

    def __init__(self, theme: Theme) -> None:
        self._theme = theme
        self._tiles: dict[tuple[str, Fill, float], QPixmap] = {}

    def fill(self, painter: QPainter, rect: QRectF, role: str, fill: Fill) -> None:
        """Fill a rectangle as that lane is.

        The tiles hang on the rectangle's left edge and on the window's top, so that an edge
        which moves down the strip slides over the hatching, and nothing swims.
        """
        if fill is Fill.CONTACT:
            painter.fillRect(rect, self._theme.ink.lane(role))
        elif rect.height() > 0:
            # Asked for each time: a window may be moved to a screen with other pixels.
            tile = self._tile(role, fill, painter.device().devicePixelRatioF())
            side_px = self._theme.px(_TILE_PX)
            painter.drawTiledPixmap(rect, tile, QPointF(0.0, rect.top() % side_px))

    def _tile(self, role: str, fill: Fill, ratio: float) -> QPixmap:
        # A gap looks the same on every lane.
        key = ("" if fill is Fill.GAP else role, fill, ratio)
        if key not in self._tiles:
            self._tiles[key] = self._tiled(role, fill, ratio)
        return self._tiles[key]

    def _tiled(self, role: str, fill: Fill, ratio: float) -> QPixmap:
        once = self._painted(role, fill, ratio)
        tile = QPixmap(once.size() * _REPEATS)
        tile.setDevicePixelRatio(ratio)
        with QPainter(tile) as painter:
            painter.drawTiledPixmap(QRectF(tile.rect()), once)
        return tile

    def _painted(self, role: str, fill: Fill, ratio: float) -> QPixmap:
        """The pattern once; `ratio` is physical pixels to a pixel of the window."""
        side = self._theme.px(_TILE_PX)
        tile = QPixmap(round(side * ratio), round(side * ratio))
        tile.setDevicePixelRatio(ratio)
        ink = self._theme.ink
        tile.fill(ink.ground if fill is Fill.GAP else muted(role, self._theme))
        painter = QPainter(tile)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        line = ink.hatch if fill is Fill.GAP else ink.lane(role)
        painter.setPen(QPen(line, max(1.2, _LINE_PX * self._theme.scale)))
        if fill is Fill.CLOSED:
            _level_line(painter, side)
        else:
            _slanted_lines(painter, side)
        painter.end()
        return tile


def muted(role: str, theme: Theme) -> QColor:
    """Give the ground of the third and fourth pattern: the lane's colour, held back."""
    return mixed(theme.ink.lane(role), theme.ink.ground, 0.42)


def mixed(one: QColor, other: QColor, share: float) -> QColor:
    """Give a colour between two: `share` of the first, the rest of the second."""
    parts = (
        round(a * share + b * (1 - share))
        for a, b in zip(one.getRgb()[:3], other.getRgb()[:3], strict=True)  # type: ignore[index]
    )
    return QColor(*parts)


def _slanted_lines(painter: QPainter, side: int) -> None:
    """One line from corner to corner, and its neighbours' corners, so that tiles join."""
    painter.setPen(_flat(painter.pen()))
    for shift in (-side, 0, side):
        painter.drawLine(QPointF(shift - 1, side + 1), QPointF(shift + side + 1, -1))


def _level_line(painter: QPainter, side: int) -> None:
    painter.drawLine(QPointF(-1, side / 2), QPointF(side + 1, side / 2))


def _flat(pen: QPen) -> QPen:
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen
