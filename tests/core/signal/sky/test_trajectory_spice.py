"""A trajectory file, read and searched, beside SPICE on the orbit that it was written from."""

from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest

from core.plan.orbitdata.trajectory import trajectory_of
from core.signal.sky.making import trajectory_paths
from core.signal.sky.model import Body
from core.signal.sky.sightings import sightings
from core.signal.sky.timescale import tt_s
from tests.core.signal.sky.flights import (
    DAY_MS,
    KERNEL,
    LOW_LUNAR,
    SITES,
    START_MS,
    START_S,
    edges_ms,
    shared_ms,
    without,
)
from tests.core.signal.sky.toolkit import toolkit

STEP_S = 120
SPAN = (START_S, START_S + 86_400)

HEAD = """CCSDS_OEM_VERS = 2.0
CREATION_DATE = 2031-05-01T00:00:00
ORIGINATOR = PETREL
META_START
OBJECT_NAME = PETREL 4
OBJECT_ID = 2031-001A
CENTER_NAME = MOON
REF_FRAME = ICRF
TIME_SYSTEM = UTC
START_TIME = {first}
STOP_TIME = {last}
META_STOP
"""


def written() -> str:
    """The low lunar orbit as a file of states every two minutes, a little beyond the day."""
    instants_ms = np.arange(START_MS - 600_000, START_MS + DAY_MS + 600_001, STEP_S * 1000.0)
    at_s = tt_s(instants_ms)
    states = np.hstack((LOW_LUNAR.position_km(at_s), LOW_LUNAR.velocity_km_s(at_s)))
    epochs = [
        datetime.fromtimestamp(ms / 1000, UTC).strftime("%Y-%m-%dT%H:%M:%S.%f")
        for ms in instants_ms
    ]
    lines = [
        f"{epoch} {' '.join(f'{number:.9f}' for number in state)}"
        for epoch, state in zip(epochs, states, strict=True)
    ]
    return HEAD.format(first=epochs[0], last=epochs[-1]) + "\n".join(lines) + "\n"


def test_its_edges_agree_with_spice_within_a_twentieth_of_a_second(tmp_path: Path) -> None:
    (path,) = trajectory_paths(trajectory_of(written(), "petrel.oem"))
    found = sightings(path, KERNEL, SITES, START_MS, START_MS + DAY_MS, light_time=False)
    with toolkit(tmp_path, LOW_LUNAR, SITES, SPAN) as spice:
        for ground, place in SITES.items():
            assert place.mask_rad is not None
            hidden = spice.hidden(Body.MOON, ground, 200.0)
            theirs = shared_ms(without(hidden, SPAN), spice.high(ground, place.mask_rad, 200.0))
            assert len(theirs) >= 4
            assert edges_ms(found, ground) == pytest.approx(theirs, abs=50)
