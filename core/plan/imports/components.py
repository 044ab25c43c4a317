"""The components of a calendar's text, each with its lines, before anything reads them."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.plan.imports.opening import lines_of

MOST_LINES = 5_000
"""Lines of one entry. What is longer carries a file within, or is none."""

_EDGE = re.compile(r"(BEGIN|END):([A-Z0-9-]{1,40})\s*", re.I)
_HOLDERS = frozenset({"VCALENDAR"})


@dataclass(frozen=True, slots=True)
class Component:
    """One component: its kind ('VEVENT'), its first line, its lines; `wrong` if it is broken.

    A line outside all components is one of kind ''.
    """

    kind: str
    line: int
    lines: tuple[str, ...]
    wrong: str = ""

    @property
    def text(self) -> str:
        """What stood there."""
        return "\n".join(self.lines)

    @property
    def more_lines(self) -> tuple[int, ...]:
        """The numbers of its lines but the first."""
        return tuple(range(self.line + 1, self.line + len(self.lines)))

    def line_of(self, name: str) -> int:
        """The line on which a property of it stands; its first line where none does."""
        for at, line in enumerate(self.lines):
            if re.match(rf"{re.escape(name)}[:;]", line, re.I):
                return self.line + at
        return self.line


def components_of(text: str) -> Iterator[Component]:
    """Every component right inside the calendar, and every other line that is not blank."""
    lines = lines_of(text)
    at = 0
    while at < len(lines):
        edge = _EDGE.fullmatch(lines[at])
        kind = edge[2].upper() if edge else ""
        if not lines[at].strip():
            at += 1
        elif edge is None or edge[1].upper() == "END" or kind in _HOLDERS:
            end = at + 1
            while edge is None and end < len(lines) and lines[end][:1] in (" ", "\t"):
                end += 1
            yield Component("", at + 1, tuple(lines[at:end]))
            at = end
        else:
            end, wrong = _end_of(lines, at, kind)
            yield Component(kind, at + 1, tuple(lines[at:end]), wrong)
            at = end


def _end_of(lines: Sequence[str], start: int, kind: str) -> tuple[int, str]:
    """Where a component ends, and what is wrong with it."""
    for at in range(start + 1, len(lines)):
        edge = _EDGE.fullmatch(lines[at])
        if edge is None:
            continue
        inner = edge[2].upper()
        if edge[1].upper() == "END" and inner == kind:
            long = at + 1 - start > MOST_LINES
            return at + 1, f"this entry has over {MOST_LINES:,} lines" if long else ""
        if inner in (kind, "VCALENDAR"):
            return at, f"BEGIN:{kind} has no END:{kind}"
    return len(lines), f"BEGIN:{kind} has no END:{kind}"
