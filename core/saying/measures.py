"""The units that are set side by side: how each is written, and what it becomes.

The other unit is the one an audience knows: kilometres become miles, never leagues. A unit whose
name means more than one thing is not here: gallons, ounces and tons differ from land to land,
pounds alone are money, weight or thrust, N is a degree of latitude, g a weight or an acceleration.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measure:
    """A unit and its counterpart.

    `unit` and `other` are names the converter knows. `short` goes after a figure whose unit was
    written as a symbol, `long` after one in words, `one` after a hyphen ('12-metre (39-foot)').
    """

    unit: str
    other: str
    short: str
    long: str
    one: str = ""
    is_temperature: bool = False


_M = ("feet", "feet", "foot")
_KM = ("miles", "miles", "mile")
_LB = ("lb", "pounds", "pound")
_METRES = ("m", "metres", "metre")
_KILOMETRES = ("km", "kilometres", "kilometre")
_KILOGRAMS = ("kg", "kilograms", "kilogram")
_SECOND = r"(?:a|per)\s+second"
_HOUR = r"(?:an|per)\s+hour"

MEASURES: tuple[tuple[str, Measure], ...] = (
    # speeds, before the lengths they begin with
    (
        rf"km/s|kilomet(?:re|er)s?\s+{_SECOND}",
        Measure("km/s", "mile/s", "miles a second", "miles a second"),
    ),
    (rf"km/h|kph|kilomet(?:re|er)s?\s+{_HOUR}", Measure("km/h", "mile/h", "mph", "miles an hour")),
    (rf"m/s|met(?:re|er)s?\s+{_SECOND}", Measure("m/s", "ft/s", "ft/s", "feet a second")),
    (rf"mph|miles?\s+{_HOUR}", Measure("mile/h", "km/h", "km/h", "kilometres an hour")),
    (rf"miles?\s+{_SECOND}", Measure("mile/s", "km/s", "km/s", "kilometres a second")),
    (rf"ft/s|feet\s+{_SECOND}", Measure("ft/s", "m/s", "m/s", "metres a second")),
    (r"knots?", Measure("knot", "km/h", "km/h", "kilometres an hour")),
    # lengths
    (r"km|kilomet(?:re|er)s?", Measure("km", "mile", *_KM)),
    (r"cm|centimet(?:re|er)s?", Measure("cm", "inch", "inches", "inches", "inch")),
    (r"mm|millimet(?:re|er)s?", Measure("mm", "inch", "inches", "inches", "inch")),
    (r"met(?:re|er)s?|m", Measure("m", "ft", *_M)),
    (r"nmi|nautical\s+miles?", Measure("nautical_mile", "km", *_KILOMETRES)),
    (r"miles?", Measure("mile", "km", *_KILOMETRES)),
    (r"ft|feet|foot", Measure("ft", "m", *_METRES)),
    (r"yards?", Measure("yard", "m", *_METRES)),
    (r"inch(?:es)?", Measure("inch", "cm", "cm", "centimetres", "centimetre")),
    # forces, before the pounds they begin with
    (r"kN|kilonewtons?", Measure("kN", "lbf", "lbf", "pounds of force")),
    (r"MN|meganewtons?", Measure("MN", "lbf", "lbf", "pounds of force")),
    (r"newtons?", Measure("N", "lbf", "lbf", "pounds of force")),
    (r"lbf|(?:lbs?|pounds)\s+of\s+(?:thrust|force)", Measure("lbf", "kN", "kN", "kilonewtons")),
    # masses
    (r"kg|kilogram(?:me)?s?", Measure("kg", "lb", *_LB)),
    (r"t|tonnes?|metric\s+tons?", Measure("tonne", "lb", *_LB)),
    (r"lbs?", Measure("lb", "kg", *_KILOGRAMS)),
    (r"short\s+tons?", Measure("short_ton", "tonne", "t", "tonnes", "tonne")),
    (r"long\s+tons?", Measure("long_ton", "tonne", "t", "tonnes", "tonne")),
    # pressures
    (r"kPa|kilopascals?", Measure("kPa", "psi", "psi", "pounds per square inch")),
    (r"psi|pounds\s+per\s+square\s+inch", Measure("psi", "kPa", "kPa", "kilopascals")),
    # temperatures
    (
        r"°\s?C|degrees?\s+(?:C|Celsius|centigrade)|C",
        Measure("degC", "degF", "F", "degrees Fahrenheit", is_temperature=True),
    ),
    (
        r"°\s?F|degrees?\s+(?:F|Fahrenheit)|F",
        Measure("degF", "degC", "C", "degrees Celsius", is_temperature=True),
    ),
)
"""By the pattern of what is written; the first that fits a whole unit counts."""
