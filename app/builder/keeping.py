"""Keeps the draft one works on while it is not saved, and offers what an earlier run left."""

from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from app.builder.unsaved import Kept, free_file, keep, kept_draft
from core.plan.drafting.draft import Draft

_PAUSE_MS = 400
"""So long after a change the draft is kept."""


class Keeping(QObject):
    """Keeps one draft at a time in a folder. Nothing of it ever touches a plan's file."""

    failed = Signal(str)
    """Why a draft cannot be kept; told once."""

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._folder = folder
        self._draft: Draft | None = None
        self._plan: Path | None = None
        self._file: Path | None = None
        self._told = False
        self.offered: Kept | None = None
        """What an earlier run left; it can be taken up as long as the window is open."""
        self.offered_of: Path | None = None
        """The plan it is a draft of; None for a new one."""
        self.words = ""
        """How it is offered."""
        self._pause = QTimer(self, singleShot=True, interval=_PAUSE_MS)
        self._pause.timeout.connect(self._keep)

    # ------------------------------------------------------------------ keeping

    def watch(self, draft: Draft, plan: Path | None, kept: Kept | None = None) -> None:
        """Keep another draft from now on; the one before is let go. `kept`: it was taken up."""
        self.let_go()
        self._draft, self._plan = draft, plan
        self._file = kept.file if kept is not None else None
        if kept is not None:
            self.offered, self.words = None, ""

    def changed(self) -> None:
        """The draft has changed, or was saved: keep it, or let it go."""
        if self._draft is not None and self._draft.is_changed:
            self._pause.start()
        else:
            self.let_go()

    def let_go(self) -> None:
        """Remove what is kept of the draft: it is saved, or forgotten on purpose."""
        self._pause.stop()
        if self._file is not None:
            self._remove(self._file)
        self._file = None

    def _keep(self) -> None:
        draft = self._draft
        if draft is None or not draft.is_changed:
            return
        self._file = self._file or free_file(self._folder, self._plan)
        try:
            keep(self._file, draft.saved, draft.text)
        except OSError as error:
            if not self._told:
                self.failed.emit(f"◆ Unsaved changes cannot be kept: {error.strerror}. Save often")
            self._told = True

    # ------------------------------------------------------------------ offering

    def look_for(self, plan: Path | None, standing: str) -> str:
        """Look for what an earlier run left of a plan; gives the words that offer it, if any."""
        self.offered = kept = kept_draft(self._folder, plan, standing)
        self.offered_of, self.words = plan, ""
        if kept is not None:
            of = "a new plan" if plan is None else plan.name
            when = f"{kept.at.day} {kept.at:%b %H:%M}"
            self.words = (
                f"An unsaved draft of {of} is here, of {when}: Ctrl+T takes it up, Esc leaves it"
            )
        return self.words

    def leave(self) -> str:
        """Let go of what is offered; gives what to say of it."""
        if self.offered is None:
            return ""
        self._remove(self.offered.file)
        self.words = ""
        return "The unsaved draft is let go. Until this window is closed, Ctrl+T still takes it up"

    def _remove(self, file: Path) -> None:
        try:
            file.unlink(missing_ok=True)
        except OSError as error:
            self.failed.emit(f"◆ The unsaved draft cannot be removed: {error.strerror}")
