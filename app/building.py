"""The plan's file opened in the builder, by a key of the desk window."""

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from app.desk.keys import Command
from app.starting import start


class Building(QObject):
    """Opens the builder, as a program of its own, on the plan that the board was opened on.

    What is saved there is offered by the board, as any change to the plan's file is.
    """

    said = Signal(str)
    """A line for the desk."""

    def __init__(self, path: Path, begin: Callable[[str, Path], None] = start) -> None:
        super().__init__()
        self._path = path
        self._begin = begin

    def commands(self) -> Mapping[Command, Callable[[], object]]:
        """What its key does."""
        return {Command.BUILD: self.open}

    def open(self) -> None:
        """Open it, or say that the file is not there."""
        if not self._path.is_file():
            self.said.emit(f"The plan's file is not there any more: {self._path}")
            return
        self._begin("build", self._path)
        self.said.emit("The plan opens in the builder; what is saved there is offered here")
