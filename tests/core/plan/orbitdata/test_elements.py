"""Good mean elements in all their forms, all of them the same."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.orbitdata.elements import elements_of, elements_of_lines, read_elements
from core.plan.orbitdata.model import MeanElements
from tests.core.plan.orbitdata.petrel import LINE_1, LINE_2, OMM, OMM_JSON, OMM_XML, TWO_LINES

STATION = MeanElements(
    name="HARBOUR STATION",
    catalogue=312345,
    epoch_utc_ms=datetime(2031, 5, 14, 12, tzinfo=UTC).timestamp() * 1000 + 500,
    mean_motion=15.5,
    eccentricity=0.0001,
    inclination_deg=51.6,
    node_deg=100.0,
    argument_deg=10.0,
    mean_anomaly_deg=350.0,
    ballistic=0.28098e-4,
    mean_motion_dot=-0.00000084,
    mean_motion_ddot=1e-9,
)


@pytest.mark.parametrize(
    "text",
    [
        OMM,
        OMM.replace("= 2.0", "= 3.0"),
        OMM.replace("SGP/SGP4", "SGP4"),
        OMM.replace("\n", "\r\n"),
        OMM.replace("2031-05-14T12:00:00.500", "2031-134T12:00:00.5Z"),
        OMM_XML,
        OMM_XML.replace("<ndm>", "").replace("</ndm>", ""),
        OMM_JSON,
        OMM_JSON.strip()[1:-1],
        OMM_JSON.replace("null", '"2031-05-20"').replace("}]", ', "SITE": true}]'),
    ],
)
def test_an_omm_says_the_same_in_every_notation(text: str) -> None:
    assert elements_of(text, "p") == STATION


@pytest.mark.parametrize("text", [OMM, OMM_XML, OMM_JSON])
def test_an_epoch_may_lack_its_fraction(text: str) -> None:
    whole = text.replace("12:00:00.500000", "12:00:00").replace("12:00:00.500", "12:00:00")
    assert elements_of(whole, "p").epoch_utc_ms == STATION.epoch_utc_ms - 500


@pytest.mark.parametrize("text", [TWO_LINES, "0 " + TWO_LINES, TWO_LINES.replace("\n", "\r\n")])
def test_three_lines_are_a_name_and_elements(text: str) -> None:
    found = elements_of(text, "p")
    assert (found.name, found.catalogue) == ("HARBOUR STATION", 100_005)
    assert found.epoch_utc_ms == pytest.approx(STATION.epoch_utc_ms, abs=0.9)
    assert (found.inclination_deg, found.node_deg) == (51.6, 100.0)
    assert (found.argument_deg, found.mean_anomaly_deg) == (10.0, 350.0)
    assert (found.mean_motion, found.eccentricity) == (15.5, 0.0001)
    assert (found.ballistic, found.mean_motion_dot) == (0.28098e-4, -0.84e-6)


def test_two_lines_of_a_file_and_of_a_plan_are_the_same(tmp_path: Path) -> None:
    path = tmp_path / "station.tle"
    path.write_text(f"{LINE_1}\n{LINE_2}\n\n", encoding="utf-8")
    assert read_elements(path) == elements_of_lines(LINE_1, LINE_2)
    assert read_elements(path).name == "object A0005"


@pytest.mark.parametrize(
    ("digits", "total", "year"),
    [("57", 0, 1957), ("99", 0, 1999), ("00", 0, 2000), ("56", 0, 2056)],
)
def test_years_of_two_digits_turn_at_57(digits: str, total: int, year: int) -> None:
    line = LINE_1[:18] + digits + LINE_1[20:68]
    line += str((total + _sum(line)) % 10)
    at_ms = elements_of_lines(line, LINE_2).epoch_utc_ms
    assert datetime.fromtimestamp(at_ms / 1000, UTC).year == year


@pytest.mark.parametrize(
    ("written", "number"),
    [("00005", 5), ("99999", 99_999), ("A0000", 100_000), ("J0001", 180_001), ("Z9999", 339_999)],
)
def test_a_letter_stands_for_a_high_catalogue_number(written: str, number: int) -> None:
    lines = [line[:2] + written + line[7:68] for line in (LINE_1, LINE_2)]
    one, other = (line + str(_sum(line)) for line in lines)
    assert elements_of_lines(one, other).catalogue == number


def _sum(line: str) -> int:
    return sum(int(one) if one.isdigit() else one == "-" for one in line) % 10


def test_a_large_file_of_elements_is_refused_without_being_read(tmp_path: Path) -> None:
    path = tmp_path / "catalogue.json"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    with pytest.raises(PlanProblems) as caught:
        read_elements(path)
    assert "over 1 MB" in caught.value.problems[0].what
