"""What follows from a scene and the entries beside it: the programme. Kept until either changes."""

from collections.abc import Sequence

from core.board.on_air import OnAir
from core.board.scene import Scene
from core.entries.model import Entry
from core.plan.model import Plan


class Following:
    """The programme of the scene and of the entries that were asked for last."""

    def __init__(self) -> None:
        self._of: tuple[Scene, Sequence[Entry]] | None = None
        self._on_air: OnAir | None = None

    def on_air(self, scene: Scene, entries: Sequence[Entry]) -> OnAir:
        """The programme of that scene after those entries."""
        if self._on_air is None or not self._is_of(scene, entries):
            self._on_air = OnAir(scene, entries, self._on_air)
            self._of = (scene, entries)
        return self._on_air

    def _is_of(self, scene: Scene, entries: Sequence[Entry]) -> bool:
        return self._of is not None and self._of[0] is scene and self._of[1] is entries


def has_programme(plan: Plan) -> bool:
    """Whether the plan says anything of the air: its hours, an item, a junction, a live moment."""
    live = any(event.live for event in plan.events)
    return bool(plan.air is not None or plan.items or plan.junctions or live)
