"""Where the day's entries are kept. The session is an append-only list."""

from collections.abc import Sequence
from typing import Protocol

from core.entries.model import Entry


class Store(Protocol):
    """Keeps what was entered, in order."""

    @property
    def entries(self) -> Sequence[Entry]:
        """All entries, oldest first, those taken back too."""

    @property
    def trouble(self) -> str:
        """Why the entries are not all safe ('not saved', 'writing …'), or empty."""

    @property
    def unsaved(self) -> int:
        """How many entries would be forgotten if the program ended now for good."""

    @property
    def reads_only(self) -> bool:
        """Whether another program writes to this session: nothing can be entered here."""

    def append(self, entry: Entry) -> None:
        """Keep one more."""


class MemoryStore:
    """Keeps the entries as long as the program runs, and says that it does no more."""

    trouble = "not saved"
    reads_only = False

    def __init__(self) -> None:
        self._entries: list[Entry] = []

    @property
    def entries(self) -> Sequence[Entry]:
        """All entries, oldest first."""
        return self._entries

    @property
    def unsaved(self) -> int:
        """All of them."""
        return len(self._entries)

    def append(self, entry: Entry) -> None:
        """Keep one more."""
        self._entries.append(entry)
