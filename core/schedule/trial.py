"""One entry tried on the works: in place where it can be, else on works built anew."""

from dataclasses import replace

from core.entries.model import Entry, Pin, Revise
from core.schedule import effect as effects
from core.schedule.clash import Named
from core.schedule.clashing import clash_of, fits, standing_clash
from core.schedule.explain import Chain, Picture
from core.schedule.fold import Folded
from core.schedule.giving import Clashes, Voice
from core.schedule.lost import lost
from core.schedule.model import (
    Clash,
    Constraint,
    Edges,
    Effect,
    Move,
    MoveKind,
)
from core.schedule.reading import picture
from core.schedule.solve import INF
from core.schedule.works import Rebuild, Works


class Trial:
    """An entry being taken. After `run` it is either closed or undone."""

    def __init__(
        self, works: Works, folded: Folded, entry: Entry, edges: Edges, *, force: bool
    ) -> None:
        self.works = works
        self.clashed = False
        self.changed = False
        self._old = works
        self._folded = folded
        self._entry = entry
        self._edges = edges
        self._insists = force or folded.insists
        self._members = _members(works)
        self._broken = effects.broken(works)
        self._let_go = {(link.before, link.after) for link in works.let_go}
        self._kept = works.open()
        self._undone = False

    def run(self) -> Effect:
        """What the entry does. With a clash nothing may be kept."""
        voice = Voice(self._entry.number, self._folded.typed, self._insists)
        try:
            self._carry_out(voice)
        except Clashes as clashes:
            return self._clash(
                clash_of(clashes.named, clashes.giver, voice.typed, figure=self._figure())
            )
        clash = None if self._insists else self._new_clash() or self._none_left()
        if clash is not None:
            return self._clash(clash)
        return self._effect()

    def undo(self) -> None:
        """As if it had never been tried."""
        if not self._undone:
            self._old.undo(self._kept)
            self._undone = True
        self.works = self._old

    def close(self) -> Works:
        """Keep what was done: the works as they are now."""
        self.works.close()
        return self.works

    # ------------------------------------------------------------

    def _carry_out(self, voice: Voice) -> None:
        folded = self._folded
        if folded.reshaped:
            self._rebuild(voice)
        else:
            try:
                self._old.step(folded.standing, self._edges, folded.touched, voice)
            except Rebuild:
                self._rebuild(voice)
        self._tell_again(voice)

    def _rebuild(self, voice: Voice) -> None:
        """Works built anew, from the old ones as they were."""
        old = self._old
        if not self._undone:
            old.undo(self._kept)
            self._undone = True
        self.works = Works(self._folded.standing, self._edges, old.now_ms, voice)

    def _tell_again(self, voice: Voice) -> None:
        """An edge's figure that gave way is no longer told to the signal."""
        works = self.works
        if not any(works.event(name).edge is not None for name in works.yielded):
            return
        standing, yielded = works.standing, works.yielded
        edges = self._edges.told(standing.unspent())
        self.works = Works(standing, edges, works.now_ms, voice)
        self.works.yielded[:0] = yielded
        if not self._undone:
            self._old.undo(self._kept)
            self._undone = True

    def _figure(self) -> bool:
        return isinstance(self._entry.action, Revise | Pin)

    def _clash(self, clash: Clash) -> Effect:
        self.clashed = True
        return Effect(clash=clash)

    def _new_clash(self) -> Clash | None:
        """What contradicts now and did not before, in works built anew."""
        works = self.works
        if works is self._old:
            return None
        for named in _sets(works):
            if not set(named.members) <= self._members:
                if self._figure():
                    return clash_of(named, works.giver, self._folded.typed, figure=True)
                return standing_clash(named, works.giver)
        return None

    def _none_left(self) -> Clash | None:
        """A figure that leaves an event no edge of the signal to hang on."""
        works, typed = self.works, self._folded.typed
        if not works.unknown or not self._figure():
            return None
        for one in lost(works, typed):
            rise = one.must_rise(typed)
            if rise is not None:
                return self._fitting(one.clash(typed), rise=rise)
        return None

    def _fitting(self, clash: Clash, *, rise: bool) -> Clash:
        """The clash with the figures that would leave an edge, as far as hard limits allow."""
        typed_ms = self.works.time_ms(clash.event)
        if typed_ms is None:
            return clash
        low, high = fits(self.works.giver, clash.event)
        if rise:
            low = max(typed_ms + clash.over_ms, typed_ms if low is None else low)
        else:
            high = min(typed_ms - clash.over_ms, typed_ms if high is None else high)
        if low is not None and high is not None and low > high:
            return clash
        return replace(clash, fits_from_ms=low, fits_until_ms=high)

    # ------------------------------------------------------------ the effect

    def _effect(self) -> Effect:
        works = self.works
        if works is self._old:
            old = works.solver.moved()
            gone: list[Move] = []
        else:
            old, gone = self._moved_anew()
        self.changed = bool(old or gone)
        now = picture(works).kept()
        typed = works.net.number.get(self._folded.typed)
        return Effect(
            moves=(*effects.moves(now, old, typed), *gone)
            if gone
            else effects.moves(now, old, typed),
            stays=effects.Whole(lambda: effects.stays(now, old, typed)),
            yielded=tuple(works.yielded),
            squeezed=effects.Whole(lambda: effects.squeezed(now, old)),
            broken=tuple(b for b in effects.broken(works) if b not in self._broken),
            notes=self._notes(),
            chains=self._chains(now, old),
        )

    def _moved_anew(self) -> tuple[dict[int, float], list[Move]]:
        """Old times of what moved, and the events that have no time any more."""
        before, after = self._old, self.works
        old: dict[int, float] = {}
        for node, name in enumerate(after.net.ids):
            was = before.time_ms(name)
            if was != after.time_ms(name):
                old[node] = -INF if was is None else was
        gone = [
            Move(name, was, None, MoveKind.FOLLOWS, None)
            for name in before.net.ids
            if name not in after.net.number and (was := before.time_ms(name)) is not None
        ]
        return old, gone

    def _chains(self, now: Picture, old: dict[int, float]) -> Chain:
        works = self.works
        named = {self._folded.typed, *self._folded.touched}
        typed = frozenset(works.net.number[name] for name in named if name in works.net.number)
        asked = dict(works.lookups.asked)

        def inputs(name: str) -> tuple[str, ...]:
            return asked[name][1] if name in asked else ()

        return Chain(now, old, typed, inputs)

    def _notes(self) -> tuple[str, ...]:
        works = self.works
        let_go = tuple(
            f"offset from '{_name(works, link.before)}' to '{_name(works, link.after)}' "
            "let go: it would chase itself"
            for link in works.let_go
            if (link.before, link.after) not in self._let_go
        )
        return (*self._folded.notes, *let_go)


def _name(works: Works, node: int) -> str:
    return works.event(works.net.ids[node]).name


def _sets(works: Works) -> tuple[Named, ...]:
    return (*(loop.named for loop in works.loops), *works.given.sets, *works.given.pulled)


def _members(works: Works) -> set[Constraint]:
    return {member for named in _sets(works) for member in named.members}
