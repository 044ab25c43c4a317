"""What is dropped on a window: the first file, else the text, else nothing."""

from pathlib import Path

from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.builder.dropping import Dropping


def dropped(qtbot: QtBot, mime: QMimeData) -> list[object]:
    window, said = Dropping(), list[object]()
    qtbot.addWidget(window)
    window.file_dropped.connect(said.append)
    window.text_dropped.connect(said.append)
    buttons, held = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    event = QDropEvent(QPointF(5, 5), Qt.DropAction.CopyAction, mime, buttons, held)
    window.dropEvent(event)
    assert event.isAccepted()
    QApplication.processEvents()
    return said


def test_of_several_files_the_first_on_this_computer_is_told(qtbot: QtBot, tmp_path: Path) -> None:
    mime = QMimeData()
    here = [QUrl.fromLocalFile(str(tmp_path / name)) for name in ("a.csv", "b.csv")]
    mime.setUrls([QUrl("https://skerry.example/a.csv"), *here])
    assert dropped(qtbot, mime) == [tmp_path / "a.csv"]


def test_text_is_told_where_no_file_is_dropped(qtbot: QtBot) -> None:
    mime = QMimeData()
    mime.setText("09:10  Suits on")
    assert dropped(qtbot, mime) == ["09:10  Suits on"]


def test_what_is_neither_is_not_told(qtbot: QtBot) -> None:
    mime = QMimeData()
    mime.setData("image/png", b"")
    assert not dropped(qtbot, mime)
