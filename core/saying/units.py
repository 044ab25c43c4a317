"""Metric and customary side by side: '30 kN' becomes '30 kN (6,700 lbf)'.

What is surely a measure gets the other system's figure after it, in brackets; what may be anything
else is left alone, for a wrong figure read on the air is worse than a missing one. The arithmetic
is a unit library's, handed in.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

from core.saying.figures import (
    MANY,
    NUMBER,
    Figure,
    as_written,
    figure_text,
    is_near,
    rounded,
    rounded_degrees,
)
from core.saying.measures import MEASURES, Measure

Convert = Callable[[float, str, str], float]
"""A figure in one unit, in another: (30.0, 'kN', 'lbf') gives 6744.3. Raises nothing for these."""

_SIGN = r"minus\s|[-−]"


@cache
def _figure() -> re.Pattern[str]:
    """A figure, or two of them, with a unit.

    Not before another figure ('3 m 20 s'), nor where somebody has given the other unit already.
    Made when it is first needed: it takes 20 ms, which the first frame need not wait for.
    """
    units = "|".join(f"(?P<u{at}>{written})" for at, (written, _) in enumerate(MEASURES))
    return re.compile(
        r"(?<![\w.,:/$£€¥#+\-−–])"
        rf"(?:(?P<sign1>{_SIGN})?(?P<first>{NUMBER})(?P<join>\s(?:by|to)\s|\s?[x×–-]\s?))?"
        rf"(?P<sign>{_SIGN})?(?P<number>{NUMBER})(?:\s(?P<many>{'|'.join(MANY)}))?"
        rf"(?P<gap>[-\s]?)(?:{units})"
        r"(?![\w/²³^°·*'’-])"
        r"(?!\s*(?:squared|cubed|per\b|an?\s+(?:second|minute|hour|day)\b))"
        r"(?!\s+\d)(?!\s*\(\s*\D{0,12}\d)(?!,?\s+or\s+\D{0,12}\d)"
    )


_DIGIT = re.compile(r"\d")
_ABOUT = re.compile(r"(?:about|around|roughly|some|nearly|almost|approximately|[~≈])\s*$", re.I)
_ONE_OF_SEVERAL = re.compile(
    r"\d\s*$|\d\s+(?:and|or)\s+$|\bor\s+\D{0,12}$"
    r"|\d[\s-]?(?:feet|foot|ft|lbs?|pounds|km|m|d|h|min|hours?|minutes?)\s$"
)
"""Before the figure: another one without a unit, the other unit, or the larger part of a whole."""
_WARM = re.compile(
    r"(?:^|\b(?:about|above|and|at|below|between|from|is|just|near|nearly|of|only|over|reach|reaches"
    r"|takes|temperatures?|than|to|under|was)\s)$"
)
"""What stands before a bare '20 C', which else may be a seat or a site."""
_HIGH = re.compile(
    r"\s+(?:high|tall|wide|deep|across|thick|above|below|in\s+(?:diameter|height))\b"
)
_TIME = re.compile(r"\s+(?:ago|after|before|early|earlier|from|in|late|later|left|past|to)\b")
_SHORT_WORDS = ("feet", "foot", "inch", "knot", "mile", "yard")
"""Units in words, no longer than a symbol may be."""
_SURELY_METRES = 100
"""Nobody writes so many minutes as 'm'."""


@dataclass(frozen=True, slots=True)
class _Found:
    """A measure in a text: where it ends, its figures, and how it was written."""

    end: int
    figures: tuple[Figure, ...]
    measure: Measure
    written: str
    join: str
    minus: str
    hyphen: bool
    about: bool


def side_by_side(text: str, convert: Convert, *, american: bool = False) -> str:
    """The text with the other unit's figure after each measure; `american` spells 'meters'."""
    parts, at = [], 0
    for found in _measures(text):
        other = _other(found, convert)
        parts += [
            text[at : found.end],
            " (",
            re.sub("metre", "meter", other) if american else other,
        ]
        parts.append(")")
        at = found.end
    return "".join((*parts, text[at:]))


def has_measure(text: str) -> bool:
    """Whether anything in the text would get another figure."""
    return next(_measures(text), None) is not None


def _measures(text: str) -> Iterator[_Found]:
    for match in _figure().finditer(text) if _DIGIT.search(text) else ():
        name = next(name for name, unit in match.groupdict().items() if unit and name[0] == "u")
        measure = MEASURES[int(name[1:])][1]
        before, after = text[: match.start()], text[match.end() :]
        if _is_meant(match, match[name], measure, before, after):
            yield _Found(
                match.end(),
                _figures(match),
                measure,
                match[name],
                match["join"] or "",
                match["sign1"] or match["sign"] or "−",
                match["gap"] == "-",
                _ABOUT.search(before) is not None,
            )


def _is_meant(match: re.Match[str], unit: str, measure: Measure, before: str, after: str) -> bool:
    """Whether it is a measure and nothing else, and stands where a bracket may follow."""
    if before.count("(") > before.count(")") or _ONE_OF_SEVERAL.search(before):
        return False
    signed = bool(match["sign"] or match["sign1"])
    if match["gap"] == "-":
        return bool(measure.one) and not signed and unit != "m"
    if unit in ("C", "F"):
        return signed or _WARM.search(before) is not None
    if unit == "m":
        large = as_written(match["number"]).value >= _SURELY_METRES
        return not signed and (
            _HIGH.match(after) is not None or (large and _TIME.match(after) is None)
        )
    return measure.is_temperature or not signed


def _figures(match: re.Match[str]) -> tuple[Figure, ...]:
    many = match["many"] or ""
    last = as_written(match["number"], many, below=bool(match["sign"]))
    if not match["first"]:
        return (last,)
    return (as_written(match["first"], many, below=bool(match["sign1"])), last)


def _other(found: _Found, convert: Convert) -> str:
    """What goes into the brackets."""
    measure, texts, about = found.measure, [], False
    zero = convert(0.0, measure.unit, measure.other)
    for figure in found.figures:
        exact = convert(float(figure.value), measure.unit, measure.other)
        step = convert(float(figure.step), measure.unit, measure.other) - zero
        if measure.is_temperature:
            other = rounded_degrees(exact, step)
        else:
            other = rounded(exact, step, figure.digits)
            about = about or not is_near(other, exact)
        sign = found.minus if other.value < 0 else ""
        texts.append(f"{sign}{figure_text(other)}")
    shown = found.join.join(texts)
    lead = "about " if about and not found.about else ""
    return f"{lead}{shown}{_unit(found, shown)}"


def _unit(found: _Found, shown: str) -> str:
    measure = found.measure
    if found.hyphen:
        return f"-{measure.one}"
    if measure.is_temperature and found.written.startswith("°"):
        return f"°{measure.short}"
    in_words = len(found.written) > 4 or found.written in _SHORT_WORDS
    word = measure.long if in_words else measure.short
    return (
        f" {measure.one}" if shown == "1" and measure.one and word == measure.long else f" {word}"
    )
