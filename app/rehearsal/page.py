"""The score of a rehearsal as files beside its session: a page, and a line of JSON."""

from pathlib import Path

from app.commands.rehearsing import score_json
from app.printing.saving import CannotWrite, save
from app.score.page import score_page
from core.rehearsal.live import LiveRun


class PageFile:
    """Writes the score page, anew each time it is asked. `told` is where it is, or why not.

    Only the folder of the usual place is made where it is not there.
    """

    def __init__(self, usual: Path, named: Path | None = None) -> None:
        self._path = named or usual
        self._named = named is not None
        self.told = ""

    def write(self, run: LiveRun) -> str:
        """Write the score so far; gives in words where it is."""
        day, score = run.ended()
        page = score_page(score, day, run.plan, run.style.hours)
        beside = self._path.with_suffix(".json")
        try:
            if not self._named:
                self._path.parent.mkdir(parents=True, exist_ok=True)
            save(self._path, page.encode())
            if beside != self._path:
                save(beside, f"{score_json(score, day)}\n".encode())
        except (CannotWrite, OSError) as problem:
            self.told = f"No score page: {problem}"
        else:
            self.told = f"The score page is {self._path}"
        return self.told
