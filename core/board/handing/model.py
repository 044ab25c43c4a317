"""The handover page as plain data, every text already written."""

from dataclasses import dataclass, field

from core.board.written import Said


@dataclass(frozen=True, slots=True)
class HandRow:
    """One line of the page: the clock time it is about, what it is, and who typed it."""

    when: str
    words: Said
    by: str = ""


@dataclass(frozen=True, slots=True)
class HandPart:
    """One part of the page under its heading; without rows `none` says so."""

    heading: str
    rows: tuple[HandRow, ...] = ()
    none: str = "none"


@dataclass(frozen=True, slots=True)
class HandPage:
    """All of it. `who` is at the desk, since when, and who was before.

    `away` is the line for one who was here before: 'Since we left: ...'.
    """

    who: Said = field(default=Said(""))
    away: str = ""
    parts: tuple[HandPart, ...] = ()


def as_text(page: HandPage) -> str:
    """The page as lines of text."""
    lines = [page.who.text, *filter(None, [page.away])]
    for part in page.parts:
        lines += ["", part.heading]
        lines += [f"  {_line(row)}" for row in part.rows] or [f"  {part.none}"]
    return "\n".join(lines)


def _line(row: HandRow) -> str:
    words = f"{row.when}  {row.words.text}" if row.when else row.words.text
    return f"{words}  ({row.by})" if row.by else words
