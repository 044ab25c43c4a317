"""What a session's file says beside the entries: of what it is, and when it was last alive."""

import json
from dataclasses import dataclass
from typing import Any

from core.entries.model import Entry
from core.errors import SessionProblem
from core.plan.model import Plan
from core.session.codec import entry_of
from core.session.database import Database
from core.session.kept_plan import Ready, plan_of_plain, plan_to_plain
from core.session.plain import of_plain, to_plain
from core.session.sealing import sealed, unsealed


@dataclass(frozen=True, slots=True)
class Beat:
    """A sign of life: the machine's time, and how the board's clock stood then."""

    machine_ms: int
    board_ms: int
    rate: float = 1.0
    paused: bool = False


@dataclass(frozen=True, slots=True)
class About:
    """What a session is of: the plan as it was when it began, and whether it is a rehearsal."""

    plan: Plan
    path: str
    rehearsal: bool = False


@dataclass(frozen=True, slots=True)
class Kept:
    """What a session's file holds. `kept_ms`: the machine's time when the last entry was kept."""

    about: About | None
    entries: tuple[Entry, ...]
    beat: Beat | None = None
    kept_ms: int | None = None


def about_text(about: About) -> str:
    """What a session is of, as text."""
    parts = {"path": about.path, "rehearsal": about.rehearsal, "plan": plan_to_plain(about.plan)}
    return sealed(json.dumps(parts, separators=(",", ":")))


def about_of(text: str) -> About:
    """What a session is of. Raises SessionProblem where it cannot be read."""
    parts = _parsed(unsealed(text))
    if not {"path", "rehearsal", "plan"} <= parts.keys():
        raise SessionProblem("The session does not say what it is of")
    return About(
        plan_of_plain(parts["plan"], "The session's plan"),
        of_plain(str, parts["path"], "path"),
        of_plain(bool, parts["rehearsal"], "rehearsal"),
    )


def beat_text(beat: Beat) -> str:
    """A sign of life as text."""
    return sealed(json.dumps(to_plain(beat)))


def read_kept(database: Database, ready: Ready) -> Kept:
    """All that a file holds. Raises sqlite3.Error, and SessionProblem for what is spoilt."""
    abouts = [row[0] for row in database.execute("SELECT about FROM session")]
    rows = list(database.execute("SELECT number, body, kept_ms FROM entry ORDER BY number"))
    beats = [row[0] for row in database.execute("SELECT body FROM beat")]
    return Kept(
        about=about_of(abouts[0]) if abouts else None,
        entries=tuple(_entry_of(number, body, ready) for number, body, _ in rows),
        beat=_beat_of(beats[0]) if beats else None,
        kept_ms=rows[-1][2] if rows else None,
    )


def _entry_of(number: object, body: object, ready: Ready) -> Entry:
    entry = entry_of(unsealed(str(body)), ready)
    if entry.number != number:
        raise SessionProblem(f"Entry {number} says that it is {entry.number}")
    return entry


def _beat_of(text: str) -> Beat | None:
    """The last sign of life; one that is spoilt is none."""
    try:
        beat: Beat = of_plain(Beat, _parsed(unsealed(text)), "beat")
    except SessionProblem:
        return None
    return beat


def _parsed(text: str) -> dict[str, Any]:
    try:
        parts = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise SessionProblem("What was kept is no JSON") from error
    if not isinstance(parts, dict):
        raise SessionProblem("What was kept is no JSON object")
    return parts
