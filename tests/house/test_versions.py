"""Which Qt is refused on which Python, and that the one in use does not lose None."""

import sys

import pytest
from PySide6.QtGui import QColor, QImage, QPainter

from app.versions import refusal

FILLS = 2000


@pytest.mark.parametrize(
    ("python", "pyside"),
    [((3, 11), (6, 11)), ((3, 12), (6, 11)), ((3, 12), (6, 12)), ((3, 13), (6, 12))],
)
def test_a_qt_that_keeps_its_references_is_taken(
    python: tuple[int, int], pyside: tuple[int, int]
) -> None:
    assert refusal(python, pyside) is None


def test_the_qt_that_aborts_on_this_python_is_refused_with_a_remedy() -> None:
    line = refusal((3, 11), (6, 12))
    assert line is not None
    assert "PySide6 6.12" in line
    assert "Python 3.11" in line
    assert "6.11.3" in line
    assert "\n" not in line


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="from 3.12 on None is never counted")
def test_painting_loses_no_reference_to_none() -> None:
    image = QImage(8, 8, QImage.Format.Format_ARGB32)
    colour = QColor(1, 2, 3)
    painter = QPainter(image)
    painter.fillRect(0, 0, 8, 8, colour)  # the first call sets up tables that hold None
    before = sys.getrefcount(None)
    for _ in range(FILLS):
        painter.fillRect(0, 0, 8, 8, colour)
    lost = before - sys.getrefcount(None)
    painter.end()
    # 6.12 loses one a call; a few come and go with whatever else runs.
    assert abs(lost) < FILLS / 10
