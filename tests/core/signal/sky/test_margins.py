"""Which margins a path has over which sites."""

import numpy as np
import pytest

from core.signal.cuts import NO_STATION
from core.signal.sky.margins import Margins
from core.signal.sky.model import Body, Path
from core.signal.sky.sight import Sky
from tests.core.signal.sky.flights import CENTRE, KERNEL, SITES, START_S, Still, orbit

BEHIND_MOON = "behind the Moon"


def margins(path: Path) -> Margins:
    grid_s = path.grid_s(START_S, START_S + 20_000)
    return Margins(Sky(KERNEL, SITES | CENTRE), path, grid_s)


@pytest.mark.parametrize(
    ("path", "causes"),
    [
        (orbit(Body.MOON, 100.0), [NO_STATION, BEHIND_MOON]),
        (orbit(Body.MARS, 400.0), [NO_STATION, "behind Mars", BEHIND_MOON]),
        (orbit(Body.EARTH, 400.0), [NO_STATION]),
        (Still(Body.EARTH, (390_000.0, 0.0, 0.0)), [NO_STATION, BEHIND_MOON]),
        (Still(Body.EARTH, (9e3, 9e3, 0.0), lost_s=(START_S, START_S + 9)), [NO_STATION, ""]),
    ],
    ids=["about the Moon", "about Mars", "about the Earth", "as far as the Moon", "with a hole"],
)
def test_a_path_has_the_margins_of_what_may_hide_it(path: Path, causes: list[str]) -> None:
    found = margins(path)
    assert [kind.cause for kind in found.kinds] == causes
    assert found.values.shape == (4, len(causes), len(found.grid_s))


def test_asked_again_on_the_grid_they_are_the_same() -> None:
    found = margins(orbit(Body.MOON, 100.0, 0.3))
    values = found.values.reshape(-1, len(found.grid_s))
    for row, expected in enumerate(values):
        asked = found.ask(found.grid_s, np.full(len(found.grid_s), row))
        assert asked == pytest.approx(expected, abs=1e-4)


def test_the_earths_centre_hears_from_below_as_well_as_above() -> None:
    elevation_km = margins(orbit(Body.EARTH, 400.0)).values[:, 0]
    assert (elevation_km[:3].min(axis=1) < 0).all()
    assert (elevation_km[3] > 0).all()


def test_the_nearest_site_hears_the_end_first() -> None:
    found = margins(orbit(Body.MOON, 100.0))
    late_s = found.span_s[:, 1] - found.grid_s[-1]
    assert ((late_s > 1.1) & (late_s < 1.4)).all()
    assert np.ptp(late_s) > 0.001
