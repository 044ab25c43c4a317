"""The files that a rehearsal was begun with: changed meanwhile, they are told of and not taken."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject


class Unchanged(QObject):
    """Says which of the files has changed, each once. `say` gets the line."""

    def __init__(
        self, files: tuple[Path, ...], say: Callable[[str], object], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._say = say
        self._stamps = {file: _stamp(file) for file in files}
        folders = {str(file.parent) for file in files if file.parent.is_dir()}
        self._watcher = QFileSystemWatcher(self)
        self._watcher.addPaths([*sorted(folders), *(str(file) for file in files if file.exists())])
        self._watcher.fileChanged.connect(self._look)
        self._watcher.directoryChanged.connect(self._look)

    def _look(self) -> None:
        changed = [file for file, stamp in self._stamps.items() if _stamp(file) != stamp]
        for file in changed:
            del self._stamps[file]
            self._say(f"{file.name} has changed on disk: this rehearsal goes on as it was begun")


def _stamp(file: Path) -> tuple[int, int]:
    try:
        told = file.stat()
    except OSError:
        return 0, 0
    return told.st_size, told.st_mtime_ns
