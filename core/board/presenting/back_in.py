"""A break on the presenter window: back in, wrap, event, in that order; and by when to be back."""

from dataclasses import replace

from core.board.model import Said, View
from core.board.presenting.roundly import by_clock
from core.board.programme import AirBox, ItemState, PresenterView
from core.board.scene import Scene
from core.board.words import shown_figure
from core.board.written import Figure
from core.times.writing import apart_ms, clock_text, floor_second_ms

_HERE = "studio"
"""The kind of item during which the presenter is on the air."""
_LIVE = "you must be live"
"""What the desk's panel says; where it waits for word of a live moment, so does the presenter."""
_AWAY = "the network has it"
"""What the panel says while another story is on."""


def on_the_air(view: View) -> AirBox | None:
    """The item during which the presenter is not on the air, if one runs now."""
    boxes = (box for box in view.air.boxes if box.state is ItemState.ON_AIR)
    return next((box for box in boxes if box.kind != _HERE), None)


def break_top(shown: PresenterView, view: View, scene: Scene) -> PresenterView | None:
    """In a break: when the presenter is back, then the wrap, then the event of `shown`.

    The item wraps when its length is over, or sooner where it has to end sooner and can; from then
    on the presenter is counted in, which takes its turnaround. After that it is told by how much
    the item is over. Likewise while the network has the air, if it has said until when. None while
    nothing but the presenter is on the air.
    """
    box = on_the_air(view)
    if box is None:
        return _away_top(shown, view, scene)
    wrap_ms, back_ms = _times_ms(box, view, scene)
    now_ms = view.now_ms
    late = floor_second_ms(back_ms) < now_ms
    told_ms = wrap_ms if late else back_ms
    wraps = floor_second_ms(wrap_ms) > now_ms and back_ms > wrap_ms
    wrap = (("wrap", shown_figure(apart_ms(wrap_ms, now_ms))),) if wraps else ()
    return replace(
        shown,
        lead="over by" if late else "back in",
        name=box.name,
        figure=shown_figure(apart_ms(told_ms, now_ms)),
        at=clock_text(told_ms, scene.style),
        change=Said(""),
        second=(*wrap, *_event(shown)),
    )


def _times_ms(box: AirBox, view: View, scene: Scene) -> tuple[int, int]:
    """When the item wraps and when the presenter is back, as the desk's panel has it."""
    clear = view.clear
    if clear is not None and clear.wrap_ms is not None and clear.back_ms is not None:
        return clear.wrap_ms, clear.back_ms
    item = next((each for each in scene.plan.items if each.id == box.item), None)
    wrap_ms = box.to_ms if item is None else box.from_ms + item.length_ms
    return wrap_ms, wrap_ms + (0 if item is None else item.turnaround_ms)


def _away_top(shown: PresenterView, view: View, scene: Scene) -> PresenterView | None:
    if view.clear is None or view.clear.lead != _AWAY or view.clear.figure is None:
        return None
    spans = (end for begin, end in view.air.away if begin <= view.now_ms < end)
    return replace(
        shown,
        lead="back in",
        name=_AWAY,
        figure=view.clear.figure,
        at=clock_text(min(spans, default=view.now_ms), scene.style),
        change=Said(""),
        second=_event(shown),
    )


def _event(shown: PresenterView) -> tuple[tuple[str, Figure], ...]:
    return () if shown.figure is None else ((shown.name, shown.figure),)


def must_be_back(view: View, scene: Scene) -> tuple[str, str]:
    """'be back', 'by 4:46 p.m.'; within a live moment 'live', 'until 4:50 p.m.'.

    Both are rounded down to the minute, in its last to the second, so never later than the truth.
    Where the desk's panel waits for word, so does this: 'live', 'until there is word'.
    Where what comes next is live outside the hours of the programme, nobody has to be back for it:
    'on the air', 'from Sun 6:30 a.m.'.
    """
    now_ms, style = view.now_ms, scene.style
    spans = [(floor_second_ms(span.from_ms), span.to_ms) for span in view.air.live]
    until_ms = max((to for begin, to in spans if begin <= now_ms < to), default=None)
    waits = view.clear is not None and view.clear.lead == _LIVE and view.clear.figure is None
    if until_ms is not None and not waits:
        until = f"until {by_clock(until_ms, style, now_ms)}"
        return ("be back", "now") if on_the_air(view) is not None else ("live", until)
    if view.clear is not None and view.clear.lead == _LIVE:
        return "live", view.clear.back_by
    on_ms = None if scene.plan.air is None else scene.plan.air.on_ms
    off_ms = None if scene.plan.air is None else scene.plan.air.off_ms
    if off_ms is not None and now_ms >= off_ms:
        return "be back", ""
    if on_ms is not None and any(begin > now_ms and to_ms <= on_ms for begin, to_ms in spans):
        return "on the air", f"from {by_clock(on_ms, style, now_ms)}"
    ahead = [begin for begin, to_ms in spans if begin > now_ms and to_ms > (on_ms or 0)]
    ahead = [begin for begin in ahead if off_ms is None or begin < off_ms]
    away_ms = max((end for begin, end in view.air.away if begin <= now_ms < end), default=now_ms)
    ahead += [at_ms for at_ms, _ in view.air.junctions if at_ms > away_ms]
    return "be back", f"by {by_clock(min(ahead), style, now_ms)}" if ahead else ""
