import subprocess
import sys

import pytest

from app.units import Units, converter
from core.saying.measures import MEASURES
from tests.core.saying.exact_units import exact


def test_the_library_knows_every_unit_and_agrees_with_their_definitions() -> None:
    convert = converter()
    for _, measure in MEASURES:
        for value in (0.0, 1.0, -150.0, 378_000.0):
            ours = exact(value, measure.unit, measure.other)
            assert convert(value, measure.unit, measure.other) == pytest.approx(ours)


def test_for_a_command_the_library_is_waited_for() -> None:
    assert Units(at_once=True)("30 kN", american=False) == "30 kN (6,700 lbf)"


def test_for_a_window_texts_stay_as_they_are_until_the_library_is_there() -> None:
    units = Units()
    assert units("at 6,000 feet", american=True) == "at 6,000 feet"
    units.begin()
    units("at 6,000 feet", american=True)
    units.wait()
    assert units("at 6,000 feet", american=True) == "at 6,000 feet (about 1,800 meters)"
    assert units("at 6,000 feet", american=False) == "at 6,000 feet (about 1,800 metres)"


@pytest.mark.parametrize(
    ("lines", "there"),
    [
        ("units.begin(); units('five p.m.', american=True)", False),
        ("units('30 kN', american=True)", False),
        ("units.begin(); units('30 kN', american=True); units.wait()", True),
    ],
)
def test_the_library_comes_for_a_measure_only_and_only_once_it_may(lines: str, there: bool) -> None:
    code = f"import sys; from app.units import Units; units = Units(); {lines}"
    ran = subprocess.run(
        [sys.executable, "-c", f"{code}; print('pint' in sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.strip() == str(there)
