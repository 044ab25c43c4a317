"""Labels beside their instants, none upon another."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], apart: float, top: float, bottom: float) -> list[float]:
    """Heights in the same order, as near as may be to those wanted, each `apart` from the next.

    They are kept between top and bottom as long as there is room for all.
    """
    groups: list[list[float]] = []  # the height of a group's first, and how many it has
    for height in wanted:
        groups.append([min(max(height, top), bottom), 1])
        while len(groups) > 1 and groups[-1][0] < groups[-2][0] + groups[-2][1] * apart:
            _join(groups, apart)
    found = [first + place * apart for first, count in groups for place in range(int(count))]
    for place in range(len(found) - 1, -1, -1):
        found[place] = min(found[place], bottom - (len(found) - 1 - place) * apart)
    for place in range(len(found)):
        found[place] = max(found[place], top + place * apart)
    return found


def _join(groups: list[list[float]], apart: float) -> None:
    """The last two groups become one, about the middle of where both would be."""
    (first, count), (other, more) = groups[-2], groups[-1]
    middle = (first * count + (other - count * apart) * more) / (count + more)
    groups[-2:] = [[middle, count + more]]
