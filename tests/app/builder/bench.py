"""The builder window as tests use it: no dialogs, no board; keys go where the keyboard is."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.builder.editing import EditPage
from app.builder.table import Table
from app.builder.window import BuilderWindow
from app.fonts import FILES, load_fonts
from app.resources import asset, sample_plan
from app.theme import DARK, Palette

FIRST = sample_plan("first-steps").read_text(encoding="utf-8")


class Asked:
    """Answers with files, in place of dialogs."""

    def __init__(self) -> None:
        self.opens: Path | None = None
        self.saves: Path | None = None
        self.proposed = ""

    def to_open(self, folder: Path) -> Path | None:
        del folder
        return self.opens

    def to_save(self, folder: Path, name: str) -> Path | None:
        del folder
        self.proposed = name
        return self.saves


class Bench:
    """A window, and hands that type."""

    def __init__(
        self, qtbot: QtBot, window: BuilderWindow, asked: Asked, boards: list[Path]
    ) -> None:
        self.qtbot, self.window, self.asked, self.boards = qtbot, window, asked, boards

    @property
    def edit(self) -> EditPage:
        assert self.window.edit is not None
        return self.window.edit

    @property
    def table(self) -> Table:
        return self.edit.table

    @property
    def text(self) -> str:
        assert self.window.draft is not None
        return self.window.draft.text

    @property
    def said(self) -> str:
        return self.window.line.text()

    def focused(self) -> QWidget:
        widget = QApplication.focusWidget()
        assert widget is not None
        return widget

    def key(self, key: Qt.Key, *held: Qt.KeyboardModifier) -> None:
        modifiers = Qt.KeyboardModifier.NoModifier
        for one in held:
            modifiers |= one
        QTest.keyClick(self.focused(), key, modifiers)
        QApplication.processEvents()

    def ctrl(self, key: Qt.Key) -> None:
        self.key(key, Qt.KeyboardModifier.ControlModifier)

    def type(self, text: str) -> None:
        for letter in text:
            QTest.keyClicks(self.focused(), letter)
        QApplication.processEvents()

    def fill(self, text: str) -> None:
        """Type into the cell one stands on, and Enter."""
        self.key(Qt.Key.Key_F2)
        line = self.focused()
        assert isinstance(line, QLineEdit), line
        line.selectAll()
        self.type(text)
        unoffer(line)
        self.key(Qt.Key.Key_Return)

    def paste(self, text: str) -> None:
        QApplication.clipboard().setText(text)
        self.ctrl(Qt.Key.Key_V)

    def wait_for_import(self) -> None:
        page = self.window.taking
        self.qtbot.waitUntil(
            lambda: not page.is_reading and not page.progress.text(), timeout=20_000
        )


def unoffer(line: QLineEdit) -> None:
    """Close the list of what could stand there."""
    popup = line.completer().popup() if line.completer() is not None else None
    if popup is not None:
        popup.hide()


@contextmanager
def bench(
    qtbot: QtBot,
    path: Path | None = None,
    size: tuple[int, int] = (1600, 1000),
    palette: Palette = DARK,
    drafts: Path | None = None,
) -> Iterator[Bench]:
    """A window that is shown and has the keyboard."""
    QApplication.setStyle("Fusion")
    load_fonts(asset(name) for name in FILES)
    asked, boards = Asked(), list[Path]()
    stack = ExitStack()
    kept = drafts or Path(stack.enter_context(TemporaryDirectory()))
    window = BuilderWindow(asked, boards.append, date(2031, 5, 1), kept, palette)
    window.resize(*size)
    if path is not None:
        window.open(path)
    with qtbot.waitExposed(window):
        window.show()
    window.activateWindow()
    QApplication.processEvents()
    try:
        yield Bench(qtbot, window, asked, boards)
    finally:
        if window.draft is not None:
            window.draft.saved = window.draft.text
        window.close()
        window.deleteLater()
        stack.close()
