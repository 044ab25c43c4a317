"""Entries taken one after another without a screen, for the commands."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.errors import EntryProblem, EntryRefused
from core.schedule.model import Clash
from core.session.desk import Desk
from core.session.previews import Considered


class EntryFailed(EntryProblem):
    """A line that cannot be read or taken; `typed` is the whole line."""

    def __init__(self, typed: str, problem: EntryProblem | EntryRefused) -> None:
        part = problem.part if isinstance(problem, EntryProblem) else ""
        super().__init__(f"'{typed}': {problem.what}", part, problem.hint)
        self.typed = typed


@dataclass(frozen=True, slots=True)
class Run:
    """What became of the lines: which older figures gave way, what stopped them, what was asked.

    `stopped_at` is the line whose clash stopped the run, or, where none did, the last after which
    something contradicts itself all the same; empty: the plan does so by itself, or nothing does.
    """

    yielded: tuple[str, ...]
    clash: Clash | None
    stopped_at: str
    notes: tuple[str, ...]


def run(desk: Desk, lines: Sequence[str], now_ms: int, *, anyway: bool = False) -> Run:
    """Enter the lines in order. A clash stops the run unless `anyway` sets it all the same.

    Nothing else is asked; what the entry bar would have asked is in the notes. Raises EntryFailed.
    """
    yielded: dict[str, None] = {}
    notes: list[str] = []
    blame = ""
    for line in lines:
        try:
            considered = desk.consider(line, "", now_ms)
            effect = considered.effect
            if effect.clash is not None and not anyway:
                return Run(tuple(yielded), effect.clash, line, tuple(notes))
            asked = (*considered.reading.asks, *filter(None, [effect.asks, _on_air(considered)]))
            notes += [f"{line}: {words}" for words in asked]
            others = [reading.how for reading in considered.readings[1:]]
            notes += [f"{line}: also read as {how}" for how in others]
            before = desk.clashes
            effect = desk.take(considered, now_ms).effect
        except (EntryProblem, EntryRefused) as problem:
            raise EntryFailed(line, problem) from problem
        yielded.update(dict.fromkeys(effect.yielded))
        notes += [f"{line}: {words}" for words in effect.notes]
        if desk.clashes != before:
            blame = line
    standing = desk.clashes
    return Run(tuple(yielded), standing[0] if standing else None, blame, tuple(notes))


def _on_air(considered: Considered) -> str:
    """What a line about the air would lose there, if it does."""
    entry, supposed = considered.entry, considered.supposed
    return "" if entry is None or supposed is None else supposed.asks(entry.action)
