"""The header: the clock as a sentence, the elapsed time, and where the programme stands."""

from core.board.model import Header, Said
from core.board.scene import Scene
from core.board.trust import trust_line
from core.times.spoken import spoken_zone
from core.times.trust import NOT_TOLD, ClockTrust
from core.times.writing import (
    Hours,
    Style,
    clock_text,
    elapsed_text,
    floor_second_ms,
    weekday_text,
)


def header(
    scene: Scene, now_ms: int, status: Said | None = None, clock: ClockTrust = NOT_TOLD
) -> Header:
    """The top line at that moment; `status` says where the programme stands, where there is one.

    `clock` is what the machine says of its clock.
    """
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
        status=Said("") if status is None else status,
        trust=trust_line(clock),
    )


def elapsed_zero_ms(scene: Scene) -> int | None:
    """The instant mission elapsed time counts from, where the plan says and it has one."""
    return scene.zero_ms
