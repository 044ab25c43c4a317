"""The builder as a program of its own: the window, its dialogs, and the board it opens."""

import gc
import signal
import subprocess
import sys
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from app.builder.window import BuilderWindow
from app.folders import settings_file
from app.main import application
from app.settings import SettingsFile
from app.theme import DARK, HEIGHT_PX, LIGHT, WIDTH_PX

_ENDINGS = "*.toml *.csv *.tsv *.txt *.ics *.oem *.omm *.tle *.xml"
_TAKEN = f"Plans and what a mission hands out ({_ENDINGS})"


class Dialogs:
    """Asks with the system's dialogs."""

    def __init__(self) -> None:
        self.parent: QWidget | None = None

    def to_open(self, folder: Path) -> Path | None:
        """A file that is there."""
        name, _ = QFileDialog.getOpenFileName(
            self.parent, "Open", str(folder), f"{_TAKEN};;All files (*)"
        )
        return Path(name) if name else None

    def to_save(self, folder: Path, name: str) -> Path | None:
        """A file to write."""
        # What is there already is told by the window, which never writes over it.
        taken, _ = QFileDialog.getSaveFileName(
            self.parent,
            "Save the plan",
            str(folder / name),
            "Plans (*.toml)",
            options=QFileDialog.Option.DontConfirmOverwrite,
        )
        return Path(taken) if taken else None


def open_board(path: Path) -> None:
    """Open the board on a plan, as a program of its own."""
    here = Path(sys.argv[0])
    started = ["-m", "app"] if here.name == "__main__.py" else [str(here)]
    command = [sys.executable, *started, "board", str(path.absolute())]
    subprocess.Popen(command, start_new_session=True)  # noqa: S603  # this program itself


def run_builder(path: Path | None = None) -> int:
    """Open the builder window and run until it is closed; gives the exit status."""
    app = application()
    dialogs = Dialogs()
    dark = SettingsFile(settings_file()).settings.dark
    today = datetime.now().astimezone().date()
    window = BuilderWindow(dialogs, open_board, today, DARK if dark else LIGHT)
    dialogs.parent = window
    room = window.screen().availableSize()
    window.resize(min(WIDTH_PX, room.width()), min(HEIGHT_PX, room.height()))
    if room.width() <= WIDTH_PX or room.height() <= HEIGHT_PX:
        window.setWindowState(Qt.WindowState.WindowMaximized)
    if path is not None:
        window.open(path)
    window.show()
    gc.enable()
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # Ctrl+C in the terminal ends it
    status = app.exec()
    window.deleteLater()
    return status
