"""Two-line elements: their columns, their checksums, and the mean elements they stand for."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from core.plan.orbitdata.mean import check_ranges
from core.plan.orbitdata.model import MeanElements
from core.plan.orbitdata.telling import Telling, Word, quoted

_LENGTH = 69
_PIVOT = 57
"""Two-digit years from here on are of the 1900s: the first satellite flew in 1957."""

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""What stands for 10 to 33 in front of a catalogue number over 99999: no I, no O."""

_DAY_MS = 86_400_000
_UNIX = date(1970, 1, 1)


@dataclass(frozen=True, slots=True)
class _Field:
    """One field of a line: its columns from 1, both included, and how it is written."""

    name: str
    first: int
    last: int
    form: str
    example: str


_NUMBER = _Field("catalogue number", 3, 7, r"[A-HJ-NP-Z \d][ \d]{3}\d", "00005 or A0005")
_IMPLIED = r"[ +-][ \d]{4}\d[ +-]\d"
_ANGLE = r"[ \d]{2}\d\.\d{4}"

# The layout is that of the published format: NORAD, Space Track Report No. 3 and its revision
# (Vallado, Crawford, Hujsak, Kelso, 2006).
_LINES = (
    (
        _NUMBER,
        _Field("epoch, two digits of the year", 19, 20, r"[ \d]\d", "31"),
        _Field("epoch, day of the year", 21, 32, r"[ \d]{2}\d\.[ \d]{8}", "134.50000000"),
        _Field("mean motion's rate", 34, 43, r"[ +-]\.\d{8}", "-.00000084"),
        _Field("mean motion's second rate", 45, 52, _IMPLIED, "00000-0"),
        _Field("drag term", 54, 61, _IMPLIED, "28098-4"),
        _Field("kind of elements", 63, 63, r"[ 0-3]", "0"),
        _Field("number of the set", 65, 68, r"[ \d]{4}", "475"),
    ),
    (
        _NUMBER,
        _Field("inclination", 9, 16, _ANGLE, "51.6000"),
        _Field("node", 18, 25, _ANGLE, "100.0000"),
        _Field("eccentricity", 27, 33, r"[ \d]{6}\d", "0001000"),
        _Field("argument of perigee", 35, 42, _ANGLE, "10.0000"),
        _Field("mean anomaly", 44, 51, _ANGLE, "350.0000"),
        _Field("mean motion", 53, 63, r"[ \d]\d\.\d{8}", "15.50000000"),
        _Field("revolution", 64, 68, r"[ \d]{5}", "12"),
    ),
)
_GAPS = ((2, 9, 18, 33, 44, 53, 62, 64), (2, 8, 17, 26, 34, 43, 52))
"""Columns that are always empty."""

Fields = Mapping[str, Word]


def two_lines(lines: tuple[Word, Word], name: str, telling: Telling) -> MeanElements | None:
    """The mean elements of two lines; None where something is wrong with them, which is told.

    The spots of problems count on from those of the lines.
    """
    first, second = (_fields(line, at, telling) for at, line in enumerate(lines))
    if first is None or second is None:
        return None
    one, other = (fields["catalogue number"] for fields in (first, second))
    if one.text != other.text:
        what = f"line 2 is of {quoted(other.text)}, and line 1 of {quoted(one.text)}"
        telling.problem(other.spot, what, "Take both lines of one object")
        return None
    epoch_ms = _epoch_utc_ms(first, telling)
    elements = MeanElements(
        name=name or f"object {one.text.strip()}",
        catalogue=_catalogue(one.text),
        epoch_utc_ms=epoch_ms,
        mean_motion=float(second["mean motion"].text),
        eccentricity=float("." + second["eccentricity"].text.replace(" ", "0")),
        inclination_deg=float(second["inclination"].text),
        node_deg=float(second["node"].text),
        argument_deg=float(second["argument of perigee"].text),
        mean_anomaly_deg=float(second["mean anomaly"].text),
        ballistic=_implied(first["drag term"].text),
        mean_motion_dot=float(first["mean motion's rate"].text),
        mean_motion_ddot=_implied(first["mean motion's second rate"].text),
    )
    return elements if check_ranges(elements, second, telling) else None


def _fields(line: Word, at: int, telling: Telling) -> Fields | None:
    """The fields of a line by name; None where its columns do not fit, which is told."""
    text, (row, column) = line.text, line.spot
    if not text.startswith(f"{at + 1} ") or len(text) != _LENGTH or not text.isascii():
        what = f"line {at + 1} of two-line elements begins with {at + 1} and has 69 characters"
        telling.problem(
            line.spot, what, f"This one has {len(text)}: copy it whole, with its spaces"
        )
        return None
    good = _check_sum(line, telling)
    for gap in _GAPS[at]:
        if text[gap - 1] != " ":
            what = f"column {gap} of line {at + 1} is always empty"
            telling.problem((row, column + gap - 1), what, "Copy the line with its spaces")
            good = False
    fields = {}
    for field in _LINES[at]:
        word = Word(text[field.first - 1 : field.last], (row, column + field.first - 1))
        fields[field.name] = word
        if not re.fullmatch(field.form, word.text, flags=re.ASCII):
            what = (
                f"{quoted(word.text)} cannot be the {field.name} "
                f"(columns {field.first} to {field.last})"
            )
            telling.problem(word.spot, what, f"Like {field.example}")
            good = False
    return fields if good else None


def _check_sum(line: Word, telling: Telling) -> bool:
    """Whether the last digit is the sum of the others, a minus sign counting one."""
    letters, last = line.text[:-1], line.text[-1]
    total = sum(int(letter) if letter in "0123456789" else letter == "-" for letter in letters) % 10
    if last == str(total):
        return True
    row, column = line.spot
    what = f"the checksum {quoted(last)} does not fit this line: its digits make {total}"
    telling.problem((row, column + _LENGTH - 1), what, "A digit is wrong: copy the line again")
    return False


def _catalogue(text: str) -> int:
    letter = _LETTERS.find(text[0])
    return int(text) if letter < 0 else (10 + letter) * 10_000 + int(text[1:])


def _epoch_utc_ms(fields: Fields, telling: Telling) -> float:
    """The epoch. A day after the last of the year is of the next: such sets are published."""
    year_2 = int(fields["epoch, two digits of the year"].text)
    word = fields["epoch, day of the year"]
    whole, _, part = word.text.partition(".")
    if not 1 <= int(whole) <= 366:
        telling.problem(word.spot, f"there is no day {whole.strip()} in a year", "From 1 to 366")
    new_year = date(year_2 + (1900 if year_2 >= _PIVOT else 2000), 1, 1)
    days = (new_year - _UNIX).days + int(whole) - 1
    return days * _DAY_MS + int(part.replace(" ", "0")) * (_DAY_MS / 10**8)


def _implied(text: str) -> float:
    """A number whose point is left out before the first digit, and whose exponent has no E."""
    sign, digits, exponent = text[0].strip(), text[1:6].replace(" ", "0"), text[6:].strip()
    return float(f"{sign}.{digits}e{exponent}")
