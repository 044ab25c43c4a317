"""This program started once more, as a program of its own: the board from the builder, and back."""

import subprocess
import sys
from pathlib import Path


def start(command: str, path: Path) -> None:
    """Start a command of this program on a plan; it runs on when this one ends."""
    here = Path(sys.argv[0])
    started = ["-m", "app"] if here.name == "__main__.py" else [str(here)]
    words = [sys.executable, *started, command, str(path.absolute())]
    subprocess.Popen(words, start_new_session=True)  # noqa: S603  # this program itself
