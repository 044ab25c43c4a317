"""The builder as a program of its own: the window, its dialogs, and the board it opens."""

import gc
import signal
import sys
from datetime import datetime
from functools import partial
from pathlib import Path

import PySide6
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from app.builder.window import BuilderWindow
from app.crash import Alarm, state_folder
from app.folders import drafts_folder, settings_file
from app.main import QtRefused, application
from app.settings import SettingsFile
from app.starting import start
from app.theme import DARK, HEIGHT_PX, LIGHT, WIDTH_PX
from app.versions import refusal

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


def run_builder(path: Path | None = None) -> int:
    """Open the builder window and run until it is closed; gives the exit status.

    Raises QtRefused where this Qt cannot be used.
    """
    refused = refusal(sys.version_info[:2], PySide6.__version_info__[:2])
    if refused is not None:
        raise QtRefused(refused)
    app = application()
    dialogs = Dialogs()
    dark = SettingsFile(settings_file()).settings.dark
    today = datetime.now().astimezone().date()
    window = BuilderWindow(
        dialogs, partial(start, "board"), today, drafts_folder(), DARK if dark else LIGHT
    )
    dialogs.parent = window
    alarm = Alarm(state_folder() / "limbwatch.log")
    alarm.raised.connect(window.say)
    alarm.install()
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
    alarm.remove()
    window.deleteLater()
    return status
