"""Figures as they are written, and how round the other unit's figure may be."""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?"
MANY = {"thousand": 3, "million": 6, "billion": 9}
"""Words after a figure, as powers of ten."""

_LEAST_STEP = Decimal("0.4")
"""Of the step of the figure written, in the other unit: 30 kN is 6,700 and not 7,000 lbf."""
_MOST_OFF = Decimal("0.05")
_NEAR = Decimal("0.01")
"""Farther than this from the true figure, the round one is 'about'."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure, and the step of its last place that counts."""

    value: Decimal
    step: Decimal

    @property
    def digits(self) -> int:
        """How many digits it has down to its step."""
        return len(str(int(abs(self.value) / self.step)))


def as_written(digits: str, many: str = "", *, below: bool = False) -> Figure:
    """'378,000' is good to thousands, '6,000' to hundreds, '2.10' to hundredths, '5' to ones.

    Noughts at the end of a whole number count no farther than its second digit. `below`: with a
    minus before it.
    """
    plain = digits.replace(",", "")
    power = MANY.get(many, 0)
    whole, _, places = plain.partition(".")
    if places:
        last = -len(places)
    else:
        whole = whole.lstrip("0") or "0"
        last = len(whole) - max(len(whole.rstrip("0")), min(2, len(whole)))
    value = Decimal(plain).scaleb(power)
    return Figure(-value if below else value, Decimal(1).scaleb(last + power))


def rounded(exact: float, written_step: float, digits: int) -> Figure:
    """The figure in the other unit, no finer than the one written, whose step is given in it.

    Steps are whole powers of ten, and there are no more digits than the `digits` written, or two. A
    lone digit may be too coarse for that: then it gets as much finer as keeps it within a twentieth
    of the true figure, which two digits always do.
    """
    true = Decimal(repr(exact))
    step = _power_from(Decimal(repr(written_step)) * _LEAST_STEP)
    step = max(step, Decimal(1).scaleb(true.adjusted() + 1 - max(2, digits)))
    value = _nearest(true, step)
    while abs(value - true) > _MOST_OFF * abs(true):
        step = step / 2 if step.as_tuple().digits == (1,) else step / 5
        value = _nearest(true, step)
    return Figure(value, step)


def rounded_degrees(exact: float, written_step: float) -> Figure:
    """The same for a temperature, where a part of the figure, or its digits, mean nothing."""
    true = Decimal(repr(exact))
    step = _power_from(Decimal(repr(written_step)) * _LEAST_STEP)
    return Figure(_nearest(true, step), step)


def is_near(figure: Figure, exact: float) -> bool:
    """Whether the round figure needs no 'about'."""
    true = Decimal(repr(exact))
    return abs(figure.value - true) <= _NEAR * abs(true)


def figure_text(figure: Figure) -> str:
    """'6,700', '0.6', without a sign; '4.4 million' where nothing below thousands counts."""
    size, step = abs(figure.value), figure.step
    million = size >= 10**6 and step >= 10**3
    if million:
        size, step = size.scaleb(-6), step.scaleb(-6)
    places = max(0, -int(step.normalize().as_tuple().exponent))
    text = f"{size:,.{places}f}"
    if places:
        text = text.rstrip("0").rstrip(".")
    return f"{text} million" if million else text


def _nearest(true: Decimal, step: Decimal) -> Decimal:
    return (true / step).to_integral_value(ROUND_HALF_UP) * step


def _power_from(least: Decimal) -> Decimal:
    """The smallest power of ten that is not below."""
    power = Decimal(1).scaleb(least.adjusted())
    return power if power >= least else power.scaleb(1)
