from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.saying.figures import (
    Figure,
    as_written,
    figure_text,
    is_near,
    rounded,
    rounded_degrees,
)
from core.saying.measures import MEASURES
from core.saying.units import has_measure, side_by_side
from tests.core.saying.exact_units import exact


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Thrust 30 kN.", "Thrust 30 kN (6,700 lbf)."),
        ("378,000 km away", "378,000 km (235,000 miles) away"),
        ("down to -150 C", "down to -150 C (-240 F)"),
        ("minus 150 degrees Celsius", "minus 150 degrees Celsius (minus 240 degrees Fahrenheit)"),
        ("at −10 °F", "at −10 °F (−23°C)"),
        ("about 20 C outside", "about 20 C (68 F) outside"),
        ("20°C", "20°C (68°F)"),
        ("5 °F", "5 °F (−15°C)"),
        ("at 2.1 km/s", "at 2.1 km/s (1.3 miles a second)"),
        ("a 14 t craft", "a 14 t (31,000 lb) craft"),
        ("2,000 t of it", "2,000 t (4.4 million lb) of it"),
        ("at 6,000 ft", "at 6,000 ft (about 1,800 m)"),
        ("at 6,000 feet", "at 6,000 feet (about 1,800 metres)"),
        ("some 6,000 feet up", "some 6,000 feet (1,800 metres) up"),
        ("2,802 feet per second,", "2,802 feet per second (854 metres a second),"),
        ("1.2 million km off", "1.2 million km (750,000 miles) off"),
        ("17,500 mph", "17,500 mph (28,200 km/h)"),
        ("250,000 lb of thrust", "250,000 lb of thrust (about 1,100 kilonewtons)"),
        ("58.3 by 170 nautical miles", "58.3 by 170 nautical miles (about 108 by 310 kilometres)"),
        ("10–20 km", "10–20 km (about 6–12 miles)"),
        ("from 10 to 20 km", "from 10 to 20 km (about 6 to 12 miles)"),
        ("-150 to 120 C", "-150 to 120 C (-240 to 250 F)"),
        ("a 12-metre dish", "a 12-metre (about 40-foot) dish"),
        ("1 m tall, 3 m wide", "1 m (3.3 feet) tall, 3 m (about 10 feet) wide"),
        ("250 m away", "250 m (about 800 feet) away"),
        ("1.6 km", "1.6 km (1 mile)"),
        ("9.2 t", "9.2 t (about 20,000 lb)"),
        ("takes 2,800 C", "takes 2,800 C (5,100 F)"),
        ("50 C", "50 C (122 F)"),
        ("5 mm", "5 mm (about 0.2 inches)"),
        ("30 kN, 14 t", "30 kN (6,700 lbf), 14 t (31,000 lb)"),
    ],
)
def test_a_measure_gets_the_other_systems_figure(text: str, shown: str) -> None:
    assert side_by_side(text, exact) == shown
    assert has_measure(text)


@pytest.mark.parametrize(
    "text",
    [
        *("the call at 4 m past", "3 m 20 s", "5 p.m.", "Mark 2", "250 m ago", "4 m", "$5 m"),
        *("Mark 2 and 30 km on", "seat 20 C", "pad 39 F", "45 N", "5 g", "30 pounds", "6 tons"),
        *(
            "20 gallons",
            "6 ft 2 in",
            "5 feet 10 inches",
            "10 by 30-km-wide",
            "T-30 km",
            "9.8 m/s²",
            "-30 km",
            "12-m",
        ),
        *("9.8 metres per second squared", "3 km per orbit", "5 km a day", "1:30 km", "v2.1 km"),
        *("30 kN (6,700 lbf)", "30 km, or 19 miles, up", "(30 km)", "30 km or about 19 miles"),
        *("between 10 and 20 km", "30 min", "3 h", "12 in 2031", "four kilometres", "1,00 km", ""),
    ],
)
def test_what_is_no_measure_or_may_be_something_else_is_left_alone(text: str) -> None:
    assert side_by_side(text, exact) == text
    assert not has_measure(text)


def test_american_usage_spells_meters() -> None:
    text = "at 6,000 feet, 250 mph, 40 miles"
    shown = "at 6,000 feet (about 1,800 meters), 250 mph (400 km/h), 40 miles (64 kilometers)"
    assert side_by_side(text, exact, american=True) == shown


@pytest.mark.parametrize(
    ("digits", "many", "step"),
    [
        *(("378,000", "", "1000"), ("6,000", "", "100"), ("30", "", "1"), ("150", "", "10")),
        *(("5", "", "1"), ("0", "", "1"), ("2.10", "", "0.01"), ("1.2", "million", "100000")),
    ],
)
def test_a_figure_is_as_good_as_its_last_place_that_counts(
    digits: str, many: str, step: str
) -> None:
    assert as_written(digits, many).step == Decimal(step)


written = st.one_of(
    st.integers(1, 999_999_999).map(lambda whole: f"{whole:,}"),
    st.integers(1, 99).flatmap(
        lambda lead: st.integers(0, 7).map(lambda power: f"{lead * 10**power:,}")
    ),
    st.integers(1, 99_999).map(lambda many: f"{many / 100:.2f}"),
)
lengths = st.sampled_from([m for _, m in MEASURES if not m.is_temperature])


@given(written, lengths.map(lambda measure: (measure.unit, measure.other)))
def test_the_other_figure_is_never_finer_than_the_one_written(
    digits: str, units: tuple[str, str]
) -> None:
    figure = as_written(digits)
    step = exact(float(figure.step), *units)
    other = rounded(exact(float(figure.value), *units), step, figure.digits)
    assert float(other.step) >= 0.4 * step * (1 - 1e-9) or other.digits <= 2
    carried = 1 if str(other.value).startswith("1") else 0  # 99.6 is 100
    assert other.digits <= max(2, figure.digits) + carried


@given(written, lengths.map(lambda measure: (measure.unit, measure.other)))
def test_going_back_comes_out_within_the_rounding(digits: str, units: tuple[str, str]) -> None:
    figure = as_written(digits)
    value = float(figure.value)
    true = exact(value, *units)
    other = rounded(true, exact(float(figure.step), *units), figure.digits)
    back = exact(float(other.value), units[1], units[0])
    assert abs(back - value) <= 0.05 * value * (1 + 1e-9)
    assert not is_near(other, true) or abs(back - value) <= 0.01 * value * (1 + 1e-9)
    half = exact(float(other.step) / 2, units[1], units[0])
    assert abs(back - value) <= half * (1 + 1e-9)


@given(st.integers(-270, 5_000), st.booleans())
def test_a_temperature_comes_back_within_the_step_of_its_figure(degrees: int, from_c: bool) -> None:
    units = ("degC", "degF") if from_c else ("degF", "degC")
    figure = as_written(str(abs(degrees)), below=degrees < 0)
    step = exact(float(figure.step), *units) - exact(0.0, *units)
    other = rounded_degrees(exact(degrees, *units), step)
    back = exact(float(other.value), units[1], units[0])
    assert abs(back - degrees) <= 1.4 * float(figure.step)


@given(st.text(alphabet="0123456789 .,-−kmMNtCFsfth()/or", max_size=40))
def test_any_text_keeps_its_own_words_in_their_order(text: str) -> None:
    shown = side_by_side(text, exact)
    assert has_measure(text) == (shown != text)
    left = iter(shown)
    assert all(letter in left for letter in text)


@given(written, st.sampled_from(["km", "kN", "ft", "mph"]))
def test_what_was_set_side_by_side_once_is_left_alone_the_second_time(
    digits: str, unit: str
) -> None:
    once = side_by_side(f"It is {digits} {unit} there.", exact)
    assert side_by_side(once, exact) == once


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        *(("6700", "100", "6,700"), ("0.60", "0.1", "0.6"), ("3.0", "0.1", "3")),
        *(("4400000", "100000", "4.4 million"), ("1234567", "1", "1,234,567")),
        ("-240", "10", "240"),
    ],
)
def test_a_figure_is_written_as_one_reads_it(value: str, step: str, text: str) -> None:
    assert figure_text(Figure(Decimal(value), Decimal(step))) == text
