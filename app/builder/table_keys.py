"""What the keys that concern the tables do."""

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QApplication

from app.builder.editing import EditPage
from app.builder.keys import Command


def on_tables(edit: EditPage) -> dict[Command, Callable[[], None]]:
    """What each command does on a page of tables."""
    clipboard = QApplication.clipboard()
    return {
        Command.UNDO: edit.undo,
        Command.REDO: partial(edit.undo, again=True),
        Command.INSERT: edit.insert,
        Command.DELETE: edit.delete,
        Command.PASTE: lambda: edit.paste(clipboard.text()),
        Command.COPY: lambda: clipboard.setText(edit.copy()),
        Command.NEXT_PART: edit.next_part,
        Command.NEXT_SECTION: partial(edit.turn, 1),
        Command.LAST_SECTION: partial(edit.turn, -1),
        Command.NEXT_PROBLEM: edit.next_problem,
    }
