"""The end of the programme on the presenter window, once nothing live is left before it."""

from dataclasses import replace

from core.board.biggest import off_air_ms
from core.board.model import Said, View
from core.board.presenting.roundly import spoken_clock
from core.board.programme import PresenterView
from core.board.scene import Scene
from core.board.words import shown_figure
from core.times.writing import MINUTE_MS, apart_ms

_SOON_MS = 10 * MINUTE_MS
"""So long before it the end of the programme is what comes."""


def off_air_top(shown: PresenterView, view: View, scene: Scene) -> PresenterView | None:
    """How long the programme lasts, after its last live moment: from ten minutes before its end.

    Sooner where nothing at all comes before it. None as long as something is.
    """
    off_ms = off_air_ms(scene, view.now_ms)
    if off_ms is None:
        return None
    left_ms = apart_ms(off_ms, view.now_ms)
    card = None if view.big_index is None else view.cards[view.big_index]
    if card is not None and (card.live or left_ms > _SOON_MS):
        return None
    return replace(
        shown,
        name="Off the air in",
        figure=shown_figure(left_ms),
        at=spoken_clock(off_ms, 0, scene.style, view.now_ms),
        change=Said(""),
    )
