"""The header: the clock as a sentence, the elapsed time, and where the programme stands."""

from core.board.model import Header, Said, Tone
from core.board.scene import Scene
from core.times.spoken import spoken_zone
from core.times.writing import (
    Hours,
    Style,
    clock_text,
    dated_clock_text,
    elapsed_text,
    floor_second_ms,
    weekday_text,
)


def header(scene: Scene, now_ms: int) -> Header:
    """The top line at that moment."""
    plan, style = scene.plan, scene.style
    zero_ms = elapsed_zero_ms(scene)
    elapsed = "" if zero_ms is None else elapsed_text(now_ms - floor_second_ms(zero_ms))
    return Header(
        title=plan.title,
        subtitle=plan.subtitle,
        weekday=weekday_text(now_ms, style.zone),
        clock=clock_text(now_ms, style),
        zone=spoken_zone(style.zone),
        utc=clock_text(now_ms, Style("UTC", Hours.TWENTY_FOUR)),
        elapsed=elapsed,
        elapsed_word="elapsed" if elapsed else "",
        status=_status(scene, now_ms),
    )


def elapsed_zero_ms(scene: Scene) -> int | None:
    """The instant mission elapsed time counts from, where the plan says and it has one."""
    return scene.zero_ms


def _status(scene: Scene, now_ms: int) -> Said:
    """Where the programme's hours stand."""
    air = scene.plan.air
    if air is None:
        return Said("")
    if air.on_ms is not None and now_ms < air.on_ms:
        at = dated_clock_text(air.on_ms, scene.style, now_ms)
        return Said(f"On the air from {at}", Tone.QUIET)
    if air.off_ms is not None and now_ms < air.off_ms:
        at = dated_clock_text(air.off_ms, scene.style, now_ms)
        return Said(f"On the air until {at}")
    return Said("Off the air", Tone.QUIET) if air.off_ms is not None else Said("On the air")
