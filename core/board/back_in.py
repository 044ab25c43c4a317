"""A break on the presenter window: back in, wrap, event, in that order; and by when to be back."""

from dataclasses import replace

from core.board.model import View
from core.board.programme import AirBox, ItemState, PresenterView
from core.board.roundly import by_clock
from core.board.scene import Scene
from core.board.words import shown_figure
from core.board.written import Figure
from core.plan.model import Item
from core.times.writing import MINUTE_MS, apart_ms, clock_text, floor_second_ms

_HERE = "studio"
"""The kind of item during which the presenter is on the air."""
_LIVE = "you must be live"
"""What the desk's panel says; where it waits for word of a live moment, so does the presenter."""


def on_the_air(view: View) -> AirBox | None:
    """The item during which the presenter is not on the air, if one runs now."""
    boxes = (box for box in view.air.boxes if box.state is ItemState.ON_AIR)
    return next((box for box in boxes if box.kind != _HERE), None)


def break_top(shown: PresenterView, view: View, scene: Scene) -> PresenterView | None:
    """In a break: when the presenter is back, then the wrap, then the event of `shown`.

    The item wraps when its length is over; from then on the presenter is counted in, which takes
    its turnaround. None while nothing but the presenter is on the air.
    """
    box = on_the_air(view)
    if box is None:
        return None
    item = next((each for each in scene.plan.items if each.id == box.item), None)
    ends_ms = _ends_ms(box, item)
    back_ms = ends_ms + (item.turnaround_ms if item is not None else 0)
    now_ms = view.now_ms
    second: list[tuple[str, Figure]] = []
    if now_ms < ends_ms < back_ms:
        second.append(("wrap", shown_figure(apart_ms(ends_ms, now_ms))))
    if shown.figure is not None:
        second.append((f"{shown.name} {shown.lead}".rstrip(), shown.figure))
    late = floor_second_ms(back_ms) < now_ms
    return replace(
        shown,
        lead="over by" if late else "back in",
        name=box.name,
        figure=shown_figure(apart_ms(back_ms, now_ms), past=late),
        at=clock_text(back_ms, scene.style),
        change=replace(shown.change, text=""),
        second=tuple(second),
    )


def _ends_ms(box: AirBox, item: Item | None) -> int:
    """When the item is over by its length: one that runs over has its box drawn on to now."""
    if item is None:
        return box.to_ms
    return min(box.to_ms, box.from_ms + item.length_ms)


def must_be_back(view: View, scene: Scene) -> tuple[str, str]:
    """'be back', 'by 4:46 p.m.'; within a live moment 'live', 'until 4:50 p.m.'.

    By when: rounded down to the minute, so never later than the truth; until when: rounded up.
    """
    now_ms, style = view.now_ms, scene.style
    spans = [(floor_second_ms(span.from_ms), span.to_ms) for span in view.air.live]
    until_ms = max((to for begin, to in spans if begin <= now_ms < to), default=None)
    if until_ms is not None:
        up_ms = -(-until_ms // MINUTE_MS) * MINUTE_MS
        until = f"until {clock_text(up_ms, style, seconds=False)}"
        return ("be back", "now") if on_the_air(view) is not None else ("live", until)
    if view.clear is not None and view.clear.lead == _LIVE:
        return "live", view.clear.back_by
    ahead = [begin for begin, _ in spans if begin > now_ms]
    ahead += [at_ms for at_ms, _ in view.air.junctions if at_ms > now_ms]
    return "be back", f"by {by_clock(min(ahead), style, now_ms)}" if ahead else ""
