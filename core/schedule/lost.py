"""Events that a figure leaves no edge of the signal to hang on: told as a clash that names it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.plan.model import EdgeRef
from core.schedule.explain import cause
from core.schedule.giving import Voice
from core.schedule.model import Clash, Constraint, Kind
from core.schedule.reading import picture
from core.schedule.standing import Standing, without
from core.schedule.works import Works

_WORDS = (Kind.FACT, Kind.FIGURE, Kind.PIN, Kind.HOLD, Kind.RESUMED)
_LONG_MS = 1 << 42
"""Longer than any plan: so far from an instant every edge of a lane is asked for."""


@dataclass(frozen=True, slots=True)
class Lost:
    """An event whose edge is not there, and why.

    `chain` says what holds the event it counts from where it is, `words` what else was said that
    the edge would be there without. `over_ms`: by how much the one would have to come earlier, or
    later where `later`; what was said of the others the other way.
    """

    event: str
    chain: tuple[Constraint, ...]
    words: tuple[str, ...]
    over_ms: int
    later: bool

    def clash(self, typed: str = "") -> Clash:
        """The clash: of the event typed where there is one, else of the one without an edge."""
        said = tuple(Constraint(Kind.FIGURE, name) for name in self.words)
        members = (*self.chain, *said, Constraint(Kind.EDGE, self.event))
        return Clash(typed or self.event, members, self.over_ms, None, None)

    def must_rise(self, typed: str) -> bool | None:
        """Whether the figure typed would have to be later; None where it has no part in this."""
        if typed in self.words:
            return not self.later
        return self.later if any(c.of == typed for c in self.chain) else None


def lost(works: Works, by: str | None = None) -> tuple[Lost, ...]:
    """All that has no edge because of what was said. What hangs on a scrub is only unknown.

    `by`: only that in which the event has a part, for it was the one typed.
    """
    found = (_lost(works, name, by) for name in works.shape.events if name in works.unknown)
    return tuple(one for one in found if one is not None)


def _lost(works: Works, name: str, by: str | None) -> Lost | None:
    ref = works.event(name).edge
    counted = None if ref is None else ref.after or ref.before
    from_ms = None if counted is None else works.time_ms(counted)
    if ref is None or ref.row or counted is None or from_ms is None:
        return None
    chain = tuple(_chain(works, counted))
    roots = [root for need in works.lookups.needs(ref) if (root := _root(works, need)) != ""]
    if by is not None and by not in roots and all(each.of != by for each in chain):
        return None
    last_ms = _last_from_ms(works, name, ref, from_ms + ref.offset_ms)
    if last_ms is None:
        return None
    own = chain[0].of
    needless = (own, *(c.of for c in chain))
    words = tuple(
        root
        for root in dict.fromkeys(roots)
        if root not in needless and _there_without(works, root, name)
    )
    if not words and not (chain[0].kind in _WORDS and _there_without(works, own, name)):
        return None
    over_ms = abs(from_ms + ref.offset_ms - last_ms)
    return Lost(name, chain, words, over_ms, ref.before is not None)


def _last_from_ms(works: Works, name: str, ref: EdgeRef, from_ms: int) -> int | None:
    """The nearest instant to `from_ms` that there is an edge from; None if there never is one."""
    back = 1 if ref.before is not None else -1
    near, far = 0, _LONG_MS
    if works.lookups.edges.find(ref, name, from_ms + back * far, works.time_ms) is None:
        return None
    while far - near > 1:
        middle = (near + far) // 2
        there = works.lookups.edges.find(ref, name, from_ms + back * middle, works.time_ms)
        near, far = (near, middle) if there is not None else (middle, far)
    return from_ms + back * far


def _chain(works: Works, name: str) -> Iterator[Constraint]:
    """What holds an event where it is, from what stands by itself down to it."""
    members: list[Constraint] = []
    seen: set[str] = set()
    while name not in seen:
        seen.add(name)
        bound = cause(picture(works), works.net.number[name])
        if bound is None or bound.of == name:
            kind = Kind.PLANNED if bound is None else bound.kind
            members.append(Constraint(kind, name))
            break
        ends = (name, bound.of) if bound.kind is Kind.MOST else (bound.of, name)
        members.append(Constraint(bound.kind, *ends))
        name = bound.of
    return reversed(members)


def _root(works: Works, name: str) -> str:
    """The event whose own word holds another where it is; empty where none was said."""
    if name not in works.net.number:
        return ""
    first = next(_chain(works, name))
    return first.of if first.kind in _WORDS else ""


def _there_without(works: Works, root: str, name: str) -> bool:
    """Whether the event would have its edge had nothing been said of another."""
    bare = Works(_unsaid(works.standing, root), works.lookups.edges, works.now_ms, Voice(0))
    return bare.time_ms(name) is not None


def _unsaid(standing: Standing, name: str) -> Standing:
    return replace(
        standing,
        facts=without(standing.facts, name),
        figures=without(standing.figures, name),
        pins=without(standing.pins, name),
        holds=without(standing.holds, name),
    )
