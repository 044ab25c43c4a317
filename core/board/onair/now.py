"""On the air: the programme of a scene at any second, in words for the screens and as data.

The one door to what `core.air` reckons. What is worked out is kept until the scene or the entries
change; a tick compares instants and writes words.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.air.clear import Clear
from core.air.model import Fits
from core.board.onair.lane import air_lane
from core.board.onair.losses import Losses, Lost, begun_against, clash_words
from core.board.onair.panel import PanelWriter
from core.board.onair.places import Proposed, Remedies, answer, proposed, why_words
from core.board.onair.state import AirState, Figures
from core.board.programme import AirLane, ClearPanel
from core.board.scene import Scene
from core.entries.context import Proposal
from core.entries.model import Entry
from core.times.writing import floor_second_ms


@dataclass(frozen=True, slots=True)
class AirNow:
    """The programme at one second. `broken` is what is lost as things stand.

    `unheard` are the names of live moments whose time has come and that nobody has confirmed.
    """

    lane: AirLane
    panel: ClearPanel
    figures: Figures
    broken: tuple[Lost, ...] = ()
    unheard: tuple[str, ...] = ()

    @property
    def clear(self) -> Clear:
        """Where the presenter stands."""
        return self.figures.clear

    @property
    def fits(self) -> tuple[Fits, ...]:
        """How each item fits that is still to run and has no place, in the plan's order."""
        return self.figures.fits


class OnAir:
    """The programme of one scene after the entries that count, in their order.

    Made anew when either changes: `before` is the one it replaces, and lends what still holds.
    """

    def __init__(
        self, scene: Scene, entries: Sequence[Entry], before: "OnAir | None" = None
    ) -> None:
        self.state: AirState = AirState(scene, entries, None if before is None else before.state)
        remedies = Remedies(self.state)
        self._writer = PanelWriter(self.state, remedies)
        self._losses = Losses(self.state, remedies)
        self._shown: object = None
        self._lane: AirLane = AirLane() if before is None else before.lane
        self._last: tuple[int, AirNow] | None = None

    @property
    def lane(self) -> AirLane:
        """The lane as it was shown last."""
        return self._lane

    def at(self, now_ms: int) -> AirNow:
        """The programme at that moment, floored to the second.

        The lane is the same object as before as long as nothing in it has changed. The same second
        is worked out once: a preview asks for the one that is shown.
        """
        now_ms = floor_second_ms(now_ms)
        if self._last is None or self._last[0] != now_ms:
            self._last = now_ms, self._at(now_ms)
        return self._last[1]

    def _at(self, now_ms: int) -> AirNow:
        figures = self.state.figures(now_ms)
        broken = self._losses.at(now_ms)
        self._look_at_lane(clash_words(broken), now_ms)
        panel = self._writer.panel(figures, broken, now_ms)
        unheard = tuple(self.state.scene.event(one).name for one in figures.waiting)
        return AirNow(self._lane, panel, figures, broken, unheard)

    def _look_at_lane(self, clashes: Mapping[str, str], now_ms: int) -> None:
        """The lane changes with what clashes, and with what is on the air past its length."""
        on_air = self.state.programme.on_air
        end_ms = None if on_air is None else floor_second_ms(on_air.end_ms(now_ms))
        key = (clashes, end_ms)
        if key == self._shown:
            return
        self._shown = key
        lane = air_lane(self.state, now_ms, clashes)
        if lane != self._lane:
            self._lane = lane

    def begun_against(self, item: str, now_ms: int) -> tuple[Lost, ...]:
        """What an item broke by beginning when it did, if it is on the air."""
        on_air = self.state.programme.on_air
        if on_air is None or on_air.item.id != item:
            return ()
        return begun_against(self.state, item, floor_second_ms(now_ms))

    def proposed(self, now_ms: int) -> Proposed:
        """The best places for all that is owed, and for what else has room, as data."""
        return proposed(self.state, floor_second_ms(now_ms))

    def no_place_words(self, now_ms: int) -> tuple[str, ...]:
        """Of each owed item that nothing proposed has a place for: why, in words."""
        left = self.proposed(now_ms).left
        return tuple(why_words(self.state, each) for each in left)

    def proposal(self, now_ms: int) -> Proposal:
        """The same as the entry bar takes it: places, or why not all, and the most that can."""
        return answer(self.state, floor_second_ms(now_ms))
