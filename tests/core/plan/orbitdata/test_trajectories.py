"""Good OEM files in all their forms."""

import gzip
from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.orbitdata.trajectory import LARGEST_BYTES, read_trajectory, trajectory_of
from core.times.instants import rfc3339_to_ms
from core.times.scales import tt_s_of_utc_ms
from tests.core.plan.orbitdata.petrel import COVARIANCE, OEM, OEM_XML, SECOND

FLOWN = Path(__file__).parents[5] / "shared" / "data" / "artemis2.oem"
"""A flown trajectory as NASA published it in April 2026: CCSDS OEM 2.0, 3262 states."""

NOON_S = tt_s_of_utc_ms(rfc3339_to_ms("2031-05-14T17:00:00Z"))


def test_a_file_in_keywords_gives_its_states_on_terrestrial_time() -> None:
    trajectory = trajectory_of(OEM, "p")
    assert trajectory.name == "PETREL 4"
    (segment,) = trajectory.segments
    assert segment.centre == "earth"
    assert segment.at_s == tuple(NOON_S + 60 * minute for minute in range(5))
    assert (segment.begin_s, segment.end_s) == (NOON_S, NOON_S + 240)
    assert segment.position_km[1] == (379970.5, -11955.25, 7985.0)
    assert segment.velocity_km_s[4] == (-0.5, 0.75, -0.25)


def test_a_second_segment_may_have_its_own_centre_time_system_and_accelerations() -> None:
    one, other = trajectory_of(OEM + SECOND, "p").segments
    assert other.centre == "moon"
    # 17:05:09.184 TDB is 17:04:00 UTC: the second begins where the first ends.
    assert other.at_s == pytest.approx((one.end_s, one.end_s + 120), abs=1e-6)
    assert other.position_km[0] == (6235.5, -752.4, -273.8)


def test_covariances_are_passed_over() -> None:
    assert trajectory_of(OEM + COVARIANCE + SECOND, "p") == trajectory_of(OEM + SECOND, "p")


def test_xml_gives_what_the_keywords_give() -> None:
    (segment,) = trajectory_of(OEM_XML, "p").segments
    (keywords,) = trajectory_of(OEM, "p").segments
    assert segment.at_s == keywords.at_s[:2]
    assert segment.position_km == keywords.position_km[:2]
    assert segment.velocity_km_s == keywords.velocity_km_s[:2]


@pytest.mark.parametrize(
    "wrapped",
    [
        OEM_XML.replace("<oem", "<ndm><oem").replace("</oem>", "</oem></ndm>"),
        OEM_XML.replace("<oem", '<n:oem xmlns:n="urn:ccsds"').replace("</oem>", "</n:oem>"),
        OEM_XML.replace('encoding="UTF-8"', 'encoding="ISO-8859-1"'),
        OEM_XML.replace("380000.5", "<![CDATA[380000.5]]>"),
        OEM_XML.replace("380000.5", "&#51;80000.5"),
        "\n".join(OEM_XML.split("\n")[1:]),
    ],
)
def test_xml_may_be_wrapped_and_written_in_many_ways(wrapped: str) -> None:
    assert trajectory_of(wrapped, "p") == trajectory_of(OEM_XML, "p")


def test_a_mark_and_windows_line_ends_are_taken(tmp_path: Path) -> None:
    path = tmp_path / "petrel.oem"
    path.write_bytes(b"\xef\xbb\xbf" + OEM.replace("\n", "\r\n").encode())
    assert read_trajectory(path) == trajectory_of(OEM, "p")


@pytest.mark.parametrize(
    ("system", "ahead_s"), [("TT", 69.184), ("TDB", 69.184), ("TAI", 37), ("GPS", 18), ("UT1", 0)]
)
def test_every_time_system_is_brought_to_terrestrial_time(system: str, ahead_s: float) -> None:
    (segment,) = trajectory_of(OEM.replace("= UTC", f"= {system}"), "p").segments
    # A clock that is ahead of UTC shows the same time earlier.
    assert segment.begin_s == pytest.approx(NOON_S - ahead_s, abs=1e-6)


@pytest.mark.parametrize("frame", ["ICRF", "icrf3", "GCRF", "EME2000", "J2000"])
def test_frames_with_the_axes_of_the_icrf_are_taken(frame: str) -> None:
    assert trajectory_of(OEM.replace("EME2000", frame), "p") == trajectory_of(OEM, "p")


@pytest.mark.parametrize(
    ("centre", "body"),
    [("Earth", "earth"), ("MOON", "moon"), ("MARS", "mars"), ("MARS_BARYCENTER", "mars")],
)
def test_centres_are_taken_by_their_names(centre: str, body: str) -> None:
    assert trajectory_of(OEM.replace("= EARTH", f"= {centre}"), "p").segments[0].centre == body


def test_days_of_the_year_and_a_z_are_taken() -> None:
    text = OEM.replace("2031-05-14T", "2031-134T").replace(":00.000 ", ":00.Z ")
    assert trajectory_of(text, "p") == trajectory_of(OEM, "p")


def test_only_the_useable_span_holds_good() -> None:
    useable = "USEABLE_START_TIME = 2031-05-14T17:00:30\nUSEABLE_STOP_TIME = 2031-05-14T17:03:00\n"
    (segment,) = trajectory_of(OEM.replace("META_STOP", useable + "META_STOP"), "p").segments
    assert (segment.begin_s, segment.end_s) == (NOON_S + 30, NOON_S + 180)
    assert len(segment.at_s) == 5


def test_a_header_rounded_to_the_second_fits_its_states() -> None:
    text = OEM.replace("17:04:00.000 37", "17:04:00.723 37")
    assert trajectory_of(text, "p").segments[0].end_s == pytest.approx(NOON_S + 240.723)


def test_one_object_may_be_spelt_in_two_ways_if_its_identity_is_one() -> None:
    assert len(trajectory_of(OEM + SECOND.replace("PETREL 4", "PETREL-4"), "p").segments) == 2


def test_a_file_of_200_mb_is_refused_without_being_read(tmp_path: Path) -> None:
    path = tmp_path / "long.oem"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    assert told(path) == ("this file is over 20 MB", (0, 0))
    assert LARGEST_BYTES == 20_000_000


@pytest.mark.parametrize(
    ("data", "what", "place"),
    [
        (OEM.replace("halfway", "half\0way").encode(), "NUL byte", (20, 13)),
        (gzip.compress(OEM.encode(), mtime=0), "NUL byte", (1, 4)),
        (b"\x7fELF\xff", "not UTF-8", (1, 5)),
        (OEM.encode("utf-16"), "UTF-16", (0, 0)),
        (OEM.replace("halfway", "h\xe4lfway").encode("latin-1"), "not UTF-8", (20, 10)),
        (b"", "empty", (1, 1)),
    ],
)
def test_a_file_that_is_no_text_is_told(
    data: bytes, what: str, place: tuple[int, int], tmp_path: Path
) -> None:
    path = tmp_path / "petrel.oem"
    path.write_bytes(data)
    said, where = told(path)
    assert what in said
    assert where == place


def test_a_missing_file_and_a_folder_are_told(tmp_path: Path) -> None:
    assert "no such file" in told(tmp_path / "nowhere.oem")[0]
    assert "folder" in told(tmp_path)[0]


def told(path: Path) -> tuple[str, tuple[int, int]]:
    """The one problem of a file, and where it is told."""
    with pytest.raises(PlanProblems) as caught:
        read_trajectory(path)
    (problem,) = caught.value.problems
    assert problem.where.file == str(path)
    return problem.what, (problem.where.line, problem.where.column)


@pytest.mark.skipif(not FLOWN.exists(), reason="the flown trajectory is not part of the project")
def test_a_flown_trajectory_is_read_whole() -> None:
    trajectory = read_trajectory(FLOWN)
    (segment,) = trajectory.segments
    assert (trajectory.name, segment.centre, len(segment.at_s)) == ("EM2", "earth", 3262)
    assert segment.begin_s == pytest.approx(
        tt_s_of_utc_ms(rfc3339_to_ms("2026-04-02T01:57:37.084Z")), abs=1e-6
    )
    assert segment.end_s == pytest.approx(
        tt_s_of_utc_ms(rfc3339_to_ms("2026-04-10T23:53:16.723Z")), abs=1e-6
    )
    assert segment.position_km[0] == (-24468.231698271986, -12677.926410379976, -6901.348388602915)
