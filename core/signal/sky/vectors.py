"""Three numbers in a row: the little algebra that needs no arrays."""

import math

Triple = tuple[float, float, float]


def dot(a: Triple, b: Triple) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Triple, b: Triple) -> Triple:
    """The vector product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def length(a: Triple) -> float:
    """How long it is."""
    return math.sqrt(dot(a, a))


def scaled(a: Triple, by: float) -> Triple:
    """The same direction, `by` times as long."""
    return (a[0] * by, a[1] * by, a[2] * by)


def plus(a: Triple, b: Triple, times: float = 1.0) -> Triple:
    """`a`, and `b` added `times` over."""
    return (a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times)


def unit(a: Triple) -> Triple:
    """The same direction, of length 1."""
    return scaled(a, 1.0 / length(a))
