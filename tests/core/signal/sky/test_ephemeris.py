"""The bodies, held against SPICE reading the same files."""

from pathlib import Path

import numpy as np
import pytest
import skyfield_data
import spiceypy
from hypothesis import given
from hypothesis import strategies as st
from jplephem.excerpter import write_excerpt
from jplephem.spk import SPK

from core.errors import EphemerisRange, SkyProblem
from core.signal.sky.ephemeris import Kernel
from core.signal.sky.model import Body, Seconds, Vectors
from core.times.scales import tt_s_of_utc_ms

DE421 = Path(skyfield_data.__file__).parent / "data" / "de421.bsp"
BEGIN_S = 631_108_800.0  # 2020-01-01T00:00:00 TDB
END_S = 1_293_883_200.0  # 2041-01-01T00:00:00 TDB
SPICE_NAMES = {Body.MOON: "301", Body.MARS: "4", Body.EARTH: "399"}


def by_spice_km(body: Body, at_s: Seconds, about: str = "399") -> Vectors:
    found, _ = spiceypy.spkpos(SPICE_NAMES[body], at_s, "J2000", "NONE", about)
    return np.asarray(found)


def furthest_km(one: Vectors, other: Vectors) -> float:
    return float(np.linalg.norm(one - other, axis=1).max())


def some_instants_s() -> Seconds:
    """Instants all over the span, with both ends of it and ends of pieces of four days."""
    drawn = np.random.default_rng(1).uniform(BEGIN_S, END_S, 2000)
    pieces = BEGIN_S + 86_400.0 * np.arange(3, 400, 4)
    return np.sort(np.concatenate((drawn, pieces, [BEGIN_S, END_S])))


@pytest.mark.usefixtures("spice")
@pytest.mark.parametrize(
    ("body", "within_km"),
    [(Body.MOON, 1e-6), (Body.MARS, 1e-5)],  # found: 4.3e-8 and 2.1e-6
)
def test_bodies_are_where_spice_finds_them(kernel: Kernel, body: Body, within_km: float) -> None:
    at_s = some_instants_s()
    assert furthest_km(kernel.from_earth_km(body, at_s), by_spice_km(body, at_s)) < within_km


@pytest.mark.usefixtures("spice")
def test_the_earth_about_the_barycentre_is_where_spice_finds_it(kernel: Kernel) -> None:
    at_s = some_instants_s()
    assert furthest_km(kernel.earth_km(at_s), by_spice_km(Body.EARTH, at_s, "0")) < 1e-5


def test_the_earth_is_at_its_own_centre(kernel: Kernel) -> None:
    assert not kernel.from_earth_km(Body.EARTH, some_instants_s()).any()


@pytest.mark.parametrize("body", list(Body))
def test_no_instants_give_no_positions(kernel: Kernel, body: Body) -> None:
    assert kernel.from_earth_km(body, np.empty(0)).shape == (0, 3)


@given(st.lists(st.floats(BEGIN_S, END_S), min_size=1, max_size=30), st.sampled_from(Body))
def test_many_instants_at_once_come_out_as_one_by_one(
    kernel: Kernel, at_s: list[float], body: Body
) -> None:
    together = kernel.from_earth_km(body, np.array(at_s))
    one_by_one = [kernel.from_earth_km(body, np.array([one]))[0] for one in at_s]
    assert furthest_km(together, np.array(one_by_one)) < 1e-6


def test_a_longer_file_gives_other_years() -> None:
    at_s = np.linspace(-3.1e9, 1.69e9, 500)  # 1901 to 2053
    spiceypy.furnsh(str(DE421))
    try:
        expected = {body: by_spice_km(body, at_s) for body in Body}
    finally:
        spiceypy.kclear()
    kernel = Kernel(DE421)
    for body in Body:  # found: 7.7e-7 for the Moon and 3.1e-5 for Mars
        assert furthest_km(kernel.from_earth_km(body, at_s), expected[body]) < 1e-4


def test_what_ships_agrees_with_the_ephemeris_of_twelve_years_before(kernel: Kernel) -> None:
    at_s = some_instants_s()
    older = Kernel(DE421)
    moon, mars = (
        furthest_km(kernel.from_earth_km(body, at_s), older.from_earth_km(body, at_s))
        for body in (Body.MOON, Body.MARS)
    )
    assert moon < 0.010  # found: 0.0076
    assert mars < 1.5  # found: 1.19


@pytest.mark.parametrize("outside_s", [BEGIN_S - 0.01, END_S + 0.01, -1e30, 1e30])
@pytest.mark.parametrize("body", list(Body))
def test_outside_the_span_is_told(kernel: Kernel, outside_s: float, body: Body) -> None:
    at_s = np.sort([outside_s, 8e8])
    with pytest.raises(EphemerisRange, match="2019-12-31 23:58 UTC to 2040-12-31 23:58 UTC"):
        kernel.from_earth_km(body, at_s)
    with pytest.raises(EphemerisRange):
        kernel.earth_km(at_s)


def test_the_words_name_the_body_and_the_instant(kernel: Kernel) -> None:
    at_s = np.array([tt_s_of_utc_ms(2_348_000_000_000.0)])
    with pytest.raises(EphemerisRange, match=r"^Where Mars is at 2044-05-27 22:13 UTC is not kno"):
        kernel.from_earth_km(Body.MARS, at_s)


def excerpt(source: Path, path: Path, targets: list[int]) -> Path:
    """A file with some of the bodies of another, for 2024."""
    with SPK.open(source) as spk, path.open("w+b") as out:
        segments = [one for one in spk.daf.summaries() if one[1][2] in targets]
        write_excerpt(spk, out, 2460310.5, 2460676.5, segments)
    return path


def test_a_file_without_mars_says_so_when_mars_is_asked_for(shipped: Path, tmp_path: Path) -> None:
    kernel = Kernel(excerpt(shipped, tmp_path / "two.bsp", [3, 301, 399]))
    at_s = np.array([7.6e8])
    assert kernel.from_earth_km(Body.MOON, at_s).shape == (1, 3)
    with pytest.raises(SkyProblem, match=r"two\.bsp gives no positions of Mars"):
        kernel.from_earth_km(Body.MARS, at_s)


def test_a_file_without_the_earth_is_refused(shipped: Path, tmp_path: Path) -> None:
    with pytest.raises(SkyProblem, match=r"moon\.bsp cannot be used .* body 399$"):
        Kernel(excerpt(shipped, tmp_path / "moon.bsp", [3, 301]))


def test_a_file_of_another_kind_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "notes.bsp"
    path.write_text("Not positions at all.\n" * 100, encoding="ascii")
    with pytest.raises(SkyProblem, match=r"notes\.bsp cannot be used"):
        Kernel(path)


def test_a_file_that_is_not_there_is_an_error_of_the_system(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        Kernel(tmp_path / "none.bsp")
