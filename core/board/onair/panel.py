"""CLEAR UNTIL YOU MUST BE LIVE: the figure, what fits, what is owed, and the header's line."""

from collections.abc import Sequence

from core.air.clear import Clear, Phase
from core.air.model import Moment
from core.board.onair.losses import Lost, pressing
from core.board.onair.owed import owed_lines, owing, status
from core.board.onair.places import Remedies
from core.board.onair.rows import ItemRows
from core.board.onair.state import AirState, Figures
from core.board.programme import ClearPanel
from core.board.words import shown_figure
from core.board.written import Figure, Said, Tone
from core.times.writing import apart_ms, floor_second_ms

_HERE = "studio"
"""The kind of item during which the presenter stays on the air."""

_LEADS = {
    Phase.CLEAR: "",
    Phase.LIVE: "you must be live",
    Phase.AWAY: "the network has it",
    Phase.BEFORE: "on the air in",
    Phase.AFTER: "off the air",
}
_OFF = frozenset({Phase.BEFORE, Phase.AFTER})
_TO_OFF = "off the air in"


class PanelWriter:
    """Writes the panel of one state, second by second."""

    def __init__(self, state: AirState, remedies: Remedies) -> None:
        self._state = state
        self._remedies = remedies
        self._rows = ItemRows(state)

    def panel(self, figures: Figures, broken: Sequence[Lost], now_ms: int) -> ClearPanel:
        """The panel at a whole second; `broken` is what is lost as things stand."""
        state, clear = self._state, figures.clear
        calls = pressing(state, broken)
        owes = owing(state, figures, broken, self._remedies, now_ms)
        on_item = clear.phase is Phase.ITEM
        back_by, live = _for_what(state, clear, now_ms)
        return ClearPanel(
            figure=_figure(state, clear, now_ms),
            lead=_lead(state, clear, now_ms),
            back_by=back_by,
            live=live,
            rows=self._rows.rows(figures, broken, owes, now_ms),
            owed=owed_lines(state, figures, owes, now_ms),
            status=status(state, calls, owes, now_ms),
            broken=tuple(Said(each.told, Tone.CLASH) for each in calls),
            wrap_ms=clear.wrap_ms,
            back_ms=clear.until_ms if on_item else None,
            homeless=tuple(why.items[0] for why in owes.homeless),
        )


def _for_what(state: AirState, clear: Clear, now_ms: int) -> tuple[str, str]:
    """Back by when, and for what; off the air what comes next and is not in the hours."""
    first = _outside(state, now_ms) if clear.phase in _OFF else None
    if first is not None:
        at = state.clock(first.at_ms, now_ms)
        return "", f"not in the programme: {first.name}, {at}"
    if clear.moment is not None and clear.moment.back_by_ms >= state.day.off_ms:
        return _until_off(state, clear, now_ms), ""
    live = "" if clear.moment is None else clear.moment.name
    return _back_by(state, clear, now_ms), live


def _outside(state: AirState, now_ms: int) -> Moment | None:
    """The next live moment, where it is over before the programme begins, or comes after it."""
    live = (one for one in state.day.moments if not one.junction and one.until_ms > now_ms)
    first = min(live, key=lambda one: one.at_ms, default=None)
    if first is None:
        return None
    within = state.day.on_ms < first.until_ms and first.back_by_ms < state.day.off_ms
    return None if within else first


def _figure(state: AirState, clear: Clear, now_ms: int) -> Figure | None:
    """The countdown; of an item that should be over, and the presenter back, by how much."""
    at_ms = clear.until_ms
    if clear.wrap_ms is not None and (_is_over(clear, now_ms) or _is_here(state, clear)):
        at_ms = clear.wrap_ms
    return None if at_ms is None else shown_figure(apart_ms(at_ms, now_ms))


def _is_over(clear: Clear, now_ms: int) -> bool:
    return clear.until_ms is not None and floor_second_ms(clear.until_ms) < now_ms


def _is_here(state: AirState, clear: Clear) -> bool:
    """Whether the presenter is on the air during the item."""
    return state.programme.item(clear.on_air).item.kind == _HERE


def _lead(state: AirState, clear: Clear, now_ms: int) -> str:
    if clear.phase is not Phase.ITEM:
        to_off = clear.phase is Phase.CLEAR and clear.back_by_ms != clear.until_ms
        return _TO_OFF if to_off and clear.until_ms is not None else _LEADS[clear.phase]
    if not _is_here(state, clear):
        return "over by" if _is_over(clear, now_ms) else "back in"
    over = clear.wrap_ms is not None and floor_second_ms(clear.wrap_ms) < now_ms
    return "over by" if over else "over in"


def _back_by(state: AirState, clear: Clear, now_ms: int) -> str:
    """'back by 4:46:00 p.m.'; within a live moment until when it lasts."""
    if clear.phase is Phase.LIVE:
        if clear.until_ms is None:
            return "until there is word"
        return f"until {state.clock(clear.until_ms, now_ms)}"
    moment: Moment | None = clear.moment
    if moment is None:
        return _until_off(state, clear, now_ms)
    if moment.back_by_ms <= now_ms:
        return "be back now"
    return f"back by {state.clock(moment.back_by_ms, now_ms)}"


def _until_off(state: AirState, clear: Clear, now_ms: int) -> str:
    """'at 7:45:00 p.m.', where nothing but the end of the programme is ahead."""
    if clear.phase is not Phase.CLEAR or clear.until_ms is None:
        return ""
    return f"at {state.clock(clear.until_ms, now_ms)}"
