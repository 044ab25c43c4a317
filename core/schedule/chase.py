"""Circles that would climb for ever: found among the last pushes, climbed at once or told."""

from collections.abc import Mapping

Step = tuple[int, int, int]
"""An edge of a circle: from, to, and by how much."""


class Circle(Exception):
    """Events that push one another on for ever: the edges of the circle, in order."""

    def __init__(self, steps: tuple[Step, ...]) -> None:
        super().__init__(steps)
        self.steps = steps


def circle(parent: Mapping[int, tuple[int, int]]) -> tuple[Step, ...]:
    """A circle among `parent` (by node: who pushed it last, and by how much); empty if none."""
    done: set[int] = set()
    for start in parent:
        path: list[int] = []
        on_path: set[int] = set()
        node = start
        while node in parent and node not in done and node not in on_path:
            path.append(node)
            on_path.add(node)
            node = parent[node][0]
        if node in on_path:
            return _steps(node, parent)
        done.update(path)
    return ()


def _steps(node: int, parent: Mapping[int, tuple[int, int]]) -> tuple[Step, ...]:
    steps: list[Step] = []
    at = node
    while True:
        by, weight = parent[at]
        steps.append((by, at, weight))
        at = by
        if at == node:
            return tuple(reversed(steps))


def climb(
    steps: tuple[Step, ...], time: list[float], latest: list[float], old: dict[int, float]
) -> None:
    """Go round a circle as often as it can be gone round before one event is at its latest.

    Raises Circle if nothing ever stops it.
    """
    gain = sum(weight for _, _, weight in steps)
    if not steps or gain <= 0:
        return
    nodes = [to for _, to, _ in steps]
    room = min(latest[node] - time[node] for node in nodes)
    if room == float("inf"):
        raise Circle(steps)
    rounds = int(room) // gain
    if rounds > 0:
        for node in nodes:
            old.setdefault(node, time[node])
            time[node] += rounds * gain
