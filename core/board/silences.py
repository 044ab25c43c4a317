"""Situations of silence: what happens unheard, the returns to watch for, the one that was heard."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import replace

from core.board.model import CardState
from core.board.namings import body, lane_words, named
from core.board.scene import Scene
from core.board.standing import is_return
from core.plan.model import Event
from core.saying.model import Named
from core.saying.situations import (
    FarAway,
    Gap,
    HeardAgain,
    Missed,
    Return,
    TwoReturns,
    Watch,
)
from core.times.writing import MINUTE_MS, floor_second_ms

_LOOKED_BACK_AT = 30
_FRESH_MS = 5 * MINUTE_MS
_MISSED_FOR_MS = 20 * MINUTE_MS
_LISTEN_MS = 15_000
"""So long after first words could have come one still listens before one speaks of silence."""
_PAIR_WITHIN_MS = 40 * MINUTE_MS


def under_way(scene: Scene, now_ms: int) -> Gap | None:
    """What should be going on now that nobody can hear, from its beginning to its fixed end."""
    for name in _unheard(scene, now_ms):
        end = _end(scene, name)
        if end and _at_ms(scene, end) > now_ms:
            return _gap(scene, name, _doing(scene, name), _at_ms(scene, end), now_ms)
    return None


def gone_by(scene: Scene, now_ms: int) -> Gap | None:
    """What should have happened in the last minutes where nobody could hear it."""
    name = next(_unheard(scene, now_ms), None)
    if name is None or now_ms - _at_ms(scene, name) > _FRESH_MS:
        return None
    found = _gap(scene, name, "", _at_ms(scene, name) + _FRESH_MS, now_ms)
    return replace(found, doing=f"{found.named.words} is behind them", over=True)


def _unheard(scene: Scene, now_ms: int) -> Iterator[str]:
    """What happened at the craft while nobody could hear it, the latest first."""
    for name in _lately(scene, now_ms):
        dark = scene.standing(name, now_ms).state is CardState.OUT_OF_SIGHT
        if dark and scene.event(name).at_craft:
            yield name


def _gap(scene: Scene, name: str, doing: str, ends_ms: int, now_ms: int) -> Gap:
    words_ms = scene.standing(name, now_ms).words_ms
    still = [floor_second_ms(at_ms) for at_ms in words_ms if at_ms > now_ms]
    return Gap(
        named(scene, name),
        doing,
        _cause(scene, now_ms),
        still[0] if still else None,
        ends_ms,
        only=len(words_ms) < 2,
    )


def two_returns(scene: Scene, now_ms: int) -> TwoReturns | None:
    """Two returns ahead that are outcomes of one event."""
    by_event: dict[str, list[str]] = {}
    for name, of in scene.pairs.items():
        if is_return(scene.event(name)):
            by_event.setdefault(of, []).append(name)
    for names in by_event.values():
        ahead = [n for n in names if scene.standing(n, now_ms).state is CardState.AHEAD]
        if len(names) == len(ahead) == 2 and _at_ms(scene, ahead[0]) - now_ms < _PAIR_WITHIN_MS:
            first, second = sorted(ahead, key=lambda name: _at_ms(scene, name))
            return TwoReturns(
                _return(scene, first, ""),
                _return(scene, second, _noun(_condition_of(scene, first))),
                quiet_hoped=_is_unwanted(scene, first),
            )
    return None


def is_open(scene: Scene, now_ms: int) -> bool:
    """Whether something is over that decides how it goes on, and no source has said which way."""
    states = {scene.standing(of, now_ms).state for of in set(scene.pairs.values())}
    return bool(states - {CardState.AHEAD, CardState.HELD})


def is_decided_unseen(scene: Scene, two: TwoReturns, now_ms: int) -> bool:
    """Whether what decides between two returns lies behind us."""
    return scene.standing(scene.pairs[two.first.named.event], now_ms).state is not CardState.AHEAD


def watch(scene: Scene, now_ms: int) -> Watch | None:
    """A possible return due in this minute, until its first words would have been heard."""
    for name in _around(scene, now_ms):
        event, at_ms = scene.event(name), _at_ms(scene, name)
        words_ms = at_ms + _first_words_ms(scene, event) + _LISTEN_MS
        if is_return(event) and name in scene.pairs and at_ms - MINUTE_MS <= now_ms < words_ms:
            if _heard_since(scene, at_ms - MINUTE_MS, now_ms):
                return None
            partner = _partner_ms(scene, name)
            first = partner is not None and partner[1] > at_ms
            hoped = first and _is_unwanted(scene, name)
            return Watch(named(scene, name), at_ms, words_ms, first, quiet_hoped=hoped)
    return None


def missed(scene: Scene, now_ms: int) -> Missed | None:
    """A possible return that has passed while nobody has reported a signal."""
    for name in _lately(scene, now_ms):
        event, at_ms = scene.event(name), _at_ms(scene, name)
        passed_ms = at_ms + _first_words_ms(scene, event) + _LISTEN_MS
        if not is_return(event) or name not in scene.pairs or now_ms < passed_ms:
            continue
        if now_ms - at_ms > _MISSED_FOR_MS or _heard_since(scene, at_ms - 2 * MINUTE_MS, now_ms):
            return None
        if scene.standing(name, now_ms).state is not CardState.DUE:
            continue
        partner = _partner_ms(scene, name)
        if partner is not None and at_ms < partner[1] <= now_ms:
            return None  # one still listens for the other
        if partner is not None and partner[1] > now_ms:
            return Missed(named(scene, name), at_ms, named(scene, partner[0]), partner[1])
        return Missed(named(scene, name), at_ms)
    return None


def heard_again(scene: Scene, now_ms: int) -> HeardAgain | None:
    """A lane that came back within the last minutes, as somebody has seen or heard it."""
    found: HeardAgain | None = None
    for lane in scene.sight.lanes:
        for edge in lane.signal.edges:
            back = edge.change.value == "back" and edge.observed and lane.lane != "data"
            if not back or not now_ms - _FRESH_MS < edge.time_ms <= now_ms:
                continue
            if found is None or edge.time_ms < found.at_ms:
                found = HeardAgain(
                    f"lane:{lane.lane}",
                    lane_words(scene, lane.lane),
                    floor_second_ms(edge.time_ms),
                    bool(scene.pairs),
                    scene.sight.first_words_ms(lane.lane) or None,
                )
    return found


def far_away(scene: Scene, now_ms: int) -> FarAway | None:
    """Something at a distant craft that is over by now, and not heard yet."""
    for name in _lately(scene, now_ms):
        standing = scene.standing(name, now_ms)
        if standing.state is CardState.ON_ITS_WAY and standing.heard_ms is not None:
            at_ms, give_ms = _at_ms(scene, name), scene.brief(name).give_ms
            way_ms = scene.way_ms(name)
            it = named(scene, name)
            return FarAway(it, body(scene), at_ms, standing.heard_ms, way_ms, give_ms)
    return None


def _lately(scene: Scene, now_ms: int) -> Iterator[str]:
    """The last events whose time has come, the latest first."""
    begun = bisect_right(scene.times_ms, now_ms)
    return reversed(scene.order[max(0, begun - _LOOKED_BACK_AT) : begun])


def _around(scene: Scene, now_ms: int) -> list[str]:
    first = bisect_right(scene.times_ms, now_ms - _FRESH_MS)
    return scene.order[first : bisect_right(scene.times_ms, now_ms + MINUTE_MS)]


def _at_ms(scene: Scene, name: str) -> int:
    return floor_second_ms(scene.brief(name).expected_ms or 0)


def _end(scene: Scene, name: str) -> str:
    """The event that ends it: the one tied to it by a fixed length."""
    for other, event in scene.roll.events.items():
        for tie in event.ties:
            fixed = tie.offset_ms is not None and tie.least_ms == tie.offset_ms == tie.most_ms
            if tie.event == name and fixed and (tie.offset_ms or 0) > 0 and event.at_craft:
                return other
    return ""


def _doing(scene: Scene, name: str) -> str:
    """What goes on between such an event and its end."""
    event = scene.event(name)
    burns = any("burn" in text.casefold() for text in (event.name, event.id, event.say))
    driven = any(_is_burn(value, name) for c in scene.plan.courses for _, value in c.settings)
    if burns or driven:
        return "the engine is burning now"
    return f"{named(scene, name).words} is under way now"


def _is_burn(value: object, name: str) -> bool:
    return isinstance(value, dict) and value.get("event") == name and "duration" in value


def _cause(scene: Scene, now_ms: int) -> str:
    """Why the first lane is silent now."""
    here = scene.sight.lanes[0].stretch(now_ms) if scene.sight.lanes else None
    return here.cause if here is not None else ""


def _condition_of(scene: Scene, name: str) -> str:
    outcome = scene.brief(name).outcome
    return scene.outcome_name(outcome) if outcome is not None else ""


def _noun(condition: str) -> str:
    return condition.removeprefix("if no ") if condition.startswith("if no ") else ""


def _is_unwanted(scene: Scene, name: str) -> bool:
    """Whether the return comes only if what they are out to do has not been done."""
    return _condition_of(scene, name).startswith("if no ")


def _return(scene: Scene, name: str, noun: str) -> Return:
    """A return with its condition: 'if no burn' is 'with no burn', then 'after a full one'."""
    condition = _condition_of(scene, name)
    if condition.startswith("if no "):
        condition = f"with no {_noun(condition)}"
    elif noun and condition == f"after the {noun}":
        condition = "after a full one"
    it: Named = named(scene, name)
    return Return(it, _at_ms(scene, name), condition, scene.brief(name).give_ms)


def _partner_ms(scene: Scene, name: str) -> tuple[str, int] | None:
    """The return that stands for the other outcome, where it is on the board."""
    of = scene.pairs.get(name)
    others = [n for n, other in scene.pairs.items() if other == of and n != name]
    returns = [n for n in others if is_return(scene.event(n))]
    return (returns[0], _at_ms(scene, returns[0])) if returns else None


def _first_words_ms(scene: Scene, event: Event) -> int:
    return scene.sight.first_words_ms(event.edge.lane) if event.edge is not None else 0


def _heard_since(scene: Scene, since_ms: int, now_ms: int) -> bool:
    return scene.sight.is_told(since_ms, now_ms)
