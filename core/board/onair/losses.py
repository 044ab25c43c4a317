"""What is lost as things stand, in words, with the ways out that exist."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.air.losing import CALLS_BACK
from core.air.losing import begun_against as begins_against
from core.air.model import Against, Loss, Way
from core.board.onair.places import Remedies, is_gone
from core.board.onair.state import AirState, day_part
from core.times.writing import SECOND_MS, short_duration_words

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
    Against.PAST: "{item}: not begun; was at {at}",
}
_AFTER = "{item}: begins {by} too early after {of}"
_NO_ONE_HERE = "The network has the air during {of}"


@dataclass(frozen=True, slots=True)
class Lost:
    """One thing lost: by which item, of which event, item or lane; in words, and the ways out.

    `loss` is the same as data. `gone` says of an item that has not begun that the time it has is
    over too.
    """

    item: str
    of: str
    words: str
    ways: tuple[str, ...]
    loss: Loss
    gone: bool = False
    short: str = ""
    """The words without the item."""

    @property
    def told(self) -> str:
        """The words with the ways out: 'Break 3: back 40 s too late for Loss; end break 3 now'."""
        return "; ".join((self.words, *self.ways))


class Losses:
    """What one state loses, second by second; words are written anew only where they change."""

    def __init__(self, state: AirState, remedies: Remedies) -> None:
        self._state = state
        self._remedies = remedies
        self._part = 0
        self._written: dict[object, Lost] = {}

    def at(self, now_ms: int) -> tuple[Lost, ...]:
        """All that is lost as things stand, by items in order of their starts."""
        part = day_part(now_ms)
        if part != self._part:
            self._part, self._written = part, {}
        found = self._state.losses(now_ms, lambda item: self._remedies.move(item, now_ms))
        return tuple(self._lost(loss, now_ms) for loss in found)

    def _lost(self, loss: Loss, now_ms: int) -> Lost:
        if loss.against is Against.PAST:  # by more with every second, and gone at one of them
            return _lost(self._state, loss, now_ms)
        ahead = tuple(at_ms is None or at_ms > now_ms for _, at_ms in loss.ways)
        key = (loss, loss.after, loss.end_by_ms, ahead)
        found = self._written.get(key)
        if found is None:
            found = self._written[key] = _lost(self._state, loss, now_ms)
        return found


def begun_against(state: AirState, item: str, now_ms: int) -> tuple[Lost, ...]:
    """What an item that is on the air broke by beginning when it did."""
    found = begins_against(state.programme.items, item, state.day)
    return tuple(_lost(state, loss, now_ms) for loss in found)


def clash_words(found: Sequence[Lost]) -> dict[str, str]:
    """What each item loses first: 'back 40 s too late for Loss of signal'; not what is gone."""
    words: dict[str, str] = {}
    for each in found:
        if each.item and not each.gone:
            words.setdefault(each.item, each.short)
    return words


def pressing(state: AirState, found: Sequence[Lost]) -> tuple[Lost, ...]:
    """What the presenter is missed for: by the network's absence, or by what is on the air.

    Of an item on the air the one for which it must end first.
    """
    away = tuple(each for each in found if not each.item)[:1]
    on_air = state.programme.on_air
    mine = [] if on_air is None else [each for each in found if each.item == on_air.item.id]
    calls = [each for each in mine if each.loss.against in CALLS_BACK]
    first = min(calls, key=lambda each: each.loss.end_by_ms or 0, default=None)
    return (*away, *(() if first is None else (first,)))


def _lost(state: AirState, loss: Loss, now_ms: int) -> Lost:
    ways = tuple(_way(state, loss, way, at_ms, now_ms) for way, at_ms in loss.ways)
    if not loss.item:
        return Lost("", loss.of, _NO_ONE_HERE.format(of=_name(state, loss)), ways, loss)
    one = state.programme.item(loss.item)
    words = (_AFTER if loss.after else _SAID[loss.against]).format(
        item=one.item.name,
        by=by_words(loss.by_ms),
        of=_name(state, loss),
        at=state.clock(one.from_ms, now_ms),
    )
    short = words.removeprefix(f"{one.item.name}: ")
    over = is_gone(state, loss.item, now_ms) or one.item.kind in state.withheld
    gone = loss.against is Against.PAST and over
    return Lost(loss.item, loss.of, words, ways, loss, gone, short)


def by_words(by_ms: int) -> str:
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
    small = state.scene.roll.small
    name = small(state.programme.item(loss.item).item.name) if loss.item else ""
    if at_ms is None:
        return f"no place for {name}"
    clock = state.clock(at_ms, now_ms)
    match way:
        case Way.END:
            return f"end {name} by {clock}" if at_ms > now_ms else f"end {name} now"
        case Way.REJOIN:
            return f"you rejoin at {clock}{against_words(state, loss, at_ms)}"
        case Way.RETURN:
            return f"take it back by {clock}" if at_ms > now_ms else "take it back now"
        case _:
            return f"move {name} to {clock}"


def against_words(state: AirState, loss: Loss, at_ms: int) -> str:
    """', after it': whether one who rejoins then has missed it."""
    moment = next((one for one in state.day.moments if one.id == loss.of), None)
    if moment is None:
        return ""
    return ", after it" if at_ms > moment.at_ms else ", before it"
