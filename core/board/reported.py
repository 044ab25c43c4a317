"""A report that reached the desk in a rehearsal, as the desk reads it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Reported:
    """One report: when it came, its words, whether anything was entered since."""

    at_ms: int
    when: str
    words: str
    entered: bool
