"""What is lost as things stand, in words, with the ways out that exist."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.air.model import Against, Loss, Way
from core.board.onair.state import AirState
from core.times.writing import SECOND_MS, dated_clock_text, short_duration_words

_LATE = (Against.MOMENT, Against.JUNCTION)

_SAID = {
    Against.MOMENT: "{item}: back {by} too late for {of}",
    Against.JUNCTION: "{item}: {by} over the junction, {of}",
    Against.OFF: "{item}: {by} past the end of the programme",
    Against.AWAY: "{item}: the network has the air",
    Against.EARLY: "{item}: {by} sooner than it may run",
    Against.LATE: "{item}: {by} later than it may run",
    Against.BOOKED: "{item}: {by} outside the hours of its line",
    Against.CONTACT: "{item}: {by} without {of}",
    Against.ITEM: "{item}: {by} too near to {of}",
    Against.SPONSOR: "{item}: the same sponsor as {of} before it",
    Against.PAST: "{item}: was to begin {by} ago",
}


@dataclass(frozen=True, slots=True)
class Lost:
    """One thing lost: by which item, of which event, item or lane; in words, and the ways out.

    `loss` is the same as data.
    """

    item: str
    of: str
    words: str
    ways: tuple[str, ...]
    loss: Loss


def lost(state: AirState, now_ms: int) -> tuple[Lost, ...]:
    """All that items on the air or placed lose as things stand, in order of their starts."""
    return tuple(_lost(state, loss, now_ms) for loss in state.losses(now_ms))


def clash_words(found: Sequence[Lost]) -> dict[str, str]:
    """What each item loses first: 'back 40 s too late for Loss of signal'."""
    words: dict[str, str] = {}
    for each in found:
        words.setdefault(each.item, each.words.partition(": ")[2])
    return words


def _lost(state: AirState, loss: Loss, now_ms: int) -> Lost:
    item = state.programme.item(loss.item).item
    words = _SAID[loss.against].format(
        item=item.name, by=_by_words(loss.by_ms), of=_name(state, loss)
    )
    ways = tuple(_way(state, loss, way, at_ms, now_ms) for way, at_ms in loss.ways)
    return Lost(loss.item, loss.of, words, ways, loss)


def _by_words(by_ms: int) -> str:
    """A length rounded up to the second: nothing lost is told as nought."""
    return short_duration_words(-(-by_ms // SECOND_MS) * SECOND_MS)


def _name(state: AirState, loss: Loss) -> str:
    """What the thing lost is called; lanes as one says them: 'PICTURE' is 'picture'."""
    moment = next((one for one in state.day.moments if one.id == loss.of), None)
    if moment is not None and loss.against in _LATE:
        return moment.name
    name = state.scene.roll.names(loss.of)
    return name.lower() if loss.against is Against.CONTACT and name.isupper() else name


def _way(state: AirState, loss: Loss, way: Way, at_ms: int | None, now_ms: int) -> str:
    name = state.scene.roll.small(state.programme.item(loss.item).item.name)
    if at_ms is None:
        return f"no place for {name}"
    clock = dated_clock_text(at_ms, state.scene.style, now_ms)
    match way:
        case Way.END:
            return f"end {name} by {clock}" if at_ms > now_ms else f"end {name} now"
        case Way.REJOIN:
            return f"you rejoin at {clock}{_against(state, loss, at_ms)}"
        case _:
            return f"move {name} to {clock}"


def _against(state: AirState, loss: Loss, at_ms: int) -> str:
    """Whether one who rejoins then has missed it."""
    moment = next((one for one in state.day.moments if one.id == loss.of), None)
    if moment is None:
        return ""
    return ", after it" if at_ms > moment.at_ms else ", before it"
