"""PySide's other ways to write its names (`from __feature__ import …`), which nobody uses here.

To know which modules might, PySide puts itself before Python's import and looks through the source
of every module that is imported after it. That took a tenth of the time until the strip is painted,
and keeps hundreds of sources in memory.
"""

import builtins

import PySide6.QtCore  # noqa: F401  # once it is there, so is what it put before the import


def turn_off() -> None:
    """Let Python import by itself again, from now on."""
    plain = getattr(builtins, "__orig_import__", None)
    if plain is not None:
        builtins.__import__ = plain
