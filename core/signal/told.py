"""What the desk has told the signal: edges seen, heard or revised, and outcomes named."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from core.entries.model import (
    Choose,
    Entry,
    Free,
    Happened,
    Observe,
    Revise,
    Shift,
    Undecide,
)
from core.plan.model import Change
from core.signal.book import Known
from core.signal.worlds import Outcomes, World


@dataclass(frozen=True, slots=True)
class Fact:
    """Where an edge is, by the desk's word. `moves`: its course's later rows go with it.

    `planned` is False for an unplanned loss or return, which no row knows. `condition` holds the
    outcomes without which there is no such edge, `ground` is the station of its row.
    """

    edge: str
    change: Change
    time_ms: int
    number: int
    observed: bool
    moves: bool
    give_ms: int | None = None
    planned: bool = True
    condition: World = frozenset()
    ground: str | None = None

    def in_world(self, world: World) -> "Fact | None":
        """What it is in that world; None where it says nothing of it.

        What was seen or heard is so whatever the outcome: where no row knows the edge, it is a loss
        or return that is not in the plan. What was only revised belongs to its outcome.
        """
        if self.condition <= world:
            return self
        return replace(self, planned=False, moves=False) if self.observed else None


class Anchor(NamedTuple):
    """From this printed time on, a course's rows lie so much later than printed.

    `edge` of `lane` is the one that was told, to be at `time_ms`.
    """

    printed_ms: int
    number: int
    shift_ms: int
    time_ms: int
    edge: str
    lane: str

    def on(self, lane: str, course: str) -> str:
        """The id of the same edge of the course on another lane."""
        return f"{course}.{lane}.{self.edge.removeprefix(f'{course}.{self.lane}.')}"


@dataclass(frozen=True, slots=True)
class Heard:
    """What bears on one lane: facts by edge, anchors by course (of any lane), unplanned edges.

    `worlds` are those still open on this lane, `token` is equal for equal words.
    """

    facts: Mapping[str, Fact]
    anchors: Mapping[str, tuple[Anchor, ...]]
    unplanned: tuple[Fact, ...]
    worlds: tuple[World, ...]
    token: int

    def word_on(self, edge: str) -> Fact | None:
        """What the desk has said of that edge, an unplanned one included."""
        if not self.facts and not self.unplanned:
            return None
        return self.facts.get(edge) or next((f for f in self.unplanned if f.edge == edge), None)


@dataclass(frozen=True, slots=True)
class Told:
    """All of it: outcomes by the event they are of, facts by edge, unplanned edges by lane."""

    chosen: Mapping[str, str] = field(default_factory=dict)
    facts: Mapping[str, Fact] = field(default_factory=dict)
    unplanned: Mapping[str, tuple[Fact, ...]] = field(default_factory=dict)

    def of(
        self,
        lane: str,
        edges: Mapping[str, Known],
        worlds: tuple[World, ...],
        token: Callable[[object], int],
    ) -> Heard:
        """What of it bears on one lane. An edge of another lane moves the rows of its course."""
        facts = {edge: fact for edge, fact in self.facts.items() if edges[edge].lane == lane}
        anchors: dict[str, list[Anchor]] = {}
        for edge, fact in self.facts.items():
            printed_ms = edges[edge].printed_ms
            if fact.moves and printed_ms is not None:
                shift_ms = fact.time_ms - printed_ms
                anchor = Anchor(
                    printed_ms, fact.number, shift_ms, fact.time_ms, edge, edges[edge].lane
                )
                anchors.setdefault(edges[edge].course, []).append(anchor)
        ordered = {course: tuple(sorted(found)) for course, found in anchors.items()}
        unplanned = self.unplanned.get(lane, ())
        words = (tuple(facts.values()), tuple(ordered.items()), unplanned, worlds)
        return Heard(facts, ordered, unplanned, worlds, token((lane, words)))


def listen(entries: Iterable[Entry], edges: Mapping[str, Known], outcomes: Outcomes) -> Told:
    """What the entries say of the signal; a later word on the same edge replaces the earlier.

    `edges` holds every edge the plan's tables may have. An edge observed that they do not have
    (the plan has changed) is an unplanned one.
    """
    chosen: dict[str, str] = {}
    facts: dict[str, Fact] = {}
    by_event: dict[str, str] = {}
    unplanned: dict[str, list[Fact]] = {}
    for entry in entries:
        match entry.action:
            case Choose(outcome) | Undecide(outcome):
                of = outcomes.parent(outcome)
                if of is not None:
                    chosen.pop(of, None)
                    if isinstance(entry.action, Choose):
                        chosen[of] = outcome
            case Observe():
                _observe(entry, entry.action, edges, facts, unplanned)
            case Revise() | Happened():
                _place(entry, entry.action, edges, facts, by_event)
            case Free(event):
                old = facts.get(by_event.pop(event, ""))
                if old is not None and not old.observed:
                    del facts[old.edge]
            case _:
                pass
    return Told(chosen, facts, {lane: tuple(found) for lane, found in unplanned.items()})


def _observe(
    entry: Entry,
    seen: Observe,
    edges: Mapping[str, Known],
    facts: dict[str, Fact],
    unplanned: dict[str, list[Fact]],
) -> None:
    known = edges.get(seen.edge)
    planned = known is not None and known.change is seen.change
    edge = seen.edge if planned else f"desk.{seen.lane}.{entry.number}.{seen.change}"
    moves = planned and _moves(seen.shift, known)
    fact = Fact(
        edge,
        seen.change,
        seen.time_ms,
        entry.number,
        observed=True,
        moves=moves,
        planned=planned,
        condition=known.condition if known is not None and planned else frozenset(),
        ground=known.ground if known is not None and planned else None,
    )
    if planned:
        facts[edge] = fact
    else:
        unplanned.setdefault(seen.lane, []).append(fact)


def _moves(shift: Shift, known: Known | None) -> bool:
    """Whether an edge's later rows go with it: those of a table do, computed ones do not."""
    if shift is Shift.USUAL:
        return known is None or not known.computed
    return shift is Shift.SHIFT


def _place(
    entry: Entry,
    word: Revise | Happened,
    edges: Mapping[str, Known],
    facts: dict[str, Fact],
    by_event: dict[str, str],
) -> None:
    """An event's figure or fact, as the place of the edge it stood for."""
    facts.pop(by_event.pop(word.event, ""), None)
    known = edges.get(word.edge)
    if known is None:
        return
    by_event[word.event] = word.edge
    facts[word.edge] = Fact(
        word.edge,
        known.change,
        word.time_ms,
        entry.number,
        observed=isinstance(word, Happened),
        moves=_moves(Shift.USUAL, known),
        give_ms=word.give_ms if isinstance(word, Revise) else None,
        condition=known.condition,
        ground=known.ground,
    )
