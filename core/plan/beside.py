"""The files beside a plan: on disk, or as the texts that were kept of them."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from core.errors import Place, PlanProblems, Problem
from core.plan.files import beside, read_text


class Beside(Protocol):
    """Where a plan's courses find their own files."""

    def missing(self, name: str) -> tuple[str, str]:
        """What is wrong with the name of a file, and the remedy; both empty where it is there."""

    def read(self, name: str, shown: str, largest_bytes: int, smaller: str) -> str:
        """The text of a file that is there. Raises PlanProblems as `core.plan.files` does."""


@dataclass(frozen=True, slots=True)
class OnDisk:
    """The files in the plan's folder."""

    folder: Path

    def missing(self, name: str) -> tuple[str, str]:
        """What is wrong with the name of a file, and the remedy; both empty where it is there."""
        path, what, hint = beside(self.folder, name)
        if path is not None and not path.is_file():
            return _no_file(name)
        return what, hint

    def read(self, name: str, shown: str, largest_bytes: int, smaller: str) -> str:
        """The text of a file that is there."""
        path, what, hint = beside(self.folder, name)
        if path is None:
            raise PlanProblems((Problem(Place(shown), what, hint),))
        return read_text(path, shown, largest_bytes, smaller)


@dataclass(frozen=True, slots=True)
class Kept:
    """The texts that were read with the plan, by the names the plan has for them."""

    texts: Mapping[str, str]

    def missing(self, name: str) -> tuple[str, str]:
        """What is wrong with the name of a file, and the remedy; both empty where it is there."""
        return ("", "") if name in self.texts else _no_file(name)

    def read(self, name: str, shown: str, largest_bytes: int, smaller: str) -> str:
        """The text that was kept; what was read once is neither too large nor unreadable."""
        del shown, largest_bytes, smaller
        return self.texts[name]


def _no_file(name: str) -> tuple[str, str]:
    return f"there is no file '{name[:60]}' beside the plan", "Check the name"
