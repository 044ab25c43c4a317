"""What follows from a scene and the entries, kept until they change: the programme, what to say."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from core.board.onair.now import OnAir
from core.board.scene import Scene
from core.board.telling.telling import Telling
from core.board.telling.whileaway import TimesAt
from core.entries.model import Entry
from core.plan.model import Plan

_T = TypeVar("_T")


class Following:
    """Both for the scene and the entries that were asked for last.

    `times_at` gives the board's times at an earlier instant, for those who were away.
    """

    def __init__(self, times_at: TimesAt | None = None) -> None:
        self._times_at = times_at
        self._on_air: _Kept[OnAir] | None = None
        self._telling: _Kept[Telling] | None = None

    def on_air(self, scene: Scene, entries: Sequence[Entry]) -> OnAir:
        """The programme of that scene after those entries."""
        kept = self._on_air
        if kept is None or not kept.is_of(scene, entries):
            before = None if kept is None else kept.made
            kept = self._on_air = _Kept(scene, entries, OnAir(scene, entries, before))
        return kept.made

    def telling(self, scene: Scene, entries: Sequence[Entry]) -> Telling:
        """What may be said of that scene after those entries."""
        kept = self._telling
        if kept is None or not kept.is_of(scene, entries):
            before = None if kept is None else kept.made
            made = Telling(scene, entries, self._times_at, before)
            kept = self._telling = _Kept(scene, entries, made)
        return kept.made


@dataclass(frozen=True, slots=True)
class _Kept(Generic[_T]):
    scene: Scene
    entries: Sequence[Entry]
    made: _T

    def is_of(self, scene: Scene, entries: Sequence[Entry]) -> bool:
        return self.scene is scene and self.entries is entries


def has_programme(plan: Plan) -> bool:
    """Whether the plan says anything of the air: its hours, an item, a junction, a live moment."""
    live = any(event.live for event in plan.events)
    return bool(plan.air is not None or plan.items or plan.junctions or live)
