"""The readers held against independent ones: the `sgp4` and `ccsds-ndm-py` packages."""

import io
import math
from pathlib import Path

import ccsds_ndm
import pytest
import sgp4
from sgp4 import omm
from sgp4.api import Satrec
from sgp4.io import verify_checksum

from core.errors import PlanProblems
from core.plan.orbitdata.elements import elements_of, elements_of_lines
from core.plan.orbitdata.model import MeanElements
from core.plan.orbitdata.trajectory import trajectory_of
from tests.core.plan.orbitdata.petrel import COVARIANCE, OEM, OEM_XML, OMM, OMM_XML

VERIFICATION = Path(sgp4.__file__).parent / "SGP4-VER.TLE"
"""The test cases of Vallado, Crawford, Hujsak and Kelso (2006), as the package brings them."""

TURN = 2 * math.pi
UNIX_JD = 2440587.5


def _sets() -> list[tuple[str, str]]:
    lines = VERIFICATION.read_text(encoding="ascii").splitlines()
    lines = [line[:69] for line in lines if line.startswith(("1 ", "2 "))]
    return list(zip(lines[::2], lines[1::2], strict=True))


def check_same(found: MeanElements, told: Satrec) -> None:
    """Check that elements are those that the package has read."""
    assert found.catalogue == told.satnum
    told_ms = (told.jdsatepoch - UNIX_JD) * 86_400_000 + told.jdsatepochF * 86_400_000
    assert found.epoch_utc_ms == pytest.approx(told_ms, abs=0.02)
    same = {
        found.mean_motion * TURN / 1440: told.no_kozai,
        found.eccentricity: told.ecco,
        math.radians(found.inclination_deg): told.inclo,
        math.radians(found.node_deg): told.nodeo,
        math.radians(found.argument_deg): told.argpo,
        math.radians(found.mean_anomaly_deg): told.mo,
        found.ballistic: told.bstar,
        found.mean_motion_dot * TURN / 1440**2: told.ndot,
        found.mean_motion_ddot * TURN / 1440**3: told.nddot,
    }
    assert list(same) == pytest.approx(list(same.values()), rel=1e-12, abs=1e-18)


@pytest.mark.parametrize("lines", _sets(), ids=lambda lines: str(lines[0][2:7]))
def test_two_line_elements_are_read_as_the_package_reads_them(lines: tuple[str, str]) -> None:
    try:
        verify_checksum(*lines)
    except ValueError:
        # Three of the cases were made by hand, with wrong checksums: they are refused.
        with pytest.raises(PlanProblems, match="checksum"):
            elements_of_lines(*lines)
        return
    check_same(elements_of_lines(*lines), Satrec.twoline2rv(*lines))


def test_nearly_all_verification_cases_have_a_right_checksum() -> None:
    good = 0
    for lines in _sets():
        try:
            elements_of_lines(*lines)
        except PlanProblems:
            continue
        good += 1
    assert (good, len(_sets())) == (30, 33)


def test_an_omm_in_xml_is_read_as_the_package_reads_it() -> None:
    told = Satrec()
    # The package takes Alpha-5 numbers only, up to 339999.
    omm.initialize(told, next(omm.parse_xml(io.StringIO(OMM_XML))))
    check_same(elements_of(OMM_XML, "p"), told)


def test_an_omm_in_keywords_is_read_as_the_other_package_reads_it() -> None:
    data = ccsds_ndm.Omm.from_str(OMM).segment.data
    found, mean, lines = elements_of(OMM, "p"), data.mean_elements, data.tle_parameters
    assert lines is not None
    assert (found.mean_motion, found.eccentricity, found.inclination_deg, found.node_deg) == (
        mean.mean_motion,
        mean.eccentricity,
        mean.inclination,
        mean.ra_of_asc_node,
    )
    assert (found.argument_deg, found.mean_anomaly_deg, found.ballistic) == (
        mean.arg_of_pericenter,
        mean.mean_anomaly,
        lines.bstar,
    )
    assert found.catalogue == lines.norad_cat_id


@pytest.mark.parametrize(
    "text",
    [
        OEM,
        OEM + COVARIANCE,
        # It wants covariances whole, as the schema does; here they are passed over.
        OEM_XML[: OEM_XML.index("<covarianceMatrix>")]
        + OEM_XML[OEM_XML.index("</covarianceMatrix>") + 19 :],
    ],
)
def test_states_are_read_as_the_other_package_reads_them(text: str) -> None:
    data = ccsds_ndm.Oem.from_str(text).segments[0].data
    (segment,) = trajectory_of(text, "p").segments
    found = [
        [*position, *velocity]
        for position, velocity in zip(segment.position_km, segment.velocity_km_s, strict=True)
    ]
    assert found == data.state_vector_numpy[:, :6].tolist()
