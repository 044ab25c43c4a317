"""Situations of return: what to watch for, what stayed out, what was heard, what one waits for."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable

from core.board.model import CardState
from core.board.scene import Scene
from core.board.standing import is_return
from core.board.telling.namings import lane_words, named
from core.board.telling.whens import at_ms_of, lately
from core.plan.model import Change, Event
from core.saying.situations import HeardAgain, Missed, Return, TwoReturns, Waiting, Watch
from core.signal.model import Edge
from core.times.writing import MINUTE_MS, floor_second_ms

_FRESH_MS = 4 * MINUTE_MS
_MISSED_FOR_MS = 20 * MINUTE_MS
_LISTEN_MS = 15_000
"""So long after first words could have come one still listens before one speaks of silence."""
_PAIR_WITHIN_MS = 40 * MINUTE_MS


def two_returns(scene: Scene, now_ms: int) -> TwoReturns | None:
    """Two returns ahead that are outcomes of one event, and wait for no count that is held."""
    by_event: dict[str, list[str]] = {}
    for name, of in scene.pairs.items():
        if is_return(scene.event(name)):
            by_event.setdefault(of, []).append(name)
    for names in by_event.values():
        ahead = [n for n in names if scene.standing(n, now_ms).state is CardState.AHEAD]
        if any(scene.slides(name) for name in ahead):
            continue
        if len(names) == len(ahead) == 2 and at_ms_of(scene, ahead[0]) - now_ms < _PAIR_WITHIN_MS:
            first, second = sorted(ahead, key=lambda name: at_ms_of(scene, name))
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
        event, at_ms = scene.event(name), at_ms_of(scene, name)
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
    for name in lately(scene, now_ms):
        event, at_ms = scene.event(name), at_ms_of(scene, name)
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
        return Missed(named(scene, name), at_ms, later=is_later_return(scene, name))
    return None


def is_later_return(scene: Scene, name: str) -> bool:
    """Whether it is the later of two possible returns: that one is said to the nearest minute."""
    partner = _partner_ms(scene, name) if name in scene.pairs else None
    is_one = partner is not None and is_return(scene.event(name))
    return is_one and partner is not None and partner[1] < at_ms_of(scene, name)


def waiting(scene: Scene, now_ms: int) -> Waiting | None:
    """An event that decides how it goes on, due where one could hear of it, with no word yet."""
    for name in lately(scene, now_ms):
        if not scene.waits(name) or name in scene.pairs:
            continue
        if scene.standing(name, now_ms).state is CardState.DUE:
            back = scene.sight.is_back(now_ms)
            return Waiting(named(scene, name), at_ms_of(scene, name), back)
    return None


def heard_again(scene: Scene, now_ms: int) -> HeardAgain | None:
    """A lane that came back within the last minutes, as somebody has seen or heard it."""
    found: HeardAgain | None = None
    for lane in scene.sight.lanes:
        for edge in lane.signal.edges:
            back = edge.change is Change.BACK and edge.observed and lane.lane != "data"
            if not back or not now_ms - _FRESH_MS < floor_second_ms(edge.time_ms) <= now_ms:
                continue
            if _is_lost_since(lane.signal.edges, edge.time_ms, now_ms):
                continue
            if found is None or edge.time_ms < found.at_ms:
                found = HeardAgain(
                    f"lane:{lane.lane}",
                    lane_words(scene, lane.lane),
                    floor_second_ms(edge.time_ms),
                    bool(scene.pairs),
                    scene.sight.first_words_ms(lane.lane) or None,
                    _came_with(scene, edge),
                )
    return found


def _is_lost_since(edges: Iterable[Edge], since_ms: int, now_ms: int) -> bool:
    """Whether a lane was lost once more: then it is no news that it had come back."""
    return any(each.change is Change.LOST and since_ms < each.time_ms <= now_ms for each in edges)


def _came_with(scene: Scene, edge: Edge) -> tuple[str, ...]:
    """The events that stand for the return of a lane at that second."""
    second_ms = floor_second_ms(edge.time_ms)
    first = bisect_left(scene.times_ms, second_ms)
    names = scene.order[first : bisect_right(scene.times_ms, second_ms)]
    return tuple(
        name
        for name in names
        if is_return(event := scene.event(name))
        and event.edge is not None
        and event.edge.lane == edge.lane
    )


def _around(scene: Scene, now_ms: int) -> list[str]:
    first = bisect_right(scene.times_ms, now_ms - _FRESH_MS)
    return scene.order[first : bisect_right(scene.times_ms, now_ms + MINUTE_MS)]


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
    it = named(scene, name)
    return Return(it, at_ms_of(scene, name), condition, scene.brief(name).give_ms)


def _partner_ms(scene: Scene, name: str) -> tuple[str, int] | None:
    """The return that stands for the other outcome, where it is on the board."""
    of = scene.pairs.get(name)
    others = [n for n, other in scene.pairs.items() if other == of and n != name]
    returns = [n for n in others if is_return(scene.event(n))]
    return (returns[0], at_ms_of(scene, returns[0])) if returns else None


def _first_words_ms(scene: Scene, event: Event) -> int:
    return scene.sight.first_words_ms(event.edge.lane) if event.edge is not None else 0


def _heard_since(scene: Scene, since_ms: int, now_ms: int) -> bool:
    return scene.sight.is_told(since_ms, now_ms) or scene.sight.is_back(now_ms)
