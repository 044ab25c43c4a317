"""What the builder window needs of whoever asks for files."""

from pathlib import Path
from typing import Protocol


class Asking(Protocol):
    """Asks for a file's name; None where the person thinks better of it."""

    def to_open(self, folder: Path) -> Path | None:
        """One that is there."""

    def to_save(self, folder: Path, name: str) -> Path | None:
        """One to write, with a name proposed."""
