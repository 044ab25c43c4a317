"""Units by their definitions, for tests: a converter that owes nothing to the program's library.

The inch is 25.4 mm and the pound 0.453 592 37 kg exactly (international yard and pound, 1959); the
nautical mile is 1852 m; standard gravity is 9.806 65 m/s2 (CGPM 1901). Values from memory.
"""

METRES = {
    "m": 1.0,
    "km": 1000.0,
    "cm": 0.01,
    "mm": 0.001,
    "inch": 0.0254,
    "ft": 0.3048,
    "yard": 0.9144,
    "mile": 1609.344,
    "nautical_mile": 1852.0,
}
_LBF_N = 0.45359237 * 9.80665
_SI = {
    **METRES,
    "kg": 1.0,
    "lb": 0.45359237,
    "tonne": 1000.0,
    "short_ton": 907.18474,
    "long_ton": 1016.0469088,
    "N": 1.0,
    "kN": 1e3,
    "MN": 1e6,
    "lbf": _LBF_N,
    "kPa": 1e3,
    "psi": _LBF_N / 0.0254**2,
    "m/s": 1.0,
    "km/s": 1e3,
    "km/h": 1 / 3.6,
    "ft/s": 0.3048,
    "mile/s": 1609.344,
    "mile/h": 0.44704,
    "knot": 1852 / 3600,
}


def exact(value: float, unit: str, other: str) -> float:
    """The figure in the other unit."""
    if (unit, other) == ("degC", "degF"):
        return value * 9 / 5 + 32
    if (unit, other) == ("degF", "degC"):
        return (value - 32) * 5 / 9
    return value * _SI[unit] / _SI[other]
