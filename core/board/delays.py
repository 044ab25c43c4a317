"""How late things come: a lane to the studio, we to the viewers, and the clock in a picture."""

from collections.abc import Iterable, Mapping, Sequence

from core.board.reports import Reports
from core.board.scene import Scene
from core.board.words import capital
from core.entries.airing import PictureClock
from core.plan.model import Lane, Plan
from core.times.writing import Style, apart_ms, dated_clock_text, short_duration_words


def delay_lines(scene: Scene, told: Reports, late: Iterable[str], now_ms: int) -> tuple[str, ...]:
    """How late everything comes, in one line, then one for each clock seen in a picture.

    `late` are the lines that offer to take off how late 'now' is typed: they stand before those.
    """
    plan, clocks = scene.plan, told.clocks
    both = (lanes_line(plan.lanes, told.delays_ms), viewers_line(plan))
    come = "; ".join(line for line in both if line)
    seen = (_clock(lane, clocks.get(lane.id), scene.style, now_ms) for lane in plan.lanes)
    return tuple(line for line in (*late, capital(come), *seen) if line)


def lanes_line(lanes: Sequence[Lane], found_ms: Mapping[str, int]) -> str:
    """'voice comes 4 s late, picture 9 s': from the ground station to the studio.

    `found_ms` is by lane, where the desk has found another delay than the plan's.
    """
    each = ((_spoken(lane), found_ms.get(lane.id, lane.delay_ms)) for lane in lanes)
    late = [(name, delay_ms) for name, delay_ms in each if delay_ms]
    told = [f"{name} {short_duration_words(delay_ms)}" for name, delay_ms in late[1:]]
    first = [f"{name} comes {short_duration_words(delay_ms)} late" for name, delay_ms in late[:1]]
    return ", ".join((*first, *told))


def viewers_line(plan: Plan) -> str:
    """'viewers see it 7 s later', where the plan knows of a delay from us to them."""
    delay_ms = 0 if plan.air is None else plan.air.delay_ms
    return f"viewers see it {short_duration_words(delay_ms)} later" if delay_ms else ""


def _clock(lane: Lane, seen: PictureClock | None, style: Style, now_ms: int) -> str:
    """'The clock in the picture is 9 s behind ours, seen 4:41 p.m.'."""
    if seen is None:
        return ""
    by_ms = apart_ms(seen.at_ms, seen.shown_ms)
    against = "agrees with ours"
    if by_ms:
        side = "behind" if by_ms > 0 else "ahead of"
        against = f"is {short_duration_words(by_ms)} {side} ours"
    at = dated_clock_text(seen.at_ms, style, now_ms, seconds=False)
    return f"The clock in the {_spoken(lane)} {against}, seen {at}"


def _spoken(lane: Lane) -> str:
    """A lane's name in a sentence: 'PICTURE' on the strip is 'picture' here."""
    return lane.name.lower() if lane.name.isupper() else lane.name
