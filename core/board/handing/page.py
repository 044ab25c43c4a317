"""The handover page: the one door to it."""

from collections.abc import Sequence

from core.board.handing.model import HandPage, HandPart
from core.board.handing.parts import (
    due_part,
    held_part,
    items_part,
    last_part,
    promises_part,
    said_part,
)
from core.board.onair.now import OnAir
from core.board.scene import Scene
from core.board.telling.telling import Telling
from core.board.written import Said, Tone
from core.entries.at_desk import turns
from core.entries.model import Entry
from core.times.writing import dated_clock_text, floor_second_ms


def hand_page(
    scene: Scene,
    entries: Sequence[Entry],
    telling: Telling,
    on_air: OnAir | None,
    now_ms: int,
) -> HandPage:
    """The page at that moment. `entries` are those that stand; no `on_air`: no programme."""
    now_ms = floor_second_ms(now_ms)
    return HandPage(
        who=_who(scene, entries, now_ms),
        away=telling.since_handed_over,
        parts=(
            due_part(scene, now_ms),
            said_part(scene, telling.corrections, now_ms),
            _items(scene, on_air, entries, now_ms),
            promises_part(scene, entries, now_ms),
            held_part(scene, now_ms),
            last_part(scene, entries, now_ms),
        ),
    )


def _items(scene: Scene, on_air: OnAir | None, entries: Sequence[Entry], now_ms: int) -> HandPart:
    if on_air is None:
        return items_part(scene, None, entries, {}, now_ms)
    air = on_air.at(now_ms)
    placeless = {fits.item for fits in air.fits} - {*air.figures.most, *air.figures.unproven}
    clashes = dict.fromkeys(placeless, "no place")
    clashes |= {box.item: box.clash for box in air.lane.boxes if box.clash}
    return items_part(scene, on_air.state, entries, clashes, now_ms)


def _who(scene: Scene, entries: Sequence[Entry], now_ms: int) -> Said:
    """'CD since 4:41:12 p.m.; before, AB', or that nobody is signed in."""
    found = turns(entries)
    if not found or found[-1].until_ms is not None:
        left = f"; {found[-1].who} was here last" if found else ""
        return Said(f"Nobody is signed in{left}", Tone.QUIET)
    here = found[-1]
    before = next((turn.who for turn in reversed(found[:-1]) if turn.who != here.who), "")
    since = dated_clock_text(here.from_ms, scene.style, now_ms)
    return Said(f"{here.who} since {since}{f'; before, {before}' if before else ''}")
