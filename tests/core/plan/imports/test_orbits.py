import pytest

from core.errors import PlanProblems
from core.plan.imports.kinds import Kind, kind_of
from core.plan.imports.orbits import read_orbit
from core.plan.model import CourseKind
from core.times.instants import ms_to_rfc3339
from tests.core.plan.orbitdata.petrel import OEM, OEM_XML, OMM, OMM_JSON, OMM_XML, SECOND, TWO_LINES


@pytest.mark.parametrize("text", [OEM, OEM_XML])
def test_a_trajectory_gives_its_object_and_its_span(text: str) -> None:
    orbit = read_orbit(text, "petrel.oem")
    assert (orbit.kind, orbit.file, orbit.name) == (
        CourseKind.TRAJECTORY,
        "petrel.oem",
        "PETREL 4",
    )
    assert ms_to_rfc3339(orbit.from_ms) == "2031-05-14T17:00:00.000Z"
    assert orbit.until_ms > orbit.from_ms
    assert orbit.about == "earth"


def test_a_trajectory_in_pieces_spans_them_all() -> None:
    orbit = read_orbit(OEM + SECOND, "petrel.oem")
    assert ms_to_rfc3339(orbit.until_ms)[:16] == "2031-05-14T17:06"


@pytest.mark.parametrize("text", [OMM, OMM_XML, OMM_JSON, TWO_LINES])
def test_elements_give_their_object_and_their_epoch(text: str) -> None:
    orbit = read_orbit(text, "station.omm")
    assert (orbit.kind, orbit.name) == (CourseKind.ELEMENTS, "HARBOUR STATION")
    assert orbit.from_ms == orbit.until_ms


def test_a_broken_file_is_told_with_its_line_and_a_remedy() -> None:
    with pytest.raises(PlanProblems) as raised:
        read_orbit(OEM.replace("EME2000", "NOWHERE"), "petrel.oem")
    problem = raised.value.problems[0]
    assert (problem.where.file, problem.where.line) == ("petrel.oem", 11)
    assert problem.hint


def test_what_holds_no_orbit_says_what_would() -> None:
    with pytest.raises(PlanProblems, match="this holds no orbit"):
        read_orbit("16:46 Ignition", "notes.txt")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        (OEM, Kind.TRAJECTORY),
        (OEM_XML, Kind.TRAJECTORY),
        (OMM, Kind.ELEMENTS),
        (OMM_XML, Kind.ELEMENTS),
        (OMM_JSON, Kind.ELEMENTS),
        (TWO_LINES, Kind.ELEMENTS),
        ("BEGIN:VCALENDAR\r\nEND:VCALENDAR", Kind.CALENDAR),
        ("\ufeffbegin:vcalendar\nEND:VCALENDAR", Kind.CALENDAR),
        ("# ours\nlimbwatch = 1\n", Kind.PLAN),
        ("Event\tTime\nBurn\t16:46", Kind.TABLE),
        ("Event,Time\nBurn,16:46\n", Kind.TABLE),
        ("sep=;\nEvent;Time", Kind.TABLE),
        ("16:46 Ignition, at last\n16:52 Cutoff", Kind.TIMELINE),
        ("May 14, 4:46 p.m. Ignition\nMay 14, 4:52 p.m. Cutoff of it, and more", Kind.TIMELINE),
        ("<html></html>", Kind.TIMELINE),
    ],
)
def test_what_a_text_is_shows_in_its_content(text: str, kind: Kind) -> None:
    assert kind_of(text) is kind
