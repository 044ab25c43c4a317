"""What comes then, on one line of the presenter window."""

from bisect import bisect_right
from collections.abc import Sequence

from core.board.biggest import off_air_ms
from core.board.marks import contact_note
from core.board.model import CardState
from core.board.presenting.roundly import either_until_words, until_words
from core.board.programme import PresenterThen
from core.board.scene import Scene

_MOST = 3
_TOLD_OF_SIGNAL = ("out of contact", "no pictures")


def thens(scene: Scene, big: str, now_ms: int) -> tuple[PresenterThen, ...]:
    """The next live moments after the big event, in their order; where none is, simply the next.

    While the programme is on, only what comes before its end. Events that are outcomes of one
    another are told together: '31 or 42 min signal back'.
    """
    after = scene.order[bisect_right(scene.times_ms, now_ms) :]
    off_ms = off_air_ms(scene, now_ms)
    if off_ms is not None:
        after = [name for name in after if _at_ms(scene, name) < off_ms]
    if big in after:
        after = after[after.index(big) + 1 :]
    live = [name for name in after if scene.event(name).live]
    told = _first(scene, live, now_ms) or _first(scene, after, now_ms)
    return tuple(_then(scene, names, now_ms) for names in told)


def _first(scene: Scene, names: Sequence[str], now_ms: int) -> list[tuple[str, ...]]:
    """The first that are ahead, each alone or with those that stand for its other outcomes."""
    told: list[tuple[str, ...]] = []
    for name in names:
        if any(name in group for group in told) or not _is_ahead(scene, name, now_ms):
            continue
        of = scene.pairs.get(name)
        others = (each for each in names if of is not None and scene.pairs.get(each) == of)
        told.append(tuple(others) or (name,))
        if len(told) == _MOST:
            break
    return told


def _is_ahead(scene: Scene, name: str, now_ms: int) -> bool:
    timed = scene.brief(name).expected_ms is not None
    return timed and scene.standing(name, now_ms).state is CardState.AHEAD


def _at_ms(scene: Scene, name: str) -> int:
    """When it is expected: those in the order all have a time."""
    return scene.brief(name).expected_ms or 0


def _then(scene: Scene, names: tuple[str, ...], now_ms: int) -> PresenterThen:
    times_ms = tuple(
        at_ms for name in names if (at_ms := scene.brief(name).expected_ms) is not None
    )
    if len(names) > 1:
        return PresenterThen(either_until_words(times_ms, now_ms), _common(scene, names))
    figure = until_words(times_ms[0], scene.brief(names[0]).give_ms, now_ms)
    return PresenterThen(figure, _single(scene, names[0]))


def _single(scene: Scene, name: str) -> str:
    """Its name in small letters, and what it depends on or that nobody will see it."""
    words = scene.roll.small(scene.event(name).name)
    note = contact_note(scene, name)
    outcome = scene.brief(name).outcome
    if outcome is not None and scene.open_outcome(name):
        condition = scene.outcome_name(outcome)
        if condition.casefold() not in words.casefold():
            words += f", {condition}"
    return f"{words}, {note}" if note in _TOLD_OF_SIGNAL else words


def _common(scene: Scene, names: Sequence[str]) -> str:
    """What their names have in common before a comma: 'signal back'."""
    heads = dict.fromkeys(
        scene.roll.small(scene.event(name).name.partition(",")[0]) for name in names
    )
    return " or ".join(heads)
